"""What holds a rocker is named from the table of mounts, in every report of every command."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tests.views.larkspur import tuning
from tests.views.reports import REPORTS
from valvegeo.records.kinds import MOUNTS
from valvegeo.views.pushrod.sentence import says

NAMES_IT = re.compile(
    r"\b(?:a|the|move|moving) stand\b|\bstand's\b|\bon stands\b|\bstand too\b|\bstud\b(?! mount| offset| lean)", re.I
)
"""Where a report names what holds the pivot; ``stand mount`` is the word of the file, ``stud offset`` a quantity."""

CAUTIONS = re.compile(r"^(?:Before you turn|Ordering and setting|After any later change).*", re.S | re.M)
"""Hazards, told in words of their own: from here on, and with the remedies."""


def body(report: str) -> str:
    return re.sub(r"\s+", " ", CAUTIONS.sub("", report).replace("Before a stud is moved", ""))


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", [name for name in REPORTS if name.startswith(("size_", "order_s", "read_", "changes_"))]
)
def test_reports_name_what_holds_the_pivot_as_the_table_does(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before = body(REPORTS[name]())
    for mount, other in (("stand", "pedestal"), ("stud", "pillar")):
        row = MOUNTS[mount]
        renamed = replace(row, noun=other, verb=row.verb.replace(mount, other))
        monkeypatch.setitem(MOUNTS, mount, renamed)
    after = body(REPORTS[name]())
    assert NAMES_IT.findall(after) == []
    assert ("pedestal" in after or "pillar" in after) == bool(NAMES_IT.search(before))


def test_the_panel_names_it_so_too(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "With the stand where it is" in says(tuning("stand"))
    monkeypatch.setitem(MOUNTS, "stand", replace(MOUNTS["stand"], noun="pedestal"))
    assert "With the pedestal where it is" in says(tuning("stand"))
    assert not NAMES_IT.search(says(tuning("stand")))
