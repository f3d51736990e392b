"""Sections as plain text, no line over 100 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from valvegeo.views.printed.layout import entry, fitted
from valvegeo.views.wording.sections import WIDTH, Section, Tone

_LONGEST_TITLE = 90
_LOUD: dict[Tone, str] = {"heed": "WARNING", "caution": "CAUTION"}


def as_text(sections: Iterable[Section]) -> str:
    """Write sections as text.

    Parameters
    ----------
    sections : iterable of Section
        Those that say nothing are left out.

    Returns
    -------
    str
        Ends with a line break.
    """
    blocks = ["\n".join(line.rstrip() for line in _lines(section)) for section in sections if not section.is_empty]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _lines(section: Section) -> list[str]:
    blocks: list[list[str]] = []
    if section.title:
        blocks.append([textwrap.shorten(section.title, _LONGEST_TITLE, placeholder="~")])
    if section.table is not None:
        blocks.append(fitted(section.table))
    if section.tone == "lead":
        blocks.append([line for sentence in section.sentences for line in textwrap.wrap(sentence, WIDTH)])
    elif section.sentences:
        blocks.append(entry(_LOUD.get(section.tone, ""), section.sentences))
    parts = [line for part in section.parts for line in entry(_titled(part), part.sentences)]
    return [line for block in (*blocks, parts) if block for line in ("", *block)][1:]


def _titled(part: Section) -> str:
    return part.title.upper() if part.tone == "heed" else part.title
