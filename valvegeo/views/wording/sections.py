"""What is said, as values: sections of sentences and tables, that text, pages and notebooks render alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

Item = TypeVar("Item")

WIDTH = 100
"""No line of plain text is longer."""

Tone = Literal["lead", "plain", "heed", "caution", "quiet"]
"""Where a section is placed and how it looks: the first words; what is said; what to heed loudly; a hazard's words;
what is only for who wants to know."""


MARKS: dict[Tone, str] = {"heed": "WARNING", "caution": "CAUTION"}
"""The word before what is said loudly, the same in text, on pages and in notebooks."""


@dataclass(frozen=True)
class Table:
    """A table of text.

    Parameters
    ----------
    head : tuple of str
        Titles of the columns.
    rows : tuple of tuple of str
        A row a line, as many cells as the head has.
    names : int
        So many columns in front hold names, which may be cut where there is no room.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    names: int = 1

    def __post_init__(self) -> None:
        odd = [row for row in self.rows if len(row) != len(self.head)]
        if odd:
            raise ValueError(f"each row needs a cell under every title of {self.head!r}, unlike {odd[0]!r}")

    @classmethod
    def of(cls, items: Iterable[Item], columns: Mapping[str, Callable[[Item], str]], names: int = 1) -> Table:
        """Tabulate things, a row each, from each column's title and what stands under it."""
        return cls(tuple(columns), tuple(tuple(cell(one) for cell in columns.values()) for one in items), names)

    def __str__(self) -> str:
        return "\n".join(line.rstrip() for line in aligned([self.head, *self.rows]))


def aligned(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Set rows' cells under each other."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return ["  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)) for row in rows]


@dataclass(frozen=True)
class Section:
    """A part of a report.

    Parameters
    ----------
    title : str
        What it is; empty where it needs no title.
    sentences : tuple of str
        Each without its capital and full stop where it hangs under a title. Those of an untitled part are a list.
    table : Table, optional
        Before the sentences.
    parts : tuple of Section
        After them, each a section again; in text they hang under each other, short titles beside them.
    tone : {"lead", "plain", "heed", "caution", "quiet"}
        See :data:`Tone`.
    figure : str
        Name of the figure that belongs here, for what can show one.
    """

    title: str = ""
    sentences: tuple[str, ...] = ()
    table: Table | None = None
    parts: tuple[Section, ...] = ()
    tone: Tone = "plain"
    figure: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing is said."""
        return not (self.sentences or self.table or self.figure) and all(part.is_empty for part in self.parts)


def lead(*sentences: str) -> Section:
    """Say sentences as first words."""
    return Section(sentences=sentences, tone="lead")


def hung(titled: Mapping[str, Sequence[str]]) -> Section:
    """Hang sentences under short titles, one under the other."""
    return Section(parts=tuple(Section(title, tuple(sentences)) for title, sentences in titled.items()))


@dataclass(frozen=True)
class Said:
    """What a panel says of what it shows.

    Parameters
    ----------
    sentences : tuple of str
        At least one, the most important first.
    is_wrong : bool
        Whether something cannot be, or must be heeded.
    cautions, tables : tuple of Section
        What to heed there; the numbers.
    """

    sentences: tuple[str, ...]
    is_wrong: bool = False
    cautions: tuple[Section, ...] = ()
    tables: tuple[Section, ...] = ()

    @property
    def points(self) -> tuple[str, ...]:
        """Every sentence, cautions last."""
        return (*self.sentences, *(words for one in self.cautions for words in one.sentences))
