"""A value that a person set or typed at a handle: what its quantity may have passes, anything else is refused."""

from __future__ import annotations

from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import exact, unit
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.threads import NamedThread
from valvegeo.records.cells.turns import read_length
from valvegeo.records.cells.units import range_in, told_in


def allowed(name: str, value: float) -> float:
    """Pass a value that a quantity may have.

    Parameters
    ----------
    name : str
        The quantity.
    value : float
        In its unit.

    Raises
    ------
    Refused
        Naming quantity, value and what is allowed.
    """
    quantity = BY_NAME[name]
    said = exact(value) if quantity.kind == "length" else f"{value:g}"
    return _within(name, value, f"{quantity.label} of {said}")


def pushrod_length(typed: str, thread: NamedThread | None = None) -> float:
    """Read a pushrod's length as typed, in the unit that is spoken or as turns.

    Parameters
    ----------
    typed : str
        As for :func:`valvegeo.records.cells.turns.read_length`.
    thread : NamedThread, optional
        Of the checking pushrod, where it is known.

    Returns
    -------
    float
        [in].

    Raises
    ------
    Refused
        It is no length, or no pushrod's.

    Examples
    --------
    >>> pushrod_length("7.250 + 12 turns of 10-32")
    7.625
    """
    try:
        length = read_length(typed, unit(), thread)
    except Refused as likely:
        told = {"likely": likely.finding}
        if not typed:
            raise Refused(Finding("turns.nothing", told)) from None
        raise Refused(Finding("turns.no_length", {**told, "typed": typed})) from None
    return _within("check_length", length, f"a pushrod of “{typed}”")


def _within(name: str, value: float, said: str) -> float:
    quantity = BY_NAME[name]
    if not quantity.low <= value <= quantity.high:
        raise Refused(Finding("limit.range", {"range": range_in(quantity, told_in(quantity))}, name, said))
    return value
