"""The commands' arguments; what each command does is in :mod:`valvegeo.commands`, a file a command."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from valvegeo import streams
from valvegeo.quantities import BY_NAME, CHANGES, HEAT

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

EXIT_DONE = 0
EXIT_BAD_INPUT = 2


def main(argv: Sequence[str] | None = None, when_loaded: Callable[[], None] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments after the program's name; the process's own when left out.
    when_loaded : callable, optional
        Called when all that the command needs is imported, before it runs.

    Returns
    -------
    int
        Exit status: 0 done; 2 bad input; 74 standard output is closed, full or broken (a line on standard error says
        whether the files were written); 141 the reader of standard output left. A process run as
        ``python -m valvegeo`` exits with 130 when interrupted, 143 when terminated and 129 when its terminal went.

    Raises
    ------
    SystemExit
        With status 2 for arguments that make no command, with status 0 after ``--help``.
    """
    from valvegeo.findings.lengths import speaking

    streams.begin()
    with speaking("in"):
        return _run(argv, when_loaded)


def _run(argv: Sequence[str] | None, when_loaded: Callable[[], None] | None) -> int:
    """Run one command, and say what is wrong with it in the unit that it speaks."""
    from valvegeo.findings.finding import Finding
    from valvegeo.findings.refusal import BadInput

    try:
        arguments = _arguments(argv)
        command = import_module(f"valvegeo.commands.{arguments.command}")
        if when_loaded is not None:
            when_loaded()
        command.run(arguments)
    except BadInput as bad:
        streams.complain(bad.lines)
        return EXIT_BAD_INPUT
    except streams.Unheard as unheard:
        if unheard.reason:
            outcome = {"outcome": streams.outcome()}
            streams.complain([Finding("stream.full", outcome, value=unheard.reason, file="standard output").line])
        return unheard.status
    return EXIT_DONE


class _Parser(argparse.ArgumentParser):
    """One whose help goes to standard output or not at all: argparse sends it to standard error if that is closed."""

    def print_help(self, file: SupportsWrite[str] | None = None) -> None:
        """Print the help, through to the other side."""
        streams.say(self.format_help())


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    """Read the arguments; what is complained of about them is through before the process ends."""
    try:
        return _parser().parse_args(argv)
    except SystemExit:
        streams.complain([])
        raise


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="python -m valvegeo",
        description="Pushrod lengths for engines built of several makers' parts, from measurements on the bench.",
        epilog="Files that are read may be CSV or workbooks, .xlsx or .ods; files that are written are CSV and HTML.",
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    template = commands.add_parser(
        "template",
        help="write an empty build file that says how to measure each row",
        description="Write an empty build file to standard output: a row a quantity, a column a valve.",
    )
    template.add_argument("valves", metavar="VALVE", nargs="+", help="name of a valve, such as I1 or E1")
    template.add_argument(
        "--workbook",
        metavar="W.xlsx",
        type=Path,
        help="write a workbook instead, with drop-downs, allowed ranges and how to measure beside each row",
    )
    _units(template, otherwise="in")
    template.set_defaults(command="template")

    size = commands.add_parser(
        "size",
        help="find the pushrod length of every valve",
        description="Find the pushrod length that carries the rocker tip across the stem in the narrowest band.",
    )
    size.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    size.add_argument("--tuned", metavar="T.csv", type=Path, help="write the build file of the tuned configuration")
    size.add_argument(
        "--results",
        metavar="R.csv",
        type=Path,
        help="write numbers as tidy rows, one value a row: "
        "every case, how sure its length is, and what each remedy takes",
    )
    size.add_argument("--page", metavar="P.html", type=Path, help="write a page with figures that opens from disk")
    _details(size)
    _units(size)
    size.set_defaults(command="size")

    read = commands.add_parser(
        "read",
        help="read marks on the stem tips: the pushrod length they tell, and how sure",
        description="Fit marks read at no, half and full lift, and say the pushrod length and how sure it is.",
    )
    read.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    read.add_argument("marks", metavar="MARKS.csv", type=Path, help="marks file with the readings")
    read.add_argument("--tuned", metavar="T.csv", type=Path, help="write the build file of the tuned configuration")
    read.add_argument(
        "--results",
        metavar="R.csv",
        type=Path,
        help="write numbers as tidy rows, one value a row: "
        "lengths with their interval, with and without the build, and what each remedy takes",
    )
    read.add_argument(
        "--starting-guess",
        action="store_true",
        help="let the build's pivot height and offset be a starting guess only, not measurements that count",
    )
    read.add_argument(
        "--valve-lift",
        metavar="VALVE=LENGTH",
        action="append",
        default=[],
        help="dial indicator's maximum at the retainer, to see whether full lift was full; may be repeated",
    )
    _details(read)
    _units(read)
    read.set_defaults(command="read")

    order = commands.add_parser(
        "order",
        help="choose stock pushrods for the whole engine, with the fewest different lengths",
        description="Choose a stock pushrod for every valve: the fewest different lengths, then the least penalty. "
        "Both ends of a pushrod are taken to be alike; convert one with a cup or unlike ends first, and list it as "
        "ball_centre.",
    )
    order.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    order.add_argument("stock", metavar="STOCK.csv", type=Path, help="the supplier's list of pushrods")
    order.add_argument(
        "--results",
        metavar="R.csv",
        type=Path,
        help="write numbers as tidy rows, one value a row: "
        "what each valve gets and what that costs, the nuts' turns, and what came",
    )
    order.add_argument("--sheet", metavar="S.csv", type=Path, help="write the order sheet")
    order.add_argument("--page", metavar="P.html", type=Path, help="write the order as a page that opens from disk")
    order.add_argument("--delivered", metavar="D.csv", type=Path, help="pushrods that came, measured, to be matched")
    order.add_argument("--spares", metavar="N", default="0", help="spares of each length")
    order.add_argument(
        "--step", dest="length_step", metavar="LENGTH", help="between lengths made to measure (default .010 in; .25 mm)"
    )
    for name, what in (
        ("sweep_allowance", "sweep beyond a valve's best that is allowed, on a stud"),
        ("lash_least", "least lash that is allowed, on a stand"),
        ("lash_most", "most lash that is allowed, on a stand"),
        ("preload_least", "least preload that is allowed, on a stand"),
        ("preload_most", "most preload that is allowed, on a stand"),
    ):
        option = "--" + name.replace("_", "-").removeprefix("sweep-")
        help_text = f"{what} (default {BY_NAME[name].default} in)"
        order.add_argument(option, dest=name, metavar="LENGTH", help=help_text)
    _details(order)
    _units(order)
    order.set_defaults(command="order")

    cautions = commands.add_parser(
        "cautions",
        help="print every caution, step by step",
        description="Print every caution in full, by the step of the work at which it is met.",
    )
    cautions.set_defaults(command="cautions")

    changes = commands.add_parser(
        "changes",
        help="what a gasket, a cut, a cam, a valve job or heat does to every pushrod",
        description="Say what changes since the check do: which length each valve wants then, and what sweep, lash or "
        "preload the pushrod in place would have.",
    )
    changes.add_argument("build", metavar="BUILD.csv", type=Path, help="build file with the measurements")
    metavars = {"length": "LENGTH", "angle": "DEGREES", "ratio": "RATIO", "temperature": "CELSIUS"}
    for quantity in (*CHANGES, *HEAT):
        if not quantity.name.startswith(("screw", "head_growth")):
            option = "--" + quantity.name.replace("_", "-")
            changes.add_argument(option, metavar=metavars[quantity.kind], help=quantity.meaning)
    changes.add_argument(
        "--fitted",
        metavar="VALVE=LENGTH",
        action="append",
        default=[],
        help="pushrod in place, measured as the check was; may be repeated (default: what the valve wanted before)",
    )
    _units(changes)
    changes.add_argument("--results", metavar="R.csv", type=Path, help="write numbers as tidy rows, one value a row")
    changes.set_defaults(command="changes")

    quick = commands.add_parser(
        "quick",
        help="too long or too short, and about how far, from four numbers",
        description="Say from two lines on the stem tip whether the pushrod is too long or too short, about how far, "
        "and give or take how much. It finds the length at zero lash; a length to order by takes `size` or `read`.",
    )
    for option, name, metavar, what in (
        ("--arm", "valve_arm", "LENGTH", "pivot axis to the centre of the roller, or of the pad's arc"),
        ("--ratio", "rocker_ratio", "RATIO", "rocker ratio, as measured"),
        ("--lift", "check_valve_lift", "LENGTH", "valve lift at full lift, zero lash, read at the retainer"),
        (
            "--mark-travel",
            "mark_travel",
            "LENGTH",
            "place of the no-lift line less place of the full-lift line, both from the edge of the stem tip nearest "
            "the pivot: positive when the full-lift line is nearer the pivot, negative when it is further away",
        ),
    ):
        quick.add_argument(option, dest=name, metavar=metavar, required=True, help=what)
    _units(quick, otherwise="in")
    quick.set_defaults(command="quick")
    return parser


def _details(command: argparse.ArgumentParser) -> None:
    command.add_argument("--details", action="store_true", help="print the whole story of each valve, not one screen")


def _units(command: argparse.ArgumentParser, otherwise: str = "as the build's check_length row") -> None:
    command.add_argument(
        "--units", choices=("in", "mm"), help=f"of every length on the command line and in what is said ({otherwise})"
    )
