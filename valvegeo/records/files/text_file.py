"""Lines of a file that ought to be a CSV, or a fault that says what it is instead; never more than a file may have."""

from __future__ import annotations

import codecs
import os
import re
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput

MOST_BYTES = 8_000_000
"""Bytes of the largest file that is read: four times what `size` writes of a thousand valves, 1.9 MB (our choice)."""

MOST_LINES = 100_000
"""Lines of the longest file that is read: three times what `size` writes of a thousand valves, 35 000 (our choice)."""

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")


def read_lines(path: Path) -> list[str]:
    """Read a text file.

    Parameters
    ----------
    path : Path
        The file; UTF-8 (with or without byte-order mark) or UTF-16 (with one).

    Returns
    -------
    list of str
        Lines, whatever ends them; a line end at the end of the file starts no further line.

    Raises
    ------
    BadInput
        The file cannot be read, is too large or too long, or is no text.
    """

    def fault(row: int | None, value: str, code: str, **numbers: Number) -> BadInput:
        return BadInput([Finding(code, numbers, value=value, file=str(path), row=row)])

    try:
        content, size = _content(path)
    except IsADirectoryError:
        raise fault(None, str(path), "file.folder") from None
    except FileNotFoundError:
        raise fault(None, str(path), "file.missing") from None
    except (OSError, ValueError) as refusal:
        reason = (refusal.strerror if isinstance(refusal, OSError) else None) or str(refusal)
        raise fault(None, str(path), "file.unreadable", reason=reason) from None
    if content is None:
        raise fault(None, size, "file.too_large", most=MOST_BYTES / 1e6)
    if content.startswith(b"PK\x03\x04"):
        raise fault(None, str(path), "file.workbook")
    wide = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as stop:
        row = content[: stop.start].count(b"\n") + 1
        value = " ".join(f"0x{byte:02x}" for byte in content[stop.start : stop.end])
        raise fault(row, value, "file.encoding") from None
    text = text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n")
    control = _CONTROL.search(text)
    if control is not None:
        row = text.count("\n", 0, control.start()) + 1
        raise fault(row, f"0x{ord(control[0]):02x}", "file.binary")
    count = text.count("\n") + 1
    if count > MOST_LINES:
        raise fault(MOST_LINES + 1, f"{count} lines", "file.too_long", most=MOST_LINES)
    return text.split("\n")


def _content(path: Path) -> tuple[bytes | None, str]:
    """What a file holds; where it holds too much nothing and its size in words, and no more is read than tells so."""
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size
        if size > MOST_BYTES:
            return None, f"{size / 1e6:.1f} MB"
        content = file.read(MOST_BYTES + 1)
    return (content, "") if len(content) <= MOST_BYTES else (None, f"more than {MOST_BYTES / 1e6:g} MB")
