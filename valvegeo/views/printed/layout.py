"""Setting sentences and tables in plain text, no line over 100 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from valvegeo.views.wording.sections import WIDTH, Table, aligned

COLUMN = 10
"""Where sentences begin beside labels that are short enough."""

_SHORTEST_NAME = 8


def fitted(table: Table) -> list[str]:
    """Set a table within :data:`WIDTH`, cutting the middle out of names that are too long but never two to one.

    Where names cannot be cut without two becoming one they are numbered, and what each number is stands below.
    """
    rows, names = [table.head, *table.rows], table.names
    longest = max(_SHORTEST_NAME, *(len(cell) for row in rows for cell in row[:names]))
    for width in range(longest, _SHORTEST_NAME - 1, -1):
        cut = [(*(_without_middle(cell, width) for cell in row[:names]), *row[names:]) for row in rows]
        lines = aligned(cut)
        if max(map(len, lines)) <= WIDTH and all(_as_many(rows, cut, column) for column in range(names)):
            return lines
    named = list(dict.fromkeys(cell for row in table.rows for cell in row[:names] if len(cell) > _SHORTEST_NAME))
    numbers = {name: f"{name[: _SHORTEST_NAME - 4]}~#{place}" for place, name in enumerate(named, start=1)}
    cut = [(*(numbers.get(cell, cell) for cell in row[:names]), *row[names:]) for row in rows]
    legend = [line for name, number in numbers.items() for line in entry("", [f"{number} is {name}"])]
    return [*aligned(cut), "", *legend]


def _without_middle(name: str, width: int) -> str:
    if len(name) <= width:
        return name
    front = width // 2 - 1
    return f"{name[:front]}~{name[len(name) - (width - front - 1) :]}"


def _as_many(rows: Sequence[tuple[str, ...]], cut: Sequence[tuple[str, ...]], column: int) -> bool:
    """Whether as many different names stand in a column as before."""
    return len({row[column] for row in rows}) == len({row[column] for row in cut})


def entry(label: str, sentences: Iterable[str], column: int = COLUMN) -> list[str]:
    """Hang sentences beside a label, wrapped, from a column on; a label too long for that has a space behind it."""
    lines: list[str] = []
    for sentence in sentences:
        lead = f"  {'' if lines else label:{column - 3}} "
        lines += textwrap.wrap(sentence, WIDTH, initial_indent=lead, subsequent_indent=" " * (column + 2))
    return lines


def column_of(labels: Iterable[str]) -> int:
    """Find where sentences begin beside labels: where the longest leaves room, within a quarter of the line."""
    return min(max(COLUMN, *(len(label) + 3 for label in labels)), WIDTH // 4)
