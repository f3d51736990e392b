"""Outside ourselves, second: a geometric constraint solver, given points in the plane and the distances between them.

The solver (`slvs`) knows points, lengths and lines, and nothing of rockers. Its own convergence tolerance is coarser
than what is asked here, so each of its solutions is fed back as its next starting point until it improves no more.
"""

from __future__ import annotations

import numpy as np
import pytest
import slvs

from tests.builds import numbers_of, plausible
from valvegeo import at_rise, best_pose, follow, locate

CLOSE = 1e-9
GIVEN, SOLVED = 1, 2
"""Groups of the sketch: what is fixed, and what the solver may move."""

BUILDS = plausible(
    40, seed=91, pushrod_side_lean=0.0, lifter_side_lean=0.0, cup_drop=np.random.default_rng(91).uniform(0.03, 0.2, 40)
)
"""Side leans zero. With the cup on the line through pivot and tip, three distances would hardly fix its side of it."""


def place_points(fixed: dict, guess: dict, distances: list) -> dict[str, np.ndarray]:
    """Solve for points in the plane, from a guess, so that the named pairs are their distance apart."""
    slvs.clear_sketch()
    plane = slvs.add_base_2d(GIVEN)
    points = {name: slvs.add_point_2d(GIVEN, *map(float, at), plane) for name, at in fixed.items()}
    points |= {name: slvs.add_point_2d(SOLVED, *map(float, at), plane) for name, at in guess.items()}
    for one, other, apart in distances:
        slvs.distance(SOLVED, points[one], points[other], float(apart), plane)
    result = slvs.solve_sketch(SOLVED, False)
    assert result["result"] == slvs.ResultFlag.OKAY, result
    return {name: np.array([slvs.get_param_value(p) for p in points[name]["param"][:2]]) for name in guess}


def miss(fixed: dict, found: dict, distances: list) -> float:
    at = fixed | found
    return max(abs(np.hypot(*(np.subtract(at[one], at[other]))) - apart) for one, other, apart in distances)


def solved(fixed: dict, guess: dict, distances: list) -> dict[str, np.ndarray]:
    """The solver's solution, its own answer fed back until it improves no more."""
    found = place_points(fixed, guess, distances)
    for _ in range(5):
        again = place_points(fixed, found, distances)
        if miss(fixed, again, distances) >= miss(fixed, found, distances):
            break
        found = again
    return found


def below(pivot: np.ndarray, tip: np.ndarray, cup: np.ndarray) -> bool:
    """Whether the cup is below the line from pivot to tip, as cup_drop says, and not its mirror image."""
    (along_x, along_y), (cup_x, cup_y) = tip - pivot, cup - pivot
    return bool(along_x * cup_y - along_y * cup_x < 0.0)


@pytest.mark.parametrize("fraction", [0.0, 0.35, 1.0])
def test_tip_and_cup_where_the_solver_puts_them(fraction: float) -> None:
    """Pivot and seat fixed; tip and cup at their distances from the pivot, each other, and the seat."""
    mechanism = locate(BUILDS)
    pose = best_pose(mechanism)
    travels = fraction * mechanism.lobe_lift
    path = follow(pose, travels[:, None])
    for i, v in enumerate(numbers_of(BUILDS)):
        pushrod_arm = v["valve_arm"] / v["rocker_ratio"]
        cup_to_tip = np.hypot(v["valve_arm"] + np.sqrt(pushrod_arm**2 - v["cup_drop"] ** 2), v["cup_drop"])
        lean, rise = np.radians(v["stud_lean"]), pose.pivot_rise[i]
        pivot = np.array([-v["stud_offset"] + rise * np.sin(lean), v["check_pivot_height"] + rise * np.cos(lean)])
        bore = np.array([np.sin(np.radians(v["lifter_lean"])), np.cos(np.radians(v["lifter_lean"]))])
        along = v["seat_change"] - v["preload"] + travels[i]
        seat = np.array([mechanism.seat_x[i], mechanism.seat_y[i]]) + along * bore
        fixed = {"pivot": pivot, "seat": seat}
        guess = {"tip": pivot + np.array([v["valve_arm"], 0.0]), "cup": pivot - np.array([pushrod_arm, v["cup_drop"]])}
        distances = [
            ("pivot", "tip", v["valve_arm"]),
            ("pivot", "cup", pushrod_arm),
            ("cup", "tip", cup_to_tip),
            ("seat", "cup", pose.pushrod_length[i]),
        ]
        found = solved(fixed, guess, distances)
        assert below(pivot, found["tip"], found["cup"])
        assert miss(fixed, found, distances) < 1e-10
        assert path.contact[i, 0] == pytest.approx(found["tip"][0], abs=CLOSE)
        height = v["tip_radius"] - path.valve_lift[i, 0] + path.gap[i, 0]
        assert height == pytest.approx(found["tip"][1], abs=CLOSE)


def test_pushrod_length_is_the_distance_the_solver_measures() -> None:
    """The tip held on the closed valve; the solver places the cup, and the seat's distance from it is the length."""
    mechanism = locate(BUILDS)
    pose = at_rise(mechanism, 0.03)
    for i, v in enumerate(numbers_of(BUILDS)):
        pushrod_arm = v["valve_arm"] / v["rocker_ratio"]
        cup_to_tip = np.hypot(v["valve_arm"] + np.sqrt(pushrod_arm**2 - v["cup_drop"] ** 2), v["cup_drop"])
        lean, bore = np.radians(v["stud_lean"]), np.radians(v["lifter_lean"])
        pivot = np.array([-v["stud_offset"] + 0.03 * np.sin(lean), v["check_pivot_height"] + 0.03 * np.cos(lean)])
        above = v["tip_radius"] + v["lash"]
        tip = np.array([pivot[0] + np.sqrt(v["valve_arm"] ** 2 - (pivot[1] - above) ** 2), above])
        found = solved(
            {"pivot": pivot, "tip": tip},
            {"cup": pivot + (pivot - tip) / v["rocker_ratio"] + [0.0, -v["cup_drop"]]},
            [("pivot", "cup", pushrod_arm), ("tip", "cup", cup_to_tip)],
        )
        assert below(pivot, tip, found["cup"])
        along = v["seat_change"] - v["preload"]
        seat = np.array([mechanism.seat_x[i] + along * np.sin(bore), mechanism.seat_y[i] + along * np.cos(bore)])
        assert pose.pushrod_length[i] == pytest.approx(np.hypot(*(found["cup"] - seat)), abs=CLOSE)
