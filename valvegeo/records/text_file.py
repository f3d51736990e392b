"""Text of a file that ought to be a CSV, or a fault that says what it is instead."""

from __future__ import annotations

import codecs
from pathlib import Path

from valvegeo.records.faults import BadInput, Fault

_SAVE_AS_CSV = "save the sheet as CSV (UTF-8)"


def decoded(path: Path) -> str:
    """Text of a file, or faults that say what the file is instead."""

    def fault(row: int | None, value: str, allowed: str, cure: str) -> BadInput:
        return BadInput([Fault(str(path), row, "", value, allowed, cure)])

    try:
        content = path.read_bytes()
    except IsADirectoryError:
        raise fault(None, str(path), "a CSV file", "that is a folder: name the file in it") from None
    except FileNotFoundError:
        raise fault(None, str(path), "a CSV file that exists", "check the spelling and the folder") from None
    except (OSError, ValueError) as refusal:
        reason = (refusal.strerror if isinstance(refusal, OSError) else None) or str(refusal)
        raise fault(None, str(path), "a CSV file that can be read", f"the system says: {reason}") from None
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
    for row, line in enumerate(lines_of(text), start=1):
        control = next((char for char in line if ord(char) < 32 and char != "\t"), None)
        if control is not None:
            cure = f"the file is binary or in another encoding: {_SAVE_AS_CSV}"
            raise fault(row, f"0x{ord(control):02x}", "text in UTF-8", cure)
    return text


def lines_of(text: str) -> list[str]:
    """Lines, whatever ends them; a line end at the end of the file starts no further line."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return lines[:-1] if lines[-1] == "" else lines
