"""Words for files that cannot be read or written, for cells and rows of any table, and for numbers, units and names."""

from __future__ import annotations

from valvegeo.findings.phrase import NEAR, Phrase

NAME_RULE = "a name of at most {longest} characters, all to be seen, that does not start with # = + - or @"
"""What the name of a valve, pushrod or trial may be."""

_SAVE_AS_CSV = "save the sheet as CSV (UTF-8)"
_TABLES = "a table: CSV, .xlsx or .ods"
_RIGHT_FILE = "is it the file you meant? If so, split it"
_COLUMNS = "{known.sentence}"
_ROW_CELLS = "{header} cells, as in the header"
_NO_PRINTING = "a file that nothing is printed into"
_PUT_BACK = "a file that can be put back"
_WRITABLE = "a file that can be written"
_BY_EYE = "names by which the eye can tell each {thing}, whatever their capitals and spaces"
_HOW_TURNS = "write closed length + turns + flats of the thread, such as 7.250 + 12 turns + 2 flats of 10-32"

PHRASES: dict[str, Phrase] = {
    "file.folder": Phrase(_TABLES, "that is a folder: name the file in it"),
    "file.missing": Phrase("a file that exists", "check the spelling and the folder"),
    "file.unreadable": Phrase("a file that can be read", "the system says: {reason}"),
    "file.too_large": Phrase("a file of at most {most:g} MB", _RIGHT_FILE),
    "workbook.none": Phrase(_TABLES, f"that is another kind of workbook, or an archive: {_SAVE_AS_CSV}"),
    "workbook.old": Phrase(
        _TABLES,
        f"that is a workbook of an old kind, or one with a password: save it as .xlsx without, or {_SAVE_AS_CSV}",
    ),
    "workbook.damaged": Phrase(
        "a workbook that can be read", f"it looks damaged ({{reason}}): save it again, or {_SAVE_AS_CSV}"
    ),
    "workbook.too_large": Phrase("a workbook of at most {most:g} MB unpacked", _RIGHT_FILE),
    "workbook.long_tag": Phrase(
        "a workbook that can be read",
        f"it looks damaged ({{count}} bytes without a tag): save it again, or {_SAVE_AS_CSV}",
    ),
    "workbook.too_many_cells": Phrase(
        "a workbook of at most {most} cells, blank ones among them",
        f"delete the rows and columns beyond the table, or {_SAVE_AS_CSV}",
    ),
    "workbook.sheets_alike": Phrase(
        'one sheet whose header starts with "{column}"', "keep one of these, and the others in a workbook of their own"
    ),
    "workbook.no_such_sheet": Phrase(
        'a sheet whose header starts with "{column}"', "check the spelling in the first cell of the one that is meant"
    ),
    "workbook.date": Phrase(
        "text or a number",
        "the spreadsheet took what was typed for a date or a time: format the cell as text and type it again",
    ),
    "workbook.error": Phrase("text or a number", "the formula in the cell fails: mend it, or type the number"),
    "workbook.formula": Phrase(
        "a formula with its result", "open the workbook in a spreadsheet, which works it out, and save it there"
    ),
    "file.encoding": Phrase("text in UTF-8", f"the file is in another encoding or no text: {_SAVE_AS_CSV}"),
    "file.binary": Phrase("text in UTF-8", f"the file is binary or in another encoding: {_SAVE_AS_CSV}"),
    "file.too_long": Phrase("at most {most} lines", _RIGHT_FILE),
    "table.quotes": Phrase(
        "cells separated by commas, quotes in pairs",
        'close the quote on the same line; a cell cannot hold a line break, and a quote inside it is ""',
    ),
    "table.long_cell": Phrase(
        "cells of at most {most} characters",
        "shorten what stands between two commas, or put # before the line to make it a note",
    ),
    "table.too_wide": Phrase("at most {most} columns", _RIGHT_FILE),
    "table.empty": Phrase("a header and rows", "the file is empty: was it saved?"),
    "table.tabs": Phrase(
        "cells separated by commas, or by semicolons", "it looks separated by tabs: save it again with commas"
    ),
    "table.both_decimals": Phrase(
        "decimals all with a comma, or all with a point, in a file with semicolons",
        "row {first} has the other kind, so that nobody can say which numbers are which: write all of them alike",
    ),
    "table.header_only": Phrase("rows below the header", "there is only a header: add the rows"),
    "table.columns": Phrase(says="columns {columns}"),
    "table.columns_besides": Phrase(says="columns {columns}, and where wanted {optional}"),
    "table.column_missing": Phrase(_COLUMNS, "add the column"),
    "table.column_unknown": Phrase(_COLUMNS, "take the column out or correct its name"),
    "table.column_twice": Phrase(_COLUMNS, "the column is there twice: keep one"),
    "table.row_short": Phrase(
        _ROW_CELLS, "the row has {cells} cells: add the missing ones, or a comma for each blank one"
    ),
    "table.row_long": Phrase(
        _ROW_CELLS, "the row has {cells} cells: take out stray commas, and write decimals with a point"
    ),
    "table.number": Phrase("a number for {name}", "{likely.cure}"),
    "table.number_in_range": Phrase("a number for {name}, {range}", "{likely.cure}"),
    "number.too_long": Phrase(cure="write a number, in at most {most} characters"),
    "number.too_large": Phrase(cure="the number is too large to hold: check its exponent"),
    "number.not_finite": Phrase(cure="write a finite number, or leave the cell blank where the quantity is optional"),
    "number.decimal_comma": Phrase(cure="write decimals with a point, not a comma"),
    "number.with_unit": Phrase(cure="write the number alone; its unit has a column of its own"),
    "number.none": Phrase(cure="write a number"),
    "turns.too_long": Phrase(cure=f"write it in at most {{most}} characters; {_HOW_TURNS}"),
    "turns.closed_length": Phrase(cure=f"{{likely.cure}}; {_HOW_TURNS}"),
    "turns.not_above_zero": Phrase(cure="a length is above zero: check its sign"),
    "turns.no_turns": Phrase(cure=_HOW_TURNS),
    "turns.twice": Phrase(cure=f"{{word}}s stand there twice; {_HOW_TURNS}"),
    "turns.thread": Phrase(cure=f"{{likely.cure}}; {_HOW_TURNS}"),
    "turns.no_thread": Phrase(
        cure="say which thread was turned, since another thread is another length: behind the turns, such as of 10-32, "
        "or in the build's row check_thread"
    ),
    "turns.nothing": Phrase(cure="{likely.cure}", says="no length is given"),
    "turns.no_length": Phrase(cure="{likely.cure}", says="“{typed}” is no length"),
    "thread.none": Phrase(
        cure="name the thread as 10-32, 1/4-28 or M6x1, or by its threads in an inch alone, {least} to {most}"
    ),
    "unit.missing": Phrase(cure="say in which unit it was measured: {accepted}"),
    "unit.near": Phrase(cure=f"unknown unit: {NEAR}"),
    "unit.unknown": Phrase(cure="unknown unit: write {accepted}"),
    "unit.other": Phrase(cure="write {accepted}"),
    "unit.convert_first": Phrase(cure="{unit} is for {kind}, but convert it to {accepted} first"),
    "unit.of_another_kind": Phrase(cure="{unit} where {kind} belongs: {unit} is for {other}"),
    "name.empty": Phrase(NAME_RULE, "give it a name"),
    "name.too_long": Phrase(NAME_RULE, "it has {count} characters: shorten it"),
    "name.unseen": Phrase(NAME_RULE, "it holds U+{point:04X}, which cannot be seen: type the name again"),
    "name.spaces": Phrase(NAME_RULE, "take out the spaces around it"),
    "name.note": Phrase(
        NAME_RULE, 'rename it: a line that starts with # is a note, and notes in a column are headed "# notes"'
    ),
    "name.run_when_split": Phrase(
        NAME_RULE, "rename it: a spreadsheet that splits cells at {split} would run what starts with {sign}"
    ),
    "name.run": Phrase(NAME_RULE, "rename it: a spreadsheet would run a cell that starts with {sign}"),
    "name.none": Phrase("a name for each {thing}", "name the {thing}, or take it out"),
    "name.alike": Phrase(_BY_EYE, 'it looks like "{other}" {there}: rename one'),
    "name.mistyped": Phrase(
        _BY_EYE,
        'it looks like "{other}" {there}: probably one {thing} mistyped; spell both the same, or rename one',
    ),
    "name.twice": Phrase("a different name for each {thing}", "it stands {there} already: rename one"),
    "input.printed_into": Phrase(
        _NO_PRINTING, "standard output runs into it (the shell's > or >>): send that to another file"
    ),
    "output.is_input": Phrase("a file that is not read in the same run", "give the output another name"),
    "output.not_text": Phrase(
        "a file whose name does not end like a workbook's",
        "what is written there is text: end its name in .csv or .html",
    ),
    "output.no_workbook": Phrase("a file whose name ends in .xlsx", "end its name in .xlsx"),
    "output.twice": Phrase("a different file for each output", "two outputs have this name: give one another name"),
    "output.shut": Phrase("a file that may be written", "change its permissions, or write elsewhere"),
    "output.folder": Phrase("a file name", "that is a folder: name a file in it"),
    "output.device": Phrase("an ordinary file", "that is a device or pipe: name a file"),
    "output.removed": Phrase(
        "a file with a name", "that file has been removed and only its number is left: name a file"
    ),
    "output.printed_into": Phrase(_NO_PRINTING, "{stream} runs into it: give the output another name"),
    "output.no_folder": Phrase("a file in a folder that exists", "make the folder first, or check its spelling"),
    "output.no_name": Phrase("a file name the system takes", "the system says: {reason}"),
    "output.not_written": Phrase(_WRITABLE, "nothing was written; the system says: {reason}"),
    "output.not_all_put_back": Phrase(_WRITABLE, "not every file was put back as it was; the system says: {reason}"),
    "output.stuck": Phrase(_PUT_BACK, "the new contents are in it and cannot be taken back: the system says: {reason}"),
    "output.stuck_old_kept": Phrase(
        _PUT_BACK,
        "the new contents are in it and cannot be taken back: the system says: {reason}; the old contents are in "
        "{kept}: rename that by hand",
    ),
    "stream.full": Phrase(
        "a place that takes all that is printed", "{outcome}; make room there or send it elsewhere, and run again"
    ),
}
"""Code -> its words; ``likely`` is the finding whose cure is the likely one."""
