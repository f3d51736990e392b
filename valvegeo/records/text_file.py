"""Lines of a file that ought to be a CSV, or a fault that says what it is instead; never more than a file may have."""

from __future__ import annotations

import codecs
import os
import re
from pathlib import Path

from valvegeo.records.faults import BadInput, Fault

MOST_BYTES = 8_000_000
"""Bytes of the largest file that is read: results of a thousand valves have about half."""

MOST_LINES = 100_000
"""Lines of the longest file that is read: results of a thousand valves have about half."""

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
_SAVE_AS_CSV = "save the sheet as CSV (UTF-8)"
_RIGHT_FILE = "is it the file you meant? If so, split it"


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

    def fault(row: int | None, value: str, allowed: str, cure: str) -> BadInput:
        return BadInput([Fault(str(path), row, "", value, allowed, cure)])

    try:
        content, size = _content(path)
    except IsADirectoryError:
        raise fault(None, str(path), "a CSV file", "that is a folder: name the file in it") from None
    except FileNotFoundError:
        raise fault(None, str(path), "a CSV file that exists", "check the spelling and the folder") from None
    except (OSError, ValueError) as refusal:
        reason = (refusal.strerror if isinstance(refusal, OSError) else None) or str(refusal)
        raise fault(None, str(path), "a CSV file that can be read", f"the system says: {reason}") from None
    if content is None:
        raise fault(None, size, f"a CSV file of at most {MOST_BYTES / 1e6:g} MB", _RIGHT_FILE)
    if content.startswith(b"PK\x03\x04"):
        raise fault(None, str(path), "a CSV file", f"that is a workbook or archive: {_SAVE_AS_CSV}")
    wide = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as stop:
        row = content[: stop.start].count(b"\n") + 1
        value = " ".join(f"0x{byte:02x}" for byte in content[stop.start : stop.end])
        raise fault(
            row, value, "text in UTF-8", f"the file is in another encoding or no text: {_SAVE_AS_CSV}"
        ) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n")
    control = _CONTROL.search(text)
    if control is not None:
        row = text.count("\n", 0, control.start()) + 1
        cure = f"the file is binary or in another encoding: {_SAVE_AS_CSV}"
        raise fault(row, f"0x{ord(control[0]):02x}", "text in UTF-8", cure)
    count = text.count("\n") + 1
    if count > MOST_LINES:
        raise fault(MOST_LINES + 1, f"{count} lines", f"at most {MOST_LINES} lines", _RIGHT_FILE)
    return text.split("\n")


def _content(path: Path) -> tuple[bytes | None, str]:
    """What a file holds; where it holds too much nothing and its size in words, and no more is read than tells so."""
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size
        if size > MOST_BYTES:
            return None, f"{size / 1e6:.1f} MB"
        content = file.read(MOST_BYTES + 1)
    return (content, "") if len(content) <= MOST_BYTES else (None, f"more than {MOST_BYTES / 1e6:g} MB")
