"""Saving the marks that were entered, as a marks file again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from valvegeo.answers.mark_sheet import MarkSheet
from valvegeo.findings.refusal import BadInput
from valvegeo.records.marks_file import marks_text
from valvegeo.records.whole import write_whole


def save_marks(sheets: Mapping[str, MarkSheet], path: Path, inputs: Iterable[Path]) -> str:
    """Write the lines that count.

    Parameters
    ----------
    sheets : mapping of str to MarkSheet
        Valve -> its lines.
    path : Path
        The file to write.
    inputs : iterable of Path
        Files that were read, which are never overwritten.

    Returns
    -------
    str
        What was written, or why nothing was.
    """
    readings = {valve: sheet.readings for valve, sheet in sheets.items() if sheet.readings}
    if not readings:
        return "Nothing written: no line counts yet; tick those that you have read."
    if not path.name:
        return "Nothing written: give the file a name."
    try:
        write_whole({path: marks_text(readings)}, list(inputs))
    except BadInput as bad:
        return "Nothing written: " + "; ".join(fault.line for fault in bad.faults)
    counted = ", ".join(f"{len(marks)} lines of {valve}" for valve, marks in readings.items())
    idle = sum(not line.counts for valve in readings for line in sheets[valve].lines)
    return f"Wrote {path}: {counted}{f'; {idle} that do not count are not in it' if idle else ''}."
