"""``read``: the pushrod length that the marks on the stem tips tell, and how sure."""

from __future__ import annotations

import argparse

from valvegeo.answers.read import answer_read
from valvegeo.answers.results import read_rows
from valvegeo.commands.run import Run
from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.records.cells.options import VALVE_LIFTS
from valvegeo.records.files.build_file import build_text
from valvegeo.records.files.marks_file import form_faults, read_marks
from valvegeo.records.files.tidy import tidy_text
from valvegeo.views.printed.text import as_text
from valvegeo.views.reports.read_sections import read_sections
from valvegeo.views.reports.read_short import read_short


def run(arguments: argparse.Namespace) -> None:
    """Read the marks of a build file's valves."""
    job = Run([arguments.build, arguments.marks], [arguments.tuned, arguments.results], units=arguments.units)
    build = job.build(arguments.build)
    if build is None:
        job.blame(form_faults(arguments.marks))
    build = job.sound(build) if build is None else build
    marks = job.tried(lambda: read_marks(arguments.marks, build))
    marks = job.sound(marks) if marks is None else marks
    lifts, lift_faults = VALVE_LIFTS.read(arguments.valve_lift, tuple(marks.readings))
    from_build: FromBuild = "starting_guess" if arguments.starting_guess else "measurement"
    job.blame(lift_faults)
    answer = job.tried(lambda: answer_read(build, marks, from_build, lifts))
    if answer is not None:
        job.blame(answer.withheld)
        job.blame(answer.unmarked_faults if arguments.tuned is not None else ())
    answer = job.sound(answer)
    job.deliver(
        [
            (arguments.tuned, lambda: build_text(build, answer.tuned)),
            (arguments.results, lambda: tidy_text(read_rows(answer))),
        ],
        as_text(read_sections(answer) if arguments.details else read_short(answer)),
    )
