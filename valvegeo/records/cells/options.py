"""Numbers typed on the command line, each an option that gives a quantity of the registry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME, Quantity
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.units import convert, range_in, told_in


def option_of(name: str) -> str:
    """Name of a quantity's option: ``--gasket-change``."""
    return "--" + name.replace("_", "-")


def read_options(texts: Mapping[str, str], named: Mapping[str, str]) -> tuple[dict[str, float], list[Finding]]:
    """Read numbers, every one of them before anything is said.

    Parameters
    ----------
    texts : mapping of str to str
        Registry name -> what was typed; lengths in the unit that is spoken, angles in degrees.
    named : mapping of str to str
        Registry name -> the option as it is typed, such as ``--arm``.

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
        own_unit = told_in(quantity)
        numbers_told: Numbers = {"name": quantity.label, "range": _range(quantity, own_unit)}
        try:
            number = convert(read_number(text.strip()), own_unit, quantity.unit)
        except Refused as likely:
            found = Finding("option.number", {**numbers_told, "likely": likely.finding})
        else:
            if quantity.low <= number <= quantity.high:
                numbers[name] = number
                continue
            found = Finding("option.ratio_range" if quantity.kind == "ratio" else "option.range", numbers_told)
        faults.append(found.at("command line", column=named[name], value=text))
    return numbers, faults


@dataclass(frozen=True)
class OfValves:
    """An option that gives lengths by valve, ``VALVE=LENGTH`` each; it may be repeated.

    Parameters
    ----------
    option : str
        As it is typed.
    name : str
        Registry name of what it gives.
    one_of : str
        What a valve that may be named is, in a few words.
    called : str
        What it is called.
    such_as : float
        An example [in].
    """

    option: str
    name: str
    one_of: str
    called: str
    such_as: float

    def read(self, texts: Sequence[str], valves: Sequence[str]) -> tuple[dict[str, float], list[Finding]]:
        """Read lengths by valve.

        Parameters
        ----------
        texts : sequence of str
            Each ``VALVE=LENGTH``, in the unit that is spoken; the last equals sign counts.
        valves : sequence of str
            Those that may be named.

        Returns
        -------
        lengths : dict of str to float
            Valve -> length [in], in its quantity's range.
        faults : list of Finding
            Everything wrong with them.
        """
        lengths: dict[str, float] = {}
        faults: list[Finding] = []
        for text in texts:
            valve, equals, number = (part.strip() for part in text.rpartition("="))
            if not equals:
                found = [Finding("option.of_valve", {"such_as": self.such_as})]
            elif valve not in valves:
                found = [Finding("option.valve_unknown", {"one_of": self.one_of, "valves": listed(valves)})]
            elif valve in lengths:
                found = [Finding("option.valve_twice", {"name": self.called})]
            else:
                read, found = read_options({self.name: number}, {self.name: self.option})
                if not found:
                    lengths[valve] = read[self.name]
            faults += [one.at("command line", column=self.option, value=text) for one in found]
        return lengths, faults


FITTED = OfValves("--fitted", "check_length", "valve of the build", "pushrod", 7.8)
"""Pushrods in place."""

VALVE_LIFTS = OfValves("--valve-lift", "check_valve_lift", "valve with marks", "lift", 0.572)
"""Valve lifts at full lift, by the dial indicator."""


def _range(quantity: Quantity, unit: str) -> str:
    return quantity.allowed if quantity.kind == "ratio" else range_in(quantity, unit)
