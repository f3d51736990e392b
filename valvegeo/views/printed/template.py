"""Pages from their templates: one HTML document each, with everything in it."""

from __future__ import annotations

from bokeh.resources import Resources
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup


def rendered(name: str, **values: object) -> str:
    """Fill a template of this package.

    Parameters
    ----------
    name : str
        Its file, such as ``page.html``.
    **values
        What it asks for; ``resources``, the figures' JavaScript, is given.

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
    return templates.get_template(name).render(resources=resources, **values)
