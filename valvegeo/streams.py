"""What a command stands on: the three standard streams, and the signals that ask it to stop."""

from __future__ import annotations

import io
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import TextIO

EXIT_UNHEARD = 74
"""Standard output took not all that was to be printed (``EX_IOERR`` of BSD's ``sysexits.h``)."""

EXIT_PIPE_CLOSED = 141
"""What a shell reports for a command whose reader went away (128 + SIGPIPE)."""

EXIT_SIGNALLED = 128
"""What a shell adds to the number of the signal that stopped a command."""

STOPPING: tuple[int, ...] = tuple(
    getattr(signal, name) for name in ("SIGHUP", "SIGTERM", "SIGINT") if hasattr(signal, name)
)
"""Signals that ask a process to stop, as far as the system has them."""

_NONE_WRITTEN = "no file was written"
_ALL_WRITTEN = "the files asked for were all written"
_outcome = _NONE_WRITTEN


class Unheard(Exception):
    """Standard output did not take what was to be printed.

    Parameters
    ----------
    status : int
        Exit status that says so.
    reason : str
        Why, in the system's words; empty where the reader left on purpose and nothing need be said.
    """

    def __init__(self, status: int, reason: str) -> None:
        self.status = status
        self.reason = reason
        super().__init__(reason)


def guard() -> None:
    """Make a fresh process safe to stop, and its files safe from its streams; before anything heavy is loaded.

    A signal that asks it to stop ends it at once, with one line that says what became of the files, with status 128 +
    the signal's number, and without a traceback wherever it was; :func:`held` keeps that from cutting a write in two.
    A signal that the caller has chosen to ignore stays ignored.

    A standard stream that is closed gets the null device, so that no file opened later takes its number, and with it
    what is meant for the stream. Printing to a closed standard output is still refused, by :func:`say`.
    """
    for number in STOPPING:
        if signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, _stop)
    for descriptor in range(3):
        try:
            os.fstat(descriptor)
        except OSError:
            _lead_nowhere(descriptor)
    if sys.stderr is None:  # print(file=None) goes to standard output
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115


def begin() -> None:
    """Start a command: whatever the terminal's locale, what it prints is UTF-8, and what has no letter an escape."""
    global _outcome
    _outcome = _NONE_WRITTEN
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def files_written() -> None:
    """Take down that the command's files are all written, so that :func:`outcome` says so."""
    global _outcome
    _outcome = _ALL_WRITTEN


def outcome() -> str:
    """What has become of the command's files so far, in words."""
    return _outcome


def refuse_if_unheard() -> None:
    """Find out whether standard output is closed, before anything is done in vain.

    Raises
    ------
    Unheard
        It is.
    """
    if sys.stdout is None or sys.stdout.closed:
        raise Unheard(EXIT_UNHEARD, "closed")


def say(text: str) -> None:
    """Print to standard output, through to the other side.

    Parameters
    ----------
    text : str
        With the line ends it has.

    Raises
    ------
    Unheard
        It is closed, full or broken, or its reader went away.
    """
    refuse_if_unheard()
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        _let_go(sys.stdout)
        raise Unheard(EXIT_PIPE_CLOSED, "") from None
    except OSError as refusal:
        _let_go(sys.stdout)
        raise Unheard(EXIT_UNHEARD, refusal.strerror or str(refusal)) from refusal


def complain(lines: Iterable[str]) -> None:
    """Print lines to standard error; where that takes none, the exit status has to say it alone.

    Parameters
    ----------
    lines : iterable of str
        Without line ends.
    """
    if sys.stderr is None or sys.stderr.closed:
        return
    try:
        for line in lines:
            print(line, file=sys.stderr)
        sys.stderr.flush()
    except OSError:
        _let_go(sys.stderr)


@contextmanager
def held() -> Iterator[Callable[[], None]]:
    """Put off the signals that ask the process to stop, until what is inside is done.

    Whoever handled a signal before handles it at the end, be it :func:`guard`'s handler, a notebook's, or the system,
    which ends the process; one that was ignored stays so. Outside the main thread nothing can be put off: Python's
    handlers do not interrupt other threads, but where the system handles a signal, it ends the process at once.

    Yields
    ------
    callable
        Raises KeyboardInterrupt if a signal waits: to be called where stopping leaves nothing half done.
    """
    if threading.current_thread() is not threading.main_thread():
        yield lambda: None
        return
    waiting: list[int] = []
    handlers: dict[int, Callable[[int, FrameType | None], object] | int] = {}

    def hold(number: int, frame: FrameType | None) -> None:
        waiting.append(number)

    def stop_if_asked() -> None:
        if waiting:
            raise KeyboardInterrupt

    try:
        for number in STOPPING:
            handler = signal.getsignal(number)
            if callable(handler) or handler == signal.SIG_DFL:
                handlers[number] = handler
                signal.signal(number, hold)
        yield stop_if_asked
    finally:
        for number, handler in handlers.items():
            signal.signal(number, handler)
        for number in waiting:
            handler = handlers[number]
            if callable(handler):
                handler(number, None)
            else:
                signal.raise_signal(number)


def _stop(number: int, frame: FrameType | None) -> None:
    """End the process: by no exception, since one raised in the midst of a library's work may be lost or printed."""
    signal.signal(number, signal.SIG_DFL)  # asked again while the line below waits for its reader: end all the same
    with suppress(OSError):
        os.write(2, f"stopped: {_outcome}\n".encode())
    os._exit(EXIT_SIGNALLED + number)


def _let_go(stream: TextIO) -> None:
    """Lead a stream nowhere, so that closing it at exit does not fail again."""
    with suppress(OSError, ValueError):  # a stream put in its place may have no descriptor
        _lead_nowhere(stream.fileno())


def _lead_nowhere(descriptor: int) -> None:
    nowhere = os.open(os.devnull, os.O_RDWR)
    if nowhere != descriptor:
        os.dup2(nowhere, descriptor)
        os.close(nowhere)
