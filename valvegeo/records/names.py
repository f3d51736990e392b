"""One rule for what a builder names: valves, pushrods and trials.

A name is copied into tuned files, results, sheets and pages. So all of it can be seen, no spreadsheet runs it, and two
of one list can be told apart by eye.
"""

from __future__ import annotations

import re
import unicodedata

LONGEST_NAME = 64
"""Characters of the longest name."""

RULE = f"a name of at most {LONGEST_NAME} characters, all to be seen, that does not start with # = + - or @"
"""What a name may be."""

_UNSEEN = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180d\u180f\u2800\u3164\ufe00-\ufe0f\uffa0\U000e0100-\U000e01ef]"
)
"""What Python prints and nobody sees: other default-ignorable characters of Unicode, and the blank Braille cell."""

_RUN = re.compile(r"""(^|[,;|\t])[\s"']*([=+\-@])""")
"""What a spreadsheet runs, at the start of a cell or behind what another spreadsheet takes for the end of one."""

_LOOK_ALIKE = str.maketrans(
    "АВЕКМНОРСТХУІЈЅԚԜҮӀ" "аекорсухіјѕһԁԛԝӏ" "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ" "αικνορυχγ" "‐‒–—―−" "‘’",
    "ABEKMHOPCTXYIJSQWYI" "aekopcyxijshdqwl" "ABEZHIKMNOPTYX" "aikvopuxy" "------" "''",
)  # fmt: skip
"""Cyrillic, then Greek, capital and small, then dashes and quotes -> the Latin letter or sign that each looks like."""

_IDLE_SPACE = re.compile(r"(?<!\d) | (?!\d)")
"""A space that keeps no two numbers apart."""


def name_cure(name: str) -> str | None:
    """Say how to mend a name by itself.

    Parameters
    ----------
    name : str
        Without surrounding spaces, as a cell is read.

    Returns
    -------
    str or None
        The cure; None when the name obeys :data:`RULE`.

    Examples
    --------
    >>> name_cure("=1+1")
    'rename it: a spreadsheet would run a cell that starts with ='
    >>> name_cure("1-intake") is None
    True
    """
    if not name:
        return "give it a name"
    if len(name) > LONGEST_NAME:
        return f"it has {len(name)} characters: shorten it"
    unseen = next((char for char in name if not char.isprintable() or _UNSEEN.match(char)), None)
    if unseen is not None:
        return f"it holds U+{ord(unseen):04X}, which cannot be seen: type the name again"
    if name != name.strip():
        return "take out the spaces around it"
    plain = unicodedata.normalize("NFKC", name)
    if plain.startswith("#"):
        return "rename it: a line that starts with # is a note"
    run = _RUN.search(plain)
    if run is None:
        return None
    if run[1]:
        return f"rename it: a spreadsheet that splits cells at {run[1]} would run what starts with {run[2]}"
    return f"rename it: a spreadsheet would run a cell that starts with {run[2]}"


class Names:
    """The names of one list, each judged by itself and against those met before it.

    Parameters
    ----------
    thing : str
        What is named: ``valve``, ``pushrod`` or ``trial``.
    each_once : bool
        Whether a name may not come again.
    """

    def __init__(self, thing: str, each_once: bool = True) -> None:
        self.thing = thing
        self.each_once = each_once
        self._met: dict[str, tuple[str, str]] = {}
        """Each likeness -> the name that first had it, and where."""

    def refusal(self, name: str, where: str) -> tuple[str, str] | None:
        """Judge the next name.

        Parameters
        ----------
        name : str
            Without surrounding spaces.
        where : str
            Where it stands, such as ``in row 4``.

        Returns
        -------
        (str, str) or None
            What is allowed and the likely cure; None when the name is sound.
        """
        if not name:
            return f"a name for each {self.thing}", f"name the {self.thing}, or take it out"
        cure = name_cure(name)
        if cure is not None:
            return RULE, cure
        likenesses = _likenesses(name)
        met = next((self._met[likeness] for likeness in likenesses if likeness in self._met), None)
        if met is None:
            self._met |= dict.fromkeys(likenesses, (name, where))
            return None
        other, there = met
        if other != name:
            mistyped = f"probably one {self.thing} mistyped; spell both the same, or rename one"
            cure = f'it looks like "{other}" {there}: {"rename one" if self.each_once else mistyped}'
            return f"names by which the eye can tell each {self.thing}, whatever their capitals and spaces", cure
        if self.each_once:
            return f"a different name for each {self.thing}", f"it stands {there} already: rename one"
        return None


def _likenesses(name: str) -> tuple[str, str]:
    """What a name looks like: its letters as they are, and as the Latin ones they look like; capitals apart in neither.

    Two, since a capital and its small letter may look like different Latin letters (Greek nu: N and v).
    """
    plain = unicodedata.normalize("NFKD", name)
    return _small(plain), _small(plain.translate(_LOOK_ALIKE))


def _small(text: str) -> str:
    folded = unicodedata.normalize("NFKD", text.casefold())
    return _IDLE_SPACE.sub("", " ".join(folded.split()))
