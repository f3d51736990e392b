"""Lengths that serve: against the judgement that an order goes by, just inside and just outside each end."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from tests.builds import plausible
from valvegeo import Sizing, best_pose, locate, read_build, settle, size, sweep
from valvegeo.shop.fitting import fits, setting_window, wants
from valvegeo.shop.limits import Limits
from valvegeo.shop.serving import Serving, serving

HAIR = 1e-7
KINDS = list(product(("stud", "stand"), ("solid", "hydraulic")))


def allowed(sizing: Sizing, lengths: np.ndarray, limits: Limits) -> np.ndarray:
    """Whether each valve may have its own length."""
    return np.diag(fits(wants(sizing.mechanism), lengths, limits).allowed)


def assert_ends(sizing: Sizing, found: Serving, limits: Limits) -> None:
    ends = ((found.length_least, -1), (found.length_most, 1))
    for end, out in ends:
        assert np.isfinite(end).all()
        assert allowed(sizing, end - out * HAIR, limits).all()
        assert not allowed(sizing, end + out * HAIR, limits).any()
    middle = (found.length_least + found.length_most) / 2
    assert allowed(sizing, middle, limits).all()


@pytest.mark.parametrize(("mount", "lifter"), KINDS)
@pytest.mark.parametrize("limits", [Limits(), Limits(sweep_allowance=0.003, lash_most=0.020, preload_least=0.035)])
def test_an_order_allows_what_serves_and_nothing_beyond(mount: str, lifter: str, limits: Limits) -> None:
    sizing = size(plausible(60, seed=92, mount=mount, lifter=lifter))
    assert_ends(sizing, serving(sizing.best_pose, limits), limits)


def test_the_flat_takes_lengths_away() -> None:
    sizing = size(plausible(60, seed=93, mount="stud"))
    free = serving(sizing.best_pose)
    reach = np.abs(sizing.best.sweep_centre) + sizing.best.sweep_width / 2
    chamfer = sizing.valvetrain.stem_diameter / 2 - (reach + 0.002)
    ground = size(replace(sizing.valvetrain, tip_chamfer=chamfer))
    found = serving(ground.best_pose)
    assert_ends(ground, found, Limits())
    less = (free.length_most - free.length_least) - (found.length_most - found.length_least)
    assert np.all(less > -1e-9)
    assert np.count_nonzero(less > 0.005) > 20
    gone = size(replace(sizing.valvetrain, tip_chamfer=chamfer + 0.004))
    assert np.isnan(serving(gone.best_pose).length_least).all()


@pytest.mark.parametrize("lifter", ["solid", "hydraulic"])
def test_a_moved_stand_has_lengths_of_its_own(lifter: str) -> None:
    sizing = size(plausible(60, seed=94, mount="stand", lifter=lifter))
    best = sizing.best_pose
    moved = serving(best, pivot_rise=best.pivot_rise)
    for found, length in ((moved, best.pushrod_length), (serving(best), sizing.ordered.pushrod_length)):
        assert np.all((found.length_least <= length + 1e-9) & (length <= found.length_most + 1e-9))
        assert np.all(found.length_most - found.length_least > 0.005)


def test_the_declared_setting_is_always_in_the_window() -> None:
    mechanism = size(plausible(60, seed=95, mount="stand", lifter="solid", lash=0.004)).mechanism
    least, most = setting_window(mechanism, Limits())
    np.testing.assert_allclose(least, 0.004)
    np.testing.assert_allclose(most, 0.030)


def test_an_adjuster_is_served_by_what_its_screw_takes_up() -> None:
    """From the screw all out to all back, both ends inside, and just beyond them outside."""
    mechanism = locate(read_build("data/larkspur_adjuster.csv").valvetrain)
    found = serving(best_pose(mechanism))
    for end, travel in ((found.length_least, mechanism.screw_out), (found.length_most, -mechanism.screw_in)):
        np.testing.assert_allclose(settle(mechanism, end).screw_travel, travel, atol=1e-11)
    inside = fits(mechanism, np.concatenate([found.length_least + 1e-6, found.length_most - 1e-6]))
    outside = fits(mechanism, np.concatenate([found.length_least - 1e-6, found.length_most + 1e-6]))
    assert inside.allowed[[0, 1, 2, 3], [0, 1, 0, 1]].all()
    assert not outside.allowed[[0, 1, 2, 3], [0, 1, 0, 1]].any()
    beyond = outside.screw_beyond[[0, 1, 2, 3], [0, 1, 0, 1]]
    assert (np.sign(beyond) == [1, 1, -1, -1]).all()
    assert (np.abs(beyond) < 2e-6).all()
    lengths = np.linspace(found.length_least, found.length_most, 200)
    widths = sweep(settle(mechanism, lengths)).sweep_width
    np.testing.assert_allclose(found.sweep_least, widths.min(0), atol=2e-5)
    np.testing.assert_allclose(found.sweep_most, widths.max(0), atol=2e-5)
    assert (found.sweep_most - found.sweep_least < 0.003).all()
