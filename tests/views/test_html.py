"""Tables and sections in notebooks: numbers under each other, everything escaped, and shown by a notebook itself."""

from __future__ import annotations

import numpy as np
import pytest
from IPython.core.formatters import DisplayFormatter

from tests.views.larkspur import cell
from valvegeo.views.live.html import sections_html, table_html
from valvegeo.views.live.notebook import show_tables
from valvegeo.views.wording import words
from valvegeo.views.wording.sections import Section, Table

TABLE = Table(("", "ends", "a < b"), (("<left>", "ball", "1.000"), ("right & left", "cup", "–")), names=2)


def test_a_table_has_its_names_to_the_left_and_everything_escaped():
    written = table_html(TABLE)
    assert written.count('<th scope="col"') == 2
    assert written.count('<th scope="row"') == 4
    assert written.count("<tr>") == 3
    assert "a &lt; b</th>" in written
    assert "&lt;left&gt;</th>" in written
    assert ">1.000</td>" in written
    assert "right &amp; left" in written


def test_sections_have_title_table_and_sentences_in_this_order():
    written = sections_html([Section("Once & again", ("first", "then"), TABLE), Section(sentences=("alone",))])
    places = [
        written.index(part) for part in ("<h4>Once &amp; again</h4>", "<table", "<p>first", "<p>then", "<p>alone")
    ]
    assert places == sorted(places)


def test_a_notebook_shows_a_table_as_a_table():
    formatter = DisplayFormatter()
    show_tables(formatter)
    shown, _ = formatter.format(TABLE)
    assert shown["text/html"] == table_html(TABLE)
    assert shown["text/plain"] == "              ends  a < b\n<left>        ball  1.000\nright & left  cup   –"


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (0.1234, "0.123"),
        (np.array(-0.0001), "0.000"),
        (np.float64(-0.03), "-0.030"),
        (np.nan, "–"),
        ("as it is", "as it is"),
    ],
)
def test_cells_are_numbers_to_thousandths_or_words(value, written):
    assert cell(words.by_row(("now",), {"row": (value,)}), "row", "now") == written


def test_columns_are_laid_out_beside_each_other():
    table = words.by_column({"one": {"a": 1.0, "b": 2.0}, "other": {"b": np.nan, "a": 3.0}}, missing="none")
    assert table == Table(("", "one", "other"), (("a", "1.000", "3.000"), ("b", "2.000", "none")))
