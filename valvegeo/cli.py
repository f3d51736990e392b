"""The commands: read arguments, call the library, write what it answers. No geometry and no wording of results here."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from valvegeo.quantities import BY_NAME

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
    from valvegeo.records.faults import BadInput

    for stream in (sys.stdout, sys.stderr):  # a template is a file to be read again, whatever the terminal's locale
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    try:
        arguments.run(arguments)
        sys.stdout.flush()
    except BadInput as bad:
        print(*bad.lines, sep="\n", file=sys.stderr)
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

    read = commands.add_parser(
        "read",
        help="read marks on the stem tips: the pushrod length they tell, and how sure",
        description="Fit marks read at no, half and full lift, and say the pushrod length and how sure it is.",
    )
    read.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    read.add_argument("marks", metavar="MARKS.csv", type=Path, help="marks file with the readings")
    read.add_argument("--tuned", metavar="T.csv", type=Path, help="write the build file of the tuned configuration")
    read.add_argument("--results", metavar="R.csv", type=Path, help="write all results, one value a row")
    read.add_argument(
        "--starting-guess",
        action="store_true",
        help="let the build's pivot height and offset be a starting guess only, not measurements that count",
    )
    read.add_argument(
        "--valve-lift",
        metavar="VALVE=INCHES",
        action="append",
        default=[],
        help="dial indicator's maximum at the retainer, to see whether full lift was full; may be repeated",
    )
    read.set_defaults(run=_read)

    order = commands.add_parser(
        "order",
        help="choose stock pushrods for the whole engine, with the fewest different lengths",
        description="Choose a stock pushrod for every valve: the fewest different lengths, then the least penalty. "
        "Both ends of a pushrod are taken to be alike; convert one with a cup or unlike ends first, and list it as "
        "ball_centre.",
    )
    order.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    order.add_argument("stock", metavar="STOCK.csv", type=Path, help="the supplier's list of pushrods")
    order.add_argument("--results", metavar="R.csv", type=Path, help="write all results, one value a row")
    order.add_argument("--sheet", metavar="S.csv", type=Path, help="write the order sheet")
    order.add_argument("--page", metavar="P.html", type=Path, help="write the order as a page that opens from disk")
    order.add_argument("--delivered", metavar="D.csv", type=Path, help="pushrods that came, measured, to be matched")
    order.add_argument("--spares", metavar="N", type=_spares, default=0, help="spares of each length")
    order.add_argument(
        "--step", metavar="INCHES", type=_step, help="between lengths made to measure (default .010; .25 mm)"
    )
    for name, what in (
        ("sweep_allowance", "sweep beyond a valve's best that is let pass, on a stud"),
        ("lash_least", "least lash that is let pass, on a stand"),
        ("lash_most", "most lash that is let pass, on a stand"),
        ("preload_least", "least preload that is let pass, on a stand"),
        ("preload_most", "most preload that is let pass, on a stand"),
    ):
        default = BY_NAME[name].default
        option = "--" + name.replace("_", "-").removeprefix("sweep-")
        order.add_argument(
            option, dest=name, metavar="INCHES", type=_within(name), default=default, help=f"{what} (default {default})"
        )
    order.set_defaults(run=_order)
    return parser


def _spares(text: str) -> int:
    """Read a count of spares."""
    if text.isdecimal() and int(text) < 100:
        return int(text)
    raise argparse.ArgumentTypeError(f"got {text!r}; allowed: a whole number, 0 to 99; how many spares of each length")


def _step(text: str) -> float:
    """Read a step between lengths that can be had."""
    from valvegeo.records.table import read_number

    allowed = "allowed: 0.001 to 0.5 in"
    try:
        value = read_number(text.strip())
    except ValueError as likely:
        raise argparse.ArgumentTypeError(f"got {text!r}; {allowed}; {likely}") from None
    if not 0.001 <= value <= 0.5:
        raise argparse.ArgumentTypeError(f"got {text!r}; {allowed}; check the decimal point")
    return value


def _within(name: str) -> Callable[[str], float]:
    """Read an option in inches that lies in a quantity's range."""
    quantity = BY_NAME[name]

    def read(text: str) -> float:
        from valvegeo.records.table import read_number

        try:
            value = read_number(text.strip())
        except ValueError as likely:
            raise argparse.ArgumentTypeError(f"got {text!r}; allowed: {quantity.allowed}; {likely}") from None
        if not quantity.low <= value <= quantity.high:
            raise argparse.ArgumentTypeError(f"got {text!r}; allowed: {quantity.allowed}; check the decimal point")
        return value

    return read


def _template(arguments: argparse.Namespace) -> None:
    from valvegeo.records.template import template_text
    from valvegeo.shop.cautions import AT_THE_CHECK

    sys.stdout.write(template_text(arguments.valves, AT_THE_CHECK))


def _size(arguments: argparse.Namespace) -> None:
    from valvegeo.motion.certainty.tolerance import length_uncertainty
    from valvegeo.motion.sizing import size
    from valvegeo.motion.verdict import geometry_problems
    from valvegeo.records.build_file import build_text, read_build
    from valvegeo.records.faults import BadInput
    from valvegeo.records.tidy import TidyRow, rows_of_case, tidy_text
    from valvegeo.records.whole import output_faults, write_whole
    from valvegeo.views.printed.report import report_text

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
        for valve, half in zip(build.valves, length_uncertainty(build.valvetrain).length_uncertainty, strict=True):
            rows.append(TidyRow(valve, "best", "length_uncertainty", float(half), "in"))
        texts[arguments.results] = tidy_text(rows)
    if arguments.page is not None:
        from valvegeo.views.printed.page import page_text

        texts[arguments.page] = page_text(build, sizing)
    printed = report_text(build, sizing)
    write_whole(texts, inputs=[arguments.build])
    sys.stdout.write(printed)


def _read(arguments: argparse.Namespace) -> None:
    from valvegeo.motion.marks.fit import MarkFit
    from valvegeo.motion.marks.information import FromBuild
    from valvegeo.motion.sizing import size
    from valvegeo.motion.verdict import geometry_problems
    from valvegeo.records.batch import put
    from valvegeo.records.build_file import build_text, read_build
    from valvegeo.records.faults import BadInput
    from valvegeo.records.marks_file import form_faults, read_marks
    from valvegeo.records.tidy import rows_of_case, tidy_text
    from valvegeo.records.valve_lifts import read_valve_lifts
    from valvegeo.records.whole import output_faults, write_whole
    from valvegeo.views.printed.read_faults import fits_or_faults
    from valvegeo.views.printed.read_report import read_report_text

    inputs = [arguments.build, arguments.marks]
    wanted = [path for path in (arguments.tuned, arguments.results) if path is not None]
    faults = output_faults(wanted, inputs)
    try:
        build = read_build(arguments.build)
    except BadInput as bad:
        raise BadInput([*bad.faults, *form_faults(arguments.marks), *faults]) from None
    try:
        marks = read_marks(arguments.marks, build)
    except BadInput as bad:
        raise BadInput([*bad.faults, *faults]) from None
    lifts, lift_faults = read_valve_lifts(arguments.valve_lift, tuple(marks.readings))
    from_build: FromBuild = "starting_guess" if arguments.starting_guess else "measurement"
    fits: dict[str, MarkFit]
    fits, fit_faults = fits_or_faults(build, marks, from_build)
    if arguments.tuned is not None:
        unmarked = [
            p for p in geometry_problems(size(build.valvetrain)) if build.valves[p.index[0]] not in marks.readings
        ]
        faults = [*build.faults(unmarked), *faults]
    if faults := [*fit_faults, *lift_faults, *faults]:
        raise BadInput(faults)
    texts: dict[Path, str] = {}
    if arguments.tuned is not None:
        tuned = build.valvetrain
        for valve, fit in fits.items():
            tuned = put(tuned, build.valves.index(valve), fit.sizing.tuned())
        texts[arguments.tuned] = build_text(build, tuned)
    if arguments.results is not None:
        texts[arguments.results] = tidy_text(
            row for valve, fit in fits.items() for row in rows_of_case([valve], "read", fit)
        )
    printed = read_report_text(build, fits, lifts)
    write_whole(texts, inputs)
    sys.stdout.write(printed)


def _order(arguments: argparse.Namespace) -> None:
    from valvegeo.motion.sizing import size
    from valvegeo.motion.verdict import geometry_problems
    from valvegeo.records.build_file import read_build
    from valvegeo.records.faults import BadInput, Fault
    from valvegeo.records.stock_file import read_pushrod_list
    from valvegeo.records.tidy import tidy_text
    from valvegeo.records.whole import output_faults, write_whole
    from valvegeo.shop.delivery import match
    from valvegeo.shop.stock import Limits, choose, made_to_measure, pattern, to_make
    from valvegeo.views.printed.order_report import order_report
    from valvegeo.views.printed.order_sheet import order_rows, sheet_text

    inputs = [path for path in (arguments.build, arguments.stock, arguments.delivered) if path is not None]
    wanted = [path for path in (arguments.results, arguments.sheet, arguments.page) if path is not None]
    faults: list[Fault] = []
    read: list[Any] = []
    for reader, path in ((read_build, arguments.build), (read_pushrod_list, arguments.stock)) + (
        () if arguments.delivered is None else ((read_pushrod_list, arguments.delivered),)
    ):
        try:
            read.append(reader(path))
            if reader is read_build:
                faults += read[0].faults(geometry_problems(size(read[0].valvetrain)))
        except BadInput as bad:
            faults += bad.faults
    for kind in ("lash", "preload"):
        least, most = getattr(arguments, f"{kind}_least"), getattr(arguments, f"{kind}_most")
        if least > most:
            allowed = f"at most --{kind}-most, {most:g} in"
            faults.append(Fault("command line", None, f"--{kind}-least", f"{least:g}", allowed, "swap the two"))
    faults += output_faults(wanted, inputs)
    if faults:
        raise BadInput(faults)
    build, stock, *came = read
    limits = Limits(
        arguments.sweep_allowance,
        arguments.lash_least,
        arguments.lash_most,
        arguments.preload_least,
        arguments.preload_most,
    )
    sizing = size(build.valvetrain)
    mechanism = sizing.mechanism
    order = choose(mechanism, stock, limits)
    made = to_make(order, arguments.step)
    instead = made_to_measure(mechanism, pattern(order), arguments.step, limits)
    delivery = match(mechanism, came[0], limits) if came else None
    told = (build.valves, sizing, order, made, instead, arguments.spares, delivery)
    texts: dict[Path, str] = {}
    if arguments.results is not None:
        texts[arguments.results] = tidy_text(order_rows(build.valves, order, made))
    if arguments.sheet is not None:
        texts[arguments.sheet] = sheet_text(build.valves, order, made, arguments.spares)
    if arguments.page is not None:
        from valvegeo.views.printed.order_page import order_page

        texts[arguments.page] = order_page(f"{arguments.build.name} and {arguments.stock.name}", *told)
    printed = order_report(*told)
    write_whole(texts, inputs=inputs)
    sys.stdout.write(printed)
