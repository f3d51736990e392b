"""The commands: read arguments, call the library, write what it answers. No geometry and no wording of results here."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path

EXIT_DONE = 0
EXIT_BAD_INPUT = 2
EXIT_PIPE_CLOSED = 141
"""What a shell reports for a command whose reader went away (128 + SIGPIPE)."""

CASES = ("checked", "best", "as_mounted", "verify")
"""Cases of a sizing, in the order of the results file."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments after the program's name; the process's own when left out.

    Returns
    -------
    int
        Exit status: 0 done, 2 bad input (its faults are on standard error), 141 the reader of standard output left.

    Raises
    ------
    SystemExit
        With status 2 for arguments that make no command, with status 0 after ``--help``.
    """
    arguments = _parser().parse_args(argv)
    from valvegeo.records.table import BadInput

    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(
            encoding="utf-8"
        )  # a template is a file to be read again, whatever the terminal's locale
    try:
        arguments.run(arguments)
        sys.stdout.flush()
    except BadInput as bad:
        for fault in bad.faults:
            print(fault.line, file=sys.stderr)
        return EXIT_BAD_INPUT
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # so that closing it at exit does not fail again
        return EXIT_PIPE_CLOSED
    return EXIT_DONE


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m valvegeo", description="Pushrod length and rocker geometry from bench measurements."
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    template = commands.add_parser(
        "template",
        help="write an empty build file that says how to measure each row",
        description="Write an empty build file to standard output: a row a quantity, a column a valve.",
    )
    template.add_argument("valves", metavar="VALVE", nargs="+", help="name of a valve, such as I1 or E1")
    template.set_defaults(run=_template)

    size = commands.add_parser(
        "size",
        help="find the pushrod length of every valve",
        description="Find the pushrod length that carries the rocker tip across the stem in the narrowest band.",
    )
    size.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    size.add_argument("--tuned", metavar="T.csv", type=Path, help="write the build file of the tuned configuration")
    size.add_argument("--results", metavar="R.csv", type=Path, help="write all results, one value a row")
    size.add_argument("--page", metavar="P.html", type=Path, help="write a page with figures that opens from disk")
    size.set_defaults(run=_size)
    return parser


def _template(arguments: argparse.Namespace) -> None:
    from valvegeo.records.template import template_text
    from valvegeo.shop.cautions import AT_THE_CHECK

    sys.stdout.write(template_text(arguments.valves, AT_THE_CHECK))


def _size(arguments: argparse.Namespace) -> None:
    from valvegeo.motion.sizing import size
    from valvegeo.motion.verdict import geometry_problems
    from valvegeo.records.build_file import build_text, read_build
    from valvegeo.records.table import BadInput
    from valvegeo.records.tidy import rows_of_case, tidy_text
    from valvegeo.records.whole import output_faults, write_whole
    from valvegeo.views.report import report_text

    wanted = [path for path in (arguments.tuned, arguments.results, arguments.page) if path is not None]
    faults = output_faults(wanted, inputs=[arguments.build])
    try:
        build = read_build(arguments.build)
    except BadInput as bad:
        raise BadInput([*bad.faults, *faults]) from None
    sizing = size(build.valvetrain)
    faults = build.faults(geometry_problems(sizing)) + faults
    if faults:
        raise BadInput(faults)
    texts: dict[Path, str] = {}
    if arguments.tuned is not None:
        texts[arguments.tuned] = build_text(build, sizing.tuned())
    if arguments.results is not None:
        rows = [row for case in CASES for row in rows_of_case(build.valves, case, getattr(sizing, case))]
        texts[arguments.results] = tidy_text(rows)
    if arguments.page is not None:
        from valvegeo.views.page import page_text

        texts[arguments.page] = page_text(build, sizing)
    printed = report_text(build, sizing)
    write_whole(texts, inputs=[arguments.build])
    sys.stdout.write(printed)
