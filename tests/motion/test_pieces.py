"""Draws with heavy tails: their densities and places against scipy's Student t, and what weighing makes of them."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import kstest, multivariate_normal, t

from valvegeo.motion.certainty.pieces import Piece, draw_from, log_student
from valvegeo.motion.certainty.weighted import effective_size, interval, mean, normalised, standard

ROOT = Path(__file__).parents[2]
NORMAL = 1e6
"""Degrees of freedom at which a Student t is normal to six digits."""


def leaning(seed: int, freedom: tuple[float, ...]) -> Piece:
    """A piece somewhere, its numbers bound to each other."""
    rng, size = np.random.default_rng(seed), len(freedom)
    factor = np.tril(rng.normal(size=(size, size)), -1) + np.diag(rng.uniform(0.3, 2.0, size))
    return Piece(rng.normal(size=size), factor, np.array(freedom))


def standing(piece: Piece, at: np.ndarray) -> np.ndarray:
    """Places in the piece's own standard numbers."""
    return np.linalg.solve(piece.factor, (at - piece.middle).T).T


@pytest.mark.parametrize("freedom", [0.5, 1.0, 2.0, 5.0, 10.0, 100.0])
def test_student_s_density_is_scipy_s(freedom: float) -> None:
    at = np.linspace(-40.0, 40.0, 81)
    np.testing.assert_allclose(log_student(at, np.array(freedom)), t.logpdf(at, freedom), rtol=1e-10)


def test_of_many_degrees_of_freedom_it_is_normal() -> None:
    at = np.linspace(-5.0, 5.0, 21)
    np.testing.assert_allclose(log_student(at, np.array(NORMAL)), -(at**2) / 2 - np.log(2 * np.pi) / 2, atol=2e-4)


def test_one_number_s_density_is_scipy_s_moved_and_stretched() -> None:
    piece = Piece(np.array([1.5]), np.array([[0.25]]), np.array([3.0]))
    at = np.linspace(-4.0, 6.0, 51)
    np.testing.assert_allclose(piece.log_density(at[:, None]), t.logpdf(at, 3.0, 1.5, 0.25), rtol=1e-10)


def test_density_of_numbers_bound_to_each_other_is_the_product_over_the_determinant() -> None:
    piece = leaning(1, (2.0, 10.0, 4.0, 5.0))
    at = piece.middle + np.random.default_rng(2).normal(scale=3.0, size=(50, 4))
    by_hand = t.logpdf(standing(piece, at), piece.freedom).sum(-1) - np.log(np.linalg.det(piece.factor))
    np.testing.assert_allclose(piece.log_density(at), by_hand, rtol=1e-10)


def test_draws_are_student_t_and_not_bound_to_each_other() -> None:
    """A scrambled Sobol sequence of 4096 is at least as even as 4096 random draws, which a test would let pass."""
    piece = leaning(4, (2.0, 3.0, 10.0, 40.0))
    own = standing(piece, piece.drawn(4096))
    for numbers, freedom in zip(own.T, piece.freedom, strict=True):
        assert kstest(numbers, t(freedom).cdf).statistic < 0.01
    shares = t.cdf(own, piece.freedom)
    np.testing.assert_allclose(np.corrcoef(shares.T), np.eye(4), atol=0.02)


def test_draws_reach_their_tails() -> None:
    own = standing(piece := leaning(5, (2.0, 10.0)), leaning(5, (2.0, 10.0)).drawn(4096))
    for numbers, freedom in zip(own.T, piece.freedom, strict=True):
        far = t.ppf([0.001, 0.01, 0.99, 0.999], freedom)
        beyond = [
            (numbers < far[0]).mean(),
            (numbers < far[1]).mean(),
            (numbers > far[2]).mean(),
            (numbers > far[3]).mean(),
        ]
        assert beyond == pytest.approx([0.001, 0.01, 0.01, 0.001], abs=0.0005)


def test_spread_of_draws_is_the_factor_s() -> None:
    piece = leaning(6, (NORMAL,) * 3)
    at = piece.drawn(8192)
    np.testing.assert_allclose(at.mean(0), piece.middle, atol=0.005)
    np.testing.assert_allclose(np.cov(at.T), piece.factor @ piece.factor.T, atol=0.03)


def test_a_mixture_is_its_pieces_by_their_shares() -> None:
    pieces = [(leaning(7, (2.0, 5.0)), 512), (leaning(8, (4.0, 10.0)), 128), (leaning(9, (NORMAL, 3.0)), 256)]
    drawn = draw_from(pieces)
    assert drawn.at.shape == (896, 2)
    by_hand = np.zeros(896)
    for piece, count in pieces:
        density = t.pdf(standing(piece, drawn.at), piece.freedom).prod(-1) / np.linalg.det(piece.factor)
        by_hand += count / 896 * density
    np.testing.assert_allclose(drawn.log_density, np.log(by_hand), rtol=1e-9, atol=1e-9)
    start = 0
    for piece, count in pieces:
        own = standing(piece, drawn.at[start : start + count])
        assert kstest(own[:, 1], t(piece.freedom[1]).cdf).statistic < 0.05
        start += count


def test_pieces_alike_draw_other_places() -> None:
    piece = leaning(10, (5.0, 5.0))
    both = draw_from([(piece, 256), (piece, 256)])
    assert len(np.unique(both.at, axis=0)) == 512
    np.testing.assert_allclose(both.log_density, piece.log_density(both.at), rtol=1e-12)


@pytest.mark.parametrize("off", [0.0, 0.5, 1.0])
def test_weighed_draws_give_a_normal_posterior_in_closed_form(off: float) -> None:
    """A normal prior and normal readings: posterior and evidence are known, however far the drawing stands off.

    Of 8192 draws weighing makes some thousands; a mean is then known to 0.5 % of the spread, Sobol's evenness apart.
    """
    prior_middle, prior = np.array([1.0, -2.0]), np.array([[1.0, 0.3], [0.3, 0.5]])
    slopes, noise = np.array([[1.0, 0.5], [0.2, -1.0], [1.0, 1.0]]), np.diag([0.2, 0.3, 0.5]) ** 2
    read = np.array([1.2, 2.2, 0.1])
    gain = prior @ slopes.T @ np.linalg.inv(slopes @ prior @ slopes.T + noise)
    after = prior_middle + gain @ (read - slopes @ prior_middle)
    spread = prior - gain @ slopes @ prior
    evidence = multivariate_normal(slopes @ prior_middle, slopes @ prior @ slopes.T + noise).logpdf(read)

    wide = Piece(prior_middle, np.linalg.cholesky(prior), np.full(2, 5.0))
    aimed = Piece(after + off * np.sqrt(np.diag(spread)), 1.2 * np.linalg.cholesky(spread), np.full(2, 5.0))
    drawn = draw_from([(wide, 4096), (aimed, 4096)])
    log_weights = (
        multivariate_normal(prior_middle, prior).logpdf(drawn.at)
        + multivariate_normal(np.zeros(3), noise).logpdf(read - drawn.at @ slopes.T)
        - drawn.log_density
    )
    weights = normalised(log_weights)
    assert effective_size(weights) > 700
    assert np.log(np.mean(np.exp(log_weights))) == pytest.approx(evidence, abs=0.01)
    for place in range(2):
        sd = float(np.sqrt(spread[place, place]))
        found = interval(drawn.at[:, place], weights)
        assert mean(drawn.at[:, place], weights) == pytest.approx(after[place], abs=0.01 * sd)
        assert standard(drawn.at[:, place], weights) == pytest.approx(sd, rel=0.01)
        assert found.median == pytest.approx(after[place], abs=0.02 * sd)
        assert found.low == pytest.approx(after[place] - 1.96 * sd, abs=0.03 * sd)
        assert found.high == pytest.approx(after[place] + 1.96 * sd, abs=0.03 * sd)


RUN = """
from tests.motion.test_pieces import fingerprint
print(fingerprint())
"""


def fingerprint() -> str:
    """Every digit of some draws."""
    drawn = draw_from([(leaning(11, (2.0, 5.0, 10.0)), 256), (leaning(12, (3.0, 5.0, 10.0)), 512)])
    return hashlib.sha256(drawn.at.tobytes() + drawn.log_density.tobytes()).hexdigest()


def test_draws_are_the_same_again_and_in_a_fresh_process() -> None:
    again = fingerprint()
    assert again == fingerprint()
    fresh = subprocess.run([sys.executable, "-c", RUN], cwd=ROOT, capture_output=True, text=True, check=True)
    assert fresh.stdout.strip() == again
