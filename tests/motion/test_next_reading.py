"""What to read next: against averages worked out build by build, for a few builds that could be.

A toy is a fit whose builds are few and known: the intake's check with some measurements so much off, each with a share.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from valvegeo import Valvetrain, locate
from valvegeo.motion.belief import next_reading
from valvegeo.motion.belief.explaining import Explained
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.lengths import wanted
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.belief.next_reading import STEPS_AWAY, WORTH_READING, NextReading, outlook, telling_apart
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.certainty.pieces import Drawings
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.reading import STATIONS

Floats = np.ndarray
STAND = replace(INTAKE, mount=np.asarray("stand"))
ADJUSTER = changed(replace(INTAKE, mount=np.asarray("adjuster"), screw_thread=np.asarray("5/16-24")), screw_out=0.1)
ADJUSTER = changed(ADJUSTER, screw_in=0.1)
FIVE = {"check_pivot_height": [-0.05, -0.02, 0.0, 0.01, 0.04], "stud_offset": [0.0, 0.01, 0.0, -0.005, 0.0]}
SHARES = [0.125, 0.25, 0.25, 0.25, 0.125]


def fit_of(engine: Valvetrain, stated: float = 0.008) -> MarkFit:
    return fit_marks(engine, marks_of(engine, (8.0,), stated=stated))


@pytest.fixture(scope="module")
def one_trial() -> MarkFit:
    return fit_of(INTAKE)


def of_builds(explained: Explained, shares: Sequence[float], **off: Sequence[float]) -> Explained:
    """So many builds with their shares, whose measurements are so much off [in]."""
    errors = explained.errors
    at = np.zeros((len(shares), len(errors.names)))
    for name, values in off.items():
        place = errors.names.index(name)
        at[:, place] = np.array(values) / errors.scale[place]
    alike = -errors.allowing("measurement").log_density(at)
    drawn = Drawings(at, np.zeros(len(shares)))
    return replace(explained, drawn=drawn, log_likelihood=np.asarray(alike + np.log(shares)))


def toy(fit: MarkFit, shares: Sequence[float], **off: Sequence[float]) -> MarkFit:
    explained = of_builds(fit.explained, shares, **off)
    return replace(fit, explained=explained, wanted=wanted(explained))


def builds_of(fit: MarkFit | Explained) -> list[Valvetrain]:
    """Each build of a toy by itself."""
    explained = fit.explained if isinstance(fit, MarkFit) else fit
    errors = explained.errors
    return [
        changed(errors.valvetrain, **{n: float(getattr(errors.builds(at[None]), n)[0]) for n in FIVE})
        for at in explained.drawn.at
    ]


def over_widths(fit: MarkFit, stock: Floats) -> Floats:
    """How much wider than with the best of all the band of each build is with each, one by one; shape (K, J)."""
    widths = [
        [float(sweep(set_by_length(locate(build), length)).sweep_width) for length in stock] for build in builds_of(fit)
    ]
    return np.array(widths) - np.min(widths, axis=1, keepdims=True)


def lines(fit: MarkFit) -> dict[tuple[str, float], Floats]:
    """Where each build shows each line near; shape (K,) each."""
    lengths = [*(fit.length_now + step for step in STEPS_AWAY), float(fit.sizing.best.trial_length)]
    marks = {length: np.array([expected_marks(build, length) for build in builds_of(fit)]) for length in lengths}
    return {(s, length): shown[:, place] for length, shown in marks.items() for place, s in enumerate(STATIONS)}


def by_integration(fit: MarkFit, shown: Floats, costs: Floats, noise: float) -> tuple[float, float]:
    """What a line saves and the half-width that it leaves, averaged over everything that it might read."""
    shares, wants = fit.weights, fit.wanted.order
    read = np.linspace(shown.min() - 8 * noise, shown.max() + 8 * noise, 6001)
    chances = shares[:, None] * np.exp(-(((read - shown[:, None]) / noise) ** 2) / 2) / noise / np.sqrt(2 * np.pi)
    step, of_read = read[1] - read[0], chances.sum(0)
    after = float((chances.T @ costs).min(1).sum() * step)
    middle = wants @ chances / of_read
    spread = np.sqrt(np.maximum((wants**2) @ chances / of_read - middle**2, 0.0))
    return float((shares @ costs).min() - after), float(COVERAGE * (spread * of_read).sum() * step)


def found_by(fit: MarkFit) -> NextReading:
    found = outlook(fit).next
    assert found is not None
    return found


@pytest.mark.parametrize("stated", [0.012, 0.006])
def test_no_line_saves_more_and_the_one_found_saves_what_it_says(one_trial: MarkFit, stated: float) -> None:
    """Of five builds, over everything that a line might read; the library takes three readings a build."""
    noisy = replace(one_trial, noise=stated / 0.008)
    few = toy(noisy, SHARES, **FIVE)
    costs = over_widths(few, outlook(few).stock)
    each = {line: by_integration(few, shown, costs, stated) for line, shown in lines(few).items()}
    found = found_by(few)
    saves, left = each[found.station, found.pushrod_length]
    most = max(saved for saved, _ in each.values())
    assert found.saves == pytest.approx(saves, rel=0.1)
    assert found.half_width == pytest.approx(left, rel=0.03)
    assert saves > 0.93 * most


def test_costs_are_what_bands_are_wider_than_need_be_on_average(one_trial: MarkFit) -> None:
    few = toy(one_trial, SHARES, **FIVE)
    found = outlook(few)
    by_hand = np.array(SHARES) @ over_widths(few, found.stock)
    assert found.cost == pytest.approx(by_hand, abs=1e-9)
    assert found.order == found.stock[int(by_hand.argmin())]
    assert found.cost.min() == pytest.approx(by_hand.min(), abs=1e-9)


def test_stock_stands_about_what_is_wanted_as_the_check_was_measured(one_trial: MarkFit) -> None:
    few = toy(one_trial, SHARES, **FIVE)
    steps = (outlook(few).stock + float(few.sizing.over_centres)) / STOCK_STEP
    assert steps == pytest.approx(np.round(steps), abs=1e-9)
    assert np.diff(steps) == pytest.approx(1.0, abs=1e-9)
    wants = (few.wanted.order + float(few.sizing.over_centres)) / STOCK_STEP
    assert wants.min() - 1 < steps[0] <= wants.min() < wants.max() <= steps[-1] < wants.max() + 1


def test_builds_that_a_line_tells_apart_for_sure_cost_nothing_after_it(one_trial: MarkFit) -> None:
    few = toy(replace(one_trial, noise=0.05), [0.5, 0.5], check_pivot_height=[-0.04, 0.04])
    found = outlook(few)
    assert found.next is not None
    assert found.next.saves == pytest.approx(found.cost.min(), abs=1e-9)
    assert found.next.half_width == pytest.approx(0.0, abs=1e-6)


def test_lines_that_all_builds_agree_on_save_nothing(one_trial: MarkFit) -> None:
    """Builds that want other lengths for another preload, and show the same lines."""
    few = toy(one_trial, [0.5, 0.5], preload=[-0.03, 0.03])
    assert np.ptp(few.wanted.order) > 0.05
    found = outlook(few)
    assert found.cost.min() > WORTH_READING
    assert found.next is None


def with_wants(fit: MarkFit, middle: float, apart: float) -> MarkFit:
    """Two builds that want lengths so far apart about a middle, by their pivots' heights."""
    slope, now = 1.6, float(fit.sizing.best.pushrod_length)
    heights = [-(middle + side * apart / 2 - now) / slope for side in (1, -1)]
    return toy(fit, [0.5, 0.5], check_pivot_height=heights)


def test_where_one_stock_length_serves_all_builds_best_nothing_is_worth_reading(
    one_trial: MarkFit, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Wants within .03 in of each other: about a length in stock none, about the middle between two some."""
    over, sharp = float(one_trial.sizing.over_centres), replace(one_trial, noise=0.1)
    in_stock = round((7.8 + over) / STOCK_STEP) * STOCK_STEP - over
    about, between, wide = (
        with_wants(sharp, in_stock + by, apart) for by, apart in ((0.0, 0.03), (STOCK_STEP / 2, 0.03), (0.0, 0.15))
    )
    assert np.abs(about.wanted.order - in_stock).max() < 0.02
    assert outlook(about).next is None
    assert outlook(about).order == pytest.approx(in_stock, abs=1e-9)
    assert outlook(wide).next is not None
    monkeypatch.setattr(next_reading, "WORTH_READING", 1e-9)
    assert outlook(about).next is None
    assert outlook(between).next is not None


def test_a_saving_counts_from_what_is_worth_reading_on(one_trial: MarkFit, monkeypatch: pytest.MonkeyPatch) -> None:
    few = toy(one_trial, SHARES, **FIVE)
    found = found_by(few)
    assert found.saves >= WORTH_READING
    monkeypatch.setattr(next_reading, "WORTH_READING", found.saves)
    assert outlook(few).next == found
    monkeypatch.setattr(next_reading, "WORTH_READING", found.saves + 1e-9)
    assert outlook(few).next is None


@pytest.mark.parametrize("engine", [INTAKE, STAND, ADJUSTER], ids=["stud", "stand", "adjuster"])
def test_no_saving_is_negative_or_more_than_there_is_to_save(
    engine: Valvetrain, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of all draws, however little a line saves."""
    monkeypatch.setattr(next_reading, "WORTH_READING", -1.0)
    for times, stated in ((1, 0.008), (4, 0.002)):
        found = outlook(fit_marks(engine, marks_of(engine, (8.0,), stated=stated) * times))
        assert found.next is not None
        assert -1e-6 < found.next.saves <= found.cost.min() + 1e-6


@pytest.mark.parametrize("engine", [STAND, ADJUSTER], ids=["stand", "adjuster"])
def test_where_the_pivot_stays_a_length_costs_lash_or_preload(engine: Valvetrain) -> None:
    few = toy(fit_of(engine), SHARES, check_length=[-0.04, 0.0, 0.02, 0.03, 0.05])
    found = outlook(few)
    wants = float(few.sizing.as_mounted.pushrod_length) + np.array([-0.04, 0.0, 0.02, 0.03, 0.05])
    by_hand = np.array(SHARES) @ np.abs(found.stock - wants[:, None])
    assert found.cost == pytest.approx(by_hand, abs=1e-6)
    assert found.order == found.stock[int(by_hand.argmin())]


def unsure(engine: Valvetrain) -> MarkFit:
    """Builds whose lines tell what they want, whatever holds the pivot: where it stands goes with the length."""
    return toy(fit_of(engine), [0.5, 0.5], check_pivot_height=[-0.02, 0.02], check_length=[-0.03, 0.03])


def test_an_adjuster_is_read_at_the_check_s_own_length_alone() -> None:
    """Elsewhere the screw would stand elsewhere; on a stand shims do that, and other lengths tell more."""
    adjuster, stand = (found_by(unsure(engine)) for engine in (ADJUSTER, STAND))
    assert adjuster.pushrod_length == 8.0
    assert stand.pushrod_length != 8.0
    assert stand.saves >= adjuster.saves


def furthest(fit: MarkFit, length: float) -> float:
    """How far from the stem's centre the lines of a trial stand, in the middle of five builds."""
    return float(np.abs(expected_marks(builds_of(fit)[2], length) - float(INTAKE.stem_diameter) / 2).max())


def ground(fit: MarkFit, flat: float) -> MarkFit:
    """A chamfer that leaves a flat so wide to either side."""
    chamfer = float(fit.valvetrain.stem_diameter) / 2 - flat
    return replace(fit, valvetrain=changed(fit.valvetrain, tip_chamfer=chamfer))


def test_lines_are_read_where_they_stay_on_the_flat(one_trial: MarkFit) -> None:
    """The flat ground ever narrower: each time the best of the lengths that are left, at last none."""
    few = toy(replace(one_trial, noise=0.5), SHARES, check_pivot_height=[-0.05, -0.02, 0.0, 0.02, 0.05])
    costs = over_widths(few, outlook(few).stock)
    savings = {line: by_integration(few, shown, costs, 0.004)[0] for line, shown in lines(few).items()}
    lengths = sorted({length for _, length in savings}, key=lambda length: -furthest(few, length))
    chosen = []
    for place, length in enumerate(lengths):
        found = found_by(ground(few, furthest(few, length) + 1e-6))
        left = {line: saved for line, saved in savings.items() if line[1] in lengths[place:]}
        assert found.pushrod_length in lengths[place:]
        assert savings[found.station, found.pushrod_length] > 0.9 * max(left.values())
        chosen.append(found.pushrod_length)
    assert len(set(chosen)) > 2
    assert chosen[-1] == float(few.sizing.best.trial_length), "the length to set next leaves the narrowest band"
    assert outlook(ground(few, furthest(few, lengths[-1]) - 1e-6)).next is None


@pytest.mark.parametrize("lengths", [[8.0, 7.95, 8.05, 7.85, 8.15], [7.9], [8.15, 7.75]])
def test_the_line_that_tells_two_explanations_apart_is_the_one_furthest_apart(
    one_trial: MarkFit, lengths: list[float]
) -> None:
    """Over what each leaves open and what the line is read to."""
    one = of_builds(one_trial.explained, [0.5, 0.5], check_pivot_height=[0.0, 0.08], stud_offset=[0.02, 0.01])
    other = of_builds(one_trial.explained, [0.25, 0.75], check_pivot_height=[0.12, -0.01], stud_offset=[-0.01, 0.02])
    apart = {}
    for length in lengths:
        shown = [np.array([expected_marks(build, length) for build in builds_of(way)]) for way in (one, other)]
        shares = ([0.5, 0.5], [0.25, 0.75])
        middles = [np.average(marks, axis=0, weights=by) for marks, by in zip(shown, shares, strict=True)]
        spreads = [
            np.average((marks - middle) ** 2, axis=0, weights=by)
            for marks, middle, by in zip(shown, middles, shares, strict=True)
        ]
        told = np.abs(middles[0] - middles[1]) / np.sqrt(sum(spreads) + 0.008**2)
        apart |= {(station, length): float(far) for station, far in zip(STATIONS, told, strict=True)}
    assert telling_apart(one, other, "measurement", lengths) == max(apart, key=apart.__getitem__)
