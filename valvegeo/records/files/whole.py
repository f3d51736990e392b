"""Writing files whole or not at all: several together, and an existing file survives a run that fails."""

from __future__ import annotations

import os
import secrets
import shutil
import stat
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput
from valvegeo.records.files.leftovers import beside, clear_leftovers
from valvegeo.streams import held

STREAMS = {1: "standard output", 2: "standard error"}
"""Descriptors that a process prints to."""


def output_faults(outputs: Sequence[Path], inputs: Sequence[Path] = ()) -> list[Finding]:
    """Everything that keeps files from being written, found before anything is touched.

    Parameters
    ----------
    outputs : sequence of Path
        Files to be written.
    inputs : sequence of Path, optional
        Files that were read, which no output may replace, and into which standard output may not run.

    Returns
    -------
    list of Finding
        Empty when all can be written.
    """
    faults: list[Finding] = []
    for source in inputs:
        if _stream_into(source) == STREAMS[1]:
            faults.append(_fault(source, "input.printed_into"))
    for place, output in enumerate(outputs):
        refusal = _refusal(output)
        if refusal is None and any(_same_file(output, source) for source in inputs):
            refusal = _fault(output, "output.is_input")
        if refusal is None and any(_same_file(output, other) for other in outputs[:place]):
            refusal = _fault(output, "output.twice")
        if refusal is not None:
            faults.append(refusal)
    return faults


def write_whole(texts: Mapping[Path, str], inputs: Sequence[Path] = ()) -> None:
    """Write all the files, or none of them.

    Each text is first written through to the disk beside its target, and what it will replace is kept under a second
    name; only when all are there do they take their targets' names, back to back. If one cannot, those already renamed
    are put back. A signal that asks the process to stop waits meanwhile, see :func:`valvegeo.streams.held`; it leaves
    every file as it was, or every file new.

    A process killed outright, or a power cut, leaves each target whole: as it was, or as it should be. Between two
    renames it leaves the first files new and the rest as they were; running again makes them of one kind. Its temporary
    files stay behind, and a later run into the same folder clears them, see
    :func:`valvegeo.records.files.leftovers.clear_leftovers`. Of two runs at once into the same files, each file is
    whole from the one or the other.

    Parameters
    ----------
    texts : mapping of Path to str
        What each file is to hold; written in UTF-8 with the line ends it has.
    inputs : sequence of Path, optional
        Files that were read, which no output may replace, and into which standard output may not run.

    Raises
    ------
    BadInput
        With every fault of :func:`output_faults`, or the system's refusal while writing; and where a file could not be
        put back after that, where its old contents are.
    KeyboardInterrupt
        A signal came while nothing was renamed yet, and whoever handled it let the process go on; nothing is written.
    """
    faults = output_faults(list(texts), inputs)
    if faults:
        raise BadInput(faults)
    files = [_File(path, path.resolve()) for path in texts]
    with held() as stop_if_asked:
        try:
            _switch_in(files, list(texts.values()), stop_if_asked)
        finally:
            for file in files:
                file.tidy_up()


@dataclass
class _File:
    """One file on its way to its target.

    Parameters
    ----------
    path : Path
        As the caller named it.
    target : Path
        Where that leads.
    """

    path: Path
    target: Path

    def __post_init__(self) -> None:
        self.staged = beside(self.target)
        self.kept: Path | None = None
        self.renamed = False

    def stage(self, text: str) -> float:
        """Write the text through to the disk under its temporary name, with the permissions of what it will replace.

        Returns
        -------
        float
            When that was, by the folder's clock [s].
        """
        try:
            mode = stat.S_IMODE(self.target.stat().st_mode)
        except FileNotFoundError:
            mode = None

        def opener(name: str, flags: int) -> int:  # at no time open to more people than the target
            return os.open(name, flags, 0o666 if mode is None else mode)

        with open(self.staged, "xb", opener=opener) as file:
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
            written = os.fstat(file.fileno()).st_ctime
        if mode is not None:
            self.staged.chmod(mode)
        return written

    def keep(self) -> None:
        """Give what will be replaced a second name; a copy, where the file system has no second names."""
        kept = beside(self.target)
        try:
            os.link(self.target, kept)
        except FileNotFoundError:
            return
        except OSError:
            self.kept = kept
            shutil.copy2(self.target, kept)
        self.kept = kept

    def rename(self) -> None:
        """Let the new contents take the target's name."""
        os.replace(self.staged, self.target)
        self.renamed = True

    def put_back(self) -> Finding | None:
        """Undo the renaming.

        Returns
        -------
        Finding or None
            Where the old contents are, if they cannot be put back; they are left there.
        """
        if not self.renamed:
            return None
        try:
            if self.kept is None:
                self.target.unlink()
            else:
                os.replace(self.kept, self.target)
        except OSError as stop:
            if self.kept is None:
                return _fault(self.path, "output.stuck", reason=_reason(stop))
            kept, self.kept = self._set_aside(self.kept), None
            return _fault(self.path, "output.stuck_old_kept", reason=_reason(stop), kept=str(kept))
        return None

    def _set_aside(self, kept: Path) -> Path:
        """Give the old contents a name that nobody clears away."""
        aside = self.target.with_name(f"{self.target.name}.before-{secrets.token_hex(3)}")
        try:
            os.rename(kept, aside)
        except OSError:
            return kept
        return aside

    def tidy_up(self) -> None:
        """Remove the temporary files; one that will not go is left for a later run to clear."""
        for leftover in (self.staged, self.kept):
            if leftover is not None:
                with suppress(OSError):
                    leftover.unlink(missing_ok=True)


def _switch_in(files: Sequence[_File], texts: Sequence[str], stop_if_asked: Callable[[], None]) -> None:
    """Write every file and then rename all, or put back what was renamed."""
    current = None
    try:
        for current, text in zip(files, texts, strict=True):
            now = current.stage(text)
            clear_leftovers(current.target.parent, now)
            stop_if_asked()
        for current in files:
            current.keep()
        stop_if_asked()
        for current in files:
            current.rename()
    except BaseException as stop:
        stuck = [fault for file in reversed(files) if (fault := file.put_back()) is not None]
        if current is None or not (stuck or isinstance(stop, OSError)):
            raise
        code = "output.not_all_put_back" if stuck else "output.not_written"
        refused = _fault(current.path, code, reason=_reason(stop))
        raise BadInput([refused, *stuck]) from stop
    _settle({file.target.parent for file in files})


def _settle(folders: Iterable[Path]) -> None:
    """Write folders through to the disk, where the system can: the names that their files now have."""
    if os.name != "posix":
        return
    for folder in folders:
        with suppress(OSError):
            descriptor = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(descriptor)
            finally:
                os.close(descriptor)


def _fault(path: Path, code: str, **numbers: Number) -> Finding:
    """Name what is wrong with a file as a whole."""
    return Finding(code, numbers, value=str(path), file=str(path))


def _refusal(output: Path) -> Finding | None:
    """Why one file cannot be written; None when it can."""
    try:
        found = _found(output)
        if found is not None and stat.S_ISDIR(found.st_mode):
            return _fault(output, "output.folder")
        if found is not None and not stat.S_ISREG(found.st_mode):
            return _fault(output, "output.device")
        if found is not None and found.st_nlink == 0:
            return _fault(output, "output.removed")
        if (stream := _stream_into(output)) is not None:
            return _fault(output, "output.printed_into", stream=stream)
        folder = output.resolve().parent
        if not folder.is_dir():
            return _fault(output, "output.no_folder")
        if not os.access(folder, os.W_OK | os.X_OK) or (found is not None and not os.access(output, os.W_OK)):
            return _fault(output, "output.shut")
    except PermissionError:
        return _fault(output, "output.shut")
    except (OSError, ValueError, RuntimeError) as stop:
        return _fault(output, "output.no_name", reason=_reason(stop))
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


def _reason(stop: BaseException) -> str:
    """What the system says."""
    return (stop.strerror if isinstance(stop, OSError) else None) or str(stop)
