"""Order figures and sheet: every glyph and cell beside the length, size or sign that its name says."""

from __future__ import annotations

import csv
import io
import json
import re
from math import sqrt
from pathlib import Path

import numpy as np
import pytest
from bokeh.models import HBar, Line, Scatter, Segment, Text
from bokeh.plotting import figure

from tests.shop.larkspur import stock_file
from tests.views.larkspur import DATA, build
from valvegeo import read_build, read_pushrod_list, size
from valvegeo.answers.order import OrderAnswer, answer_order
from valvegeo.records.files.build_file import Build
from valvegeo.shop.limits import Limits
from valvegeo.views.drawings.order_figures import paid_figure, wanted_figure
from valvegeo.views.printed.order_sheet import sheet_text
from valvegeo.views.printed.page import order_page

BALL, FLAT, HOLE = 0.3125, 0.100, 0.140
"""Of the ends in Larkspur's list."""

TO_FLAT, TO_HOLE = (sqrt((BALL / 2) ** 2 - (chord / 2) ** 2) for chord in (FLAT, HOLE))
"""From a ball's centre to its flat, and to a gauge hole's edge on it."""


def answered(one: Build, stock: Path = DATA / "larkspur_stock.csv", **more: int | Limits) -> OrderAnswer:
    return answer_order(one, read_pushrod_list(stock), **more)


@pytest.fixture(scope="module")
def answer() -> OrderAnswer:
    return answered(build("six"), spares=1)


def centres() -> dict[str, float]:
    """Label -> ball centre to ball centre, from the list's own cells."""
    lines = (DATA / "larkspur_stock.csv").read_text(encoding="utf-8").splitlines()
    found = {}
    for row in csv.DictReader(line for line in lines if line[0] != "#"):
        length = float(row["length"]) / (25.4 if row["unit"] == "mm" else 1.0)
        over = {"overall": TO_FLAT if row["end_flat"] else BALL / 2, "gauge": TO_HOLE}[row["measured_as"]]
        found[row["label"]] = length - 2 * over
    return found


def glyphs(plot: figure, kind: type) -> list:
    return [renderer for renderer in plot.renderers if isinstance(renderer.glyph, kind)]


def keyed(plot: figure, label: str) -> dict[str, list]:
    """Columns of what a figure's key gives a label."""
    (key,) = [model for model in plot.above if hasattr(model, "items")]
    (item,) = [item for item in key.items if item.label.value == label]
    return item.renderers[0].data_source.data


def test_each_look_in_the_key_is_the_length_it_names(answer: OrderAnswer) -> None:
    plot = wanted_figure(answer.order, answer.build.valves)
    best = size(build("six").valvetrain).best.pushrod_length
    assert keyed(plot, "wanted")["x"] == pytest.approx(best.tolist(), abs=1e-9)
    labels = answer.order.ordered.stock_label.tolist()
    assert keyed(plot, "ordered")["x"] == pytest.approx([centres()[label] for label in labels], abs=1e-9)
    assert set(np.round(keyed(plot, "in the list, serves")["x"], 3)) <= {round(x, 3) for x in centres().values()}
    assert plot.xaxis.axis_label == "ball centre to ball centre [in]"
    assert len(glyphs(plot, Scatter)) == 3


def test_a_line_runs_from_what_is_wanted_to_what_is_ordered(answer: OrderAnswer) -> None:
    plot = wanted_figure(answer.order, answer.build.valves)
    (link,) = glyphs(plot, Segment)
    data = link.data_source.data
    wanted, got = keyed(plot, "wanted"), keyed(plot, "ordered")
    ends = {name: data[getattr(link.glyph, name)] for name in ("x0", "x1", "y0", "y1")}
    assert (ends["x0"], ends["x1"]) == (wanted["x"], got["x"])
    assert ends["y0"] == ends["y1"] == list(answer.build.valves)
    assert np.abs(np.subtract(ends["x0"], ends["x1"])).max() > 0.005


def test_a_wanted_length_that_nothing_serves_has_room() -> None:
    left = answered(build("stand"))
    plot = wanted_figure(left.order, left.build.valves)
    wanted = keyed(plot, "wanted")["x"]
    assert left.order.served.tolist() == [True, False]
    assert plot.x_range.start < min(wanted) < max(wanted) < plot.x_range.end


def test_each_bar_says_what_its_valve_pays(answer: OrderAnswer) -> None:
    plot = paid_figure(answer.order, answer.build.valves)
    sized = size(build("six").valvetrain)
    (bars,), (said,) = glyphs(plot, HBar), glyphs(plot, Text)
    paid = dict(zip(bars.data_source.data["y"], bars.data_source.data["right"], strict=True))
    beyond = answer.order.ordered.sweep_width - sized.best.sweep_width
    assert [paid[valve] for valve in answer.build.valves] == pytest.approx(beyond.tolist(), abs=1e-9)
    texts = said.data_source.data
    told = {y: (text, x) for y, text, x in zip(texts["y"], texts["text"], texts["x"], strict=True)}
    for valve, cost in paid.items():
        assert float(told[valve][0]) == pytest.approx(cost, abs=6e-4)
        assert told[valve][1] == cost
    assert plot.x_range.start == 0.0
    assert plot.x_range.end > max(paid.values())


@pytest.mark.parametrize("allowance", [0.005, 0.0125])
def test_allowance_is_drawn_where_its_key_says(allowance: float) -> None:
    chosen = answered(build("six"), limits=Limits(sweep_allowance=allowance))
    plot = paid_figure(chosen.order, chosen.build.valves)
    (line,) = glyphs(plot, Line)
    assert line.data_source.data["x"] == [allowance, allowance]
    (key,) = [model for model in plot.above if hasattr(model, "items")]
    (label,) = [item.label.value for item in key.items if item.label.value.startswith("allowance")]
    assert float(label.split()[1]) == allowance
    assert plot.x_range.end > allowance


def test_an_engine_of_both_mounts_pays_in_both_ways(tmp_path: Path) -> None:
    path = tmp_path / "mixed.csv"
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    path.write_text(text.replace("mount,text,stud,stud", "mount,text,stud,stand"), encoding="utf-8")
    mixed = answered(read_build(path))
    plot = paid_figure(mixed.order, mixed.build.valves)
    assert plot.xaxis.axis_label == "band wider than its best by, or lash or preload off by [in]"
    assert glyphs(plot, Line) == []  # an allowance of sweep does not decide on a stand


def item_with(page: str, words: str) -> str:
    """The one drawing of a page that has some words in it."""
    items = re.findall(r'<script type="application/json" class="item">(.*?)</script>', page)
    (found,) = [item for item in items if words in item]
    return str(found)


def dimension_texts(page: str) -> dict[str, list[str]]:
    """Title of a figure on the page -> the words in it that give a length."""
    (item,) = [
        one
        for one in re.findall(r'<script type="application/json" class="item">(.*?)</script>', page)
        if "Gauge:" in one
    ]
    found: dict[str, list[str]] = {}

    def walk(part: object, title: str) -> None:
        if isinstance(part, list):
            for one in part:
                walk(one, title)
        elif isinstance(part, dict):
            if part.get("name") == "Figure":
                title = part["attributes"]["title"]["attributes"]["text"]
            if part.get("name") == "ColumnDataSource":
                words = json.dumps(part["attributes"]["data"])
                found.setdefault(title, []).extend(re.findall(r'"([\d.]+ in)"', words))
            for value in part.values():
                walk(value, title)

    walk(json.loads(item)["doc"]["roots"], "")
    return {title: words for title, words in found.items() if words}


def test_calipers_are_drawn_on_the_first_pushrod_of_the_order(answer: OrderAnswer) -> None:
    first, last = answer.lengths[0], answer.lengths[-1]
    assert first.label != last.label
    between = centres()[first.label]
    drawn = dimension_texts(order_page(answer, [answer.build.path]))
    shown = {title.split(":")[0]: float(words[0].split()[0]) for title, words in drawn.items()}
    expected = {"Ball centres": between, "Overall": between + 2 * TO_FLAT, "Gauge": between + 2 * TO_HOLE}
    assert shown == {name: pytest.approx(number, abs=6e-4) for name, number in expected.items()}


def test_no_calipers_are_drawn_where_no_ball_is_known(tmp_path: Path) -> None:
    listed = Path(stock_file(tmp_path / "s.csv", *(f"B{n},{7.70 + 0.02 * n:.3f},in,ball_centre,,," for n in range(40))))
    page = order_page(answered(build("six"), listed), [listed])
    assert "Where the calipers go" not in page
    assert "Wanted, and got from stock." in page


def test_the_page_s_rows_are_the_valves_own(answer: OrderAnswer) -> None:
    page = order_page(answer, [answer.build.path])
    (item,) = [
        one
        for one in re.findall(r'<script type="application/json" class="item">(.*?)</script>', page)
        if "What it costs each" in one
    ]
    factors = [json.loads(one) for one in re.findall(r'"factors":(\[[^]]*\])', item)]
    assert factors
    assert all(one == list(reversed(answer.build.valves)) for one in factors)
    first_rows = [json.loads(one) for one in re.findall(r'\["y",(\[[^]]*\])\]', item)]
    assert [one for one in first_rows if len(one) == len(answer.build.valves)]
    assert all(one == list(answer.build.valves) for one in first_rows if len(one) == len(answer.build.valves))


def sheet_of(answer: OrderAnswer) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(sheet_text(answer))))


def test_each_cell_of_the_sheet_stands_in_its_column(tmp_path: Path) -> None:
    wanted = float(size(build("pair").valvetrain).best.pushrod_length[0])
    over = 2 * TO_HOLE
    listed = stock_file(
        tmp_path / "s.csv", f"G1,{round(25.4 * (wanted + over), 1)},mm,gauge,7.9375,3.556,2.54",
        f"N1,{round(float(size(build('pair').valvetrain).best.pushrod_length[1]), 2)},in,ball_centre,,,",
    )  # fmt: skip
    rows = {row["label"]: row for row in sheet_of(answered(build("pair"), Path(listed), spares=2))}
    row, plain = rows["G1"], rows["N1"]
    length = round(25.4 * (wanted + over), 1)
    assert (row["source"], row["pieces"], row["spares"], row["valves"]) == ("stock", "3", "2", "intake")
    assert (float(row["length"]), row["unit"], row["measured_as"]) == (length, "mm", "gauge")
    sizes = [float(row[name]) for name in ("ball_diameter_in", "end_flat_in", "gauge_hole_in")]
    assert sizes == pytest.approx([BALL, FLAT, HOLE], abs=1e-9)
    between = length / 25.4 - over
    told = [float(row[name]) for name in ("ball_centre_in", "overall_in", "gauge_in")]
    assert told == pytest.approx([between, between + 2 * TO_FLAT, between + over], abs=6e-4)
    assert (plain["ball_diameter_in"], plain["overall_in"], plain["gauge_in"]) == ("", "", "")
    assert float(plain["ball_centre_in"]) == float(plain["length"])


def test_the_sheet_tells_stock_from_what_is_to_be_made() -> None:
    rows = sheet_of(answered(build("stand")))
    assert {row["valves"]: row["source"] for row in rows} == {"intake": "stock", "exhaust": "to be made"}
