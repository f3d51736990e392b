"""Workbooks put together part by part, as no spreadsheet would."""

from __future__ import annotations

import io
import zipfile

import openpyxl


def packed(parts: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, part in parts.items():
            archive.writestr(name, part)
    return made.getvalue()


ODS = (
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>'
    '<table:table table:name="s">{rows}</table:table></office:spreadsheet></office:body></office:document-content>'
)


def ods(rows: str) -> bytes:
    return packed({"content.xml": ODS.format(rows=rows).encode()})


SHEET = "xl/worksheets/sheet1.xml"


def xlsx_with(rows: str) -> bytes:
    """A workbook of openpyxl's whose sheet has further rows, as they are given."""
    made = io.BytesIO()
    book = openpyxl.Workbook()
    book.worksheets[0].append(["name", "value"])
    book.save(made)
    with zipfile.ZipFile(made) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    parts[SHEET] = parts[SHEET].replace(b"</sheetData>", f"{rows}</sheetData>".encode())
    return packed(parts)
