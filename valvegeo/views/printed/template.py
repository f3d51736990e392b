"""Sections as a page: one HTML document with everything in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bokeh.core.serialization import Serializer
from bokeh.embed import json_item
from bokeh.models import Model
from bokeh.resources import Resources
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup

from valvegeo.findings.lines import printable
from valvegeo.views.drawings.plots import Changes
from valvegeo.views.wording.sections import MARKS, Section

MOST_KEPT = 64
"""Figures that a page keeps drawn, to be printed: a sixteen-cylinder engine with four valves a cylinder. Each valve's
take a browser some 20 MB, so of more than these a page keeps those near the screen."""


@dataclass(frozen=True)
class Figure:
    """A figure of a page and what it shows.

    Parameters
    ----------
    caption : str
    drawn : Model
        Written into the page once, however many figures are drawn from it.
    changes : mapping of Model to mapping
        What this figure has otherwise than `drawn`.
    """

    caption: str
    drawn: Model
    changes: Changes = field(default_factory=dict)


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
    models = list(dict.fromkeys(one.drawn for one in figures.values()))
    placed = {
        name: {
            "key": f"figure{place}",
            "caption": one.caption,
            "item": models.index(one.drawn),
            "changes": _by_id(one.changes),
        }
        for place, (name, one) in enumerate(figures.items())
    }
    templates = Environment(
        loader=PackageLoader("valvegeo.views.printed", ""),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
    )
    templates.globals["marks"] = MARKS
    templates.policies["json.dumps_kwargs"] = {"separators": (",", ":"), "allow_nan": False}
    return templates.get_template("page.html").render(
        title=title,
        source=" and ".join(printable(path.name) for path in sources),
        sections=list(sections),
        figures=placed,
        resources=Markup(Resources(mode="inline", components=["bokeh"]).render()),
        items=[json_item(model) for model in models],
        most_kept=MOST_KEPT,
    )


def _by_id(changes: Changes) -> dict[str, Any]:
    """Changes as BokehJS writes them in a document: identity of a model -> property -> value."""
    encode = Serializer().encode
    return {model.id: {name: encode(value) for name, value in values.items()} for model, values in changes.items()}
