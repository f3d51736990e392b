"""``template``: an empty build file that says how to measure each row, as text or as a workbook."""

from __future__ import annotations

import argparse

from valvegeo.commands.run import Run
from valvegeo.records.files.template import template_text
from valvegeo.records.files.workbook_template import template_workbook
from valvegeo.views.wording.caution_words import three_lines


def run(arguments: argparse.Namespace) -> None:
    """Print a template for the valves named, or write it as a workbook and say so."""
    valves, cautions, path = arguments.valves, three_lines("measure"), arguments.workbook
    if path is None:
        Run([], [], units=arguments.units).deliver([], template_text(valves, cautions))
        return
    run = Run([], [path], workbooks=[path], units=arguments.units)
    book = run.sound(run.tried(lambda: template_workbook(valves, cautions)))
    said = f"{path} is written. Fill in its one sheet, save it, and give it to the other commands as it is.\n"
    run.deliver([(path, lambda: book)], said)
