"""Numbers typed on the command line, each an option that gives a quantity of the registry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME, Quantity
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.units import convert, range_in


def option_of(name: str) -> str:
    """Name of a quantity's option: ``--gasket-change``."""
    return "--" + name.replace("_", "-")


def read_options(
    texts: Mapping[str, str], unit: str, named: Mapping[str, str], always_inches: bool = False
) -> tuple[dict[str, float], list[Finding]]:
    """Read numbers, every one of them before anything is said.

    Parameters
    ----------
    texts : mapping of str to str
        Registry name -> what was typed; lengths in `unit`, angles in degrees.
    unit : {"in", "mm"}
        Of lengths.
    named : mapping of str to str
        Registry name -> the option as it is typed, such as ``--arm``.
    always_inches : bool
        Whether the command has no ``--units``.

    Returns
    -------
    numbers : dict of str to float
        Registry name -> number, within its quantity's range; inches and degrees.
    faults : list of Finding
        Everything wrong with the others.
    """
    numbers: dict[str, float] = {}
    faults: list[Finding] = []
    for name, text in texts.items():
        quantity = BY_NAME[name]
        own_unit = unit if quantity.kind == "length" else quantity.unit
        told: Numbers = {"name": quantity.label, "range": _range(quantity, own_unit)}
        try:
            number = convert(read_number(text.strip()), own_unit, quantity.unit)
        except Refused as likely:
            found = Finding("option.number", {**told, "likely": likely.finding})
        else:
            if quantity.low <= number <= quantity.high:
                numbers[name] = number
                continue
            code = "option.range_in_inches" if always_inches else "option.range"
            found = Finding("option.ratio_range" if quantity.kind == "ratio" else code, told)
        faults.append(found.at("command line", column=named[name], value=text))
    return numbers, faults


def read_lengths(
    texts: Sequence[str], option: str, valves: Sequence[str], unit: str
) -> tuple[dict[str, float], list[Finding]]:
    """Read pushrod lengths by valve.

    Parameters
    ----------
    texts : sequence of str
        Each ``VALVE=LENGTH``; the last equals sign counts.
    option : str
        As it is typed.
    valves : sequence of str
        Those of the build.
    unit : {"in", "mm"}

    Returns
    -------
    lengths : dict of str to float
        Valve -> length [in], in the range of ``check_length``.
    faults : list of Finding
        Everything wrong with them.
    """
    lengths: dict[str, float] = {}
    faults: list[Finding] = []
    for text in texts:
        valve, equals, number = (part.strip() for part in text.rpartition("="))
        if not equals:
            found = [Finding("option.fitted")]
        elif valve not in valves:
            found = [Finding("option.valve_unknown", {"valves": listed(valves)})]
        elif valve in lengths:
            found = [Finding("option.fitted_twice")]
        else:
            read, found = read_options({"check_length": number}, unit, {"check_length": option})
            if "check_length" in read:
                lengths[valve] = read["check_length"]
        faults += [one.at("command line", column=option, value=text) for one in found]
    return lengths, faults


def _range(quantity: Quantity, unit: str) -> str:
    return quantity.allowed if quantity.kind == "ratio" else range_in(quantity, unit)
