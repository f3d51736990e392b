"""What `changes` says a builder should order, set or fear is what the parts do, worked out by hand from distances.

Read off the printed sentences as a builder would; moved parts, heat and the narrowest sweep are solved here again.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq

from tests.assembled import restated
from tests.by_hand import Bench, leaning, point
from tests.views.reports import LIFTERS, MOUNTED, NAMED, build_text, printed
from valvegeo import read_build, size

PRINTED = 0.0006
"""A printed length is rounded to thousandths [in]."""

STEEL, IRON, ALUMINIUM = 12.3e-6, 11.4e-6, 21.5e-6
"""Linear expansion for each °C (Callister, Appendix B)."""

CHANGED = (
    {"gasket_change": 0.030},
    {"head_cut": 0.020, "deck_cut": 0.005},
    {"base_circle_change": -0.025, "lobe_lift_change": 0.015},
    {"cup_height_change": 0.012},
    {"tip_height_change": 0.040},
    {"ratio_change": 0.10, "arm_change": 0.01},
    {"temperature_rise": 80.0, "aluminium": 4.0},
    {"gasket_change": -0.012, "deck_lean": 4.0, "tip_height_change": -0.020, "temperature_rise": 60.0},
)

SAID = re.compile(
    r"wants a pushrod of [^(]*?\(?(?P<wanted>[\d.]+) in ball centre to ball centre\)?, .*?"
    r"the (?P<kept>[\d.]+) in (?:overall|over the gauge) pushrod kept, and the "
    r"(?P<held>nut|stand|screw).*?"
    r"(?:from [\d.]+ in to|stays) (?P<width>[\d.]+) in wide.*?"
    r"(?:lash|preload) goes from (?P<was>-?[\d.]+) in to (?P<left>-?[\d.]+) in"
)


@dataclass(frozen=True)
class Changed(Bench):
    """A build whose parts have moved since its check; the check itself stays where it was."""

    seat_at_first: np.ndarray

    @property
    def seat_at_check(self):
        return self.seat_at_first

    def belongs_at(self, rise):
        """Length with the declared lash or preload, the pivot up by so much."""
        return self.joined(rise, self.theta_touching(rise, self.v["lash"]), self.running)

    @property
    def running(self):
        """Running seat along the bore."""
        return self.v["seat_change"] - self.v["preload"]

    def ends(self, rise, length):
        """Rocker angles at first opening and at full lift."""
        taken_up = self.slack(rise, length) if self.v["plunger_travel"] else 0.0  # whatever the plunger has to
        seat = self.v["seat_change"] - taken_up
        return self.theta_touching(rise), self.theta_of(rise, length, seat + self.v["lobe_lift"])

    def narrowest(self):
        """Length of the narrowest sweep: as far below square at first opening as above it at full lift."""
        found = brentq(lambda rise: sum(self.ends(rise, self.belongs_at(rise))), -0.3, 0.3, xtol=1e-13)
        return self.belongs_at(found)

    def rise_of(self, length):
        """Where the nut holds the pivot when it is set with a pushrod."""
        return brentq(lambda rise: self.belongs_at(rise) - length, -0.3, 0.3, xtol=1e-13)

    def screwed(self, travel):
        """The same with an adjuster's screw out by a travel: the cup lower in the rocker by it."""
        drop = self.v["cup_drop"] + travel
        ratio = self.v["valve_arm"] / np.hypot(self.cup_reach, drop)
        return Changed({**self.v, "cup_drop": drop, "rocker_ratio": ratio}, self.seat_at_first)

    def screwed_for(self, length):
        """The same with the screw set for a pushrod, the pivot where the check had it."""
        return self.screwed(self.travel_of(length))

    def travel_of(self, length):
        """Where the screw stands then."""
        return brentq(lambda travel: self.screwed(travel).belongs_at(0.0) - length, -0.3, 0.3, xtol=1e-13)

    def width(self, rise, length):
        opening, full = self.ends(rise, length)
        path = np.array([self.contact(rise, angle) for angle in np.linspace(opening, full, 401)])
        return path.max() - path.min()

    def slack(self, rise, length):
        """Lash at the tip, or the preload that the pushrod gives, with the pivot held."""
        if self.v["plunger_travel"] == 0.0:
            return -self.lift(rise, self.theta_of(rise, length, self.running))
        angle = self.theta_touching(rise)
        along = brentq(lambda along: self.joined(rise, angle, along) - length, -0.5, 0.5, xtol=1e-13)
        return self.v["seat_change"] - along


def after(first: Bench, given: dict[str, float], fitted: float) -> tuple[Changed, float]:
    """The build after changes, and how much longer the pushrod in place has grown."""
    rise, cast = given.get("temperature_rise", 0.0), given.get("aluminium", 0.0)
    grown = rise * (cast * ALUMINIUM + (fitted - cast) * IRON)
    up = given.get("gasket_change", 0.0) - given.get("head_cut", 0.0) - given.get("deck_cut", 0.0) + grown
    lifter = given.get("base_circle_change", 0.0) + given.get("cup_height_change", 0.0)
    tip = given.get("tip_height_change", 0.0)
    v = dict(first.v)
    deck = leaning(given.get("deck_lean", v["lifter_lean"]), v["lifter_side_lean"])
    seat = first.seat(lifter) - up * deck - point(0.0, tip)
    v["check_pivot_height"] = v["check_pivot_height"] - tip
    v["valve_arm"] = v["valve_arm"] + given.get("arm_change", 0.0)
    v["rocker_ratio"] = v["rocker_ratio"] + given.get("ratio_change", 0.0)
    v["lobe_lift"] = v["lobe_lift"] + given.get("lobe_lift_change", 0.0)
    return Changed(v, seat), rise * STEEL * fitted


def wants(bench: Changed, mount: str) -> float:
    return float(bench.narrowest() if mount == "stud" else bench.belongs_at(0.0))


def before(first: Bench) -> Changed:
    return Changed(first.v, first.seat_at_check)


@pytest.mark.parametrize("given", CHANGED, ids=" ".join)
@pytest.mark.parametrize(("mount", "lifter"), list(product(MOUNTED, LIFTERS)))
@pytest.mark.parametrize("longer", [None, 0.006])
def test_what_is_wanted_and_what_is_left_are_what_the_parts_do(
    mount: str, lifter: str, given: dict[str, float], longer: float | None, tmp_path: Path
) -> None:
    path = tmp_path / "build.csv"
    path.write_text(build_text(NAMED[mount], MOUNTED[mount] | LIFTERS[lifter]), "utf-8")
    build = read_build(path)
    numbers = restated(size(build.valvetrain))
    benches = [Bench({name: float(column[at]) for name, column in numbers.items()}) for at in range(len(build.valves))]
    in_place = [round(wants(before(first), mount), 4) + longer if longer else None for first in benches]
    options = [f"--{name.replace('_', '-')}={number}" for name, number in given.items()]
    over = (build.valvetrain.check_length - numbers["check_length"]).tolist()
    for valve, length, more in zip(build.valves, in_place, over, strict=True):
        options += [f"--fitted={valve}={length + more!r}"] if length else []
    text = " ".join(printed("changes", str(path), *options).split())
    said = list(SAID.finditer(text))
    assert len(said) == len(benches)
    for first, one, length, more in zip(benches, said, in_place, over, strict=True):
        fitted = wants(before(first), mount) if length is None else length
        bench, grown = after(first, given, fitted)
        was, now, kept = before(first), bench, bench
        if mount == "adjuster":
            was, now = was.screwed_for(fitted), bench.screwed_for(fitted + grown)
            kept = bench.screwed(before(first).travel_of(fitted))
        rise = before(first).rise_of(fitted) if mount == "stud" else 0.0
        again = bench.rise_of(fitted + grown) if mount == "stud" else 0.0
        assert one["held"] == {"stud": "nut", "stand": "stand", "adjuster": "screw"}[mount]
        assert float(one["kept"]) == pytest.approx(fitted + more, abs=PRINTED)
        assert float(one["wanted"]) == pytest.approx(wants(bench, mount) - grown, abs=PRINTED)
        assert float(one["width"]) == pytest.approx(float(now.width(again, fitted + grown)), abs=PRINTED)
        assert float(one["was"]) == pytest.approx(float(was.slack(rise, fitted)), abs=PRINTED)
        left = float(kept.slack(rise, fitted + grown))
        assert float(one["left"]) == pytest.approx(left, abs=PRINTED)
        loud = left < -PRINTED or (lifter == "hydraulic" and left > first.v["plunger_travel"])
        following = text[one.end() :].partition("wants")[0]
        assert bool(re.search("WARNING .*(HELD OPEN|LOOSE)", following)) == loud
        if not given.get("temperature_rise"):
            ordered = float(
                bench.slack(bench.rise_of(float(one["wanted"])) if mount == "stud" else 0.0, float(one["wanted"]))
            )
            declared = first.v["lash"] if lifter == "solid" else first.v["preload"]
            assert ordered == pytest.approx(declared, abs=1.3 * bench.v["rocker_ratio"] * PRINTED)
