"""The printed equations are the compiled ones, under short names."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import pytest
import sympy as sp

from valvegeo.equations.geometry import linkage
from valvegeo.shop.cautions import CAUTIONS
from valvegeo.shop.heeding import STEPS
from valvegeo.views.live.formulas import FORMULAS, formula
from valvegeo.views.live.notebook import LEAN_OUTPUT, cautions, every_caution, prepare


def test_the_loop_is_three_short_lines():
    assert (
        FORMULAS["A"].latex == r"A = - 2 \cdot D_{x} \cdot \mathrm{cup\ reach} - 2 \cdot D_{y} \cdot \mathrm{cup\ drop}"
    )


def test_short_names_put_back_give_the_compiled_ratio():
    names = {symbol.name: symbol for symbol in FORMULAS["ratio"].right.free_symbols}
    back = {}
    for name, key in (("C", "cup"), ("u", "bore"), ("D", "seat_to_pivot")):
        for axis, part in zip("xyz", FORMULAS[key].right, strict=True):
            if f"{name}_{axis}" in names:
                back[names[f"{name}_{axis}"]] = part
    whole = FORMULAS["ratio"].right.subs(back)
    inner = {s.name: s for s in whole.free_symbols}
    whole = whole.subs(
        {inner[f"u_{a}"]: p for a, p in zip("xyz", FORMULAS["bore"].right, strict=True) if f"u_{a}" in inner}
    )
    reach = next(symbol for symbol in whole.free_symbols if symbol.name == "cup reach")
    whole = whole.subs(reach, FORMULAS["cup_reach"].right)
    compiled = linkage.ratio_at(linkage.ANGLE, linkage.TRAVEL)
    values = {
        symbol: sp.Float(0.3) + sp.Float(index) / 7
        for index, symbol in enumerate(sorted(compiled.free_symbols, key=str))
    }
    assert whole.free_symbols == compiled.free_symbols
    assert float(whole.subs(values)) == pytest.approx(float(compiled.subs(values)), rel=1e-12)


def test_several_formulas_are_shown_together():
    shown = formula("tip", "contact").data
    assert shown.count(r"\quad") == 2
    assert "where the tip touches" in shown


@pytest.mark.parametrize("name", ["pushrod_too_long", "rocker_angle", "valve_lift", "contact"])
def test_the_notebook_of_marks_types_formulas_as_they_are_compiled(name):
    typed = (Path(__file__).parents[2] / "notebooks" / "read_the_mark.ipynb").read_text(encoding="utf-8")
    cells = json.loads(typed)["cells"]
    assert f"$${FORMULAS[name].latex}$$" in "\n".join("".join(cell["source"]) for cell in cells)


def test_a_step_s_cautions_are_four_lines_and_say_where_the_rest_is():
    written = cautions("make").data
    points = re.findall("<p>(.*?)</p>", written)
    assert len(points) == 4
    assert points[-1].endswith("python -m valvegeo cautions")
    assert written.count('class="caution"') == written.count("CAUTION") == 1


def test_a_notebook_shows_every_caution_in_full_once_and_each_step_s_title():
    shown = unescape(every_caution().data)
    assert [shown.count(one.words) for one in CAUTIONS] == [1] * len(CAUTIONS)
    assert all(f">{title}</h4>" in shown for title in STEPS.values())


def test_lean_output_loads_nothing(monkeypatch):
    monkeypatch.setenv(LEAN_OUTPUT, "1")
    monkeypatch.setattr("bokeh.io.output_notebook", lambda *_, **__: pytest.fail("JavaScript would be stored"))
    prepare()


def test_otherwise_figures_are_made_to_work_without_a_network(monkeypatch):
    monkeypatch.delenv(LEAN_OUTPUT, raising=False)
    modes = []
    monkeypatch.setattr("bokeh.io.output_notebook", lambda resources, **_: modes.append(resources.mode))
    prepare()
    assert modes == ["inline"]
