"""Sections as a page: one HTML document with everything in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from bokeh.embed import components
from bokeh.models import Model
from bokeh.resources import Resources
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup

from valvegeo.findings.lines import printable
from valvegeo.views.wording.sections import Section


@dataclass(frozen=True)
class Figure:
    """A figure of a page.

    Attributes
    ----------
    caption : str
        What it shows.
    drawn : bokeh.models.Model
    """

    caption: str
    drawn: Model


@dataclass(frozen=True)
class _Placed:
    """A figure as the template places it."""

    caption: str
    drawn: Markup


def as_page(title: str, sources: Iterable[Path], sections: Iterable[Section], figures: Mapping[str, Figure]) -> str:
    """Write sections as a page.

    Parameters
    ----------
    title : str
        What it is.
    sources : iterable of Path
        The files it comes from; what has no letter in their names is shown as an escape.
    sections : iterable of Section
        Those that say nothing are left out.
    figures : mapping of str to Figure
        By the names that sections have for them.

    Returns
    -------
    str
        A whole HTML document; nothing in it is loaded from elsewhere.
    """
    keys = {f"figure{place}": name for place, name in enumerate(figures)}
    script, divisions = components({key: figures[name].drawn for key, name in keys.items()}) if keys else ("", {})
    placed = {name: _Placed(figures[name].caption, Markup(divisions[key])) for key, name in keys.items()}
    templates = Environment(
        loader=PackageLoader("valvegeo.views.printed", ""),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
    )
    templates.filters["point"] = _point
    return templates.get_template("page.html").render(
        title=title,
        source=" and ".join(printable(path.name) for path in sources),
        sections=list(sections),
        figures=placed,
        resources=Markup(Resources(mode="inline", components=["bokeh"]).render()),
        script=Markup(script),
    )


def _point(said: str) -> str:
    """Take off what marks a point of a list in text, where a list has its own."""
    return said.removeprefix("- ")
