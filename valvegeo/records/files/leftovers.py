"""Temporary files beside their targets: their names, and clearing away those of a run that was killed."""

from __future__ import annotations

import os
import platform
import re
import secrets
import stat
import zlib
from contextlib import suppress
from pathlib import Path

LEFTOVER_AGE = 3600.0
"""A temporary file that has not changed for longer than this may be a leftover [s]."""

_NAME = re.compile(r"\.valvegeo-[0-9a-f]{12}-(?P<machine>[0-9a-f]{8})-(?P<process>[0-9]{1,10})\.part")


def beside(target: Path) -> Path:
    """Make up a fresh hidden name in a file's folder, which says whose it is.

    Parameters
    ----------
    target : Path
        The file that the temporary one is for.

    Returns
    -------
    Path
        ``.valvegeo-TOKEN-MACHINE-PROCESS.part``.
    """
    return target.with_name(f".valvegeo-{secrets.token_hex(6)}-{_this_machine()}-{os.getpid()}.part")


def clear_leftovers(folder: Path, now: float) -> None:
    """Clear away temporary files that a killed run has left in a folder.

    A file goes only when all of this holds: its whole name is one of :func:`beside`, made on this machine by a process
    that no longer runs; it is an ordinary file, no link; it belongs to this user; and it has not changed for
    :data:`LEFTOVER_AGE`. Where the system cannot say whether a process runs (Windows), none goes. What cannot be
    cleared stays, without a word: it is in nobody's way.

    Parameters
    ----------
    folder : Path
        Where to look.
    now : float
        The time by the folder's own clock, which on a network drive is not this machine's [s].
    """
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in entries:
            name = _NAME.fullmatch(entry.name)
            if name is None or name["machine"] != _this_machine() or _may_run(int(name["process"])):
                continue
            with suppress(OSError):
                found = entry.stat(follow_symlinks=False)
                if (
                    stat.S_ISREG(found.st_mode)
                    and found.st_uid == os.geteuid()
                    and now - found.st_ctime > LEFTOVER_AGE  # when it was linked; a kept copy is as old as its original
                ):
                    os.unlink(entry.path)


def _this_machine() -> str:
    """Mark of this machine's name."""
    return f"{zlib.crc32(platform.node().encode('utf-8', 'surrogateescape')):08x}"


def _may_run(process: int) -> bool:
    """Whether a process runs, or may."""
    if os.name != "posix":
        return True
    try:
        os.kill(process, 0)  # asks only
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:  # someone else's
        return True
    return True
