"""How things look: colours that colour-blind people tell apart, each with a dash, marker or hatch of its own.

Colours are Okabe and Ito's (Color Universal Design, 2008; from memory). No meaning hangs on colour alone, so that a
black-and-white print says the same.
"""

from __future__ import annotations

from dataclasses import dataclass

BLACK = "#000000"
ORANGE = "#E69F00"
SKY = "#56B4E9"
GREEN = "#009E73"
BLUE = "#0072B2"
VERMILION = "#D55E00"
PURPLE = "#CC79A7"
GREY = "#6B6B6B"
PALE = "#D9D9D9"
FAINT = "#BDBDBD"
WHITE = "#FFFFFF"

SOLID, DASHED, DOTTED, DASH_DOT = "solid", "9 5", "2 3", "9 3 2 3"
"""Dashes: on and off [px]."""


@dataclass(frozen=True)
class Style:
    """One look.

    Parameters
    ----------
    colour : str
        Of the line, marker or text.
    weight : float
        Line width [px]; zero draws no line.
    dash : str
        ``solid``, or pixels on and off in turn.
    fill : str
        Of an area.
    opacity : float
        Of the fill.
    marker : str
        ``circle``, ``square``, ``triangle`` or ``diamond``.
    size : float
        Of a marker [px].
    """

    colour: str = BLACK
    weight: float = 1.5
    dash: str = SOLID
    fill: str = WHITE
    opacity: float = 1.0
    marker: str = "circle"
    size: float = 9.0


NOW = Style(BLUE, 4.0)
BEST = Style(GREEN, 2.0, DASHED)
MEASURED = Style(GREY, 2.0, DOTTED)

NO_LIFT = Style(BLUE, 2.0, DOTTED, fill=BLUE, marker="circle")
HALF_LIFT = Style(VERMILION, 2.0, fill=VERMILION, marker="square")
FULL_LIFT = Style(BLACK, 2.0, DASHED, fill=BLACK, marker="triangle")
RUBBED = Style("#8A5F00", 2.0, DASH_DOT, fill=ORANGE, marker="diamond")
"""Of an edge of what was rubbed."""

LIKELY = Style(GREEN, 1.5, fill=GREEN, opacity=0.30)
"""Of what is likely, by marks and build."""

EXPECTED = Style(FAINT, 9.0, fill=FAINT)
"""Of a mark as it should be: wide and grey, so that the mark as read shows on it."""

CONTACT = Style(BLACK, 1.5, fill=PURPLE, marker="diamond", size=15.0)

TRIED = Style(GREY, 1.5, fill=WHITE, size=10.0)
SET_NEXT = Style(BLACK, 1.5, fill=GREEN, marker="square", size=12.0)

BAND = Style("#8A5F00", 1.0, fill=ORANGE, opacity=0.25)
STEM = Style(GREY, 1.5, fill=PALE)
FLAT = Style(GREY, 1.0, fill=WHITE)
CENTRE_LINE = Style(GREY, 1.0, DASH_DOT)
EDGE = Style(GREY, 1.5, DASH_DOT)

ROCKER = Style(BLACK, 1.2, fill="#BFE0F5")
ROCKER_BOSS = Style(fill="#BFE0F5", weight=0.0)
ROLLER = Style(BLACK, 1.5, fill=WHITE)
PIN = Style(BLACK, 1.0, fill=BLACK)
PUSHROD = Style(BLACK, 1.2, fill="#F3CF80")
LIFTER = Style(BLACK, 1.2, fill=PALE)
STUD = Style(GREY, 1.2, fill="#EDEDED")
SHIM = Style(BLACK, 1.0, fill=ORANGE)
RETAINER = Style(FAINT, 1.0, fill="#F4F4F4")
ARM = Style(VERMILION, 2.0)
SQUARE = Style(GREY, 1.0, DASHED)
CUT = Style(BLACK, 1.2)

LABEL = Style(BLACK)
QUIET = Style(GREY)
"""Of text: what matters, and what only names a part."""
