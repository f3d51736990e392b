"""Sections as plain text, no line over 100 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from itertools import pairwise

from valvegeo.views.printed.layout import column_of, entry, fitted
from valvegeo.views.wording.sections import MARKS, WIDTH, Section, Tone

_MARKS: dict[Tone, str] = {**MARKS, "quiet": "ASIDE"}


def as_text(sections: Iterable[Section]) -> str:
    """Write sections as text that ends with a line break; those that say nothing are left out."""
    written = [["", *_lines(section, column_of(_labels(section)))] for section in sections if not section.is_empty]
    lines = [line.rstrip() for block in written for line in block]
    once = [line for before, line in pairwise(["", *lines]) if before or line]
    return "\n".join(once).rstrip("\n") + "\n"


def _lines(section: Section, column: int, is_part: bool = False) -> Iterator[str]:
    """Write title and table, the sentences hung beside a part's title or a mark, then the parts that say something."""
    beside = _has_title_beside(section, is_part)
    if section.title and not beside:
        yield from ("", *textwrap.wrap(section.title, WIDTH), "")
    if section.table is not None:
        yield from ("", *fitted(section.table), "")
    if section.tone == "lead":
        yield from ("", *(line for said in section.sentences for line in textwrap.wrap(said, WIDTH)), "")
    else:
        label = _label(section, is_part)
        is_list = is_part and not (label or section.title)
        hung = entry(label, [f"- {said}" for said in section.sentences] if is_list else section.sentences, column)
        yield from hung or ([f"  {label}"] if label else [])
    for part in section.parts:
        if not part.is_empty:
            yield from _lines(part, column, is_part=True)


def _has_title_beside(section: Section, is_part: bool) -> bool:
    """Whether the title stands beside the sentences: a part's without table, unless its tone has a mark there."""
    return is_part and section.table is None and section.tone in ("plain", "heed")


def _label(section: Section, is_part: bool) -> str:
    """Say what stands beside the sentences: a mark; a part's title, in capitals where it is to be heeded."""
    title = section.title if _has_title_beside(section, is_part) else ""
    mark = _MARKS.get(section.tone, "")
    return title.upper() or mark if mark else title


def _labels(section: Section, is_part: bool = False) -> Iterator[str]:
    yield _label(section, is_part)
    for part in section.parts:
        yield from _labels(part, is_part=True)
