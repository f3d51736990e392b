"""Setting sentences and tables in plain text, no line over 100 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

WIDTH = 100
_INDENT = 10


def aligned(table: list[tuple[str, ...]], indent: int = 0) -> list[str]:
    """Set a table's columns under each other."""
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    lead = " " * indent
    return [lead + "  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)) for row in table]


def entry(title: str, sentences: Iterable[str]) -> list[str]:
    """Hang sentences under a title, wrapped."""
    lines: list[str] = []
    for sentence in sentences:
        lead = f"  {title if not lines else '':{_INDENT - 2}}"
        lines += textwrap.wrap(sentence, WIDTH, initial_indent=lead, subsequent_indent=" " * (_INDENT + 2))
    return lines
