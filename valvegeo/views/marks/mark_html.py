"""The words and tables of marks as HTML, for the panel."""

from __future__ import annotations

from html import escape

from valvegeo.answers.mark_sheet import MarkSheet
from valvegeo.views.live.base import status
from valvegeo.views.marks.mark_words import (
    CARD_REMINDER,
    card_frame,
    is_refusal,
    readings_frame,
    remedies_frame,
    remedies_of,
    sentences,
)
from valvegeo.views.pushrod.numbers import table_html


def sentence_html(sheet: MarkSheet) -> str:
    """Write the verdict or the refusal, and what belongs to it as a list."""
    first, *more = sentences(sheet)
    listed = "".join(f"<li>{escape(said)}</li>" for said in more)
    return status(first, is_refusal(sheet)) + (f'<ul style="line-height:1.4">{listed}</ul>' if listed else "")


def tables_html(sheet: MarkSheet) -> str:
    """Write the readings, the card and the remedies as tables, each with its title."""
    parts = [("Readings, from the inboard edge [in]", table_html(readings_frame(sheet)), "")]
    if sheet.read.cards:
        parts.append(("The rule on a card, beside the fit [in]", table_html(card_frame(sheet)), CARD_REMINDER))
    if remedies_of(sheet):
        said = "Each alone, in inches; minus is the other way, a dash where nothing within reach is enough."
        parts.append(("What would centre the band, since length does not", table_html(remedies_frame(sheet)), said))
    told = "".join(
        f'<h4>{escape(title)}</h4><div style="overflow-x:auto;white-space:nowrap">{table}</div><p>{escape(said)}</p>'
        for title, table, said in parts
    )
    return f'<div style="width:0;min-width:100%">{told}</div>'
