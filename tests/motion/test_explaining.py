"""The builds that explain marks: against integration where two numbers are unknown, against least squares where all
is normal, and enough of them whatever is read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
import pytest

from tests.builds import centred, numbers_of
from tests.by_hand import Bench
from tests.motion.by_integration import Integrated, Prior, integrated
from tests.motion.measured_otherwise import measured_otherwise
from tests.motion.simulated import MOUNTS, marks
from valvegeo.motion.belief.bench_errors import AS_IT_IS, World
from valvegeo.motion.belief.explaining import ENOUGH, explain
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.motion.certainty.weighted import Interval, standard
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.records.valvetrain import Valvetrain

SHARES = (0.025, 0.5, 0.975)


@dataclass(frozen=True)
class Case:
    """Marks of the centred build with its pivot elsewhere, and what is believed of them; inches."""

    steps: tuple[float, ...] = (0.0, -0.08)
    stations: tuple[str, ...] = STATIONS
    height_off: float = 0.03
    offset_off: float = 0.01
    noise: float = 0.006
    stated: float = 0.006
    blunder: float = 0.0
    sure_to: tuple[float, float] = (0.010, 0.010)
    from_build: str = "measurement"
    world: World = field(default=AS_IT_IS)
    reach: float = 0.25
    modes: int = 1

    @property
    def v(self) -> dict[str, float]:
        return numbers_of(centred())[0]

    def readings(self) -> list[Reading]:
        rng = np.random.default_rng(1)
        moved = {"check_pivot_height": self.height_off, "stud_offset": self.offset_off}
        true = Bench(self.v | {name: self.v[name] + off for name, off in moved.items()})
        found = [
            Reading(station, length, float(places[STATIONS.index(station)] + self.noise * rng.normal()), self.stated)
            for length in (self.v["check_length"] + step for step in self.steps)
            for places in (marks(true, length),)
            for station in self.stations
        ]
        found[1:2] = [replace(one, from_inboard_edge=one.from_inboard_edge + self.blunder) for one in found[1:2]]
        return found

    def priors(self) -> tuple[Prior, Prior]:
        """Of height and offset, as valvegeo.motion.belief.bench_errors says."""
        world, middles = self.world, (self.v["check_pivot_height"], self.v["stud_offset"])
        if self.from_build == "starting_guess":
            scales, freedom = (world.guessed_height, world.guessed_offset), world.guessed_freedom
        else:
            scales, freedom = tuple(world.doubted_scale * sure for sure in self.sure_to), world.doubted_freedom
        height, offset = (Prior(middle, scale, freedom) for middle, scale in zip(middles, scales, strict=True))
        return height, offset

    def integrated(self, blunder: int | None = None) -> Integrated:
        return integrated(self.v, self.readings(), *self.priors(), self.world, self.reach, blunder)

    def fit(self) -> MarkFit:
        known = dict.fromkeys(MEASUREMENTS, 0.0)
        known |= dict(zip(("check_pivot_height", "stud_offset"), self.sure_to, strict=True))
        return fit_marks(take(centred(), 0), self.readings(), self.from_build, known, self.world)  # type: ignore[arg-type]


GUESS = {"from_build": "starting_guess"}
HUMPS = {"height_off": 0.18, "offset_off": 0.0, "noise": 0.001, "stated": 0.003, "sure_to": (0.05, 0.001)}
SHARP_EYE = {"steps": (0.0, 0.1, -0.1, 0.05), "noise": 0.001, "stated": 0.001, "reach": 0.06}
CASES = {
    "two trials": Case(),
    "two trials, guessed": Case(**GUESS),
    "a blunder": Case(blunder=0.06),
    "a blunder, guessed": Case(blunder=0.06, **GUESS),
    "noise twice as stated": Case(noise=0.012),
    "one trial, guessed": Case(steps=(0.0,), reach=0.45, **GUESS),
    "sharp readings": Case(**SHARP_EYE),
    "sharp readings, guessed": Case(**SHARP_EYE, **GUESS),
    "another world": Case(world=World(blunders=0.2, noise_middle=1.5, noise_spread=0.6, doubted_freedom=4.0)),
}
FEW = {
    "one station and two humps": Case(steps=(0.0,), stations=("half_lift",) * 2, reach=0.6, modes=2, **HUMPS),
    "two lengths and two humps": Case(steps=(0.0, 0.02), stations=("half_lift",), reach=0.6, modes=2, **HUMPS),
    "one reading": Case(steps=(0.0,), stations=("no_lift",), height_off=0.08, reach=0.75),
    "one reading, guessed": Case(steps=(0.0,), stations=("no_lift",), height_off=0.08, reach=0.75, **GUESS),
}


def of_half(found: Interval, exact: Integrated, values: np.ndarray) -> np.ndarray:
    """How far median and ends are from the exact ones, over the exact half-width."""
    low, median, high = (exact.quantile(values, share) for share in SHARES)
    return np.array([found.low - low, found.median - median, found.high - high]) / ((high - low) / 2)


@pytest.mark.slow
@pytest.mark.parametrize("name", [*CASES, *FEW])
def test_two_unknowns_are_as_integration_finds_them(name: str) -> None:
    """Ends within 2 % of the half-width, medians within 1 %: as many random draws as count (some 3800) would put the
    ends of a normal distribution within one standard error of 2.2 %, the median within 1.1 %. Where one or two readings
    leave long tails, few draws lie in them, so there the ends are held by the share of the distribution beyond."""
    case = (CASES | FEW)[name]
    exact, fit = case.integrated(), case.fit()
    assert exact.modes == case.modes
    count = fit.explained.effective(fit.from_build)
    assert not fit.is_rough
    for found, values in ((fit.best_length, exact.best), (fit.trial, exact.trial)):
        if name in CASES:
            assert np.abs(of_half(found, exact, values)).tolist() == pytest.approx([0, 0, 0], abs=0.02)
        assert of_half(found, exact, values)[1] == pytest.approx(0.0, abs=0.01)
        for share, length in zip(SHARES, (found.low, found.median, found.high), strict=True):
            error = np.sqrt(share * (1.0 - share) / count)
            assert exact.share_below(values, length) == pytest.approx(share, abs=2.0 * error)
    last = fit.readings[-1].pushrod_length
    assert fit.chance_too_long == pytest.approx(exact.share_below(exact.trial, last), abs=0.005)
    assert fit.explained.log_evidence(fit.from_build) == pytest.approx(exact.log_evidence, abs=0.02)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["a blunder", "noise twice as stated"])
def test_blunders_and_noise_are_as_integration_finds_them(name: str) -> None:
    """A reading's chance of being a blunder: the evidence of all with it one, over that of all."""
    case = CASES[name]
    exact, fit = case.integrated(), case.fit()
    for place in (0, 1):
        as_blunder = case.integrated(blunder=place)
        chance = np.exp(as_blunder.log_evidence - exact.log_evidence)
        assert fit.blunders[place] == pytest.approx(chance, abs=0.005)
    assert (fit.blunders[1] > 0.98) == (name == "a blunder")
    assert np.log(fit.noise) == pytest.approx(exact.log_noise, abs=0.01)


def sets(count: int, seed: int) -> list[tuple[Valvetrain, list[Reading]]]:
    """Benches on all mounts, measured every way, and one to twelve readings of any stations and lengths each."""
    rng, true = np.random.default_rng(seed), measured_otherwise(count, seed)
    true = replace(true, mount=np.resize(MOUNTS, count), screw_thread=np.array("5/16-24"))
    off = bench_uncertainty(true) * rng.normal(size=(count, len(MEASUREMENTS)))
    bench = replace(true, **{name: getattr(true, name) + off[:, i] for i, name in enumerate(MEASUREMENTS)})
    return [(take(bench, i), _some(take(true, i), take(bench, i), 1 + i % 12, rng)) for i in range(count)]


def _some(engine: Valvetrain, build: Valvetrain, count: int, rng: np.random.Generator) -> list[Reading]:
    noise, tried = rng.uniform(0.001, 0.010), str(engine.mount) != "adjuster"
    steps = [0.0, *(rng.uniform(-0.12, 0.12, 3) if tried else np.zeros(3))]
    shown = [expected_marks(engine, float(canonical(engine).check_length) + step) for step in steps]
    check = float(canonical(build).check_length)
    return [
        Reading(
            STATIONS[k], check + steps[trial], float(np.clip(shown[trial][k] + noise * rng.normal(), 0.0, 1.0)), noise
        )
        for trial, k in sorted(divmod(int(place), 3) for place in rng.permutation(12)[:count])
    ]


@pytest.mark.slow
def test_enough_draws_count_whatever_is_read_or_the_answer_is_called_rough() -> None:
    """As measured, always; as a guess, wherever more than one station was read."""
    rough = 0
    for build, readings in sets(180, seed=77):
        explained = explain(build, readings)
        assert explained.effective("measurement") >= ENOUGH
        if explained.effective("starting_guess") < ENOUGH:
            assert len({reading.station for reading in readings}) == 1
            assert fit_marks(build, readings, "starting_guess").is_rough
            rough += 1
    assert rough <= 4


def numbers(fit: MarkFit) -> list[float]:
    """Everything that a fit says in one number."""
    found = [fit.length, fit.best_length, fit.trial, fit.alone, fit.height, fit.offset]
    said = [end for one in found for end in (one.low, one.median, one.high)]
    return [*said, fit.chance_too_long, fit.noise, fit.centring.half_width]


FITTED = sets(12, seed=78)


@pytest.mark.parametrize("place", range(12))
def test_the_same_numbers_again_and_in_any_order(place: int) -> None:
    """Sums in another order differ in their last digits; the last trial stays the last."""
    build, readings = FITTED[place]
    fit = fit_marks(build, readings)
    assert numbers(fit_marks(build, readings)) == numbers(fit)
    shuffled = np.random.default_rng(place).permutation(len(readings) - 1)
    turned = fit_marks(build, [*(readings[i] for i in shuffled), readings[-1]])
    np.testing.assert_allclose(numbers(turned), numbers(fit), rtol=0, atol=1e-8)
    np.testing.assert_allclose(turned.blunders, fit.blunders[[*shuffled, -1]], atol=1e-8)


@pytest.mark.parametrize("place", range(12))
@pytest.mark.parametrize("from_build", ["measurement", "starting_guess"])
def test_one_build_stands_for_the_medians(place: int, from_build: str) -> None:
    build, readings = FITTED[place]
    fit = fit_marks(build, readings, from_build)  # type: ignore[arg-type]
    assert float(fit.pushrod_length) == pytest.approx(fit.best_length.median, abs=1e-9)
    assert float(fit.valvetrain.stud_offset) == pytest.approx(fit.offset.median, abs=1e-12)
    pivot = {"stud_offset", "axle_above_pivot" if np.isnan(build.check_pivot_height) else "check_pivot_height"}
    for name in set(MEASUREMENTS) - pivot:
        np.testing.assert_array_equal(getattr(fit.valvetrain, name), getattr(build, name), err_msg=name)


@pytest.mark.parametrize("place", [2, 5, 8, 11])
def test_an_error_of_the_checking_pushrod_goes_into_the_order_and_not_into_the_next_trial(place: int) -> None:
    """Every trial shares it: one to one in the length to order, and not at all in what to set the same pushrod to."""
    build, readings = FITTED[place]
    sure, unsure = (fit_marks(build, readings, uncertainties={"check_length": error}) for error in (0.0, 0.04))
    assert unsure.trial.half_width == pytest.approx(sure.trial.half_width, rel=0.05)
    assert unsure.trial.median == pytest.approx(sure.trial.median, abs=0.03 * sure.trial.half_width)
    assert unsure.chance_too_long == pytest.approx(sure.chance_too_long, abs=0.02)
    shared = 0.04 * np.sqrt(AS_IT_IS.freedom / (AS_IT_IS.freedom - 2.0))  # standard deviation of a Student t
    together = np.hypot(standard(sure.wanted.best, sure.weights), shared)
    assert standard(unsure.wanted.best, unsure.weights) == pytest.approx(together, rel=0.05)
