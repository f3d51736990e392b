"""Over the whole declared range: a finite, assembled answer for every applicable case, or a named fault; nothing else.

Warnings are errors in these tests, so a warning would be "something else".
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import event, given, settings

from tests.assembled import what_is_wrong
from tests.builds import centred, declared, declared_builds, plausible
from valvegeo import size
from valvegeo.motion.judged.verdict import geometry_problems
from valvegeo.motion.judged.wariness import warnings
from valvegeo.quantities import BY_NAME, MEASURED
from valvegeo.records.batch import take
from valvegeo.records.valvetrain import problems

pytestmark = pytest.mark.slow


@given(declared_builds())
@settings(max_examples=250)
def test_an_answer_that_holds_or_a_named_fault(build) -> None:
    unsound = problems(build)
    if unsound:
        event("unsound measurements")
        assert all(problem.quantity in BY_NAME and problem.allowed and problem.cure for problem in unsound)
        return
    sizing = size(build)
    faults = geometry_problems(sizing)
    if faults:
        event(f"fault: {faults[0].quantity}")
        assert len(faults) == 1
        assert faults[0].index == (0,)
        assert np.isfinite(float(faults[0].value.removesuffix(" in")))
        assert faults[0].allowed
        assert faults[0].cure
        assert "nan" not in str(faults[0])
        return
    event("answer")
    assert [what for what, where in what_is_wrong(sizing).items() if where.any()] == []
    assert all(wary.valve == 0 and wary.sentence for wary in warnings(sizing))


@pytest.mark.parametrize("wild", [0.1, 0.35, 0.6, 1.0])
def test_of_thousands_whatever_is_wrong_has_a_fault_and_nothing_else_has(wild: float) -> None:
    """The library's verdict against the one by hand, valve by valve."""
    builds = declared(2000, seed=int(100 * wild), wild=wild)
    sound = {problem.index[0] for problem in problems(builds)} ^ set(range(2000))
    sizing = size(builds)
    wrong = np.any(list(what_is_wrong(sizing).values()), axis=0)
    chosen = [i for i in sorted(sound) if wrong[i]][:250] + [i for i in sorted(sound) if not wrong[i]][:150]
    assert len(chosen) > 150
    for i in chosen:
        assert bool(geometry_problems(take(sizing, slice(i, i + 1)))) >= wrong[i], f"valve {i}"
    false_alarms = [i for i in chosen if not wrong[i] and geometry_problems(take(sizing, slice(i, i + 1)))]
    assert len(false_alarms) <= 0.02 * len(chosen), false_alarms


def test_engines_as_they_are_have_no_fault(sized) -> None:
    assert geometry_problems(sized) == []
    assert [what for what, where in what_is_wrong(sized).items() if where.any()] == []


def test_one_bad_valve_leaves_the_others_answered() -> None:
    builds = plausible(6, seed=81)
    height = builds.check_pivot_height.copy()
    height[3] = 2.9
    sizing = size(type(builds)(**{**vars(builds), "check_pivot_height": height}))
    faults = geometry_problems(sizing)
    assert [fault.index for fault in faults] == [(3,)]
    assert np.isfinite(np.delete(sizing.best.pushrod_length, 3)).all()


@pytest.mark.parametrize("name", [q.name for q in MEASURED if q.slider is not None])
def test_every_slider_can_be_dragged_from_end_to_end(name: str) -> None:
    """From the build with nothing the matter, each slider over its range: an answer or a fault at every stop."""
    low, high, _ = BY_NAME[name].slider
    count = 41
    other = {"lifter": "hydraulic", "lash": 0.0, "plunger_travel": 0.25} if name == "preload" else {}
    values = {key: np.repeat(np.asarray(value).ravel()[:1], count) for key, value in vars(centred(**other)).items()}
    sizing = size(type(centred())(**{**values, name: np.linspace(low, high, count)}))
    wrong = np.any(list(what_is_wrong(sizing).values()), axis=0)
    faulted = {problem.index[0] for problem in geometry_problems(sizing)}
    assert set(np.flatnonzero(wrong)) <= faulted
    assert len(faulted) < count
