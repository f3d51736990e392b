"""What a bench may have got wrong: every measurement of one check as a number drawn about what was read.

Places are in standard units: a measurement is its reading plus its standard uncertainty times a Student t. Most are
nearly normal; the pivot's height and offset, which are hard to reach with calipers, are now and then plainly wrong.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.certainty.pieces import Piece
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.motion.marks.expected import HALF_LINE as USUAL_HALF_LINE
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]
FromBuild = Literal["measurement", "starting_guess"]
"""How the build's pivot height and offset count: as measured, now and then plainly wrong, or as a place to begin."""

HALF_LINE = "half_line"
"""Name of half a line's width among what may be wrong."""

_HALF_LINE_SPREAD = 0.003
"""How differently wide lines are [in] (common practice)."""

_BESIDE = ("compare_valve_lift", "tip_chamfer", "plunger_travel", "screw_out", "screw_in")
"""Measured numbers that neither a mark nor a length depends on."""


@dataclass(frozen=True)
class World:
    """How the world is taken to be; what is here is this project's choice, held by measured coverage.

    Attributes
    ----------
    freedom : float
        Degrees of freedom of most measurements.
    doubted_freedom, doubted_scale : float
        Of the pivot's height and offset: degrees of freedom, and scale over the stated uncertainty.
    guessed_freedom : float
        The same where they are a starting guess.
    guessed_height, guessed_offset : float
        Scale of a starting guess [in].
    noise_spread : float
        Standard deviation of the logarithm of the readings' noise over what is stated.
    noise_middle : float
        Median of that noise over what is stated.
    blunders : float
        Share of readings that may stand anywhere on the tip.
    """

    freedom: float = 10.0
    doubted_freedom: float = 2.0
    doubted_scale: float = 2.5
    guessed_freedom: float = 4.0
    guessed_height: float = 0.06
    guessed_offset: float = 0.02
    noise_spread: float = 0.35
    noise_middle: float = 1.0
    blunders: float = 0.06


AS_IT_IS = World()
"""The world that every command believes in."""


def fitted_names(valvetrain: Valvetrain) -> tuple[str, str]:
    """What marks tell most of: the pivot's height, the way it was measured, and its offset."""
    by_axle = bool(np.isnan(valvetrain.check_pivot_height))
    return ("axle_above_pivot" if by_axle else "check_pivot_height", "stud_offset")


@dataclass(frozen=True, eq=False, repr=False)
class BenchErrors(ArrayRecord):
    """One check's measurements as numbers drawn about what was read; d of them may be wrong.

    Attributes
    ----------
    valvetrain : Valvetrain
        As measured, shape ().
    names : tuple of str
        What may be wrong: half a line's width first, where edges of wipes were read; pivot height and offset last.
    scale : ndarray
        Of a step of one, shape (d,), in each measurement's unit.
    measured, guessed : Piece
        What the bench allows: with height and offset as measurements, and as a starting guess.
    """

    valvetrain: Valvetrain
    names: tuple[str, ...]
    scale: Floats
    measured: Piece
    guessed: Piece

    def allowing(self, from_build: FromBuild) -> Piece:
        """What the bench allows, as the build's height and offset are to count."""
        return self.measured if from_build == "measurement" else self.guessed

    def builds(self, at: Floats) -> Valvetrain:
        """Checks at places of shape (n, d): batch shape (n,)."""
        moved = at * self.scale
        columns = enumerate(self.names)
        values = {name: getattr(self.valvetrain, name) + moved[:, at] for at, name in columns if name != HALF_LINE}
        return replace(self.valvetrain, **values)

    def half_line(self, at: Floats) -> Floats:
        """Half a line's width at places of shape (n, d), shape (n,) [in]; zero where no edge of a wipe was read."""
        if self.names[0] != HALF_LINE:
            return np.zeros(len(at))
        return np.asarray(USUAL_HALF_LINE + at[:, 0] * self.scale[0])


def bench_errors(
    valvetrain: Valvetrain,
    uncertainties: Mapping[str, float] | None = None,
    world: World = AS_IT_IS,
    with_wipes: bool = False,
) -> BenchErrors:
    """Say what a bench may have got wrong about one check.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    world : World
    with_wipes : bool
        Whether edges of wipes were read, so that half a line's width matters.

    Returns
    -------
    BenchErrors
    """
    stated = dict(zip(MEASUREMENTS, bench_uncertainty(valvetrain, uncertainties).tolist(), strict=True))
    fitted = fitted_names(valvetrain)
    others = tuple(n for n in MEASUREMENTS if stated[n] > 0.0 and n not in _BESIDE and n not in fitted)
    names = (*([HALF_LINE] if with_wipes else []), *others, *fitted)
    least = 1e-7  # own uncertainty of zero: known, and still a place to begin
    spread = {HALF_LINE: _HALF_LINE_SPREAD, **{name: stated[name] for name in others}}
    spread |= {name: max(stated[name], least) * world.doubted_scale for name in fitted}
    scale = np.array([spread[name] for name in names])
    freedom = np.full(len(names), world.freedom)
    freedom[-2:] = world.doubted_freedom
    nowhere = np.zeros(len(names))
    measured = Piece(nowhere, np.eye(len(names)), freedom)
    wide, free = np.ones(len(names)), freedom.copy()
    wide[-2:] = np.array([world.guessed_height, world.guessed_offset]) / scale[-2:]
    free[-2:] = world.guessed_freedom
    return BenchErrors(valvetrain, names, scale, measured, Piece(nowhere, np.diag(wide), free))
