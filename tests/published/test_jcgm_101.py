"""JCGM 101:2008, Propagation of distributions using a Monte Carlo method, clause 9.2: additive models.

Y = X1 + X2 + X3 + X4; standard uncertainty and 95 % coverage interval, to the digits the guide prints.

    9.2.2  four standard normal inputs                     u 2.00   interval ±3.92   first order ±3.92
    9.2.3  four rectangular inputs of sd 1                 u 2.00   interval ±3.88   first order ±3.92
    9.2.4  the same, the fourth of sd 10                   u 10.1   interval ±17.0   first order ±19.9

The figures of 9.2.4 are from memory, and recomputed.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.monte_carlo import monte_carlo
from valvegeo.motion.certainty.budget import COVERAGE, combine
from valvegeo.motion.certainty.pieces import Piece, draw_from
from valvegeo.motion.certainty.weighted import interval, mean, normalised, standard

TRIALS = 1_000_000
ROOT3 = np.sqrt(3.0)


def normal(rng: np.random.Generator, sd: float) -> np.ndarray:
    return rng.normal(0.0, sd, TRIALS)


def rectangular(rng: np.random.Generator, sd: float) -> np.ndarray:
    return rng.uniform(-ROOT3 * sd, ROOT3 * sd, TRIALS)


@pytest.mark.parametrize(
    ("draw", "spreads", "standard", "half_width", "first_order"),
    [
        (normal, (1, 1, 1, 1), "2.00", "3.92", "3.92"),
        (rectangular, (1, 1, 1, 1), "2.00", "3.88", "3.92"),
        (rectangular, (1, 1, 1, 10), "10.1", "17.0", "19.9"),
    ],
    ids=["9.2.2", "9.2.3", "9.2.4"],
)
def test_additive_model(draw, spreads, standard: str, half_width: str, first_order: str) -> None:
    rng = np.random.default_rng(101)
    drawn = monte_carlo(lambda x: sum(x.values()), {f"x{i}": draw(rng, sd) for i, sd in enumerate(spreads)})
    digit = 10.0 ** -len(standard.split(".")[1])
    combined = float(combine(1.0, spreads))
    assert float(drawn.standard) == pytest.approx(float(standard), abs=0.75 * digit)
    assert float(drawn.high - drawn.low) / 2 == pytest.approx(float(half_width), abs=0.75 * digit)
    assert float(drawn.mean) == pytest.approx(0.0, abs=0.03)
    assert combined == pytest.approx(float(standard), abs=0.51 * digit)
    assert COVERAGE * combined == pytest.approx(float(first_order), abs=0.51 * digit)


def log_normal(inputs: np.ndarray) -> np.ndarray:
    return -(inputs**2).sum(-1) / 2.0


def log_rectangular(inputs: np.ndarray) -> np.ndarray:
    return np.where((np.abs(inputs) <= ROOT3).all(-1), 0.0, -np.inf)


@pytest.mark.parametrize(
    ("log_density", "spreads", "uncertainty", "half_width"),
    [
        (log_normal, (1, 1, 1, 1), "2.00", "3.92"),
        (log_rectangular, (1, 1, 1, 1), "2.00", "3.88"),
        (log_rectangular, (1, 1, 1, 10), "10.1", "17.0"),
    ],
    ids=["9.2.2", "9.2.3", "9.2.4"],
)
def test_additive_model_of_draws_from_elsewhere(log_density, spreads, uncertainty: str, half_width: str) -> None:
    """Drawn with heavy tails and a fifth wider than the inputs, and weighed by what the inputs' density is there."""
    drawn = draw_from([(Piece(np.zeros(4), 1.2 * np.eye(4), np.full(4, 5.0)), 2**18)])
    weights, outputs = normalised(log_density(drawn.at) - drawn.log_density), drawn.at @ np.array(spreads)
    found, digit = interval(outputs, weights), 10.0 ** -len(uncertainty.split(".")[1])
    assert standard(outputs, weights) == pytest.approx(float(uncertainty), abs=0.75 * digit)
    assert found.half_width == pytest.approx(float(half_width), abs=0.75 * digit)
    assert mean(outputs, weights) == pytest.approx(0.0, abs=0.03)
    assert found.median == pytest.approx(0.0, abs=0.03)
