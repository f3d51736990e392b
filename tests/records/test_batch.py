"""Batches of frozen records: one valve, every valve, and one put back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from valvegeo.records.batch import batch_shape, each, put, take


@dataclass(frozen=True)
class Inner:
    size: np.ndarray
    word: np.ndarray


@dataclass(frozen=True)
class Outer:
    name: str
    limit: float
    inner: Inner
    again: Inner
    curve: np.ndarray


@pytest.fixture
def whole() -> Outer:
    inner = Inner(np.array([1.0, 2.0, 3.0]), np.array("stud"))
    return Outer("what", 0.25, inner, inner, np.arange(6.0).reshape(2, 3))


def test_shape_is_what_all_arrays_broadcast_to(whole: Outer) -> None:
    assert batch_shape(whole) == (2, 3)
    assert batch_shape(whole.inner) == (3,)


def test_each_valve_is_the_one_taken(whole: Outer) -> None:
    for index, one in enumerate(each(whole)):
        taken = take(whole, index)
        assert (one.name, one.limit) == ("what", 0.25)
        np.testing.assert_array_equal(one.curve, taken.curve)
        np.testing.assert_array_equal(one.inner.size, taken.inner.size)
        np.testing.assert_array_equal(one.inner.word, taken.inner.word)
    assert len(each(whole)) == 3


def test_what_stands_twice_is_taken_once_and_shared(whole: Outer) -> None:
    first, *_ = each(whole)
    assert first.inner is first.again


def test_single_one_is_the_only_one(whole: Outer) -> None:
    (one,) = each(take(whole.inner, 1))
    assert float(one.size) == 2.0


def test_put_is_the_inverse_of_take(whole: Outer) -> None:
    changed = put(whole.inner, 1, Inner(np.array(9.0), np.array("stand")))
    assert changed.size.tolist() == [1.0, 9.0, 3.0]
    assert changed.word.tolist() == ["stud", "stand", "stud"]
