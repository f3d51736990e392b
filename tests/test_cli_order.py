"""The command `order` as a builder runs it."""

from __future__ import annotations

import csv
import html
import re
from pathlib import Path

import pytest

from tests.shop.larkspur import stock_file
from valvegeo import choose, locate, read_build, read_pushrod_list
from valvegeo.cli import main
from valvegeo.records.files.tidy import read_tidy
from valvegeo.shop.cautions import BY_KEY, CAUTIONS
from valvegeo.views.wording.caution_words import three_lines

DATA = Path(__file__).parents[1] / "data"

SIX, STAND, STOCK = (str(DATA / f"larkspur_{name}.csv") for name in ("six", "stand", "stock"))

DELIVERED = str(DATA / "larkspur_delivered.csv")


def results_of(tmp_path: Path, build: str, *more: str) -> dict[tuple[str, str, str], float | str]:
    path = tmp_path / "results.csv"
    assert main(["order", "--details", build, STOCK, "--results", str(path), *more]) == 0
    return {(row.valve, row.case, row.quantity): row.value for row in read_tidy(path)}


def words(text: str) -> str:
    return " ".join(text.split())


def test_results_of_an_engine_on_studs(tmp_path: Path) -> None:
    found = results_of(tmp_path, SIX)
    build = read_build(SIX)
    order = choose(locate(build.valvetrain), read_pushrod_list(STOCK)).ordered
    expected = ["stock_label", "pushrod_length", "length_error", "sweep_width", "sweep_centre", "penalty"]
    for index, valve in enumerate(build.valves):
        assert [quantity for name, case, quantity in found if (name, case) == (valve, "ordered")] == expected
        assert found[valve, "ordered", "stock_label"] == order.stock_label[index]
        assert found[valve, "ordered", "pushrod_length"] == order.pushrod_length[index]
    assert {case for _, case, _ in found} == {"ordered", "nut_5/16-24", "nut_3/8-24", "nut_7/16-20"}


def test_results_of_a_stand_have_lash_and_what_to_make(tmp_path: Path) -> None:
    found = results_of(tmp_path, STAND)
    assert 0.010 <= float(found["intake", "ordered", "lash_ordered"]) <= 0.030
    assert ("exhaust", "ordered", "pushrod_length") not in found
    assert float(found["exhaust", "to_make", "pushrod_length"]) > 7.0
    assert ("exhaust", "to_make", "stock_label") not in found


def test_a_wider_window_serves_the_valve_that_was_left(tmp_path: Path) -> None:
    found = results_of(tmp_path, STAND, "--lash-most", "0.050", "--lash-least", "0")
    assert ("exhaust", "ordered", "lash_ordered") in found
    assert not [case for _, case, _ in found if case == "to_make"]


def test_unserved_valves_are_named_loudly_and_the_exit_is_zero(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", "--details", STAND, STOCK]) == 0
    printed = words(capsys.readouterr().out)
    assert "One length serves 1 of the 2 valves" in printed
    assert (
        "no stock length serves exhaust: have made 8.210 in overall, over 0.3125 in balls with 0.100 in flats"
        in printed
    )


@pytest.mark.parametrize("build", [SIX, STAND])
def test_report_fits_a_hundred_columns_in_plain_figures(build: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", "--details", build, STOCK, "--spares", "2", "--delivered", DELIVERED]) == 0
    printed = capsys.readouterr().out
    assert max(map(len, printed.splitlines())) <= 100
    assert set(re.findall(r"\d\.\d{4,}", printed)) <= {"8.3125", "0.3125"}  # as typed
    assert not re.search(r"nan|[+-]0\.000 ", printed)


def test_report_says_what_to_order_what_it_costs_and_what_to_leave(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", "--details", SIX, STOCK, "--spares", "1", "--delivered", DELIVERED]) == 0
    printed = words(capsys.readouterr().out)
    assert "2 different lengths serve all 12 valves; fewer will not do" in printed
    assert "LK-8100 7 8.100 in overall 0.3125 0.100 7.804 8.100 8.083 0.140" in printed
    assert "LG-8500 7 8.500 in gauge 0.3125 0.100 8.221 8.517 8.500 0.140" in printed
    assert "made to measure instead, in steps of 0.010 in overall, over 0.3125 in balls with 0.100 in flats" in printed
    assert "do not take the lash or preload out again" in printed
    assert printed.count("OUTSIDE, do not fit") == 1
    assert BY_KEY["one_before_the_set"].line in printed


def test_order_sheet_is_in_the_supplier_s_convention_with_the_others_beside(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.csv"
    assert main(["order", "--details", STAND, STOCK, "--sheet", str(sheet), "--spares", "3"]) == 0
    with open(sheet, newline="", encoding="utf-8") as file:
        stocked, made = csv.DictReader(file)
    assert (stocked["label"], stocked["source"], stocked["pieces"], stocked["spares"]) == ("LK-8150", "stock", "4", "3")
    assert (stocked["length"], stocked["unit"], stocked["measured_as"]) == ("8.15", "in", "overall")
    assert float(stocked["overall_in"]) == 8.150
    assert float(stocked["ball_centre_in"]) == pytest.approx(8.150 - (0.3125**2 - 0.100**2) ** 0.5, abs=0.0005)
    assert float(stocked["gauge_in"]) == pytest.approx(7.8539 + (0.3125**2 - 0.140**2) ** 0.5, abs=0.001)
    assert (made["source"], made["length"], made["valves"]) == ("to be made", "8.21", "exhaust")


def test_page_holds_sheet_drawings_and_cautions_and_loads_nothing(tmp_path: Path) -> None:
    page = tmp_path / "order.html"
    assert main(["order", "--details", SIX, STOCK, "--page", str(page), "--delivered", DELIVERED]) == 0
    text = page.read_text(encoding="utf-8")
    assert "8.500 in gauge" in text
    assert "Overall: jaws over the ends" in text
    assert "OUTSIDE, do not fit" in text
    assert all(one.words in html.unescape(text) for one in CAUTIONS)
    body = re.sub(r"<script.*?</script>", "", text, flags=re.DOTALL)
    assert not re.search(r"""(?:src|href)\s*=\s*["']?https?:""", body)


def test_order_repeats_what_sizing_warns_of_and_echoes_the_check(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    far = tmp_path / "far.csv"
    text = Path(SIX).read_text(encoding="utf-8")
    far.write_text(text.replace("check_pivot_height,in,0.127", "check_pivot_height,in,0.260"), encoding="utf-8")
    page = tmp_path / "p.html"
    assert main(["order", "--details", str(far), STOCK, "--page", str(page)]) == 0
    printed = words(capsys.readouterr().out)
    assert "WARNING" in printed
    assert "1-intake: the length changes by more than 0.25 in" in printed
    assert "4-exhaust: the narrowest band stands 0.043 in outboard of centre" in printed
    assert "checked with 8.3125 in overall (8.000 in ball centre to ball centre)" in printed
    shown = words(page.read_text(encoding="utf-8"))
    assert "1-intake: the length changes by more than 0.25 in" in shown
    assert "8.3125 in overall (8.000 in ball centre to ball centre)" in shown


def test_long_labels_stay_apart(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    labels = [f"SUPPLIER-OF-A-LONG-NAME-5/16x080-{length}-POLISHED-AND-HARDENED" for length in (8100, 8500)]
    stock = stock_file(
        tmp_path / "s.csv",
        f"{labels[0]},8.100,in,overall,0.3125,,0.100",
        f"{labels[1]},8.500,in,overall,0.3125,,0.100",
    )
    page = tmp_path / "p.html"
    assert main(["order", "--details", SIX, stock, "--page", str(page)]) == 0
    printed = capsys.readouterr().out
    assert max(map(len, printed.splitlines())) <= 100
    table = [line.split()[0] for line in printed.splitlines() if re.match(r"SUPP~#\d ", line)]
    assert table == ["SUPP~#1", "SUPP~#2"]
    assert all(f"SUPP~#{place} is {label}" in words(printed) for place, label in enumerate(labels, start=1))
    shown = page.read_text(encoding="utf-8")
    assert all(f"<td>{label}</td>" in shown for label in labels)


def test_unlike_balls_and_flats_are_warned_of(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    stock = stock_file(tmp_path / "s.csv", "small,8.100,in,overall,0.3125,,0.100", "large,8.5925,in,overall,0.375,,")
    assert main(["order", "--details", SIX, stock]) == 0
    printed = words(capsys.readouterr().out)
    assert "differ in ball (0.3125, 0.375)" in printed
    assert "differ in oil-hole flat" in printed
    assert "the check was made with a ball of 0.3125 in" in printed


def test_step_of_made_lengths_can_be_chosen_and_is_round_in_the_list_s_unit(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stock = stock_file(tmp_path / "s.csv", "mm,205.00,mm,overall,7.9375,,")
    assert main(["order", "--details", SIX, stock]) == 0
    printed = capsys.readouterr().out
    made = [float(found) for found in re.findall(r"made (\d+\.\d\d)\b", printed)]
    assert made
    assert all(round(length / 0.25, 6).is_integer() for length in made)
    assert main(["order", "--details", SIX, STOCK, "--step", "0.025"]) == 0
    assert "made to measure instead, in steps of 0.025 in" in words(capsys.readouterr().out)


def test_a_made_length_is_told_once_for_all_its_valves_and_set_like_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stock = stock_file(tmp_path / "s.csv", "short,8.100,in,overall,0.3125,,0.100")
    assert main(["order", "--details", SIX, stock]) == 0
    printed = capsys.readouterr().out
    assert words(printed).count("no stock length serves") == 1
    (made,) = set(re.findall(r"made \d\.\d{3}(?= +\d +\d\.)", printed))
    left = [f"{cylinder}-exhaust" for cylinder in range(1, 7)]
    for valve in left:
        assert re.search(rf"^{valve} +{made} ", printed, re.MULTILINE)
    setting = printed.split("Setting the nuts")[1]
    assert all(re.search(rf"^{valve} +\+", setting, re.MULTILINE) for valve in [*left, "1-intake"])
    nuts = " +".join(f"turns, {size} nut" for size in ("5/16-24", "3/8-24", "7/16-20"))
    assert re.search(rf"^valve +{nuts} +by the rule, 3/8-24$", setting, re.MULTILINE)
    changed = "pivot, zero lash +pivot, set +sweep, zero lash +sweep, set +marks, zero lash"
    assert re.search(rf"^valve +{changed}$", setting, re.MULTILINE)


def test_an_assumed_gauge_hole_is_said_and_a_listed_one_is_not(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = ["a,8.083,in,gauge,0.3125,0.125,0.100", "b,8.500,in,gauge,0.3125,0.125,0.100"]
    assert main(["order", "--details", SIX, stock_file(tmp_path / "g.csv", *rows)]) == 0
    printed = words(capsys.readouterr().out)
    assert "over the gauge, 0.125 in holes on 0.3125 in balls with 0.100 in flats for the oil holes" in printed
    assert "gives none" not in printed
    assert main(["order", "--details", SIX, STOCK]) == 0
    assert "gauge lengths are over holes of 0.140 where the list gives none: ask" in words(capsys.readouterr().out)


def test_a_supplier_s_own_length_is_not_rounded(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = ["a,8.0625,in,overall,0.3125,,0.100", "b,8.53125,in,overall,0.3125,,0.100"]
    sheet = tmp_path / "sheet.csv"
    found = main(
        ["order", "--details", SIX, stock_file(tmp_path / "s.csv", *rows), "--sheet", str(sheet), "--allowance", "0.05"]
    )
    assert found == 0
    assert "8.0625 in overall" in capsys.readouterr().out
    with open(sheet, newline="", encoding="utf-8") as file:
        assert {"8.0625"} <= {row["length"] for row in csv.DictReader(file)}


def test_cautions_are_those_of_the_engine_s_lifters(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", "--details", STAND, STOCK]) == 0
    stand = words(capsys.readouterr().out)
    assert main(["order", "--details", SIX, STOCK]) == 0
    studs = words(capsys.readouterr().out)
    assert (BY_KEY["feeler_decides"].line in stand, BY_KEY["feeler_decides"].line in studs) == (True, False)
    assert (BY_KEY["plunger_bleeds_down"].line in stand, BY_KEY["plunger_bleeds_down"].line in studs) == (False, True)
    for printed, lifter in ((stand, "solid"), (studs, "hydraulic")):
        assert words("\n".join(three_lines("order", [lifter]))) in printed


def test_page_draws_what_each_valve_pays_under_a_headline(tmp_path: Path) -> None:
    page = tmp_path / "order.html"
    assert main(["order", "--details", STAND, STOCK, "--page", str(page)]) == 0
    text = page.read_text(encoding="utf-8")
    assert "<p>One length serves 1 of the 2 valves." in text
    assert "What it costs each valve" in text
    assert "lash or preload off by" in text
    assert BY_KEY["shims_and_oil"].words in html.unescape(text)
