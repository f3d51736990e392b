"""True to scale in a real browser: an inch across is as many pixels as an inch up, at every width."""

from __future__ import annotations

import pytest
from bokeh.embed import file_html
from bokeh.resources import INLINE

from tests.browser.lab import browser, comes_to_stand, watched
from tests.views.larkspur import tuning
from valvegeo.answers.panels.tuning import at_best
from valvegeo.views.drawings import figures, plots

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::ResourceWarning")]

SCALES = """() => {
    const found = {};
    const walk = (view) => {
        if (view.model.name === 'mechanism' || view.model.name === 'tip') {
            const {x_range: x, y_range: y, bbox} = view.frame;
            found[view.model.name] = [bbox.width / (x.end - x.start), bbox.height / (y.end - y.start)];
        }
        for (const child of view.child_views ?? []) walk(child);
    };
    for (const root of Object.values(Bokeh.index)) walk(root);
    return found;
}"""


def test_circles_stay_round_from_phone_to_wide_screen(tmp_path):
    shown = tuning("pair")
    source = plots.source_of(figures.shapes_of(shown.scene()))
    layout = figures.views(source, figures.envelope([shown.scene(), at_best(shown).scene()])).layout
    path = tmp_path / "figures.html"
    path.write_text(file_html(layout, INLINE, "figures"), encoding="utf-8")
    with browser() as running:
        for width in (380, 700, 1120, 1800):
            seen = watched(running, width)
            seen.page.goto(path.as_uri())
            seen.page.wait_for_function("window.Bokeh && Bokeh.documents.length && Bokeh.documents[0].is_idle")
            scales = comes_to_stand(seen.page, SCALES)
            assert set(scales) == {"mechanism", "tip"}
            for across, up in scales.values():
                assert across == pytest.approx(up, rel=0.005), width
            assert seen.errors == []
            assert seen.outside == []
            seen.page.close()
