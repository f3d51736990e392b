"""A stand too high and off centre (Larkspur, INVENTED): what is ordered is warned of, moving it is an option."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.motion.marked import marks_of, write_marks
from tests.views.reports import DATA, printed
from valvegeo import Build, Sizing, read_build
from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import read_valve
from valvegeo.answers.size import answer_size, assembled
from valvegeo.motion.judged.centring import judge
from valvegeo.motion.judged.wariness import pose_warnings
from valvegeo.motion.pose import at_rise, settle
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import USABLE_SWEEP
from valvegeo.records.batch import each
from valvegeo.views.wording import centring_words, stand_words

STOCK = str(DATA / "larkspur_stock.csv")
ROWS = {
    "axle_above_pivot,mm,9.60,3.90": "axle_above_pivot,mm,9.60,-1.90",
    "stud_offset,mm,37.50,37.55": "stud_offset,mm,37.50,38.05",
}
"""What is changed of Larkspur's stands: the exhaust's is a third of an inch too high, and too far from the valve."""


@pytest.fixture
def build(tmp_path: Path) -> Build:
    text = (DATA / "larkspur_stand.csv").read_text(encoding="utf-8")
    for old, new in ROWS.items():
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / "build.csv"
    path.write_text(text, encoding="utf-8")
    return read_build(path)


@pytest.fixture
def exhaust(build: Build) -> Sizing:
    return each(assembled(build))[1]


@pytest.fixture
def reports(build: Build, tmp_path: Path) -> dict[str, str]:
    """What each command says of the exhaust, on one line, without how well the middle is known: marks tell it better.

    `read` of perfect marks, the check's own the last.
    """
    trials = {
        name: (float(one.known.check_length) - 0.04, float(one.known.check_length))
        for name, one in zip(build.valves, each(assembled(build)), strict=True)
    }
    path = str(build.path)
    marks = str(write_marks(tmp_path / "m.csv", {name: marks_of(build[name], trials[name]) for name in build.valves}))
    said = {
        "size": printed("size", "--details", path),
        "read": printed("read", "--details", path, marks),
        "order": printed("order", "--details", path, STOCK),
    }
    for name, end in (("size", "Before you turn"), ("read", "About the marks")):
        said[name] = said[name].partition("\nexhaust: ")[2].partition(f"\n{end}")[0]
    return {name: re.sub(r", give or take [\d.]+ in", "", " ".join(text.split())) for name, text in said.items()}


BAND = "running with the order the band is 0.112 in wide, more than the usable 0.080 in, and no other length makes"
MIDDLE = "with the stand where it is the band stands 0.052 in inboard of centre, 0.052 in from the edge of the flat"
MOVED = (
    "moving the stand would narrow the sweep from 0.112 in to 0.022 in and bring its middle from 0.052 in inboard to "
)


@pytest.mark.parametrize("command", ["size", "read", "order"])
def test_every_command_warns_of_what_is_ordered_and_offers_to_move(reports: dict[str, str], command: str) -> None:
    for sentence in (BAND, MIDDLE, MOVED):
        assert reports[command].count(sentence) == 1, sentence
    assert "narrowest band" not in reports[command]


def parts(report: str) -> dict[str, list[str]]:
    """A report's sentences by what they speak of."""
    speaks = {
        "order": r"order \d\.\d{3} in over the gauge \(\d\.\d{3} in ball centre to ball centre\), for 0.018 in lash",
        "moving": r"moving the stand would .*? for zero lash there, check again, and order by that check, about [\d.]+",
        "sure": r"measure the [a-z' ]+ again first",
        "first": r"measure the [a-z' ]+ again first[a-z', ]*: [a-z ]+ of the doubt \(\d+%\)",
        "running": r"running[^:]*marks(?: predicted,)? from the inboard edge: (.*?) in (?:sweep|running)",
        "band": r"sweep (0.112 in wide, .*?: NOT centred)",
        "beyond": r"with the stand where it is the band stands .* tip height[^.]*\.\d+",
        "warning": r"running with the order the band .*",
    }
    return {name: re.findall(pattern, report) for name, pattern in speaks.items()}


def test_read_of_perfect_marks_says_what_size_says(reports: dict[str, str]) -> None:
    by_size, by_read = parts(reports["size"]), parts(reports["read"])
    assert all(by_size.values())
    assert by_read == by_size


def test_read_does_not_advise_about_the_moved_length_first(reports: dict[str, str]) -> None:
    said = reports["read"]
    assert "the trial length is more than" not in said
    assert "before ordering" not in said
    assert said.index("the right order lies in") < said.index("with the stand moved it could be out by")


def test_warning_is_of_more_than_the_usable_width_of_what_is_ordered(exhaust: Sizing) -> None:
    for width, warned in ((USABLE_SWEEP, False), (USABLE_SWEEP + 1e-6, True)):
        mounted = replace(exhaust.as_mounted, sweep_width=np.asarray(width))
        best = replace(exhaust.best, sweep_width=np.asarray(0.2))
        found = [one for one in pose_warnings(replace(exhaust, as_mounted=mounted, best=best)) if "wide" in one.code]
        assert bool(found) is warned
        assert [one.numbers["width"] for one in found] == [width] * warned


def test_remedies_centre_what_is_ordered(build: Build) -> None:
    intake, exhaust = answer_size(build).valves
    assert intake.remedies == ()
    for remedy in exhaust.remedies[:2]:
        assert abs(float(remedy.change)) == pytest.approx(0.052, abs=0.002)


def test_a_stand_that_is_centred_where_it_is_needs_no_remedy_though_its_narrowest_band_would(
    build: Build, tmp_path: Path
) -> None:
    text = build.path.read_text(encoding="utf-8")
    path = tmp_path / "other.csv"
    path.write_text(text.replace("37.50,38.05", "37.50,36.80").replace("9.60,-1.90", "9.60,-0.20"), encoding="utf-8")
    one = answer_size(read_build(path)).valves[1]
    best = judge(one.sizing.best, one.sizing.mechanism.flat, 0.0)
    assert (bool(one.ordered.looks_centred), bool(best.looks_centred)) == (True, False)
    assert one.remedies == ()
    assert "stands" not in centring_words.off_centre(one.sizing.ordered, one.sizing.mechanism, one.ordered)
    assert "bring its middle from" in stand_words.gain(one.sizing.as_mounted, one.sizing.best, "stand")


def test_what_read_computes_is_of_the_stand_where_it_was(build: Build, exhaust: Sizing) -> None:
    length = float(exhaust.known.check_length)
    valve = read_valve(exhaust, marks_of(build["exhaust"], (length, length - 0.04)))
    read = valve.found
    assert isinstance(read, FitRead)
    fit = read.fit
    assert fit.length.half_width < fit.best_length.half_width
    order = float(read.ordered.pushrod_length)
    assert order == pytest.approx(float(at_rise(exhaust.mechanism, 0.0).pushrod_length), abs=1e-4)
    mechanism = fit.sizing.mechanism
    widths = [float(sweep(settle(mechanism, at)).sweep_width) for at in (order, fit.length.low, fit.length.high)]
    assert (read.at_order, read.at_ends) == pytest.approx((widths[0], max(widths[1:])), abs=1e-9)
    assert (fit.length.median, fit.alone.median) == pytest.approx((order, order), abs=2e-4)
    assert fit.alone.half_width < 0.02
    rise = float(valve.sizing.best_pose.pivot_rise)
    assert rise < read.still < -0.2
    low = read_valve(exhaust, marks_of(build["exhaust"], (length, float(exhaust.best.trial_length)))).found
    assert isinstance(low, FitRead)
    assert low.still == 0.0
