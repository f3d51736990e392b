"""Constraints and their derivatives: small, per their own unit, and of closures that hold in a real pose."""

from __future__ import annotations

import numpy as np
import pytest
import sympy as sp

from valvegeo import Sizing, locate
from valvegeo.equations.geometry import sensitivity
from valvegeo.equations.geometry.sensitivity import BEST, OVER_CENTRES, RATIO_FROM_LIFT, TRIAL, per_unit
from valvegeo.equations.numeric import Compiled
from valvegeo.equations.symbols import SYMBOLS as Q
from valvegeo.motion.checking import canonical
from valvegeo.motion.mechanism import zero_lash


def test_there_is_a_closure_for_each_unknown() -> None:
    for implicit in (TRIAL, BEST, RATIO_FROM_LIFT, OVER_CENTRES):
        assert len(implicit.closures) == len(implicit.unknowns)


def test_a_derivative_by_an_angle_is_per_degree() -> None:
    lean, arm = Q["stud_lean"], Q["valve_arm"]
    assert per_unit(arm * sp.sin(lean), "stud_lean") == arm * sp.cos(lean) * sp.pi / 180
    assert per_unit(arm * sp.sin(lean), "valve_arm") == sp.sin(lean)


def test_trial_closures_hold_at_every_check(sized: Sizing) -> None:
    known, pose = canonical(sized.valvetrain), sized.checked_pose
    angles = Compiled(sensitivity.STATION_ANGLES)(pose, pose.mechanism)
    closures = Compiled({str(i): closure for i, closure in enumerate(TRIAL.closures)})
    for missed in closures(pose, known, **angles).values():
        assert np.abs(missed).max() < 1e-9
    answers = Compiled(dict(TRIAL.answers))(pose, known, **angles)
    edge = known.stem_diameter / 2
    for station in ("no_lift", "half_lift", "full_lift"):
        assert answers[station] == pytest.approx(getattr(sized.checked, f"contact_{station}") + edge, abs=1e-12)
    assert answers["valve_lift"] == pytest.approx(sized.checked.valve_lift, abs=1e-12)


def test_best_closures_hold_at_every_best_pose(sized: Sizing) -> None:
    known, pose = canonical(sized.valvetrain), sized.best_pose
    angles = Compiled(sensitivity.RUNNING_ANGLES)(pose, pose.mechanism)
    closures = Compiled({str(i): closure for i, closure in enumerate(BEST.closures)})
    for missed in closures(pose, known, **angles).values():
        assert np.abs(missed).max() < 1e-8


def test_ratio_closures_hold_where_the_check_shows_its_lift(sized: Sizing) -> None:
    known = canonical(sized.valvetrain)
    angle = Compiled(sensitivity.STATION_ANGLES)(sized.checked_pose, zero_lash(locate(known)))["rocker_angle_full"]
    closures = Compiled({str(i): closure for i, closure in enumerate(RATIO_FROM_LIFT.closures)})
    missed = closures(known, rocker_angle_full=angle, check_valve_lift=sized.checked.valve_lift)
    for value in missed.values():
        assert np.abs(value).max() < 1e-9
