"""Names of threads in a cell."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builds import CENTRED
from tests.records.invented import build_lines, faults_of_build, write_lines
from valvegeo import Valvetrain, read_build
from valvegeo.findings.refusal import Refused
from valvegeo.records.cells.threads import read_thread
from valvegeo.shop.threads import THREADS


@pytest.mark.parametrize(
    ("name", "per_inch"),
    [
        ("10-32", 32), ("1/4-28", 28), ("5/16-24", 24), ("#10-32", 32), ("10 - 32", 32), ("32", 32),
        ("1/4-28 UNF", 28), ("28 TPI", 28), ("M6x1", 25.4), ("M6x1.0", 25.4), ("m5x0.8", 31.75), ("M8 × 1.25", 20.32),
        ("M6x.75", 25.4 / 0.75),        ("0-80", 80), ("8", 8),
    ],
)  # fmt: skip
def test_threads_in_an_inch(name: str, per_inch: float) -> None:
    thread = read_thread(name)
    assert thread.per_inch == pytest.approx(per_inch)
    assert thread.turns(1.0) == pytest.approx(per_inch)


@pytest.mark.parametrize("size", THREADS)
def test_every_thread_of_the_shop_is_read(size: str) -> None:
    assert read_thread(size).per_inch == THREADS[size].per_inch


@pytest.mark.parametrize(
    "name", ["fine", "M6", "M6x0", "M6x9", "10-", "-32", "10x32", "7", "81", "1/4-0", "10-320", "M6x1x2", "1e1", "٣٢"]
)
def test_what_is_no_thread_says_how_one_is_named(name: str) -> None:
    with pytest.raises(
        Refused, match="name the thread as 10-32, 1/4-28 or M6x1, or by its threads in an inch alone, 8 to"
    ):
        read_thread(name)


def test_row_of_a_build(tmp_path: Path) -> None:
    lines = build_lines(check_thread="check_thread,text,10-32,")
    build = read_build(write_lines(tmp_path / "build.csv", lines))
    first, second = build["I1"].thread, build["E1"].thread
    assert first is not None
    assert (first.name, first.per_inch) == ("10-32", 32)
    assert second is None


def test_fault_of_a_row(tmp_path: Path) -> None:
    (fault,) = faults_of_build(tmp_path / "build.csv", build_lines(check_thread="check_thread,text,10-32,fine"))
    assert (fault.column, fault.value) == ("E1", "fine")
    assert "10-32, 1/4-28, M6x1, or threads an inch such as 32" in fault.allowed
    assert "name the thread as 10-32" in fault.cure


def test_record_refuses_it_too() -> None:
    with pytest.raises(ValueError, match=r"check_thread: got fine; allowed: 10-32, .*name the thread"):
        Valvetrain.of(**CENTRED, check_thread="fine")
