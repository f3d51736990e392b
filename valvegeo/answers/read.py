"""The answer of `read`: what each valve's marks say, how sure, what to read besides, and what length does not mend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.fit_read import FitRead, answer_fit
from valvegeo.answers.size import assembled
from valvegeo.answers.withheld import Unanswered, asked, might_be, unexplained
from valvegeo.findings.finding import Finding
from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.explaining import explain
from valvegeo.motion.belief.fit import fit_explained, shown_within
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.belief.marks_verdict import screw_turned
from valvegeo.motion.belief.otherwise import explanations, is_withheld
from valvegeo.motion.judged.verdict import geometry_problems
from valvegeo.motion.marks.bench import Card, bench_cards
from valvegeo.motion.marks.expected import expected_readings
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift, unexpected_lift
from valvegeo.motion.marks.signs import sign_doubts
from valvegeo.motion.shared_stand import UNKNOWN
from valvegeo.motion.sizing import Sizing, size
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, put, take
from valvegeo.records.files.build_file import Build
from valvegeo.records.files.marks_file import Marks
from valvegeo.records.reading import Reading
from valvegeo.records.shared_stands import sharing
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class ValveRead(ArrayRecord):
    """What one valve's marks say; N readings shown.

    Attributes
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    shown : tuple of Reading
        Readings that an expectation is wanted for, those that do not count among them.
    readings : tuple of Reading
        Those that count.
    expected : ndarray
        Where each reading shown should be by the fit, or else by the build, from the inboard edge [in], shape (N,).
    within : ndarray
        Ends of the interval in which each reading shown is expected (95 %), shape (N, 2); NaN without a fit.
    cards : tuple of Card
        The bench rule for each trial that has what it needs.
    lift : UnexpectedLift or None
        A valve lift off what the build predicts by more than measurements explain.
    found : FitRead, Unanswered or None
        None where no reading counts.
    """

    build: Sizing
    shown: tuple[Reading, ...]
    readings: tuple[Reading, ...]
    expected: Floats
    within: Floats
    cards: tuple[Card, ...]
    lift: UnexpectedLift | None
    found: FitRead | Unanswered | None

    @property
    def fit(self) -> MarkFit | None:
        """The fit, where it gives a length."""
        return self.found.fit if isinstance(self.found, FitRead) else None

    @property
    def sizing(self) -> Sizing:
        """Of the fitted mechanism, or else of the build."""
        return self.build if self.fit is None else self.fit.sizing


@dataclass(frozen=True, eq=False, repr=False)
class ReadAnswer(ArrayRecord):
    """What `read` answers; nothing is left to compute.

    Attributes
    ----------
    build : Build
    marks : Marks
    valves : dict of str to ValveRead
        Valve -> what its marks say, in the build's order; only valves that have marks.
    tuned : Valvetrain
        A zero-lash check of the best pose where the marks tell it, as measured elsewhere, shape (V,).
    withheld : tuple of Finding
        Why the marks of some valves give no length, and what to do, each placed in the marks file.
    unmarked_faults : tuple of Finding
        Geometry that cannot be in valves without marks, which stand in the way of a tuned file.
    on_stands : dict of str to Sizing
        Valve -> its sizing together with the others of its stand, by the marks where they give a length; all valves
        whose stand has a name.
    """

    build: Build
    marks: Marks
    valves: dict[str, ValveRead]
    tuned: Valvetrain
    withheld: tuple[Finding, ...]
    unmarked_faults: tuple[Finding, ...]
    on_stands: dict[str, Sizing]

    @property
    def without_marks(self) -> tuple[str, ...]:
        """Valves that are taken as the build has them, since no marks tell their length."""
        return tuple(name for name in self.build.valves if name not in self.reads)

    @property
    def reads(self) -> dict[str, FitRead]:
        """What goes with each fit, of the valves whose marks give a length."""
        return {name: valve.found for name, valve in self.valves.items() if isinstance(valve.found, FitRead)}


def answer_read(
    build: Build,
    marks: Marks,
    from_build: FromBuild = "measurement",
    valve_lifts: Mapping[str, float] | None = None,
) -> ReadAnswer:
    """Answer a build and its marks.

    Parameters
    ----------
    build, marks : Build, Marks
        Of the same valves, V of them.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lifts : mapping of str to float, optional
        Valve -> dial indicator's maximum [in], where one was read.

    Returns
    -------
    ReadAnswer
        With valves whose marks give no length, as such.

    Raises
    ------
    BadInput
        The check of a valve that has marks cannot be put together.
    """
    sizing, lifts = assembled(build, marks.readings), valve_lifts or {}
    sized = dict(zip(build.valves, each(sizing), strict=True))
    signs = sign_doubts(sizing, build.valves)
    doubts = {name: tuple(one for one in signs if build.valves[one.valve] == name) for name in build.valves}
    valves = {
        name: read_valve(sized[name], readings, from_build, lifts.get(name), doubts=doubts[name])
        for name, readings in marks.readings.items()
    }
    on_stands = _on_shared_stands(build, sized, valves)
    for name, there in on_stands.items():
        read = valves.get(name)
        if read is not None and isinstance(read.found, FitRead) and there.company.is_shared:
            fit = replace(read.found.fit, sizing=there)
            valves[name] = replace(read, found=answer_fit(sized[name], fit, read.lift, doubts[name]))
    tuned = build.valvetrain
    for name, valve in valves.items():
        if valve.fit is not None:
            tuned = put(tuned, build.valves.index(name), valve.fit.sizing.tuned())
    for name, there in on_stands.items():
        if (name not in valves or valves[name].fit is None) and there.is_worth_moving():
            tuned = put(tuned, build.valves.index(name), there.tuned())  # its stand goes where that of the others goes
    unmarked = [found for found in geometry_problems(sizing) if build.valves[found.valve] not in valves]
    withheld = (
        marks.placed(name, valve.found.refusal) for name, valve in valves.items() if isinstance(valve.found, Unanswered)
    )
    return ReadAnswer(build, marks, valves, tuned, tuple(withheld), tuple(build.faults(unmarked)), on_stands)


def _on_shared_stands(build: Build, sized: Mapping[str, Sizing], valves: Mapping[str, ValveRead]) -> dict[str, Sizing]:
    """Size the valves of each named stand together, as their marks have them; those without, as the build has them."""
    names = np.broadcast_to(build.valvetrain.shared_stand, len(build.valves))
    found = {valve: sized[valve] for valve, name in zip(build.valves, names.tolist(), strict=True) if name}
    for places in sharing(names):
        believed, on_it = build.valvetrain, [build.valves[place] for place in places.tolist()]
        for place, name in zip(places.tolist(), on_it, strict=True):
            fit = valves[name].fit if name in valves else None
            believed = believed if fit is None else put(believed, place, fit.valvetrain)
        found |= dict(zip(on_it, each(size(take(believed, places))), strict=True))
    return found


def read_valve(
    build: Sizing,
    readings: Sequence[Reading],
    from_build: FromBuild = "measurement",
    valve_lift: float | None = None,
    shown: Sequence[Reading] | None = None,
    doubts: Sequence[Finding] = (),
) -> ValveRead:
    """Say what one valve's marks say.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    readings : sequence of Reading
        Those that count.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lift : float, optional
        Largest travel of the retainer by dial indicator [in].
    shown : sequence of Reading, optional
        Readings that an expectation is wanted for; those that count when left out.
    doubts : sequence of Finding
        What else tells against the build; they go with the warnings.

    Returns
    -------
    ValveRead
    """
    counted, every = tuple(readings), tuple(readings if shown is None else shown)
    measured = build.valvetrain
    lift = None
    if valve_lift is not None and counted:
        lift = unexpected_lift(measured, counted[-1].pushrod_length, valve_lift)
    elsewhere = screw_turned(build, counted)
    found: FitRead | Unanswered | None = None if elsewhere is None else Unanswered(elsewhere, problem=elsewhere)
    if found is None and counted:
        found = _found(build, counted, from_build, lift, tuple(doubts))
    believed = found.fit.sizing if isinstance(found, FitRead) else build
    return ValveRead(
        build=build,
        shown=every,
        readings=counted,
        expected=_expected(believed, every, found),
        within=_within(every, found),
        cards=bench_cards(believed, counted, valve_lift),
        lift=lift,
        found=found,
    )


def _found(
    build: Sizing,
    readings: tuple[Reading, ...],
    from_build: FromBuild,
    lift: UnexpectedLift | None,
    doubts: tuple[Finding, ...],
) -> FitRead | Unanswered:
    """Fit the readings, unless no build explains them, or a mistake explains them better than a sound bench."""
    explained = explain(build.valvetrain, readings)
    ways = explanations(explained, readings, from_build)
    goes_together = bool(np.isfinite(explained.ink.near).all())
    if is_withheld(ways) and (goes_together or ways[0].mistake is not None):
        return asked(ways, build, readings, from_build)
    if not goes_together or not explained.weights(from_build).any():
        return unexplained(build, readings)
    fitted = fit_explained(explained, readings, from_build)
    if 2 * len(fitted.doubted) > len(readings):
        return unexplained(build, readings)
    if build.company.is_shared:
        fitted = replace(fitted, sizing=replace(fitted.sizing, company=UNKNOWN))
    return answer_fit(build, fitted, lift, (*doubts, *might_be(ways)))


def _within(shown: tuple[Reading, ...], found: FitRead | Unanswered | None) -> Floats:
    if not isinstance(found, FitRead) or not shown:
        return np.full((len(shown), 2), np.nan)
    return found.fit.within if found.fit.readings == shown else shown_within(found.fit, shown)


def _expected(believed: Sizing, shown: tuple[Reading, ...], found: FitRead | Unanswered | None) -> Floats:
    if isinstance(found, FitRead) and found.fit.readings == shown:
        return found.fit.expected
    return expected_readings(believed.valvetrain, shown) if shown else np.zeros(0)
