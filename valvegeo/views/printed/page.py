"""The pages of `size` and `order`: what they say, with figures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from valvegeo.answers.order import OrderAnswer
from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.findings.lengths import as_typed
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.units import label_of
from valvegeo.views.drawings.figures import views_of
from valvegeo.views.drawings.length_drawings import convention_figures
from valvegeo.views.drawings.order_figures import order_figures
from valvegeo.views.printed.template import Figure, as_page
from valvegeo.views.reports.order_sections import CALIPERS, PAID, order_sections
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.wording.caution_words import full_list
from valvegeo.views.wording.sections import Section, Table
from valvegeo.views.wording.words import ALL_ON_STAND, ratio

_CASES = {
    "checked": "as checked",
    "best": "narrowest, running",
    "as_mounted": "stand left where it is",
    "verify": "ordered pushrod, checked",
}


def page_text(answer: SizeAnswer) -> str:
    """Write the page of `size`, whose answer is drawn (:func:`valvegeo.answers.size.answer_size`).

    Raises
    ------
    ValueError
        The answer was made without what is drawn.
    """
    sized = {one.name: one.sizing for one in answer.valves}
    sections = [
        replace(section, parts=(*section.parts, _numbers(sized[section.figure]))) if section.figure else section
        for section in size_sections(answer)
    ]
    return as_page("Pushrod lengths", [answer.build.path], [*sections, *full_list()], _mechanisms(answer.valves))


def order_page(answer: OrderAnswer, sources: Sequence[Path]) -> str:
    """Write the page of `order` from the files named."""
    drawn = {PAID: Figure("Wanted, and got from stock.", order_figures(answer.order, answer.build.valves))}
    sections = [*order_sections(answer), *full_list()]
    return as_page("Pushrod order", sources, sections, {**drawn, **_calipers(answer)})


def _mechanisms(valves: Iterable[ValveSize]) -> dict[str, Figure]:
    """Draw every valve: the first one's figures, and for each valve what differs in them."""
    caption = "Drawn at half lift with the pushrod the check was made with; the narrowest band is dashed."
    scenes = {valve.name: valve.scene for valve in valves if valve.scene is not None}
    if not scenes:
        raise ValueError("answer: got one without drawings; a page takes answer_size(build, drawn=True)")
    views = views_of(next(iter(scenes.values())))
    return {name: Figure(caption, views.layout, views.of(scene)) for name, scene in scenes.items()}


def _numbers(valve: Sizing) -> Section:
    """Every case's numbers, a row a quantity; cases that do not apply are left out."""
    titles = _CASES | ({"best": f"{ALL_ON_STAND}, running"} if valve.company.is_shared else {})
    cases = {title: getattr(valve, name) for name, title in titles.items()}
    applying = {title: case for title, case in cases.items() if np.isfinite(case.pushrod_length)}
    names = list(dict.fromkeys(name for case in applying.values() for name in vars(case)))

    def cell(name: str, case: Any) -> str:
        if name not in vars(case):
            return ""
        write = as_typed if BY_NAME[name].kind == "length" else ratio
        return write(vars(case)[name])

    rows = tuple((label_of(BY_NAME[name]), *(cell(name, case) for case in applying.values())) for name in names)
    return Section("numbers", table=Table(("", *applying), rows), tone="quiet")


def _calipers(answer: OrderAnswer) -> dict[str, Figure]:
    """Draw how the first pushrod ordered is measured; nothing where its ball is not known."""
    known = [one for one in answer.lengths if np.isfinite(one.ball_diameter)]
    if not known:
        return {}
    first = known[0]
    caption = (
        "Where the calipers go: the first pushrod of the order, middle left out. Measure one known pushrod all these "
        "ways and compare it with what the supplier says it is: then you know the supplier's convention."
    )
    return {CALIPERS: Figure(caption, convention_figures(first.everywhere, first.end))}
