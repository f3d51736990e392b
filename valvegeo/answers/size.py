"""The answer of `size`: every valve's lengths, how sure they are, what to heed, and what length does not mend."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from valvegeo.answers.scene import Scene, look_at
from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.certainty.tolerance import LengthUncertainty, uncertainty_of
from valvegeo.motion.judged.centring import Centring, judge_checked, judge_ordered
from valvegeo.motion.judged.remedies import Remedy, remedies_where_off
from valvegeo.motion.judged.verdict import geometry_problems
from valvegeo.motion.judged.wariness import warnings
from valvegeo.motion.marks.signs import sign_doubts
from valvegeo.motion.sizing import Sizing, size
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, take
from valvegeo.records.files.build_file import Build
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.shop.fitting import setting_window
from valvegeo.shop.limits import Limits
from valvegeo.shop.serving import Serving, serving


@dataclass(frozen=True, eq=False, repr=False)
class ValveSize(ArrayRecord):
    """One valve's part of the answer.

    Attributes
    ----------
    name : str
    sizing : Sizing
        Shape ().
    uncertainty : LengthUncertainty
        Of its lengths and bands, shape ().
    checked, ordered : Centring
        Whether the check's own band is centred, and the one that runs with what is ordered, shape ().
    remedies : tuple of Remedy
        What each change alone takes where no length centres the band that is ordered, shape (); empty where it looks
        centred.
    warnings : tuple of Finding
        What to be wary of.
    at_trial : Sweep
        What a zero-lash check shows with the checking pushrod set as told, shape (); on a stand, where it is.
    serving, serving_moved : Serving
        Lengths that serve: with a stand where it is, and moved for the narrowest sweep, shape (). The same on a stud.
    serves_as_checked : bool
        Whether the checking pushrod's own length does.
    still : float
        What is still to be changed from the check: of the pushrod, on a stand of its height where that is worth it;
        positive: longer, higher [in].
    window : tuple of float
        Least and most lash or preload that is allowed on a stand [in].
    scene : Scene or None
        What a page draws of it, at half lift; None where no page was asked for.
    """

    name: str
    sizing: Sizing
    uncertainty: LengthUncertainty
    checked: Centring
    ordered: Centring
    remedies: tuple[Remedy, ...]
    warnings: tuple[Finding, ...]
    at_trial: Sweep
    serving: Serving
    serving_moved: Serving
    serves_as_checked: bool
    still: float
    window: tuple[float, float]
    scene: Scene | None

    @property
    def length_to_order(self) -> Budget:
        """How sure the length to order is."""
        found = self.uncertainty
        return found.pushrod_length if self.sizing.mechanism.length_moves_pivot else found.as_mounted


@dataclass(frozen=True, eq=False, repr=False)
class SizeAnswer(ArrayRecord):
    """What `size` answers for an engine of V valves; nothing is left to compute.

    Attributes
    ----------
    build : Build
        What it answers.
    sizing : Sizing
        Shape (V,).
    uncertainty : LengthUncertainty
        Shape (V,).
    tuned : Valvetrain
        A zero-lash check of the best pose, as the check was measured, shape (V,).
    valves : tuple of ValveSize
        One for each valve, in the build's order.
    """

    build: Build
    sizing: Sizing
    uncertainty: LengthUncertainty
    tuned: Valvetrain
    valves: tuple[ValveSize, ...]


def assembled(build: Build, marked: Collection[str] | None = None) -> Sizing:
    """Size a build, every valve of which can be put together.

    Parameters
    ----------
    build : Build
        V valves.
    marked : collection of str, optional
        Valves that marks tell more of: only their checks have to go together, wherever on the tip, and nothing of the
        others.

    Returns
    -------
    Sizing
        Shape (V,).

    Raises
    ------
    BadInput
        Geometry that cannot be, placed on the build file's rows and columns.
    """
    sizing = size(build.valvetrain)
    faults = _faults(build, sizing, marked)
    if faults:
        raise BadInput(faults)
    return sizing


def geometry_faults(build: Build) -> list[Finding]:
    """Say what :func:`assembled` would raise, for an engine of which no answer can be had for other reasons."""
    return _faults(build, size(build.valvetrain))


def _faults(build: Build, sizing: Sizing, marked: Collection[str] | None = None) -> list[Finding]:
    problems = geometry_problems(sizing, check_only=marked is not None)
    return build.faults(found for found in problems if marked is None or build.valves[found.valve] in marked)


def assembled_valves(build: Build) -> dict[str, Sizing]:
    """Size a build valve by valve: :func:`assembled`, each of shape ()."""
    return dict(zip(build.valves, each(assembled(build)), strict=True))


def answer_size(build: Build, *, drawn: bool = False) -> SizeAnswer:
    """Answer a build.

    Parameters
    ----------
    build : Build
        V valves.
    drawn : bool
        Whether a page is to draw it: every valve's scene takes time that only a page is worth.

    Returns
    -------
    SizeAnswer

    Raises
    ------
    BadInput
        As :func:`assembled`.
    """
    sizing = assembled(build)
    uncertainty = uncertainty_of(sizing)
    wary = (*sign_doubts(sizing, build.valves), *warnings(sizing))
    best = sizing.best_pose
    at_trial = each(sweep(sizing.trial_pose))
    served, served_moved = each(serving(best)), each(serving(best, pivot_rise=best.pivot_rise))
    least, most = setting_window(sizing.mechanism, Limits())
    checked, ordered = (
        judge_checked(sizing, uncertainty.checked_centre.half_width),
        judge_ordered(sizing, uncertainty.ordered_centre.half_width),
    )
    mended = remedies_where_off(sizing, ordered)
    valves = tuple(
        ValveSize(
            name=name,
            sizing=one,
            uncertainty=uncertainty.valve(index),
            checked=take(checked, index),
            ordered=take(ordered, index),
            remedies=mended[index],
            warnings=tuple(found for found in wary if found.valve == index),
            at_trial=at_trial[index] if one.mechanism.length_moves_pivot else one.checked_sweep,
            serving=served[index],
            serving_moved=served_moved[index],
            serves_as_checked=bool(served[index].holds(one.checked.pushrod_length)),
            still=float(one.still_to_change(one.checked.pushrod_length)),
            window=(float(least[index]), float(most[index])),
            scene=look_at(one) if drawn else None,
        )
        for index, (name, one) in enumerate(zip(build.valves, each(sizing), strict=True))
    )
    return SizeAnswer(build, sizing, uncertainty, sizing.tuned(), valves)
