"""Reports in one screen: short enough, and with the long report's own numbers, on every mount and lifter."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import ordered, sized
from tests.views.reports import DATA, REPORTS, printed
from valvegeo.answers.size import answer_size
from valvegeo.findings.finding import Finding
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.mechanism import swapped, zero_lash
from valvegeo.motion.pose import settle
from valvegeo.motion.sweep import sweep
from valvegeo.records.files.build_file import read_build
from valvegeo.shop.serving import Serving
from valvegeo.views.reports.order_short import order_short
from valvegeo.views.reports.size_short import size_short
from valvegeo.views.wording import notes, words

SHORT = [name for name in REPORTS if name.endswith("_short")]
LENGTH = r"\d\.\d{3}"


@pytest.mark.parametrize("name", SHORT)
def test_two_valves_fit_one_screen(name: str) -> None:
    lines = REPORTS[name]().splitlines()
    assert len(lines) <= 40
    assert max(map(len, lines)) <= 100
    assert "check_pivot_height" not in "".join(lines)
    assert not re.search(r"[a-z]_[a-z]", "".join(lines))


def row(report: str, valve: str) -> list[str]:
    return next(line for line in report.splitlines() if line.startswith(f"{valve} ")).split()


@pytest.mark.parametrize("name", [name for name in SHORT if not name.startswith("order")])
@pytest.mark.parametrize("valve", ["intake", "exhaust"])
def test_lengths_are_those_of_the_long_report(name: str, valve: str) -> None:
    short, long = REPORTS[name](), REPORTS[name.removesuffix("_short")]()
    *_, told = re.split(rf"\n{valve}: ", long)
    told = " ".join(told.split())
    line = " ".join(row(short, valve))
    order = re.search(rf"order ({LENGTH}) in (overall|over the gauge)", told)
    assert order is not None
    sure = re.search(rf"the order could be out by ({LENGTH})|the right order lies in ({LENGTH}) in to ({LENGTH})", told)
    assert sure is not None
    ordered = "not yet" if "before ordering, read" in told else order[1]
    assert f" {ordered} {sure[1] or f'{sure[2]} to {sure[3]}'} " in line
    if "stud" in name:
        setting = re.search(rf"set the checking pushrod to ({LENGTH})", told)
        assert setting is not None
        assert f" {setting[1]} {ordered} " in line


@pytest.mark.parametrize("name", ["pair", "stand"])
def test_ink_is_what_a_zero_lash_check_shows_with_the_length_to_set(name: str) -> None:
    """Put together anew: checking lifter, no lash, the length that is told; a stand stays where it is."""
    answer = answer_size(read_build(DATA / f"larkspur_{name}.csv"))
    table = size_short(answer)[1].table
    assert table is not None
    for one, cells in zip(answer.valves, table.rows, strict=True):
        checking = swapped(zero_lash(one.sizing.mechanism), lifter="solid")
        shown = sweep(settle(checking, float(cells[table.head.index("set to")]) - float(one.sizing.over_centres)))
        stations = (shown.contact_no_lift, shown.contact_half_lift, shown.contact_full_lift)
        expected = [float(checking.from_inboard_edge(x)) for x in stations]
        assert [float(mark) for mark in cells[table.head.index("ink: no half full")].split()] == pytest.approx(
            expected, abs=0.0025
        )


def test_ink_is_to_be_within_what_the_least_certain_valve_leaves_open() -> None:
    answer = answer_size(read_build(DATA / "larkspur_pair.csv"))
    for order in (1, -1):
        known = answer.valves[0].uncertainty
        unlike = [replace(known, marks_within=np.array(within)) for within in (0.021, 0.034)]
        valves = [replace(one, uncertainty=of) for one, of in zip(answer.valves, unlike[::order], strict=True)]
        (said,) = [p.sentences[0] for p in size_short(replace(answer, valves=valves))[2].parts if p.title == "ink"]
        assert "if yours is not within 0.034 of it" in said


def test_change_leads_from_the_check_to_what_is_set() -> None:
    answer = answer_size(read_build(DATA / "larkspur_pair.csv"))
    table = size_short(answer)[1].table
    assert table is not None
    for one, cells in zip(answer.valves, table.rows, strict=True):
        by, way = cells[table.head.index("change")].split()
        change = float(by) * {"longer": 1, "shorter": -1}[way]
        assert float(one.sizing.valvetrain.check_length) + change == pytest.approx(
            float(cells[table.head.index("set to")]), abs=0.0011
        )
    assert [notes.change(by) for by in (0.0, 0.0004, 0.0996, -0.2)] == ["none", "none", "0.100 longer", "0.200 shorter"]


def test_lengths_of_unlike_checks_are_each_told_in_their_own_convention() -> None:
    stud, stand = (
        answer_size(read_build(DATA / f"larkspur_{name}.csv")).valves[0].sizing for name in ("pair", "stand")
    )
    assert notes.measured_as([stud, stud]) == "In inches, lengths overall, as the check was measured."
    both = notes.measured_as([stud, stand])
    assert both == "In inches, lengths each as its check was measured: overall, over the gauge."
    for valves in ([stud, stand], [stand, stud]):
        said = notes.ordered_for(valves)
        assert "; on a stand, for the stand where it is" in said
        assert "preload 0.030 in included or for 0.016 in lash" in said
    assert "on a stand" not in notes.ordered_for([stud])


def test_each_warning_of_an_order_hangs_under_its_own_valve() -> None:
    answer = ordered("stand")
    calm = replace(answer.centrings[0], middle=np.array(0.0), half_width=np.array(0.0))
    for valve in (0, 1):
        warning = Finding("warning.large_change", {"most": 0.25}, gravity="warning", index=(valve,))
        alone = replace(answer, warnings=(warning,), centrings=(calm, calm))
        section = next(one for one in order_short(alone) if any(p.title in answer.build.valves for p in one.parts))
        assert [part.title for part in section.parts] == [answer.build.valves[valve]]
        assert section.parts[0].sentences == (warning.brief,)


def test_pushrods_ordered_with_unlike_ends_are_warned_of() -> None:
    answer = ordered("six")
    first, *others = answer.lengths
    unlike = replace(answer, lengths=(replace(first, ball_diameter=0.375), *others))
    for asked, warned in ((answer, False), (unlike, True)):
        said = " ".join(s for one in order_short(asked) for part in one.parts for s in part.sentences)
        assert ("the pushrods ordered differ in ball (0.3125, 0.375)" in said) is warned


def budget_of(**contributions: float) -> Budget:
    return Budget(tuple(contributions), np.array(list(contributions.values())), np.ones(len(contributions)))


def test_a_doubt_names_what_to_do_first_be_it_a_measurement_or_the_ink() -> None:
    valve = answer_size(read_build(DATA / "larkspur_pair.csv")).valves[0].sizing
    (measured,) = notes.doubted(budget_of(check_pivot_height=0.03, cup_drop=0.01), valve)
    assert measured == (
        "could be out by more than one stock step either way: measure the pivot height again first: it causes most of "
        "the doubt"
    )
    (inked,) = notes.doubted(budget_of(readings=0.03, cup_drop=0.02, tip_radius=0.025), valve)
    assert inked.endswith("ink and read one more trial first, then the tip radius: nothing causes more of the doubt")
    assert not list(notes.doubted(budget_of(readings=0.005), valve))


def test_no_more_notes_than_a_screen_takes_and_the_rest_is_counted() -> None:
    section = notes.of_valves([("I1", ("a", "b", "c")), ("E1", ()), ("E2", ("a", "b", "c", "d", "e"))])
    assert [(part.title, part.sentences) for part in section.parts] == [
        ("I1", ("a", "b", "c")),
        ("E2", ("a", "b", "c (and 2 more: --details)")),
    ]


def test_what_many_valves_share_is_said_once() -> None:
    """Of three or more; what two share stands under each."""
    section = notes.of_valves([("I1", ("a", "b")), ("E1", ("a",)), ("I2", ("a", "b", "c")), ("E2", ("c", "d"))])
    assert [(part.title, part.sentences) for part in section.parts] == [
        ("several", ("a (I1, E1, I2)",)),
        ("I1", ("b",)),
        ("I2", ("b", "c")),
        ("E2", ("c", "d")),
    ]
    section = notes.of_valves([("I1", ("a",)), ("E1", ("a",)), ("I2", ("a", "b"))])
    assert [(part.title, part.sentences) for part in section.parts] == [("all", ("a",)), ("I2", ("b",))]


def test_settings_of_several_valves_are_said_in_one() -> None:
    intake, exhaust = (one.sizing.mechanism for one in answer_size(read_build(DATA / "larkspur_stand.csv")).valves)
    hydraulic = answer_size(read_build(DATA / "larkspur_pair.csv")).valves[0].sizing.mechanism
    assert words.running(exhaust, intake, intake) == "for 0.016 or 0.018 in lash"
    assert words.running(intake) == "for 0.016 in lash"
    assert words.running(intake, hydraulic) == "preload 0.030 in included or for 0.016 in lash"


def test_lengths_that_serve_stand_beside_the_order() -> None:
    answer = answer_size(read_build(DATA / "larkspur_stand.csv"))
    table = size_short(answer)[1].table
    assert table is not None
    for one, cells in zip(answer.valves, table.rows, strict=True):
        least, most = map(float, cells[table.head.index("catalogue")].split(" to "))
        assert least < float(cells[table.head.index("order")]) < most
        assert np.isclose(least - float(one.sizing.over_centres), float(one.serving.length_least), atol=6e-4)


def test_where_a_valve_serves_as_it_was_checked_that_is_said_first(tmp_path) -> None:  # type: ignore[no-untyped-def]
    tuned = tmp_path / "t.csv"
    printed("size", str(DATA / "larkspur_pair.csv"), "--tuned", str(tuned))
    said = printed("size", str(tuned))
    assert said.count("no change is worth making: the pushrod checked serves as it is") == 2


@pytest.mark.parametrize(("name", "said"), [("pair", True), ("stand", False)])
def test_a_stand_s_check_is_not_called_the_one_to_run(name: str, said: bool) -> None:
    """There the checking pushrod has no lash yet, so that its own length serves for nothing but the check."""
    answer = sized(name)
    every = Serving(np.array(5.0), np.array(10.0), np.array(np.nan), np.array(np.nan))
    valves = [replace(one, serving=every, serves_as_checked=True) for one in answer.valves]
    told = [s for one in size_short(replace(answer, valves=valves)) for part in one.parts for s in part.sentences]
    assert any("the pushrod checked serves as it is" in sentence for sentence in told) is said


def test_where_no_length_serves_no_length_is_told() -> None:
    answer = sized("pair")
    none = Serving(*(np.array(np.nan),) * 4)
    table = size_short(replace(answer, valves=[replace(one, serving=none) for one in answer.valves]))[1].table
    assert table is not None
    assert [cells[table.head.index("catalogue")] for cells in table.rows] == [words.NO_NUMBER] * 2
