"""``size``: the pushrod length of every valve, from the measurements."""

from __future__ import annotations

import argparse

from valvegeo.answers.results import size_rows
from valvegeo.answers.size import SizeAnswer, answer_size
from valvegeo.commands.run import Run
from valvegeo.records.files.build_file import build_text
from valvegeo.records.files.tidy import tidy_text
from valvegeo.views.printed.text import as_text
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.reports.size_short import size_short


def run(arguments: argparse.Namespace) -> None:
    """Size a build file's valves."""
    job = Run([arguments.build], [arguments.tuned, arguments.results, arguments.page], units=arguments.units)
    build = job.build(arguments.build)
    drawn = arguments.page is not None
    answer = job.sound(None if build is None else job.tried(lambda: answer_size(build, drawn=drawn)))
    job.deliver(
        [
            (arguments.tuned, lambda: build_text(answer.build, answer.tuned)),
            (arguments.results, lambda: tidy_text(size_rows(answer))),
            (arguments.page, lambda: _page(answer)),
        ],
        as_text(size_sections(answer) if arguments.details else size_short(answer)),
    )


def _page(answer: SizeAnswer) -> str:
    from valvegeo.views.printed.page import page_text

    return page_text(answer)
