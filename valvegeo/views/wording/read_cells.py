"""What marks say, as short as a cell of a table is."""

from __future__ import annotations

from valvegeo.answers.fit_read import FitRead
from valvegeo.findings.lengths import bare
from valvegeo.motion.certainty.weighted import Interval
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording import words


def order(read: FitRead) -> str:
    """The length to order, for a cell, the way the check was measured; not yet where a line is worth reading first."""
    if not read.is_ready:
        return "not yet"
    return bare(read.ordered.pushrod_length + read.fit.sizing.over_centres)


def _is_way_sure(read: FitRead) -> bool:
    """Whether it is sure which way the last trial's pushrod has to change: always where no length moves the pivot."""
    return bool(read.fit.way) or not read.fit.sizing.mechanism.length_moves_pivot


def change(read: FitRead) -> str:
    """What to change from the last trial, for a cell; no way where none is sure."""
    by = read.ordered.trial_length - read.fit.length_now
    if _is_way_sure(read) or is_nothing(by):
        return words.lengthened(by, bare, "none")
    return "none needed" if read.fit.is_right else "not sure"


def turns(read: FitRead) -> str:
    """The same in turns, where a way is sure."""
    if not _is_way_sure(read):
        return ""
    return words.turns(read.ordered.trial_length - read.fit.length_now, read.fit.sizing.valvetrain.thread)


def ends(of: Interval, valve: Sizing) -> str:
    """Both ends of an interval, the way the check was measured, for a cell."""
    return f"{bare(of.low + valve.over_centres)} to {bare(of.high + valve.over_centres)}"
