"""Which valves share a stand or shaft, by the name that a build gives it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused
from valvegeo.records.cells.names import Names, name_refusal, same_name


def read_stand_name(text: str) -> str:
    """Read the name of a stand.

    Parameters
    ----------
    text : str
        Without surrounding spaces, not empty.

    Returns
    -------
    str

    Raises
    ------
    Refused
        It breaks the rule of :mod:`valvegeo.records.cells.names`; the message is the cure.
    """
    found = name_refusal(text)
    if found is not None:
        raise Refused(found)
    return text


def sharing(names: NDArray[np.str_]) -> list[NDArray[np.intp]]:
    """Find the valves of each stand that several of them share.

    Parameters
    ----------
    names : ndarray of str
        Name of each valve's stand, shape (V,); blank: it has its stand to itself. Capitals are not told apart.

    Returns
    -------
    list of ndarray
        Places of its valves for each such stand, in their order; at least two each.

    Examples
    --------
    >>> [places.tolist() for places in sharing(np.array(["front", "", "rear", "Front"]))]
    [[0, 3]]
    """
    stands: dict[str, list[int]] = defaultdict(list)
    for place, name in enumerate(np.ravel(names).tolist()):
        if name:
            stands[same_name(name)].append(place)
    return [np.array(places, dtype=np.intp) for places in stands.values() if len(places) > 1]


def mistyped(names: Iterable[str]) -> list[Finding]:
    """Find names of stands that look like another's and are not the same: probably one stand, mistyped.

    Parameters
    ----------
    names : iterable of str
        Name of each valve's stand, in the valves' order; blank where it has its stand to itself.

    Returns
    -------
    list of Finding
    """
    rule, found = Names("stand", each_once=False), []
    for place, name in enumerate(names):
        refusal = rule.refusal(same_name(name), f"of valve {place + 1}") if name else None
        if refusal is not None and name_refusal(name) is None:
            found.append(replace(refusal, quantity="shared_stand", value=name, index=(place,)))
    return found
