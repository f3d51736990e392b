"""What later changes come to, in the builder's words."""

from __future__ import annotations

from valvegeo.answers.panels.later import Later
from valvegeo.records.kinds import LIFTERS
from valvegeo.views.wording import words
from valvegeo.views.wording.reading_words import sentence
from valvegeo.views.wording.sections import Table


def shift_table(later: Later) -> Table:
    """Tabulate what each change does: a row a change, all together last; inches to thousandths."""
    width_name = "band's width, nut set again [in]" if later.mechanism.length_moves_pivot else "band's width [in]"
    idle = LIFTERS[str(later.mechanism.lifter)].setting
    titles = ("pushrod wanted [in]", width_name, "band's middle, outboard [in]", f"{idle}, if not set again [in]")
    shifts = later.table.shifts.items()
    return words.by_row(
        titles, {name: (s.length_shift, s.sweep_shift, s.centre_shift, s.slack_shift) for name, s in shifts}
    )


def says(later: Later) -> str:
    """Say what all changes together do.

    Parameters
    ----------
    later : Later

    Returns
    -------
    str
        Plain text.
    """
    found = later.problem
    if found is not None and not later.is_whole:
        return sentence(found.sentence)
    together, fitted = later.together, words.typed_inches(later.pushrod_length)
    if len(later.table.shifts) == 1:
        return f"Nothing has changed: the {fitted} pushrod stays."
    by = float(together.length_shift)
    wants = (
        "the same length as before" if abs(by) < words.SMALLEST else f"{words.inches(abs(by))} {_way(by)} than before"
    )
    return f"All together: the valve wants a pushrod {wants}. {_kept(later)} {_untouched(later)}"


def needs_attention(later: Later) -> bool:
    """Whether the parts cannot be put together, or a valve is held open or a lifter loose when nothing is set again."""
    return later.problem is not None


def _way(by: float) -> str:
    return "longer" if by > 0 else "shorter"


def _kept(later: Later) -> str:
    """Say what the pushrod fitted does when it stays."""
    was = later.width_before
    now, moved = was + float(later.together.sweep_shift), later.together.centre_shift
    how = "kept, and the nut set again" if later.mechanism.length_moves_pivot else "kept on the stand"
    middle = "its middle stays" if abs(float(moved)) < words.SMALLEST else f"its middle moves {words.side(moved)}"
    return (
        f"The {words.typed_inches(later.pushrod_length)} pushrod {how}: the band goes from {words.inches(was)} to "
        f"{words.inches(now)} wide, {middle}."
    )


def _untouched(later: Later) -> str:
    """Say what happens when nobody sets it again."""
    found = later.problem
    what = LIFTERS[str(later.mechanism.lifter)].setting
    before = later.slack - float(later.together.slack_shift)
    said = f"Nothing set again: {what} goes from {words.inches(before)} to {words.inches(later.slack)}"
    return f"{said}." if found is None else f"{said}: {found.sentence}."
