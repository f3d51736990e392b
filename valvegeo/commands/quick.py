"""``quick``: too long or too short, and about how far, from four numbers."""

from __future__ import annotations

import argparse

from valvegeo.answers.quick import ASKED, answer_quick, misfits
from valvegeo.commands.run import Run
from valvegeo.records.cells.options import read_options
from valvegeo.views.printed.text import as_text
from valvegeo.views.reports.quick_sections import quick_sections

OPTIONS = {
    "valve_arm": "--arm",
    "rocker_ratio": "--ratio",
    "check_valve_lift": "--lift",
    "mark_travel": "--mark-travel",
}
"""Registry name -> its option."""


def run(arguments: argparse.Namespace) -> None:
    """Answer the four numbers."""
    job = Run([], [], units=arguments.units)
    numbers, faults = read_options({name: getattr(arguments, name) for name in ASKED}, OPTIONS)
    if not faults:
        faults = [found.at("command line", column=OPTIONS[found.quantity]) for found in misfits(numbers)]
    job.blame(faults)
    answer = job.sound(None if faults else answer_quick(**numbers))
    job.deliver([], as_text(quick_sections(answer)))
