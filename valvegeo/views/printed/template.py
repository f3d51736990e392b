"""Pages from their templates: one HTML document each, with everything in it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from bokeh.resources import Resources
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup

from valvegeo.records.faults import printable


def rendered(name: str, sources: Sequence[Path], **values: object) -> str:
    """Fill a template of this package.

    Parameters
    ----------
    name : str
        Its file, such as ``page.html``.
    sources : sequence of Path
        The files that the page comes from; what has no letter in their names is shown as an escape.
    **values
        What it asks for; ``source``, the sources in words, and ``resources``, the figures' JavaScript, are given.

    Returns
    -------
    str
        A whole HTML document; nothing in it is loaded from elsewhere.
    """
    templates = Environment(
        loader=PackageLoader("valvegeo.views.printed", ""),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
    )
    resources = Markup(Resources(mode="inline", components=["bokeh"]).render())
    source = " and ".join(printable(path.name) for path in sources)
    return templates.get_template(name).render(resources=resources, source=source, **values)
