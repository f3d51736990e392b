"""One line on one stem tip, and the ways to come by it: calipers, a photograph, a partial wipe."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.names import name_refusal
from valvegeo.records.kinds import choice_problems

PLACES: tuple[str, ...] = BY_NAME["reading_place"].choices
"""Where on a stem tip a reading can stand: a line at one of :data:`STATIONS`, or one of :data:`EDGES`."""

STATIONS: tuple[str, ...] = PLACES[:3]
"""Where in the lift a mark can be read."""

EDGES: tuple[str, ...] = PLACES[3:]
"""Edges of what was rubbed on the way between stations.

``band_inner`` and ``band_outer`` are the edges of what a whole lift cycle rubbed, half a line's width taken off each:
where the line's middle turned back. ``wipe_to_half`` is the inner edge of what is wiped, freshly inked, from closed to
half lift, ``wipe_from_half`` of what is wiped from half to full lift; both as seen, the line's width not taken off.
"""

BAND_EDGES: tuple[str, ...] = EDGES[:2]
"""Inner and outer edge of a band."""

WIPES: tuple[str, ...] = EDGES[2:]
"""Inner edges of the two halves of a partial wipe, half a line's width inboard of where its middle was."""

USUAL_UNCERTAINTY = BY_NAME["from_inboard_edge"].uncertainty
"""Standard uncertainty of a reading that states none [in]."""

_SAID = {
    "band_inner": "inner edge of the band",
    "band_outer": "outer edge of the band",
    "wipe_to_half": "inner edge of the wipe to half lift",
    "wipe_from_half": "inner edge of the wipe from half lift",
}


@dataclass(frozen=True)
class Reading:
    """A mark read at a zero-lash check.

    Parameters
    ----------
    station : str
        One of :data:`PLACES`.
    pushrod_length : float
        Checking pushrod of the trial, ball centre to ball centre [in]; above zero.
    from_inboard_edge : float
        From the stem tip's inboard edge to the middle of the line, or to the edge [in]; in the range of that quantity.
    uncertainty : float
        One standard deviation of the reading [in]; in the range of ``reading_uncertainty``.
    trial : str
        What the builder calls the trial; readings of one trial share its length.
    tilt : float
        How far the line runs diagonal, against square to the rocker [deg]; in the range of ``line_tilt``. Positive when
        its end at positive z, nearer to you with the pivot on the left, stands further outboard. Zero: square, or
        nobody looked.
    double : bool
        Whether two lines stand side by side where one should be; such a reading has no tilt.

    Raises
    ------
    ValueError
        The station is unknown, a number is not finite or out of its range, a double line has a tilt, or the trial's
        name breaks the rule of :mod:`valvegeo.records.cells.names`; all that is wrong is named at once.
    """

    station: str
    pushrod_length: float
    from_inboard_edge: float
    uncertainty: float = USUAL_UNCERTAINTY
    trial: str = "1"
    tilt: float = 0.0
    double: bool = False

    def __post_init__(self) -> None:
        found = choice_problems("reading_place", [self.station], called="station")
        if not 0.0 < self.pushrod_length < math.inf:
            found.append(Finding("given.length", {}, "pushrod_length", repr(float(self.pushrod_length))))
        found += _out_of_range("from_inboard_edge", self.from_inboard_edge)
        found += _out_of_range("uncertainty", self.uncertainty, "reading_uncertainty")
        refusal = name_refusal(self.trial)
        if refusal is not None:
            found.append(replace(refusal, quantity="trial", value=repr(self.trial)))
        found += _out_of_range("tilt", self.tilt, "line_tilt")
        if self.double and self.tilt:
            found.append(Finding("given.tilt_of_double", {}, "tilt", repr(float(self.tilt))))
        _raise(found)

    @property
    def place(self) -> str:
        """Station and trial in words: ``half lift of trial 2``."""
        return f"{spoken(self.station)} of trial {self.trial}"


def spoken(station: str) -> str:
    """Write a station, or an edge, as it is said: ``no lift``, ``inner edge of the band``."""
    return _SAID.get(station) or station.replace("_", " ")


def from_photograph(inboard_edge: float, outboard_edge: float, line: float, stem_diameter: float) -> float:
    """Distance of a line from the stem tip's inboard edge, on a photograph taken square on.

    Parameters
    ----------
    inboard_edge, outboard_edge, line : float
        Pixel places of the tip's two edges and of the middle of the line, along the line through the tip's centre that
        runs away from the pivot, so that they grow outboard.
    stem_diameter : float
        The scale [in].

    Returns
    -------
    float
        Inches.

    Raises
    ------
    ValueError
        A place is not finite, the edges are equal or the wrong way round, the line is not between them (on an edge is
        allowed), or the stem's diameter is out of its range.

    Examples
    --------
    >>> from_photograph(100, 500, 300, 0.375)
    0.1875
    """
    found = _edge_problem(inboard_edge, outboard_edge)
    if not found and not inboard_edge <= line <= outboard_edge:
        edges = {"inboard": inboard_edge, "outboard": outboard_edge}
        found.append(Finding("photo.line_off_tip", edges, "line", f"{line:g} px"))
    _raise(found + _out_of_range("stem_diameter", stem_diameter))
    # in this order, so that the far edge is at the whole diameter
    return stem_diameter * ((line - inboard_edge) / (outboard_edge - inboard_edge))


def wiped_travel(first_inner_edge: float, second_inner_edge: float) -> float:
    """Mark's travel from two partial wipes, free of the line's width.

    Ink the tip and turn from closed to half lift: the inner edge of what is wiped is the inner edge of the no-lift
    line. Ink again and turn from half to full lift: now it is the inner edge of the full-lift line. Each stands half a
    line's width inboard of its middle, and in their difference that half width is gone.

    Parameters
    ----------
    first_inner_edge, second_inner_edge : float
        From the stem tip's inboard edge to the inner edge of the first and of the second wipe [in].

    Returns
    -------
    float
        Contact at no lift less contact at full lift [in]; positive: the mark ends inboard of where it began.

    Raises
    ------
    ValueError
        An edge is out of the range of ``from_inboard_edge``; both are named where both are.

    Examples
    --------
    >>> round(wiped_travel(0.150, 0.131), 3)
    0.019
    """
    edges = {"first_inner_edge": first_inner_edge, "second_inner_edge": second_inner_edge}
    _raise(found for name, edge in edges.items() for found in _out_of_range(name, edge, "from_inboard_edge"))
    return first_inner_edge - second_inner_edge


def readings_of_one_valve(readings: object) -> tuple[Reading, ...]:
    """Let pass one valve's readings.

    Parameters
    ----------
    readings : sequence of Reading
        At least one.

    Returns
    -------
    tuple of Reading

    Raises
    ------
    ValueError
        They are something else, such as the whole of a marks file; the message says how to take one valve's.

    Examples
    --------
    >>> readings_of_one_valve(Reading("no_lift", 8.0, 0.18))
    Traceback (most recent call last):
    valvegeo.findings.refusal.Misfit: readings: got Reading; allowed: readings of one valve, a sequence of Reading; \
put it in a list: [reading]
    """
    if isinstance(readings, Reading):
        raise _no_readings("given.one_reading", readings)
    by_valve = getattr(readings, "readings", readings)
    if isinstance(by_valve, Mapping) and by_valve:
        raise _no_readings("given.every_valve", readings, valve=str(next(iter(by_valve))))
    given = tuple(readings) if isinstance(readings, Iterable) else (readings,)
    if not given:
        raise Misfit([Finding("given.no_readings", {}, "readings", "none")])
    wrong = [one for one in given if not isinstance(one, Reading)]
    if wrong:
        raise _no_readings("given.not_readings", wrong[0])
    return given


def _no_readings(code: str, got: object, **numbers: str) -> Misfit:
    return Misfit([Finding(code, numbers, "readings", type(got).__name__)])


def _edge_problem(inboard: float, outboard: float) -> list[Finding]:
    """Find edges of a tip on a photograph that are nowhere, at one place, or the wrong way round."""
    if inboard < outboard and math.isfinite(outboard - inboard):
        return []
    code = "photo.edges_equal" if inboard == outboard else "photo.edges_swapped"
    if not (math.isfinite(inboard) and math.isfinite(outboard)):
        code = "photo.edges_unknown"
    return [Finding(code, {}, "edges", f"{inboard:g} and {outboard:g} px")]


def _out_of_range(name: str, value: float, quantity: str = "") -> list[Finding]:
    """Find a number outside the range of a quantity, of its own name unless another is told."""
    limits = BY_NAME[quantity or name]
    if limits.low <= value <= limits.high:
        return []
    return [Finding("limit.range", {"range": limits.allowed}, name, repr(float(value)))]


def _raise(found: Iterable[Finding]) -> None:
    """Raise what was found, all at once, if anything was."""
    problems = list(found)
    if problems:
        raise Misfit(problems)
