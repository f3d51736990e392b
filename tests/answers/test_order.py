"""The answer of `order`: what each valve gets, from stock or made, how nuts are set, and what came."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import build, ordered, sized
from valvegeo import choose
from valvegeo.shop.adjustment import nut_setting
from valvegeo.shop.threads import STUD_THREADS, THREADS


def test_every_valve_gets_what_was_chosen_for_it() -> None:
    answer = ordered("six")
    assert [one.name for one in answer.valves] == list(build("six").valves)
    chosen = choose(answer.sizing.mechanism, answer.stock).ordered
    for index, one in enumerate(answer.valves):
        assert one.stock_label == chosen.stock_label[index]
        assert one.pushrod_length == chosen.pushrod_length[index]
        assert one.length_error == pytest.approx(one.pushrod_length - one.wanted_length)
        assert one.sweep_width >= float(sized("six").sizing.best.sweep_width[index]) - 1e-12
        assert one.penalty >= 0.0
        assert np.isnan(one.setting)
    assert answer.left == ()
    assert answer.made is None
    assert not any(one.is_made for one in answer.lengths)
    assert all(one.is_made for one in answer.instead_lengths)


def test_a_valve_that_stock_does_not_serve_gets_a_made_one() -> None:
    answer = ordered("stand")
    assert answer.left == ("exhaust",)
    assert answer.made is not None
    intake, exhaust = answer.valves
    assert 0.010 <= intake.setting <= 0.030
    assert exhaust.pushrod_length == pytest.approx(float(answer.made.ordered.pushrod_length[0]))
    assert [(one.is_made, one.valves) for one in answer.lengths] == [(False, ("intake",)), (True, ("exhaust",))]
    assert answer.settings is None


def test_nuts_are_set_for_the_pushrods_ordered_in_each_thread() -> None:
    answer = ordered("six")
    assert answer.settings is not None
    assert answer.settings.valves == build("six").valves
    assert tuple(answer.settings.in_threads) == STUD_THREADS
    lengths = np.array([one.pushrod_length for one in answer.valves])
    for size, setting in answer.settings.in_threads.items():
        alone = nut_setting(answer.sizing.mechanism, lengths, THREADS[size])
        np.testing.assert_allclose(setting.turns, alone.turns, atol=1e-9)
    shown = alone.shown_in_check
    edge = answer.sizing.mechanism.from_inboard_edge
    for station, contact in enumerate((shown.contact_no_lift, shown.contact_half_lift, shown.contact_full_lift)):
        np.testing.assert_allclose(answer.settings.marks[:, station], edge(contact), atol=1e-9)


def test_what_came_and_spares_are_there_where_asked_for() -> None:
    assert ordered("six").delivery is None
    came = ordered("six", came=True, spares=2)
    assert came.spares == 2
    assert came.delivery is not None
    assert came.delivery.matched.all()
    assert len(came.sized) == len(came.valves)


def test_warnings_of_the_sizing_are_repeated() -> None:
    assert len(ordered("stand").warnings) == sum(len(one.warnings) for one in sized("stand").valves) > 0
