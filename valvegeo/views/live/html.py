"""What is said in a notebook, as HTML: the sentence, sections with their tables, and what went wrong."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from valvegeo.findings.refusal import BadInput, Refused
from valvegeo.views.drawings import palette
from valvegeo.views.wording.refusal import NotAllowed
from valvegeo.views.wording.sections import MARKS, Said, Section, Table, Tone

_NAME = 'style="text-align:left;font-weight:normal;min-width:9em;padding:1px 12px 1px 0;line-height:1.5"'
_CELL = 'style="text-align:right;padding:1px 12px;line-height:1.5;white-space:nowrap;font-variant-numeric:tabular-nums"'
_OVER_NAMES = 'style="text-align:left;vertical-align:bottom;padding:1px 12px 1px 0;line-height:1.5"'
_OVER_CELLS = 'style="text-align:right;vertical-align:bottom;padding:1px 12px;line-height:1.5"'
_LOOKS: dict[Tone, str] = {
    "lead": "font-size:110%",
    "plain": "",
    "heed": "border:2px solid;padding:4px 8px",
    "caution": "border-left:6px dotted;padding-left:8px",
    "quiet": "opacity:0.8",
}
"""Tone -> look, told apart without colour."""


def told(said: Said) -> str:
    """Write what a panel says: the first sentence with an edge, what belongs to it as a list, then the cautions.

    Where something is wrong the edge is another, not only another colour.
    """
    first, *more = said.sentences
    edge = f"6px double {palette.VERMILION}" if said.is_wrong else f"6px solid {palette.BLUE}"
    listed = "".join(f"<li>{escape(one)}</li>" for one in more)
    return (
        f'<p role="status" aria-live="polite" style="border-left:{edge};padding-left:8px;font-size:110%;'
        f'line-height:1.4">{escape(first)}</p>'
        + (f'<ul style="line-height:1.4">{listed}</ul>' if listed else "")
        + sections_html(said.cautions)
    )


def done(said: str) -> str:
    """Write what came of a button that was pressed."""
    return f'<span role="status">{escape(said)}</span>' if said else ""


def alert(what: str, error: Exception, way_back: str) -> str:
    """Write what could not be done and why, framed.

    Parameters
    ----------
    what : str
        What could not be done.
    error : Exception
        :class:`NotAllowed`, :class:`Refused` and :class:`BadInput` speak for themselves; any other is the program's own
        fault, and its class and message are kept for the developers.
    way_back : str
        Name of the button that undoes every change.
    """
    is_answer = isinstance(error, NotAllowed | Refused | BadInput)
    why = str(error) if is_answer else "the program failed; what you entered is not to blame"
    tail = "" if is_answer else f"<br><small>For the developers: {escape(f'{type(error).__name__}: {error}')}</small>"
    return (
        f'<div role="alert" style="border:3px double {palette.VERMILION};padding:6px;white-space:pre-line">'
        f"<b>{escape(what)}:</b> {escape(why)}<br>"
        f"What you see is from before it. Press “{escape(way_back)}” and go on.{tail}</div>"
    )


def sections_html(sections: Iterable[Section]) -> str:
    """Write sections one under the other, each with its title, table and sentences and then its own parts."""
    return f'<div style="width:0;min-width:100%">{"".join(_section(section, 4) for section in sections)}</div>'


def _section(section: Section, level: int) -> str:
    if section.is_empty:
        return ""
    heading, mark = f"h{min(level, 6)}", MARKS.get(section.tone)
    title = f"<{heading}>{escape(section.title)}</{heading}>" if section.title else ""
    table = table_html(section.table) if section.table else ""
    said = "".join(f"<p>{escape(one)}</p>" for one in section.sentences)
    said = f"<b>{mark}</b>{said}" if mark else said
    parts = "".join(_section(part, level + 1) for part in section.parts)
    return f'<div class="{section.tone}" style="{_LOOKS[section.tone]}">{title}{table}{said}{parts}</div>'


def table_html(table: Table) -> str:
    """Write a table, names to the left, numbers under each other; where it is too wide it is scrolled sideways."""
    titles = zip(table.head, [_OVER_NAMES] * table.names + [_OVER_CELLS] * len(table.head), strict=False)
    head = "".join(f'<th scope="col" {over}>{escape(cell)}</th>' if cell else "<td></td>" for cell, over in titles)
    rows = "".join(f"<tr>{_row(row, table.names)}</tr>" for row in table.rows)
    lines = f'<table style="border-collapse:collapse"><tr>{head}</tr>{rows}</table>'
    return f'<div style="overflow-x:auto">{lines}</div>'


def _row(cells: tuple[str, ...], names: int) -> str:
    named = "".join(f'<th scope="row" {_NAME}>{escape(cell)}</th>' for cell in cells[:names])
    return named + "".join(f"<td {_CELL}>{escape(cell)}</td>" for cell in cells[names:])
