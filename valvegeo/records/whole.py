"""Writing files whole or not at all: several together, and an existing file survives a run that fails."""

from __future__ import annotations

import os
import secrets
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from valvegeo.records.faults import BadInput, Fault


def output_faults(outputs: Sequence[Path], inputs: Sequence[Path] = ()) -> list[Fault]:
    """Everything that keeps files from being written, found before anything is touched.

    Parameters
    ----------
    outputs : sequence of Path
        Files to be written.
    inputs : sequence of Path, optional
        Files that were read, which no output may replace.

    Returns
    -------
    list of Fault
        Empty when all can be written.
    """
    faults: list[Fault] = []
    for place, output in enumerate(outputs):
        refusal = _refusal(output)
        if refusal is None and any(_same_file(output, source) for source in inputs):
            refusal = ("a file that is not read in the same run", "give the output another name")
        if refusal is None and any(_same_file(output, other) for other in outputs[:place]):
            refusal = ("a different file for each output", "two outputs have this name: give one another name")
        if refusal is not None:
            faults.append(Fault(str(output), None, "", str(output), *refusal))
    return faults


def write_whole(texts: Mapping[Path, str], inputs: Sequence[Path] = ()) -> None:
    """Write all the files, or none of them.

    Each text is first written in full to a file beside its target; only when all are on the disk do they take
    their targets' names. If one cannot, those already renamed are put back.

    Parameters
    ----------
    texts : mapping of Path to str
        What each file is to hold; written in UTF-8 with the line ends it has.
    inputs : sequence of Path, optional
        Files that were read, which no output may replace.

    Raises
    ------
    BadInput
        With every fault of :func:`output_faults`, or the system's refusal while writing.
    """
    faults = output_faults(list(texts), inputs)
    if faults:
        raise BadInput(faults)
    targets = {path: path.resolve() for path in texts}
    staged = {path: _beside(target) for path, target in targets.items()}
    kept = {path: _beside(target) for path, target in targets.items() if target.exists()}
    renamed: list[Path] = []
    current = Path()
    try:
        for current, text in texts.items():
            _stage(text, staged[current], targets[current])
            if current in kept:
                shutil.copy2(targets[current], kept[current])
        for current, target in targets.items():
            os.replace(staged[current], target)
            renamed.append(current)
    except BaseException as stop:
        for path in renamed:
            if path in kept:
                os.replace(kept[path], targets[path])
            else:
                targets[path].unlink()
        if not isinstance(stop, OSError):
            raise
        cure = f"nothing was written; the system says: {stop.strerror or stop}"
        raise BadInput([Fault(str(current), None, "", str(current), "a file that can be written", cure)]) from stop
    finally:
        for leftover in [*staged.values(), *kept.values()]:
            leftover.unlink(missing_ok=True)


def _refusal(output: Path) -> tuple[str, str] | None:
    """Why one file cannot be written, as (allowed, cure); None when it can."""
    try:
        if output.is_dir():
            return "a file name", "that is a folder: name a file in it"
        if output.exists() and not output.is_file():
            return "an ordinary file", "that is a device or pipe: name a file"
        folder = output.resolve().parent
        if not folder.is_dir():
            return "a file in a folder that exists", "make the folder first, or check its spelling"
        if not os.access(folder, os.W_OK | os.X_OK) or (output.exists() and not os.access(output, os.W_OK)):
            return "a file that may be written", "change its permissions, or write elsewhere"
    except (OSError, ValueError, RuntimeError) as stop:
        return "a file name the system takes", f"the system says: {stop}"
    return None


def _same_file(one: Path, other: Path) -> bool:
    """Whether two names lead to one file."""
    try:
        if one.exists() and other.exists():
            return one.samefile(other)
        return one.resolve() == other.resolve()
    except (OSError, ValueError, RuntimeError):  # a name the system refuses leads to no file
        return False


def _beside(target: Path) -> Path:
    """Make up a fresh hidden name in the target's folder."""
    return target.with_name(f".valvegeo-{secrets.token_hex(6)}.part")


def _stage(text: str, staged: Path, target: Path) -> None:
    """Write a text through to the disk under its temporary name, with the permissions of what it will replace."""
    with open(staged, "xb") as file:
        file.write(text.encode("utf-8"))
        file.flush()
        os.fsync(file.fileno())
    if target.exists():
        shutil.copymode(target, staged)
