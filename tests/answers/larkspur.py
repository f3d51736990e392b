"""Larkspur's files (INVENTED), answered once for the tests of answers."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from valvegeo import Build, Marks, Sizing, read_build, read_marks, read_pushrod_list
from valvegeo.answers.order import OrderAnswer, answer_order
from valvegeo.answers.read import ReadAnswer, answer_read
from valvegeo.answers.size import SizeAnswer, answer_size

DATA = Path(__file__).parents[2] / "data"


@cache
def build(name: str) -> Build:
    return read_build(DATA / f"larkspur_{name}.csv")


@cache
def marks() -> Marks:
    return read_marks(DATA / "larkspur_marks.csv", build("pair"))


@cache
def sized(name: str) -> SizeAnswer:
    return answer_size(build(name))


def valve(name: str, index: int = 0) -> Sizing:
    return sized(name).valves[index].sizing


@cache
def marks_read() -> ReadAnswer:
    return answer_read(build("pair"), marks(), valve_lifts={"intake": 0.50})


@cache
def ordered(name: str, came: bool = False, spares: int = 0) -> OrderAnswer:
    stock, delivered = (read_pushrod_list(DATA / f"larkspur_{name}.csv") for name in ("stock", "delivered"))
    return answer_order(build(name), stock, delivered=delivered if came else None, spares=spares)
