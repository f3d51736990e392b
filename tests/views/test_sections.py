"""Every renderer of sections is total: whatever is nested, every word is shown and every tone is marked."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import unescape
from typing import get_args

import pytest

from valvegeo.views.live.html import sections_html
from valvegeo.views.printed.template import as_page
from valvegeo.views.printed.text import as_text
from valvegeo.views.wording.sections import MARKS, Section, Table, Tone

TONES: tuple[Tone, ...] = get_args(Tone)
MARKED = {**MARKS, "quiet": "ASIDE"}
"""Tone -> its word in text; first words have none and stand at the margin, plain ones hang."""


def filled(where: str, tone: Tone, parts: tuple[Section, ...] = ()) -> Section:
    """A section with all that one can have, each word found nowhere else."""
    words = f"{where}{tone}"
    table = Table((f"head0{words}", f"head1{words}"), ((f"row0{words}", f"row1{words}"),))
    return Section(f"title{words}", (f"first{words} & <more>", f"then{words}"), table, parts, tone)


def nested() -> tuple[Section, ...]:
    """A section of every tone, in it a part of every tone, in each of those again one of every tone."""

    def inside(where: str, depth: int) -> tuple[Section, ...]:
        if not depth:
            return ()
        return tuple(filled(where, tone, inside(f"{where}{tone}", depth - 1)) for tone in TONES)

    return inside("", 3)


def every(sections: tuple[Section, ...]) -> list[Section]:
    return [found for section in sections for found in (section, *every(section.parts))]


def words_of(section: Section) -> list[str]:
    cells = (
        [] if section.table is None else [*section.table.head, *(cell for row in section.table.rows for cell in row)]
    )
    return [section.title, *section.sentences, *cells]


def in_html(written: str) -> str:
    return unescape(re.sub(r"<[^>]+>", " ", written.split("<body>")[-1]))


RENDERERS: dict[str, Callable[[tuple[Section, ...]], str]] = {
    "text": as_text,
    "page": lambda sections: as_page("all", [], sections, {}),
    "notebook": sections_html,
}


@pytest.mark.parametrize("renderer", RENDERERS)
def test_every_word_is_shown_once_at_every_depth(renderer: str) -> None:
    sections = nested()
    assert len(every(sections)) == 5 + 25 + 125
    written = RENDERERS[renderer](sections)
    shown = written if renderer == "text" else in_html(written)
    found = re.findall(r"[\w&<>]+(?: & <more>)?", shown)
    for section in every(sections):
        for said in words_of(section):
            assert found.count(said) == 1 or found.count(said.upper()) == 1, said


@pytest.mark.parametrize("depth", [0, 1, 2])
@pytest.mark.parametrize("has_table", [True, False])
@pytest.mark.parametrize("titled", [True, False])
@pytest.mark.parametrize("tone", TONES)
def test_text_marks_every_tone_at_every_depth(tone: Tone, titled: bool, has_table: bool, depth: int) -> None:
    """A mark stands beside the words; a loud part's title is its mark; first words stand at the margin."""
    section = Section("named" if titled else "", ("said",), Table(("", "a"), (("b", "c"),)) if has_table else None,
                      tone=tone)  # fmt: skip
    for _ in range(depth):
        section = Section("outer", ("besides",), parts=(section,))
    (line,) = (line for line in as_text([section]).splitlines() if line.endswith("said"))
    if tone == "lead":
        assert line == "said"
    elif tone == "plain":
        assert line.startswith("  ")
        assert not line.split()[0].isupper()
    else:
        names = tone == "heed" and titled and depth and not has_table
        assert line.split()[0] == ("NAMED" if names else MARKED[tone])


@pytest.mark.parametrize("renderer", ["page", "notebook"])
def test_pages_and_notebooks_mark_every_tone_at_every_depth(renderer: str) -> None:
    sections = nested()
    written = RENDERERS[renderer](sections).split("<body>")[-1]
    for tone in TONES:
        asked = [section for section in every(sections) if section.tone == tone]
        marked = re.findall(rf'<div class="{tone}"[^>]*>\s*<h\d[^>]*>(\w+)<', written)
        assert sorted(marked) == sorted(section.title for section in asked)
    loud = [section for section in every(sections) if section.tone in MARKS]
    assert sum(in_html(written).split().count(mark) for mark in MARKS.values()) == len(loud)
    looks = dict(re.findall(r'class="(\w+)" style="([^"]*)"', written))
    assert renderer == "page" or len(set(looks.values())) == len(TONES)


@pytest.mark.parametrize("renderer", RENDERERS)
def test_what_is_empty_leaves_nothing(renderer: str) -> None:
    empty = Section("nobody", parts=(Section("nothing", tone="heed"), Section(parts=(Section(tone="caution"),))))
    said = Section("somebody", ("something",))
    assert RENDERERS[renderer]((empty, said)).count("no") == RENDERERS[renderer]((said,)).count("no")
