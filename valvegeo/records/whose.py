"""Whether what a caller gives is a valvetrain, and of one valve where one is asked for."""

from __future__ import annotations

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.records.batch import batch_shape
from valvegeo.records.valvetrain import Valvetrain


def require_valvetrain(valvetrain: object) -> None:
    """Let pass what is a valvetrain.

    Raises
    ------
    ValueError
        It is something else, such as a whole build; the message says how to take its valvetrain.
    """
    if not isinstance(valvetrain, Valvetrain):
        raise Misfit([Finding("given.not_a_valvetrain", {}, "valvetrain", type(valvetrain).__name__)])


def require_one_valve(valvetrain: Valvetrain) -> None:
    """Let pass what is of one valve alone.

    Parameters
    ----------
    valvetrain : Valvetrain
        Any batch shape.

    Raises
    ------
    ValueError
        It is of several valves, or no valvetrain; the message says how to take one.
    """
    require_valvetrain(valvetrain)
    shape = batch_shape(valvetrain)
    if shape:
        raise Misfit([Finding("given.several_valves", {}, "valvetrain", f"shape {shape}")])
