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

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput
from valvegeo.records.files.leftovers import beside, clear_leftovers
from valvegeo.records.files.outputs import output_fault, output_faults, reason_of
from valvegeo.streams import held


def write_whole(contents: Mapping[Path, str | bytes], inputs: Sequence[Path] = ()) -> None:
    """Write all the files, or none of them.

    Each is first written through to the disk beside its target, and what it will replace is kept under a second
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
    contents : mapping of Path to str or bytes
        What each file is to hold; text is written in UTF-8 with the line ends it has, a workbook comes as bytes.
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
    workbooks = [path for path, content in contents.items() if isinstance(content, bytes)]
    faults = output_faults(list(contents), inputs, workbooks)
    if faults:
        raise BadInput(faults)
    files = [_File(path, path.resolve()) for path in contents]
    with held() as stop_if_asked:
        try:
            _switch_in(files, list(contents.values()), stop_if_asked)
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

    def stage(self, content: str | bytes) -> float:
        """Write the content through to the disk under its temporary name, with the permissions of what it will replace.

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
            file.write(content.encode("utf-8") if isinstance(content, str) else content)
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
                return output_fault(self.path, "output.stuck", reason=reason_of(stop))
            kept, self.kept = self._set_aside(self.kept), None
            return output_fault(self.path, "output.stuck_old_kept", reason=reason_of(stop), kept=str(kept))
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


def _switch_in(files: Sequence[_File], contents: Sequence[str | bytes], stop_if_asked: Callable[[], None]) -> None:
    """Write every file and then rename all, or put back what was renamed."""
    current = None
    try:
        for current, content in zip(files, contents, strict=True):
            now = current.stage(content)
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
        refused = output_fault(current.path, code, reason=reason_of(stop))
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
