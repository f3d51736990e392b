"""Results files hold what is answered, each number at its valve and case."""

from __future__ import annotations

import math

import pytest

from tests.answers.larkspur import marks_read, ordered, sized
from valvegeo.answers.results import order_rows, read_rows, size_rows
from valvegeo.quantities import BY_NAME
from valvegeo.records.files.tidy import TidyRow


def told(rows: list[TidyRow]) -> dict[tuple[str, str, str], float | str]:
    found = {(row.valve, row.case, row.quantity): row.value for row in rows}
    assert len(found) == len(rows)
    assert all(row.unit == BY_NAME[row.quantity].unit for row in rows)
    return found


def test_size_says_how_sure_each_length_is() -> None:
    found = told(size_rows(sized("stand")))
    for one in sized("stand").valves:
        assert found[one.name, "best", "length_uncertainty"] == float(one.uncertainty.length_uncertainty)
        assert found[one.name, "as_mounted", "length_uncertainty"] == float(one.uncertainty.as_mounted.half_width)
        assert found[one.name, "as_mounted", "pushrod_length"] == float(one.sizing.as_mounted.pushrod_length)
    assert not [case for _, case, _ in told(size_rows(sized("pair"))) if case == "as_mounted"]


def test_size_says_what_each_remedy_takes() -> None:
    answer = sized("pair")
    found = told(size_rows(answer))
    (off,) = [one for one in answer.valves if one.remedies]
    for remedy in off.remedies:
        key = (off.name, f"remedy_{remedy.name}", "remedy_change")
        assert (key in found) == bool(math.isfinite(remedy.change))
        if key in found:
            assert found[key] == float(remedy.change)
            assert found[off.name, f"remedy_{remedy.name}", "remedy_margin"] == float(remedy.margin)
            assert found[off.name, f"remedy_{remedy.name}", "pushrod_length"] == float(remedy.pushrod_length)
            assert found[off.name, f"remedy_{remedy.name}", "rocker_ratio"] == float(remedy.rocker_ratio)


def test_read_says_intervals_chance_and_the_marks_alone() -> None:
    found = told(read_rows(marks_read()))
    for name, valve in marks_read().valves.items():
        fit = valve.fit
        assert fit is not None
        assert found[name, "read", "pushrod_length"] == pytest.approx(fit.length.median, abs=1e-9)
        assert (found[name, "read", "length_low"], found[name, "read", "length_high"]) == (
            fit.length.low,
            fit.length.high,
        )
        assert found[name, "read", "length_uncertainty"] == (fit.length.high - fit.length.low) / 2
        assert found[name, "marks_only", "pushrod_length"] == fit.alone.median
        assert (found[name, "marks_only", "length_low"], found[name, "marks_only", "length_high"]) == (
            fit.alone.low, fit.alone.high,
        )  # fmt: skip
        now, wanted, over = fit.length_now, fit.wanted.trial, fit.wanted.over
        longer = float(fit.weights[now + over > wanted].sum())
        assert found[name, "read", "chance_too_long"] == pytest.approx(longer, abs=1e-6)
    assert float(found["intake", "read", "chance_too_long"]) > 0.9
    assert float(found["exhaust", "read", "chance_too_long"]) < 0.1


def test_order_says_what_each_valve_pays_how_its_nut_is_set_and_what_came() -> None:
    answer = ordered("six", came=True)
    found = told(order_rows(answer))
    assert answer.settings is not None
    assert answer.delivery is not None
    for place, one in enumerate(answer.valves):
        assert found[one.name, "ordered", "stock_label"] == one.stock_label
        assert found[one.name, "ordered", "penalty"] == one.penalty
        for size, setting in answer.settings.in_threads.items():
            assert found[one.name, f"nut_{size}", "nut_turns"] == float(setting.turns[place])
            assert found[one.name, f"nut_{size}", "nut_travel"] == float(setting.nut_travel[place])
        label = answer.delivery.delivered.labels[answer.delivery.choice[place]]
        assert found[one.name, "delivered", "stock_label"] == label
        assert found[one.name, "delivered", "penalty"] == float(answer.delivery.penalty[place])


def test_what_is_made_is_told_apart() -> None:
    found = told(order_rows(ordered("stand")))
    assert found["exhaust", "to_make", "penalty"] == ordered("stand").valves[1].penalty
    assert ("exhaust", "ordered", "penalty") not in found
    assert ("exhaust", "to_make", "stock_label") not in found
    assert ("intake", "ordered", "penalty") in found
    assert not [case for _, case, _ in found if case.startswith(("nut_", "delivered"))]
