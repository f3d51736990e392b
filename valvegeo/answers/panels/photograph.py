"""A photograph of one stem tip with places picked on it, as a frozen value; and an invented picture to try it on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading, from_photograph, spoken
from valvegeo.records.valvetrain import Valvetrain

Grey = NDArray[np.uint8]

PICKED = ("inboard edge", "outboard edge", *map(spoken, STATIONS))
"""What is picked on a photograph, in this order."""

ACROSS, TALL = 480, 360
"""Pixels of the picture that the project draws itself."""

LINE_WIDTH = 0.012
"""Of a rubbed line in that picture [in]."""


@dataclass(frozen=True)
class Photograph:
    """Places picked on a photograph of one trial's stem tip.

    Parameters
    ----------
    stem_diameter : float
        The scale [in].
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].
    trial : str
        Its name.
    places : tuple of float
        Of :data:`PICKED`, pixels from the left; the pivot is to the left.

    Raises
    ------
    Misfit
        Not every place is there, the edges are the wrong way round, or a line is not between them.
    """

    stem_diameter: float
    pushrod_length: float
    trial: str
    places: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.places) != len(PICKED):
            numbers: Numbers = {"count": str(len(PICKED)), "names": ", ".join(PICKED)}
            raise Misfit([Finding("photo.places", numbers, "places", str(len(self.places)))])
        self.readings()

    @property
    def per_pixel(self) -> float:
        """Inches that a pixel is."""
        inboard, outboard, *_ = self.places
        return self.stem_diameter / (outboard - inboard)

    def readings(self, uncertainty: float = USUAL_UNCERTAINTY) -> tuple[Reading, ...]:
        """Readings that the lines mean as they are placed.

        Parameters
        ----------
        uncertainty : float
            One standard deviation of each [in].
        """
        inboard, outboard, *lines = self.places
        return tuple(
            Reading(
                station,
                self.pushrod_length,
                from_photograph(inboard, outboard, line, self.stem_diameter),
                uncertainty,
                self.trial,
            )
            for station, line in zip(STATIONS, lines, strict=True)
        )


def with_places(photograph: Photograph, places: Iterable[float]) -> Photograph:
    """Pick other places; raises as :class:`Photograph`."""
    return replace(photograph, places=tuple(float(place) for place in places))


def invented_photograph(valvetrain: Valvetrain, pushrod_length: float) -> Grey:
    """Draw a stem tip with its three lines as a picture: INVENTED, from the numbers of a build, not a photograph.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].

    Returns
    -------
    ndarray
        Greys, shape (:data:`TALL`, :data:`ACROSS`), top row first, pivot to the left; the same at every call.
    """
    stem, chamfer = float(valvetrain.stem_diameter), float(valvetrain.tip_chamfer)
    per_inch = 0.8 * TALL / stem
    y, x = np.mgrid[0:TALL, 0:ACROSS]
    across, up = (x - 0.5 * ACROSS) / per_inch, (y - 0.5 * TALL) / per_inch
    out = np.hypot(across, up)
    greys = np.where(out > stem / 2, 205.0, np.where(out > stem / 2 - chamfer, 150.0, 60.0))
    for place in expected_marks(valvetrain, pushrod_length):
        rubbed = np.exp(-(((across - (place - stem / 2)) / (LINE_WIDTH / 2)) ** 4))
        greys = np.where(out > stem / 2 - chamfer, greys, greys + 60.0 * rubbed)
    grain = np.random.default_rng(4).normal(0.0, 9.0, greys.shape)
    return np.asarray(np.clip(greys + grain, 0.0, 255.0), dtype=np.uint8)
