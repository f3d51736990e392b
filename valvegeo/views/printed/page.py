"""The report as a page: one HTML file with figures and tables that opens from disk without a network."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from bokeh.embed import components
from bokeh.models import Model
from markupsafe import Markup

from valvegeo.motion.sizing import Sizing
from valvegeo.motion.verdict import warnings
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take
from valvegeo.records.build_file import Build
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


def page_text(build: Build, sizing: Sizing) -> str:
    """Write the page.

    Parameters
    ----------
    build : Build
        Names the valves, V of them.
    sizing : Sizing
        Shape (V,), without geometry problems.

    Returns
    -------
    str
        A whole HTML document; nothing in it is loaded from elsewhere.
    """
    valves = [take(sizing, index) for index in range(len(build.valves))]
    layouts: dict[str, Model] = {f"valve{index}": _layout(_scene(valve)) for index, valve in enumerate(valves)}
    script, divisions = components(layouts)
    wary = warnings(sizing)
    parts = [
        _Valve(
            name,
            [("Now", report.now(valve)), ("Do", report.to_do(valve)), ("After", report.after(valve))],
            [w.sentence for w in wary if w.valve == index],
            report.beyond(valve),
            _table(valve),
            Markup(divisions[f"valve{index}"]),
        )
        for index, (name, valve) in enumerate(zip(build.valves, valves, strict=True))
    ]
    return rendered(
        "page.html",
        [build.path],
        title="Pushrod lengths",
        script=Markup(script),
        overview=report.overview(build.valves, valves),
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
