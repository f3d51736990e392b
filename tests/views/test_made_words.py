"""What is to be made: the words' own numbers, turned back to ball centres by hand, are the length meant."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from tests.answers.larkspur import build
from valvegeo import read_pushrod_list
from valvegeo.answers.order import OrderAnswer, answer_order
from valvegeo.shop.lengths import End, centre_length
from valvegeo.views.wording import order_words

HEAD = "label,length,unit,measured_as,ball_diameter,gauge_hole,end_flat"
MM = 25.4
SIZE = r"([\d.]+) (in|mm)"


def answered(path: Path, *rows: str) -> OrderAnswer:
    """Order for Larkspur's six from a list that serves nobody."""
    path.write_text("\n".join([HEAD, *rows]) + "\n", encoding="utf-8")
    return answer_order(build("six"), read_pushrod_list(path))


def inches(number: str, unit: str) -> float:
    return float(number) / (MM if unit == "mm" else 1.0)


def size(words: str, kind: str) -> float:
    """The one size of a kind that the words name [in]; zero where they name none."""
    found = re.findall(SIZE + f" (?:full )?{kind}", words)
    assert len(found) <= 1
    return inches(*found[0]) if found else 0.0


def over_one_end(words: str) -> float:
    """How far what is measured stands out from the ball's centre, by Pythagoras on the sizes named."""
    ball = size(words, "balls")
    if "overall" in words:
        flat = size(words, "flats for the oil holes")
        assert ("full" in words) == (flat == 0.0)
        return math.sqrt(ball**2 - flat**2) / 2
    if "over the gauge" in words:
        return math.sqrt(ball**2 - size(words, "holes on") ** 2) / 2
    assert "ball centre to ball centre" in words
    return 0.0


LISTED = {
    "overall_full": ("overall,0.3125,,", "in"),
    "overall_flat": ("overall,0.3125,,0.100", "in"),
    "overall_mm": ("overall,8,,2.5", "mm"),
    "gauge": ("gauge,0.3125,0.140,", "in"),
    "gauge_flat": ("gauge,0.375,0.1875,0.100", "in"),
    "gauge_mm": ("gauge,7.9375,3.5,2.5", "mm"),
    "ball_centre": ("ball_centre,,,", "in"),
    "ball_centre_with_balls": ("ball_centre,0.3125,,0.100", "in"),
}


@pytest.mark.parametrize("name", LISTED)
def test_made_line_fixes_the_length(tmp_path: Path, name: str) -> None:
    ends, unit = LISTED[name]
    answer = answered(tmp_path / "stock.csv", f"only,{6 * MM if unit == 'mm' else 6},{unit},{ends}")
    assert len(answer.left) == 12
    lines = order_words.unserved(answer)
    assert len(lines) == len(answer.lengths) == 2
    for line, one in zip(lines, answer.lengths, strict=True):
        said, _, _ = line.partition("; wanted")
        made = said.partition("have made ")[2]
        wanted = next(valve.pushrod_length for valve in answer.valves if valve.name == one.valves[0])
        length = inches(*re.match(SIZE, made).groups())  # type: ignore[union-attr]
        by_hand = length - 2 * over_one_end(made)
        assert by_hand == pytest.approx(wanted, abs=1e-6)
        (centres,) = re.findall(r"([\d.]+) in ball centre to ball centre", made)
        assert float(centres) == pytest.approx(by_hand, abs=0.0005 + 1e-6)
        assert ("alike at both ends" in made) == ("balls" in made)
        assert (size(made, "balls") > 0.0) == (name != "ball_centre")


@pytest.mark.parametrize("name", LISTED)
def test_set_made_to_measure_fixes_its_lengths(tmp_path: Path, name: str) -> None:
    ends, unit = LISTED[name]
    answer = answered(tmp_path / "stock.csv", f"only,{6 * MM if unit == 'mm' else 6},{unit},{ends}")
    alike, _, lengths = order_words.custom(answer).partition("; valves")[0].partition(": ")
    over = 2 * over_one_end(alike)
    wanted = {one.pushrod_length for one in answer.valves}
    made = re.findall(r"\d+ of " + SIZE + r"(?: \(([\d.]+) in ball centre to ball centre\))?", lengths)
    assert len(made) == len(answer.instead_lengths) == len(wanted)
    for (number, length_unit, centres), length in zip(made, sorted(wanted), strict=True):
        by_hand = inches(number, length_unit) - over
        assert by_hand == pytest.approx(length, abs=1e-6)
        assert not centres or float(centres) == pytest.approx(by_hand, abs=0.0005 + 1e-6)
        assert bool(centres) != ("ball centre" in alike)


def test_unlike_ends_come_as_ball_centres_and_no_end_has_a_part_in_the_length(tmp_path: Path) -> None:
    """A ball with a flat below and a larger full ball above: measured overall, converted, listed."""
    bottom, top = End(0.3125, 0.100), End(0.375)
    listed = float(centre_length(6.5, "overall", bottom, top))
    assert listed == pytest.approx(6.5 - math.sqrt(0.3125**2 - 0.100**2) / 2 - 0.375 / 2, abs=1e-12)
    answer = answered(tmp_path / "stock.csv", f"unlike,{listed!r},in,ball_centre,,,")
    for line, one in zip(order_words.unserved(answer), answer.lengths, strict=True):
        made = line.partition("have made ")[2].partition("; wanted")[0]
        assert made == f"{one.length:.3f} in ball centre to ball centre, whatever its ends"
        wanted = next(valve.pushrod_length for valve in answer.valves if valve.name == one.valves[0])
        assert float(made.split()[0]) == pytest.approx(wanted, abs=1e-9)


def test_steps_are_told_in_the_list_s_unit(tmp_path: Path) -> None:
    answer = answered(tmp_path / "stock.csv", "only,150,mm,overall,8,,2.5")
    assert order_words.custom(answer).startswith("made to measure instead, in steps of 0.25 mm overall, over 8.00 mm")
