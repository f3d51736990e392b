"""The report as a page: one HTML file with figures and tables that opens from disk without a network."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from bokeh.embed import components
from bokeh.models import Model
from markupsafe import Markup

from valvegeo.answers.size import SizeAnswer
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import BY_NAME
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.drawings.figures import envelope, figures, shapes_of, source_of
from valvegeo.views.drawings.scene import Scene, scene, trace
from valvegeo.views.printed import report
from valvegeo.views.printed.template import rendered

HALF = 0.5


@dataclass(frozen=True)
class _Valve:
    """One valve's part of the page."""

    name: str
    sides: list[tuple[str, list[str]]]
    warnings: list[str]
    beyond: list[str]
    table: Markup
    figures: Markup


def page_text(answer: SizeAnswer) -> str:
    """Write the page.

    Parameters
    ----------
    answer : SizeAnswer

    Returns
    -------
    str
        A whole HTML document; nothing in it is loaded from elsewhere.
    """
    layouts: dict[str, Model] = {
        f"valve{index}": _layout(_scene(one.sizing)) for index, one in enumerate(answer.valves)
    }
    script, divisions = components(layouts)
    parts = [
        _Valve(
            one.name,
            [("Now", report.now(one.sizing)), ("Do", report.to_do(one.sizing)), ("After", report.after(one.sizing))],
            [wary.sentence for wary in one.warnings],
            report.beyond(one),
            _table(one.sizing),
            Markup(divisions[f"valve{index}"]),
        )
        for index, one in enumerate(answer.valves)
    ]
    return rendered(
        "page.html",
        title="Pushrod lengths",
        source=answer.build.path.name,
        script=Markup(script),
        overview=report.overview(answer),
        cautions=AT_THE_CHECK,
        valves=parts,
    )


def _scene(valve: Sizing) -> Scene:
    checked = trace(valve.checked_pose)
    return scene(checked, checked, trace(valve.best_pose), HALF)


def _layout(shown: Scene) -> Model:
    return figures(source_of(shapes_of(shown)), envelope([shown]))


def _table(valve: Sizing) -> Markup:
    """Every case's numbers, a row a quantity."""
    cases = {
        "as checked": valve.checked,
        "narrowest, running": valve.best,
        "stand left where it is": valve.as_mounted,
        "ordered pushrod, checked": valve.verify,
    }
    frame = (
        pd.DataFrame({name: vars(case) for name, case in cases.items()}).astype(np.float64).dropna(axis=1, how="all")
    )
    frame.index = [f"{BY_NAME[name].label} [{BY_NAME[name].unit}]".replace(" [1]", "") for name in frame.index]
    return Markup(frame.to_html(float_format="{:.3f}".format, na_rep="", border=0))
