"""``order``: stock pushrods for the whole engine, with the fewest different lengths."""

from __future__ import annotations

import argparse
from collections.abc import Iterable

from valvegeo.answers.order import OrderAnswer, answer_order
from valvegeo.answers.results import order_rows
from valvegeo.answers.size import geometry_faults
from valvegeo.commands.run import Run
from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import exact
from valvegeo.records.cells.options import read_options
from valvegeo.records.files.stock_file import read_pushrod_list
from valvegeo.records.files.tidy import tidy_text
from valvegeo.shop.limits import Limits
from valvegeo.views.printed.order_sheet import sheet_text
from valvegeo.views.printed.text import as_text
from valvegeo.views.reports.order_sections import order_sections
from valvegeo.views.reports.order_short import order_short

OPTIONS = {
    "sweep_allowance": "--allowance",
    "lash_least": "--lash-least",
    "lash_most": "--lash-most",
    "preload_least": "--preload-least",
    "preload_most": "--preload-most",
    "length_step": "--step",
}
"""Registry name -> its option."""

MOST_SPARES = 99
"""Of each length."""


def run(arguments: argparse.Namespace) -> None:
    """Order for a build file's valves from a stock list."""
    inputs = [arguments.build, arguments.stock, arguments.delivered]
    job = Run(inputs, [arguments.results, arguments.sheet, arguments.page], units=arguments.units)
    build = job.build(arguments.build)
    stock = job.tried(lambda: read_pushrod_list(arguments.stock))
    came = None if arguments.delivered is None else job.tried(lambda: read_pushrod_list(arguments.delivered))
    given = {name: getattr(arguments, name) for name in OPTIONS}
    typed = {name: text for name, text in given.items() if text is not None}
    if build is None and arguments.units is None:
        typed = {}  # the build says in which unit the options are
    numbers, faults = read_options(typed, OPTIONS)
    step = numbers.pop("length_step", None)
    limits = Limits(**numbers)
    job.blame(faults or _wrong_way_round(limits))
    spares = _spares(arguments.spares)
    if spares is None:
        found = Finding("option.spares", {"most": MOST_SPARES}, value=arguments.spares)
        job.blame([found.at("command line", column="--spares")])
    answer = None
    if build is not None and stock is not None and spares is not None and job.is_sound:
        answer = job.tried(lambda: answer_order(build, stock, limits, came, step, spares))
    elif build is not None:
        job.blame(geometry_faults(build))
    answer = job.sound(answer)
    job.deliver(
        [
            (arguments.results, lambda: tidy_text(order_rows(answer))),
            (arguments.sheet, lambda: sheet_text(answer)),
            (arguments.page, lambda: _page(answer, arguments)),
        ],
        as_text(order_sections(answer) if arguments.details else order_short(answer)),
    )


def _wrong_way_round(limits: Limits) -> Iterable[Finding]:
    for kind in ("lash", "preload"):
        least, most = getattr(limits, f"{kind}_least"), getattr(limits, f"{kind}_most")
        if least > most:
            swapped = Finding("option.least_over_most", {"kind": kind, "most": most}, value=exact(least))
            yield swapped.at("command line", column=f"--{kind}-least")


def _spares(text: str) -> int | None:
    """Read a count of spares; None where it is none."""
    return int(text) if text.isascii() and text.isdigit() and len(text) <= len(str(MOST_SPARES)) else None


def _page(answer: OrderAnswer, arguments: argparse.Namespace) -> str:
    from valvegeo.views.printed.page import order_page

    return order_page(answer, [arguments.build, arguments.stock])
