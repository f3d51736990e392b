"""How sure a band's middle is, against the library itself run on drawn measurements; and what is said of it then.

Every mount with every lifter. Seeds are fixed; of intervals that hold the true value 95 times in 100, as many do as
sampling allows in 99 of 100 such tests.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom

from tests.builds import plausible
from valvegeo import Sizing, Valvetrain, size
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty, length_uncertainty, uncertainty_of
from valvegeo.motion.judged.centring import CENTRED_SHARE, Centring, judge, judge_checked, judge_ordered
from valvegeo.records.batch import take
from valvegeo.records.kinds import LIFTERS, MOUNTS
from valvegeo.records.reading import STATIONS

DRAWS = 20_000
COUNT = 2_000
KINDS = [(mount, lifter) for mount in MOUNTS for lifter in LIFTERS]


def engines(count: int, mount: str, lifter: str) -> Valvetrain:
    return plausible(count, 71 + KINDS.index((mount, lifter)), mount=mount, lifter=lifter)


def measured(true: Valvetrain, shape: tuple[int, ...], seed: int) -> Valvetrain:
    """What benches with the registry's uncertainties find, shape (..., n)."""
    off = bench_uncertainty(true) * np.random.default_rng(seed).normal(size=(*shape, len(MEASUREMENTS)))
    return replace(true, **{name: getattr(true, name) + off[..., place] for place, name in enumerate(MEASUREMENTS)})


def middles(sizing: Sizing) -> dict[str, np.ndarray]:
    """Middle of each band that is judged."""
    return {"checked": sizing.checked.sweep_centre, "ordered": sizing.ordered.sweep_centre}


def judged(sizing: Sizing) -> dict[str, Centring]:
    """The same bands, judged."""
    uncertainty = uncertainty_of(sizing)
    return {
        "checked": judge_checked(sizing, uncertainty.checked_centre.half_width),
        "ordered": judge_ordered(sizing, uncertainty.ordered_centre.half_width),
    }


@pytest.mark.parametrize(("mount", "lifter"), KINDS)
def test_first_order_agrees_with_drawn_measurements(mount: str, lifter: str) -> None:
    true = take(engines(4, mount, lifter), 2)
    found = size(measured(true, (DRAWS,), 5))
    stated = judged(size(true))
    for name, drawn in middles(found).items():
        low, high = np.quantile(drawn, [0.025, 0.975])
        assert 2 * stated[name].half_width == pytest.approx(high - low, rel=0.04), name


@pytest.mark.parametrize(("mount", "lifter"), KINDS)
def test_ninety_five_of_a_hundred_true_middles_lie_inside(mount: str, lifter: str) -> None:
    true = engines(COUNT, mount, lifter)
    found = size(measured(true, (COUNT,), 6))
    stated, really = judged(found), middles(size(true))
    low, high = binom.ppf([0.005, 0.995], COUNT, 0.95)
    for name, middle in really.items():
        one = stated[name]
        assert low <= (np.abs(middle - one.middle) <= one.half_width).sum() <= high, name
        wrongly = (one.is_centred & (np.abs(middle) > one.limit)) | (one.is_off & (np.abs(middle) <= one.limit))
        assert wrongly.sum() <= binom.ppf(0.995, COUNT, 0.05), name


@pytest.mark.parametrize(("mount", "lifter"), KINDS)
def test_lines_are_read_within_what_is_said_of_them(mount: str, lifter: str) -> None:
    """The widest station's interval stands for all three, so that no station has fewer inside than are promised."""
    true = engines(COUNT, mount, lifter)
    found, really = size(measured(true, (COUNT,), 7)), size(true)
    within = uncertainty_of(found).marks_within
    noise = np.random.default_rng(8).normal(size=(len(STATIONS), COUNT)) * 0.008
    low, high = binom.ppf([0.005, 0.995], COUNT, 0.95)
    inside = []
    for station, read_off in zip(STATIONS, noise, strict=True):
        shown, predicted = (
            one.mechanism.from_inboard_edge(getattr(one.checked, f"contact_{station}")) for one in (really, found)
        )
        inside.append((np.abs(shown + read_off - predicted) <= within).sum())
    assert low <= min(inside)
    assert max(inside) <= high + 0.02 * COUNT


@pytest.mark.parametrize(
    ("middle", "half_width", "limit", "verdict"),
    [
        (0.000, 0.019, 0.020, "is_centred"), (0.010, 0.0099, 0.020, "is_centred"),
        (-0.010, 0.0099, 0.020, "is_centred"),
        (0.010, 0.0101, 0.020, "ink_decides"), (-0.010, 0.0101, 0.020, "ink_decides"),
        (0.000, 0.022, 0.020, "ink_decides"), (0.030, 0.0101, 0.020, "ink_decides"),
        (0.030, 0.0099, 0.020, "is_off"), (-0.030, 0.0099, 0.020, "is_off"),
        (0.000, 0.022, -0.001, "is_off"), (0.000, 0.000, -0.001, "is_off"), (0.000, 0.000, 0.000, "is_centred"),
    ],
)  # fmt: skip
def test_one_of_three_is_said(middle: float, half_width: float, limit: float, verdict: str) -> None:
    one = Centring(*map(np.asarray, (middle, half_width, limit)))
    said = {name: bool(getattr(one, name)) for name in ("is_centred", "ink_decides", "is_off")}
    assert said == {name: name == verdict for name in said}
    assert bool(one.looks_centred) is (abs(middle) <= limit)


def test_how_far_off_will_do_follows_the_flat_that_is_left() -> None:
    sizing = size(plausible(6, 3))
    narrow = judge(sizing.best, sizing.mechanism.flat, 0.01)
    assert narrow.limit == pytest.approx(CENTRED_SHARE * (sizing.mechanism.flat - sizing.best.sweep_width / 2))
    assert judge(sizing.best, sizing.mechanism.flat + 0.08, 0.01).limit == pytest.approx(narrow.limit + 0.01)
    wide = replace(sizing.best, sweep_width=2.01 * sizing.mechanism.flat, sweep_centre=np.zeros(6))
    assert judge(wide, sizing.mechanism.flat, 0.01).is_off.all()


def test_batches_are_their_valves() -> None:
    few = plausible(3, 9)
    together = judged(size(few))
    for index in range(3):
        for name, alone in judged(size(take(few, index))).items():
            of = take(together[name], index)
            for number in ("middle", "half_width", "limit"):
                assert getattr(of, number) == pytest.approx(float(getattr(alone, number)), abs=1e-9)


def test_offset_and_arm_make_the_middle_unsure_and_a_length_does_not() -> None:
    (names, brings) = zip(*length_uncertainty(take(plausible(3, 9), 1)).ordered_centre.largest(), strict=True)
    assert names[:2] == ("stud_offset", "valve_arm")
    assert brings[0] == pytest.approx(0.010)
    assert "check_length" not in names or brings[names.index("check_length")] < 1e-6
