"""One quantity of the vocabulary, and lengths that the trade has a word for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["length", "angle", "ratio", "temperature", "text"]

UNIT_OF_KIND: dict[Kind, str] = {"length": "in", "angle": "deg", "ratio": "1", "temperature": "°C", "text": "text"}
"""The unit in which the library holds each kind of quantity."""

STOCK_STEP = 0.050
"""Usual step between stocked pushrod lengths [in] (common practice)."""

SMALLEST = 0.0005
"""Below this a length, or a change of one, is said to be nothing [in]."""

USABLE_SWEEP = 0.080
"""Sweep width above which the trade calls the geometry unusable [in] (common practice)."""


@dataclass(frozen=True)
class Quantity:
    """One measured or derived quantity.

    Parameters
    ----------
    name : str
        Snake-case name used in files, classes and labels.
    kind : {"length", "angle", "ratio", "temperature", "text"}
        What can be converted into what; fixes ``unit``.
    meaning : str
        What it is, with its sign.
    measure : str
        How it is measured on the bench (empty for results).
    low, high : float
        Allowed range, both ends included, in ``unit``.
    slider : tuple of float, optional
        Range and step of its slider, ``(low, high, step)``, in ``unit``.
    default : float or str, optional
        Value taken where a build file leaves it out; ``None`` means it must be given.
    uncertainty : float
        Bench standard uncertainty, in ``unit`` (zero: exact).
    choices : tuple of str
        Allowed words, for text.
    instead_of : str, optional
        The quantity that this one is an alternative measurement of; exactly one of the two is given.
    only_for : tuple of str, optional
        ``(quantity, word)``: it is given exactly for that choice, and has no place for any other.
    said : str
        What it is called in a sentence, where that is not its name's words.
    form : str
        What text may be where it is none of a few words.
    assumed_uncertainty : float
        Standard uncertainty, in ``unit``, of `default` standing for a measurement that was not made; zero: a default
        that is no guess.
    """

    name: str
    kind: Kind
    meaning: str
    measure: str = ""
    low: float = float("-inf")
    high: float = float("inf")
    slider: tuple[float, float, float] | None = None
    default: float | str | None = None
    uncertainty: float = 0.0
    choices: tuple[str, ...] = ()
    instead_of: str | None = None
    only_for: tuple[str, str] | None = None
    said: str = ""
    form: str = ""
    assumed_uncertainty: float = 0.0

    @property
    def may_be_assumed(self) -> bool:
        """Whether a usual value stands in where it was not measured."""
        return self.assumed_uncertainty > 0.0

    @property
    def unit(self) -> str:
        """Unit the library holds it in."""
        return UNIT_OF_KIND[self.kind]

    @property
    def label(self) -> str:
        """Name in plain words, for labels and sentences."""
        return self.name.replace("_", " ")

    @property
    def spoken(self) -> str:
        """Its label as it is said of a valve: ``pivot height`` of ``check_pivot_height``."""
        return self.said or self.label

    @property
    def latex(self) -> str:
        """Name for LaTeX, words kept apart."""
        return r"\mathrm{" + self.name.replace("_", r"\ ") + "}"

    @property
    def allowed(self) -> str:
        """What is allowed, in words: ``one of roller, pad`` or ``0.3 to 5 in``."""
        if self.choices:
            return "one of " + ", ".join(self.choices)
        if self.form:
            return self.form
        unit = "" if self.kind == "ratio" else f" {self.unit}"
        return f"{self.low:g} to {self.high:g}{unit}"
