"""``changes``: what a gasket, a cut, a cam, a valve job or heat does to every valve's pushrod."""

from __future__ import annotations

import argparse

from valvegeo.answers.changes import ASKED, answer_changes
from valvegeo.answers.results import changes_rows
from valvegeo.commands.run import Run
from valvegeo.records.cells.options import FITTED, option_of, read_options
from valvegeo.records.files.tidy import tidy_text
from valvegeo.views.printed.text import as_text
from valvegeo.views.reports.changes_sections import changes_sections

OPTIONS = {name: option_of(name) for name in ASKED}
"""Registry name -> its option."""


def run(arguments: argparse.Namespace) -> None:
    """Answer changes since the check of a build file's valves."""
    job = Run([arguments.build], [arguments.results], units=arguments.units)
    build = job.build(arguments.build)
    build = job.sound(build) if build is None else build  # the build says in which unit the options are
    texts = {name: getattr(arguments, name) for name in OPTIONS if getattr(arguments, name) is not None}
    given, faults = read_options(texts, OPTIONS)
    fitted, of_fitted = FITTED.read(arguments.fitted, build.valves)
    job.blame([*faults, *of_fitted])
    answer = None if faults or of_fitted else job.tried(lambda: answer_changes(build, given, fitted))
    answer = job.sound(answer)
    job.deliver([(arguments.results, lambda: tidy_text(changes_rows(answer)))], as_text(changes_sections(answer)))
