"""The fewest different lengths that serve every valve, and of those the choice that costs least: two integer programs.

Each is solved to proven optimality by scipy's mixed-integer solver; there is no greedy step.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from scipy.optimize import LinearConstraint

NOBODY = -1
"""Stands for a valve that no length serves."""

_SCALE = 1e3
"""Costs are handed over in thousandths, far above the solver's tolerances."""


def fewest(allowed: NDArray[np.bool_], penalty: NDArray[np.float64]) -> NDArray[np.intp]:
    """Choose a length for each valve.

    Parameters
    ----------
    allowed : ndarray of bool
        Which of N lengths serves which of V valves, shape (N, V).
    penalty : ndarray
        What each costs there, at least zero, shape (N, V); looked at only where it is allowed.

    Returns
    -------
    ndarray of int
        Place of the chosen length, or :data:`NOBODY`, shape (V,). Of all choices with the fewest different lengths it
        has the least total penalty.
    """
    served = np.flatnonzero(allowed.any(axis=0))
    useful = np.flatnonzero(allowed.any(axis=1))
    choice = np.full(allowed.shape[1], NOBODY, dtype=np.intp)
    if served.size == 0:
        return choice
    allowed, penalty = allowed[np.ix_(useful, served)], penalty[np.ix_(useful, served)]
    used = _cheapest(allowed, penalty, _least_count(allowed))
    cost = np.where(allowed & used[:, None], penalty, np.inf)
    choice[served] = useful[cost.argmin(axis=0)]
    return choice


def picked(values: NDArray[np.float64], choice: NDArray[np.intp], lengths: int) -> NDArray[np.float64]:
    """Pick what each valve's own length has.

    Parameters
    ----------
    values : ndarray
        Of each length on each valve, broadcasting to shape (`lengths`, V).
    choice : ndarray of int
        From :func:`fewest`, shape (V,).
    lengths : int
        How many there are to choose from.

    Returns
    -------
    ndarray
        Shape (V,); NaN for a valve that has none.
    """
    everyone = np.broadcast_to(values, (lengths, choice.size))
    return np.where(choice == NOBODY, np.nan, everyone[choice, np.arange(choice.size)])


def _least_count(allowed: NDArray[np.bool_]) -> int:
    """Fewest lengths that cover all valves."""
    from scipy.optimize import LinearConstraint

    lengths = allowed.shape[0]
    used = _solved(np.ones(lengths), [LinearConstraint(allowed.T.astype(np.float64), lb=1.0)], np.ones(lengths))
    return int(np.count_nonzero(used > 0.5))


def _cheapest(allowed: NDArray[np.bool_], penalty: NDArray[np.float64], count: int) -> NDArray[np.bool_]:
    """Find the lengths to use, at most `count` of them, so that the valves' total penalty is least.

    Unknowns: whether each length is used, then whether each allowed pair of length and valve is made.
    """
    from scipy.optimize import LinearConstraint
    from scipy.sparse import csr_array, hstack

    lengths, valves = allowed.shape
    of_length, of_valve = np.nonzero(allowed)
    pairs = np.arange(of_length.size)
    ones = np.ones(pairs.size)
    pair_of_valve = csr_array((ones, (of_valve, pairs)), shape=(valves, pairs.size))
    length_of_pair = csr_array((ones, (pairs, of_length)), shape=(pairs.size, lengths))
    each_valve_once = hstack([csr_array((valves, lengths)), pair_of_valve], format="csr")
    only_used_lengths = hstack([-length_of_pair, csr_array((ones, (pairs, pairs)))], format="csr")
    is_length = np.concatenate([np.ones(lengths), np.zeros(pairs.size)])
    constraints = [
        LinearConstraint(each_valve_once, lb=1.0, ub=1.0),
        LinearConstraint(only_used_lengths, ub=0.0),
        LinearConstraint(is_length[None, :], ub=float(count)),
    ]
    cost = np.concatenate([np.zeros(lengths), _SCALE * penalty[of_length, of_valve]])
    return np.asarray(_solved(cost, constraints, is_length)[:lengths] > 0.5)


def _solved(
    cost: NDArray[np.float64], constraints: Sequence[LinearConstraint], integral: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Least cost over unknowns between zero and one, proven; a cover exists, so there is an answer."""
    from scipy.optimize import Bounds, milp

    found = milp(
        cost,
        integrality=integral.astype(np.int_),
        bounds=Bounds(0.0, 1.0),
        constraints=constraints,
        options={"mip_rel_gap": 0.0},
    )
    if found.status != 0:
        raise RuntimeError(f"the integer program was not solved to the end: {found.message}")
    return np.asarray(found.x)
