"""Where files may be written, found out before anything is touched."""

from __future__ import annotations

import os
import stat
from collections.abc import Collection, Sequence
from contextlib import suppress
from pathlib import Path

from valvegeo.findings.finding import Finding, Number

_WORKBOOK = ".xlsx"
_WORKBOOKS = (_WORKBOOK, ".xlsm", ".xls", ".xlsb", ".ods")

STREAMS = {1: "standard output", 2: "standard error"}
"""Descriptors that a process prints to."""


def output_faults(
    outputs: Sequence[Path], inputs: Sequence[Path] = (), workbooks: Collection[Path] = ()
) -> list[Finding]:
    """Everything that keeps files from being written, found before anything is touched.

    Parameters
    ----------
    outputs : sequence of Path
        Files to be written.
    inputs : sequence of Path, optional
        Files that were read, which no output may replace, and into which standard output may not run.
    workbooks : collection of Path, optional
        Those of the outputs that are to be workbooks; all others are text.

    Returns
    -------
    list of Finding
        Empty when all can be written.
    """
    faults: list[Finding] = []
    for source in inputs:
        if _stream_into(source) == STREAMS[1]:
            faults.append(output_fault(source, "input.printed_into"))
    for place, output in enumerate(outputs):
        refusal = _refusal(output) or _kind_refusal(output, output in workbooks)
        if refusal is None and any(_same_file(output, source) for source in inputs):
            refusal = output_fault(output, "output.is_input")
        if refusal is None and any(_same_file(output, other) for other in outputs[:place]):
            refusal = output_fault(output, "output.twice")
        if refusal is not None:
            faults.append(refusal)
    return faults


def output_fault(path: Path, code: str, **numbers: Number) -> Finding:
    """Name what is wrong with a file as a whole."""
    return Finding(code, numbers, value=str(path), file=str(path))


def reason_of(stop: BaseException) -> str:
    """What the system says."""
    return (stop.strerror if isinstance(stop, OSError) else None) or str(stop)


def _refusal(output: Path) -> Finding | None:
    """Why one file cannot be written; None when it can."""
    try:
        found = _found(output)
        if found is not None and stat.S_ISDIR(found.st_mode):
            return output_fault(output, "output.folder")
        if found is not None and not stat.S_ISREG(found.st_mode):
            return output_fault(output, "output.device")
        if found is not None and found.st_nlink == 0:
            return output_fault(output, "output.removed")
        if (stream := _stream_into(output)) is not None:
            return output_fault(output, "output.printed_into", stream=stream)
        folder = output.resolve().parent
        if not folder.is_dir():
            return output_fault(output, "output.no_folder")
        if not os.access(folder, os.W_OK | os.X_OK) or (found is not None and not os.access(output, os.W_OK)):
            return output_fault(output, "output.shut")
    except PermissionError:
        return output_fault(output, "output.shut")
    except (OSError, ValueError, RuntimeError) as stop:
        return output_fault(output, "output.no_name", reason=reason_of(stop))
    return None


def _kind_refusal(output: Path, is_workbook: bool) -> Finding | None:
    """Why a file would not be what its name says: a spreadsheet refuses text that is called a workbook."""
    suffix = output.suffix.casefold()
    if is_workbook and suffix != _WORKBOOK:
        return output_fault(output, "output.no_workbook")
    if not is_workbook and suffix in _WORKBOOKS:
        return output_fault(output, "output.not_text")
    return None


def _found(path: Path) -> os.stat_result | None:
    """What is there, if anything; a link that leads to itself is the system's to refuse."""
    try:
        return path.stat()
    except (FileNotFoundError, NotADirectoryError):
        return None


def _stream_into(path: Path) -> str | None:
    """Name of the standard stream that prints into a regular file; None where none does."""
    with suppress(OSError, ValueError):
        found = path.stat()
        if stat.S_ISREG(found.st_mode):
            for descriptor, name in STREAMS.items():
                with suppress(OSError):
                    if os.path.samestat(os.fstat(descriptor), found):
                        return name
    return None


def _same_file(one: Path, other: Path) -> bool:
    """Whether two names lead to one file."""
    try:
        if one.exists() and other.exists():
            return one.samefile(other)
        return one.resolve() == other.resolve()
    except (OSError, ValueError, RuntimeError):  # a name the system refuses leads to no file
        return False
