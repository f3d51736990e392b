"""Panels and figures in millimetres: what they say, show and take, held against the same in inches by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.views.larkspur import build
from tests.views.test_in_millimetres import MM, ROUNDED, metric, numbers
from valvegeo import read_build, read_pushrod_list
from valvegeo.answers.order import answer_order
from valvegeo.answers.panels.photograph import invented_photograph
from valvegeo.answers.size import answer_size
from valvegeo.findings.lengths import asked_for, speak_everywhere, speaking
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.lengths import End
from valvegeo.views.drawings.checking_drawing import plan_shapes
from valvegeo.views.drawings.figures import views_of
from valvegeo.views.drawings.order_figures import paid_figure, wanted_figure
from valvegeo.views.live.base import LivePanel
from valvegeo.views.live.handle import Handle
from valvegeo.views.live.notebook import prepare
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.marks.photo import PhotoPanel
from valvegeo.views.orders.changes_panel import ChangesPanel
from valvegeo.views.orders.plan_panel import PlanPanel
from valvegeo.views.pushrod.panel import PushrodPanel

DATA = Path(__file__).parents[2] / "data"
DONOR = Donor(length=8.250, diameter=0.3125, wall=0.080, end=End(ball_diameter=0.3125, end_flat=0.100))
WISH = Wish(target=7.950, shorter=0.200, longer=0.350)

__all__ = ["metric"]


def _photo(units: str | None) -> PhotoPanel:
    intake = take(build("pair").valvetrain, 0)
    return PhotoPanel(invented_photograph(intake, 8.0), intake, 8.0, units=units)


def _marks(units: str | None) -> MarkPanel:
    return MarkPanel(build("pair"), read_marks(DATA / "larkspur_marks.csv", build("pair")), units)


PANELS: dict[str, Callable[[str | None], LivePanel[Any]]] = {
    "pushrod, stud": lambda units: PushrodPanel(build("pair"), units),
    "pushrod, stand": lambda units: PushrodPanel(build("stand"), units),
    "pushrod, adjuster": lambda units: PushrodPanel(build("adjuster"), units),
    "changes": lambda units: ChangesPanel(build("pair"), units=units),
    "plan": lambda units: PlanPanel(DONOR, WISH, units),
    "marks": _marks,
    "photograph": _photo,
}
"""Panel of Larkspur (INVENTED) -> how to make it."""

MOVES: dict[str, Callable[[Any], None]] = {
    "pushrod, stud": lambda panel: set_handle(panel, "pushrod_length", 7.9),
    "pushrod, stand": lambda panel: set_handle(panel, "pivot_height", 0.10),
    "pushrod, adjuster": lambda panel: set_handle(panel, "pushrod_length", 7.96),
    "changes": lambda panel: set_handle(panel, "tip_height_change", 0.06),
    "plan": lambda panel: set_handle(panel, "travel_longer", 0.2),
    "marks": lambda panel: setattr(panel.places[8], "value", 0.181),
    "photograph": lambda panel: setattr(panel.pixels["half lift"], "value", 247.5),
}
"""Panel -> what is done with it, in inches."""


def set_handle(panel: Any, name: str, value: float) -> None:
    panel.sliders[name].value = value


@pytest.fixture(autouse=True)
def nobody_asked() -> Iterator[None]:
    speak_everywhere(None)
    yield
    speak_everywhere(None)


@pytest.mark.parametrize("moved", [False, True], ids=["as it starts", "moved"])
@pytest.mark.parametrize("name", PANELS)
def test_a_panel_says_the_same_in_either_unit(name: str, moved: bool) -> None:
    inches, millimetres = (PANELS[name](unit) for unit in ("in", "mm"))
    if moved:
        for panel in (inches, millimetres):
            MOVES[name](panel)
            assert panel.trouble.value == ""
    assert inches.value == millimetres.value
    told = [numbers(panel.says, has_list=False) for panel in (inches, millimetres)]
    assert len(told[0]) == len(told[1])
    lengths = 0
    for (inch, of_inch), (millimetre, of_millimetre) in zip(*told, strict=True):
        if of_inch or len(inch.partition(".")[2]) >= 3:
            lengths += 1
            assert float(millimetre) == pytest.approx(MM * float(inch), abs=ROUNDED)
            assert (of_inch, of_millimetre) in {("in", "mm"), ("", "")}
        else:
            assert inch == millimetre
    assert lengths >= 1
    assert "[in]" not in millimetres.numbers.value
    assert ("[mm]" in millimetres.numbers.value) == ("[in]" in inches.numbers.value)


@pytest.mark.parametrize("name", [name for name in PANELS if name != "photograph"])
def test_handles_of_lengths_show_and_take_millimetres(name: str) -> None:
    inches, millimetres = (PANELS[name]("in"), PANELS[name]("mm"))
    of = (lambda panel: panel.places) if name == "marks" else (lambda panel: list(panel.sliders.values()))
    seen = 0
    for inch, millimetre in zip(of(inches), of(millimetres), strict=True):
        if not isinstance(inch, Handle):
            continue
        assert millimetre.value == inch.value
        if "[in]" in inch.description or name == "marks":
            seen += 1
            assert "[in]" not in millimetre.description
            assert float(millimetre.reading) == pytest.approx(MM * float(inch.reading), abs=ROUNDED)
            assert millimetre.min <= inch.min + 1e-9
            assert millimetre.max >= inch.max - 1e-9
            step = MM * millimetre.step
            assert step == pytest.approx(float(f"{step:.1g}"), rel=1e-9)  # one round number
            assert 0.4 * inch.step <= millimetre.step <= inch.step
        else:
            assert (millimetre.description, millimetre.reading) == (inch.description, inch.reading)
    assert seen >= 2


def test_a_number_typed_in_millimetres_is_the_length_that_it_means() -> None:
    panel = PushrodPanel(build("pair"), "mm")
    handle = panel.sliders["pushrod_length"]
    slider, box = handle.children
    assert handle.description == "pushrod length [mm]"
    box.value = "200.66"
    assert panel.value.pushrod_length == 7.9
    assert box.value == "200.66"
    slider.value += 1
    assert panel.value.pushrod_length == pytest.approx(200.68 / MM, abs=1e-12)
    assert box.value == "200.68"
    box.value = "long"
    assert box.value == "200.68"
    panel.undo.click()
    assert box.value == "200.66"


def test_a_trial_s_pushrod_is_typed_in_millimetres() -> None:
    panel = _marks("mm")
    box = panel.lengths["1"]
    assert box.description == "trial 1: pushrod [mm or turns]"
    before = float(box.value)
    assert before == pytest.approx(MM * panel.value.trials["1"], abs=1e-9)
    box.value = "201.93"
    assert panel.value.trials["1"] == 7.95
    box.value = "7.95"
    assert "50.8 to 508 mm" in panel.trouble.value
    noise = panel.noises[0]
    noise.value = 0.254
    assert panel.value.lines[0].reading.uncertainty == pytest.approx(0.010, abs=1e-12)


def test_two_ends_are_in_millimetres() -> None:
    panel = PlanPanel(DONOR, WISH, "mm")
    assert panel.value.wish.guide_plate is None
    panel.sliders["guide_plate"].value = (38.1, 76.2)
    assert panel.value.wish.guide_plate == pytest.approx((1.5, 3.0))
    panel.back.click()
    assert panel.value.wish.guide_plate is None


AXES = {"contact": ("valve lift [mm]", "from centre, outboard up [mm]"), "ratio": ("valve lift [mm]", "ratio")}


@pytest.mark.parametrize("name", AXES)
def test_curves_stand_over_millimetres(name: str) -> None:
    scene = answer_size(build("pair"), drawn=True).valves[0].scene
    assert scene is not None
    inch = views_of(scene)
    with speaking("mm"):
        millimetre = views_of(scene)
    plots = inch.plots[name], millimetre.plots[name]  # type: ignore[index]
    assert (plots[1].xaxis.axis_label, plots[1].yaxis.axis_label) == AXES[name]
    up = MM if name == "contact" else 1.0
    for way, factor in (("x_range", MM), ("y_range", up)):
        ends = [(getattr(plot, way).start, getattr(plot, way).end) for plot in plots]
        assert ends[1] == pytest.approx([factor * end for end in ends[0]])
    rows = [
        (row, layer) for row, layer in enumerate(inch.source.data["layer"]) if str(layer).startswith(f"{name} line")
    ]
    assert rows
    for row, _ in rows:
        for of, factor in (("xs", MM), ("ys", up)):
            assert millimetre.source.data[of][row] == pytest.approx(
                [factor * x for x in inch.source.data[of][row]], nan_ok=True
            )


def test_what_is_drawn_to_scale_keeps_its_shape() -> None:
    with speaking("mm"):
        drawn = plan_shapes(PlanPanel(DONOR, WISH).value)
    shapes = plan_shapes(PlanPanel(DONOR, WISH).value)
    assert [shape.xs for shape in drawn] == [shape.xs for shape in shapes]
    said = [shape.text for shape in drawn if "longest, " in shape.text]
    assert said == [f"longest, {MM * PlanPanel(DONOR, WISH).value.longest:.2f} ball centre to ball centre"]


def test_an_order_is_drawn_over_millimetres() -> None:
    order = answer_order(build("pair"), read_pushrod_list(DATA / "larkspur_stock.csv")).order
    with speaking("mm"):
        wanted, paid = wanted_figure(order, ["I", "E"]), paid_figure(order, ["I", "E"])
    assert wanted.xaxis.axis_label == "ball centre to ball centre [mm]"
    assert str(paid.xaxis.axis_label).endswith("[mm]")
    (circles,) = (one for one in wanted.renderers if getattr(one.glyph, "marker", "") == "circle")
    assert circles.data_source.data["x"] == pytest.approx((MM * order.fits.wanted_length).tolist())


def test_a_panel_speaks_the_build_s_unit_unless_the_notebook_or_the_caller_says_otherwise(
    metric: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("VALVEGEO_LEAN_OUTPUT", "1")
    assert PushrodPanel(read_build(metric)).units == "mm"
    assert PushrodPanel(build("pair")).units == "in"
    assert PushrodPanel(read_build(metric), units="in").units == "in"
    prepare(units="mm")
    assert PushrodPanel(build("pair")).units == "mm"
    assert PlanPanel(DONOR, WISH).units == "mm"
    assert PushrodPanel(build("pair"), units="in").units == "in"
    prepare()
    assert asked_for() is None


def test_a_panel_leaves_the_unit_of_the_cell_it_stands_in_alone() -> None:
    panel = PushrodPanel(build("pair"), "mm")
    panel.jump.click()
    assert "mm" in panel.says
    assert asked_for() is None


@pytest.mark.parametrize("name", PANELS)
def test_another_unit_is_refused_by_name(name: str) -> None:
    with pytest.raises(ValueError, match="lengths are told in in or mm, not in 'cm'"):
        PANELS[name]("cm")
