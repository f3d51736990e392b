"""The answer of `size`: each valve's own part, remedies only where no length centres, warnings at their valve."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import DATA, build, sized
from valvegeo import BadInput, read_build, read_pushrod_list, size
from valvegeo.answers.order import answer_order
from valvegeo.answers.size import answer_size, assembled, assembled_valves
from valvegeo.motion.certainty.tolerance import length_uncertainty
from valvegeo.motion.judged.wariness import warnings
from valvegeo.records.batch import take

NAMES = ("pair", "six", "stand")


@pytest.mark.parametrize("name", NAMES)
def test_each_valve_has_its_own_part_in_the_build_s_order(name: str) -> None:
    answer = sized(name)
    assert tuple(one.name for one in answer.valves) == build(name).valves
    for index, one in enumerate(answer.valves):
        assert one.sizing == take(answer.sizing, index)
        measured = length_uncertainty(build(name)[one.name])
        assert float(one.uncertainty.length_uncertainty) == pytest.approx(float(measured.length_uncertainty))


@pytest.mark.parametrize("name", NAMES)
def test_remedies_stand_where_no_length_centres_the_band(name: str) -> None:
    for one in sized(name).valves:
        assert [remedy.name for remedy in one.remedies] == (
            [] if one.ordered.looks_centred else ["stud_position", "valve_arm", "tip_height"]
        )
        for remedy in one.remedies:
            away = float(remedy.change) > 0 if remedy.name == "stud_position" else float(remedy.change) < 0
            outboard = float(one.ordered.middle) > 0
            assert np.isnan(remedy.change) or remedy.name == "tip_height" or away == outboard
    assert any(one.remedies for one in sized("six").valves)


@pytest.mark.parametrize("name", NAMES)
def test_every_warning_is_of_its_valve(name: str) -> None:
    answer = sized(name)
    every = warnings(answer.sizing)
    assert sum(len(one.warnings) for one in answer.valves) == len(every)
    assert [wary.valve for one in answer.valves for wary in one.warnings] == sorted(wary.valve for wary in every)
    for place, one in enumerate(answer.valves):
        assert {wary.valve for wary in one.warnings} <= {place}


@pytest.mark.parametrize("name", NAMES)
def test_sizing_the_tuned_check_finds_the_same_best(name: str) -> None:
    answer = sized(name)
    again = size(answer.tuned)
    np.testing.assert_allclose(again.best.pushrod_length, answer.sizing.best.pushrod_length, atol=1e-9)
    np.testing.assert_allclose(again.best.pivot_height, answer.sizing.best.pivot_height, atol=1e-9)
    change = again.best.pivot_height_change if name == "stand" else again.best.length_change
    np.testing.assert_allclose(change, 0.0, atol=1e-9)


def test_a_build_valve_by_valve() -> None:
    valves = assembled_valves(build("six"))
    assert list(valves) == list(build("six").valves)
    assert valves["4-exhaust"] == sized("six").valves[build("six").valves.index("4-exhaust")].sizing


def test_what_cannot_be_put_together_is_placed_in_its_file(tmp_path) -> None:
    text = build("pair").path.read_text(encoding="utf-8").replace("lobe_lift,in,", "lobe_lift,in,0.9,0.9,#")
    lines = [line.partition(",#")[0] for line in text.splitlines()]
    path = tmp_path / "build.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    for answer in (answer_size, assembled, lambda wrong: answer_order(wrong, stock)):
        with pytest.raises(BadInput, match=r"build.csv, row \d+, column intake"):
            answer(read_build(path))
