"""Cautions as they are said: the three that stop damage at a step, a line each, and the full list by step."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike

from valvegeo.shop.cautions import BY_KEY
from valvegeo.shop.hazards.caution import Step
from valvegeo.shop.heeding import STEPS, heeded, stopping
from valvegeo.views.wording.sections import Section

FULL_LIST = "Every caution, step by step: python -m valvegeo cautions"
"""Where the rest stands."""


def met(*keys: str, in_full: bool = False) -> Section:
    """Place hazards where they are met, a line each or in full."""
    found = (BY_KEY[key] for key in keys)
    return Section(sentences=tuple(one.words if in_full else one.line for one in found), tone="caution")


def if_moved(is_moved: object) -> tuple[Section, ...]:
    """Place what to heed where a stand is moved, or might be."""
    return (met("shims_and_oil"),) if is_moved else ()


def stopping_at(step: Step) -> Section:
    """Place what stops damage at a step, where another place already says where the full list is."""
    return met(*(one.key for one in stopping(step)))


def three_lines(step: Step, lifters: ArrayLike = (), mounts: ArrayLike = ()) -> tuple[str, ...]:
    """Say what stops damage at a step, a line each, and where the full list is; of an engine's lifters and mounts."""
    return (*(one.line for one in stopping(step, _each(lifters), _each(mounts))), FULL_LIST)


def short_section(step: Step, lifters: ArrayLike = (), mounts: ArrayLike = ()) -> Section:
    """Put :func:`three_lines` under the step's title."""
    return Section(STEPS[step], three_lines(step, lifters, mounts), tone="caution")


def after_changes(changes: Iterable[str], lifters: ArrayLike, mounts: ArrayLike) -> Section:
    """Say what to check again after quantities have changed: what stops damage, and what only such changes ask for."""
    step: Step = "change"
    here = heeded(step, _each(lifters), _each(mounts), changes)
    said = tuple(one.line for one in here if step in one.stops or one.only_after or one.only_for)
    return Section(STEPS[step], (*said, FULL_LIST), tone="caution")


def full_list() -> tuple[Section, ...]:
    """Say every caution, a section a step: in full where it is first met, in one line at later steps."""
    said: set[str] = set()
    sections = []
    for step, title in STEPS.items():
        here = heeded(step)
        sentences = tuple(one.line if one.key in said else one.words for one in here)
        said |= {one.key for one in here}
        sections.append(Section(title, sentences, tone="caution"))
    return tuple(sections)


def _each(of: ArrayLike) -> list[str]:
    return [str(one) for one in np.ravel(of)]
