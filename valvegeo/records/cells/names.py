"""One rule for what a builder names: valves, pushrods and trials.

A name is copied into tuned files, results, sheets and pages. So all of it can be seen, no spreadsheet runs it, and two
of one list can be told apart by eye.
"""

from __future__ import annotations

import re
import unicodedata

from valvegeo.findings.finding import Finding

LONGEST_NAME = 64
"""Characters of the longest name."""

_UNSEEN = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180d\u180f\u2800\u3164\ufe00-\ufe0f\uffa0\U000e0100-\U000e01ef]"
)
"""What Python prints and nobody sees: other default-ignorable characters of Unicode, and the blank Braille cell."""

_RUN = re.compile(r"""(^|[,;|\t])[\s"']*([=+\-\u2212@])""")
"""What a spreadsheet runs, at the start of a cell or behind what another spreadsheet takes for the end of one."""

_LOOK_ALIKE = str.maketrans(
    "АВЕКМНОРСТХУІЈЅԚԜҮӀ" "аекорсухіјѕһԁԛԝӏ" "вмнт" "Зб" "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ" "αικνορυχγ" "τ" "ՍՏՕԼհոսցօ"
    "ıȷɑɡÐ" "ʙᴄᴅᴇɢʜɪᴊᴋʟᴍɴᴏᴘʀᴛᴜᴠᴡʏᴢ" "℮×" "‐‒–—―−" "‘’" "⁄∕",
    "ABEKMHOPCTXYIJSQWYI" "aekopcyxijshdqwl" "BMHT" "36" "ABEZHIKMNOPTYX" "aikvopuxy" "T" "USOLhnugo"
    "ijagD" "BCDEGHIJKLMNOPRTUVWYZ" "ex" "------" "''" "//",
)  # fmt: skip
"""Cyrillic, Greek and Armenian, capital and small, rare Latin letters, signs, dashes, quotes and strokes -> the Latin
letter, the digit or the sign that each looks like. Letters of further scripts are not known to look alike."""

_LIKE_DIGITS = str.maketrans("Il|OoSZB", "11100528")
"""Letters -> the digits that they look like: 1, I, l and |, 0 and O as in Unicode Technical Standard 39 (confusables);
S and 5, Z and 2, B and 8 as they look under oil, scratched, or in a label maker's capitals (common practice)."""

_LIKE_ONE_LETTER = (("rn", "m"), ("vv", "w"), ("VV", "W"))
"""Two letters -> the one that they look like."""

_OVERLAY = 1
"""Unicode's combining class of strokes through a letter."""

_SOFT_DOT = re.compile("(?<=[ij])\u0307")
"""A dot on a letter that has one anyhow, such as a small İ has."""

_IDLE_SPACE = re.compile(r"(?<!\d) | (?!\d)")
"""A space that keeps no two numbers apart."""


def name_refusal(name: str) -> Finding | None:
    """Judge a name by itself.

    Parameters
    ----------
    name : str
        Without surrounding spaces, as a cell is read.

    Returns
    -------
    Finding or None
        With the rule and the cure; None when the name obeys it.

    Examples
    --------
    >>> name_refusal("=1+1").cure
    'rename it: a spreadsheet would run a cell that starts with ='
    >>> name_refusal("1-intake") is None
    True
    """
    if not name:
        return Finding("name.empty", {"longest": LONGEST_NAME})
    if len(name) > LONGEST_NAME:
        return Finding("name.too_long", {"longest": LONGEST_NAME, "count": len(name)}, value=name)
    unseen = next((char for char in name if not char.isprintable() or _UNSEEN.match(char)), None)
    if unseen is not None:
        return Finding("name.unseen", {"longest": LONGEST_NAME, "point": ord(unseen)}, value=name)
    if name != name.strip():
        return Finding("name.spaces", {"longest": LONGEST_NAME}, value=name)
    plain = unicodedata.normalize("NFKC", name)
    if plain.startswith("#"):
        return Finding("name.note", {"longest": LONGEST_NAME}, value=name)
    run = _RUN.search(plain)
    if run is None:
        return None
    if run[1]:
        numbers = {"longest": LONGEST_NAME, "split": run[1], "sign": run[2]}
        return Finding("name.run_when_split", numbers, value=name)
    return Finding("name.run", {"longest": LONGEST_NAME, "sign": run[2]}, value=name)


def same_name(name: str) -> str:
    """What two spellings of one name have in common: capitals and spaces between letters do not count.

    Examples
    --------
    >>> same_name("Front Shaft") == same_name("front shaft")
    True
    """
    return _small(unicodedata.normalize("NFKD", name))


def would_run(line: str) -> bool:
    """Whether a spreadsheet would run a cell of a line, by whichever sign it splits lines into cells.

    Parameters
    ----------
    line : str
        Text that is not quoted.

    Returns
    -------
    bool

    Examples
    --------
    >>> would_run("# lift card: .355, =.360 worn"), would_run("# lift card = .355")
    (True, False)
    """
    return _RUN.search(unicodedata.normalize("NFKC", line)) is not None


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

    def refusal(self, name: str, where: str) -> Finding | None:
        """Judge the next name.

        Parameters
        ----------
        name : str
            Without surrounding spaces.
        where : str
            Where it stands, such as ``in row 4``.

        Returns
        -------
        Finding or None
            None when the name is sound.
        """
        if not name:
            return Finding("name.none", {"thing": self.thing})
        refusal = name_refusal(name)
        if refusal is not None:
            return refusal
        likenesses = _likenesses(name)
        met = next((self._met[likeness] for likeness in likenesses if likeness in self._met), None)
        if met is None:
            self._met |= dict.fromkeys(likenesses, (name, where))
            return None
        other, there = met
        if other != name:
            code = "name.alike" if self.each_once else "name.mistyped"
            return Finding(code, {"thing": self.thing, "other": other, "there": there}, value=name)
        if self.each_once:
            return Finding("name.twice", {"thing": self.thing, "there": there}, value=name)
        return None


def _likenesses(name: str) -> tuple[str, str, str]:
    """What a name looks like: its letters as they are, as Latin ones, and at a careless glance; capitals apart in none.

    Several, since a capital and its small letter may look like different Latin letters (Greek nu: N and v) or digits.
    A careless glance takes letters for digits and two for one, and misses a stroke through a letter: many fonts hardly
    show one, and draw the digit 0 as Ø. Other marks on letters, as on Ö, are told apart.
    """
    plain = latin = bare = name
    if not name.isascii():
        plain = unicodedata.normalize("NFKD", name)
        latin = plain.translate(_LOOK_ALIKE)
        bare = "".join(map(_without_stroke, latin))
    glance = bare.translate(_LIKE_DIGITS)
    for two, one in _LIKE_ONE_LETTER:
        glance = glance.replace(two, one)
    small = _small(plain)
    return small, small if latin == plain else _small(latin), _small(glance)


def _without_stroke(char: str) -> str:
    """A letter without the stroke through it; nothing where a character is only a stroke."""
    if char.isascii():
        return char
    if unicodedata.combining(char) == _OVERLAY:
        return ""
    letter, _, mark = unicodedata.name(char, "").partition(" WITH ")  # Unicode does not take these apart: Ø, đ, ł
    is_latin = letter[:-1] in ("LATIN CAPITAL LETTER ", "LATIN SMALL LETTER ")
    return unicodedata.lookup(letter) if is_latin and mark.endswith(("STROKE", "BAR")) else char


def _small(text: str) -> str:
    folded = text.lower() if text.isascii() else _SOFT_DOT.sub("", unicodedata.normalize("NFKD", text.casefold()))
    return _IDLE_SPACE.sub("", " ".join(folded.split()))
