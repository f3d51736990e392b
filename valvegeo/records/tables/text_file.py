"""What a file holds, and its lines where it is text, or a fault; never more than a file may have."""

from __future__ import annotations

import codecs
import os
import re
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput

MOST_BYTES = 8_000_000
"""Bytes of the largest file that is read: over three times what `size` writes of a thousand valves (our choice)."""

MOST_LINES = 100_000
"""Lines of the longest file that is read: over twice what `size` writes of a thousand valves (our choice)."""

MOST_COLUMNS = 2000
"""Columns of the widest file that is read."""

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")


def read_content(path: Path) -> bytes:
    """Read a file.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    bytes

    Raises
    ------
    BadInput
        It cannot be read, or is too large.
    """
    try:
        content, size = _content(path)
    except IsADirectoryError:
        raise _fault(path, None, str(path), "file.folder") from None
    except FileNotFoundError:
        raise _fault(path, None, str(path), "file.missing") from None
    except (OSError, ValueError) as refusal:
        reason = (refusal.strerror if isinstance(refusal, OSError) else None) or str(refusal)
        raise _fault(path, None, str(path), "file.unreadable", reason=reason) from None
    if content is None:
        raise _fault(path, None, size, "file.too_large", most=MOST_BYTES / 1e6)
    return content


def lines_of(path: Path, content: bytes) -> list[str]:
    """Take a file's content as text.

    Parameters
    ----------
    path : Path
        The file, for faults.
    content : bytes
        What it holds; UTF-8 (with or without byte-order mark) or UTF-16 (with one).

    Returns
    -------
    list of str
        Lines, whatever ends them; a line end at the end of the file starts no further line.

    Raises
    ------
    BadInput
        It is too long, or no text.
    """
    wide = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as stop:
        row = content[: stop.start].count(b"\n") + 1
        value = " ".join(f"0x{byte:02x}" for byte in content[stop.start : stop.end])
        raise _fault(path, row, value, "file.encoding") from None
    text = text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n")
    control = _CONTROL.search(text)
    if control is not None:
        row = text.count("\n", 0, control.start()) + 1
        raise _fault(path, row, f"0x{ord(control[0]):02x}", "file.binary")
    count = text.count("\n") + 1
    if count > MOST_LINES:
        raise _fault(path, MOST_LINES + 1, f"{count} lines", "file.too_long", most=MOST_LINES)
    return text.split("\n")


def _fault(path: Path, row: int | None, value: str, code: str, **numbers: Number) -> BadInput:
    return BadInput([Finding(code, numbers, value=value, file=str(path), row=row)])


def _content(path: Path) -> tuple[bytes | None, str]:
    """What a file holds; where it holds too much nothing and its size in words, and no more is read than tells so."""
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size
        if size > MOST_BYTES:
            return None, f"{size / 1e6:.1f} MB"
        content = file.read(MOST_BYTES + 1)
    return (content, "") if len(content) <= MOST_BYTES else (None, f"more than {MOST_BYTES / 1e6:g} MB")
