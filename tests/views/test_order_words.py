"""An order's sentences, each condition from both sides (Larkspur, INVENTED)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.answers.larkspur import DATA, ordered
from tests.views.reports import HYDRAULIC, SOLID, build_text
from valvegeo import read_build, read_pushrod_list
from valvegeo.answers.order import OrderAnswer, answer_order
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.fewest import NOBODY
from valvegeo.views.wording import order_words


def on_stands(folder: Path, rows: dict[str, list[str]], limits: Limits | None = None) -> OrderAnswer:
    """Order for Larkspur's stands with other rows."""
    path = folder / "build.csv"
    path.write_text(build_text("stand", rows), encoding="utf-8")
    build = read_build(path)
    return answer_order(build, read_pushrod_list(DATA / "larkspur_stock.csv"), limits)


@pytest.mark.parametrize(
    ("rows", "window"),
    [
        (SOLID, "0.010 to 0.030 in lash"),
        (SOLID | {"lash": ["0.045"]}, "0.010 to 0.045 in lash"),
        (SOLID | {"lash": ["0.004"]}, "0.004 to 0.030 in lash"),
        (HYDRAULIC, "0.020 to 0.060 in preload"),
        (HYDRAULIC | {"preload": ["0.080"]}, "0.020 to 0.080 in preload"),
        (HYDRAULIC | {"plunger_travel": ["0.050"]}, "0.020 to 0.050 in preload"),
    ],
)
def test_the_window_told_is_the_one_that_is_let_pass(tmp_path: Path, rows: dict[str, list[str]], window: str) -> None:
    answer = on_stands(tmp_path, rows)
    (said,) = [one for one in order_words.meaning(answer) if "declared one" in one]
    assert said.endswith(f"off the declared one; {window} will do")
    least, most = (float(end) for end in window.split(" in ")[0].split(" to "))
    fits, setting = answer.order.fits, answer.order.fits.pose.setting
    inside = (least - 1e-9 <= setting) & (setting <= most + 1e-9)
    on_flat = fits.sweep.off_flat_by(answer.sizing.mechanism.flat) <= 0.0
    assert inside.any()
    np.testing.assert_array_equal(fits.allowed, inside & on_flat)


def test_windows_that_differ_are_told_with_their_valves(tmp_path: Path) -> None:
    path = tmp_path / "build.csv"
    text = build_text("stand", SOLID).replace("lash,in,0.016,0.016", "lash,in,0.045,0.016")
    path.write_text(text, encoding="utf-8")
    build = read_build(path)
    answer = answer_order(build, read_pushrod_list(DATA / "larkspur_stock.csv"), Limits(lash_most=0.04))
    (said,) = [one for one in order_words.meaning(answer) if "declared one" in one]
    assert said.endswith(
        "off the declared one; 0.010 to 0.045 in lash (intake); 0.010 to 0.040 in lash (exhaust) will do"
    )


def test_no_window_is_told_of_studs() -> None:
    assert not [one for one in order_words.meaning(ordered("six")) if "declared one" in one]
    assert all(np.isnan(one.window).all() for one in ordered("six").valves)


def test_fewer_cannot_is_said_of_the_valves_that_are_served() -> None:
    order = ordered("six").order
    assert order_words.headline(order) == "2 different lengths serve all 12 valves; fewer will not do"
    left = replace(order, choice=np.where(np.arange(12) == 3, NOBODY, order.choice))
    assert order_words.headline(left) == "2 different lengths serve 11 of the 12 valves; fewer will not do for those 11"
    one = replace(order, choice=np.full(12, order.choice[0]), lines=order.lines[:1])
    assert order_words.headline(one) == "one length serves all 12 valves"
    nobody = replace(order, choice=np.full(12, NOBODY))
    assert order_words.headline(nobody) == "none of the 12 valves is served by this stock"
