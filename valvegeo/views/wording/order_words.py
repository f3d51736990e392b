"""An order in the builder's words: tables of text and sentences, for the printed report and the page alike.

Lengths are in inches with three decimals; a supplier's own length stands in the unit and convention of its list.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

import numpy as np

from valvegeo.motion.mechanism import Mechanism
from valvegeo.records.batch import take
from valvegeo.records.units import convert
from valvegeo.shop.adjustment import nut_setting
from valvegeo.shop.delivery import Delivery
from valvegeo.shop.lengths import centre_lengths, ends_of, gauged, in_every_convention
from valvegeo.shop.stock import Order
from valvegeo.shop.threads import STUD_THREADS, THREADS
from valvegeo.views.wording import words

Table = list[tuple[str, ...]]
"""A row of text a line, below a header."""

AS_LISTED = {"ball_centre": "ball centres", "overall": "overall", "gauge": "gauge"}
"""Conventions, as short as a column is."""

_NAME_WIDTH = 16


def short(name: str) -> str:
    """Cut a name to a column."""
    return textwrap.shorten(name, _NAME_WIDTH, placeholder="~")


def three(value: object) -> str:
    """Write inches with three decimals, nothing for a missing one, never a minus zero."""
    number = float(value)  # type: ignore[arg-type]
    return "" if np.isnan(number) else f"{round(number, 3) + 0.0:.3f}"


def signed(value: object) -> str:
    """Write signed inches with three decimals; nothing for a missing one."""
    number = round(float(value), 3) + 0.0  # type: ignore[arg-type]
    return "" if np.isnan(number) else "0.000" if number == 0.0 else f"{number:+.3f}"


def listed_length(order: Order, place: int) -> str:
    """Write a pushrod's length as its supplier does: ``8.100 in overall``."""
    unit = order.stock.units[place]
    length = convert(float(order.stock.length[place]), "in", unit)
    return f"{length:.{3 if unit == 'in' else 2}f} {unit} {AS_LISTED[str(order.stock.measured_as[place])]}"


def headline(order: Order) -> str:
    """Say how many lengths serve how many valves."""
    served, valves = int(order.served.sum()), order.choice.size
    count = len(order.lines)
    if not served:
        return f"none of the {valves} valves is served by this stock"
    lengths = "one length serves" if count == 1 else f"{count} different lengths serve"
    fewer = "" if count == 1 else "; fewer cannot"
    return f"{lengths} {'all' if served == valves else f'{served} of the'} {valves} valves{fewer}"


def sheet_table(orders: Sequence[Order], spares: int) -> Table:
    """Tabulate what to write to the supplier: a row a length, in its convention with the others beside it.

    Parameters
    ----------
    orders : sequence of Order
        From stock, and what is to be made.
    spares : int
        Of each length.
    """
    table: Table = [("pushrod", "pieces", "spares", "order as", "ball centres", "overall", "gauge")]
    for order in orders:
        everywhere = in_every_convention(centre_lengths(order.stock), gauged(ends_of(order.stock)))
        for line in order.lines:
            table.append(
                (
                    short(order.stock.labels[line.place]),
                    str(len(line.valves) + spares),
                    str(spares),
                    listed_length(order, line.place),
                    *(three(everywhere[name][line.place]) for name in AS_LISTED),
                )
            )
    return table


def who(order: Order, valves: Sequence[str]) -> list[str]:
    """Say which valves each length is for."""
    return [
        f"{order.stock.labels[line.place]}: {', '.join(valves[index] for index in line.valves)}" for line in order.lines
    ]


def valve_table(order: Order, valves: Sequence[str]) -> Table:
    """Tabulate what each valve gets and pays."""
    got, penalty = order.ordered, order.penalty
    standing = bool((order.mechanism.mount == "stand").any())
    head = ("valve", "pushrod", "length", "off", "sweep", "middle", *(("lash/preload",) if standing else ()), "pays")
    table: Table = [head]
    for index, valve in enumerate(valves):
        slack = got.lash_ordered[index] if np.isnan(got.preload_ordered[index]) else got.preload_ordered[index]
        table.append(
            (
                short(valve),
                short(str(got.stock_label[index])) or "NONE",
                three(got.pushrod_length[index]),
                signed(got.length_error[index]),
                three(got.sweep_width[index]),
                signed(got.sweep_centre[index]),
                *((three(slack),) if standing else ()),
                three(penalty[index]),
            )
        )
    return table


def meaning(order: Order) -> list[str]:
    """Say what the columns of the valves' table are."""
    said = ["length is ball centre to ball centre, off is that less what the valve wants (positive: longer)"]
    if (order.mechanism.mount == "stud").any():
        said.append(
            f"on a stud a valve pays in sweep beyond its best, at most {words.inches(order.limits.sweep_allowance)}"
        )
    if (order.mechanism.mount == "stand").any():
        said.append(
            "on a stand the pivot stays and a valve pays in lash or preload away from the declared one: solid "
            f"{three(order.limits.lash_least)} to {words.inches(order.limits.lash_most)} lash, hydraulic "
            f"{three(order.limits.preload_least)} to {words.inches(order.limits.preload_most)} preload is let pass"
        )
    return said


def unserved(order: Order, made: Order | None, valves: Sequence[str]) -> list[str]:
    """Say which valves no stock length serves, and what to have made for them."""
    if made is None:
        return []
    left = [valves[index] for index in np.flatnonzero(~order.served).tolist()]
    wanted = order.fits.wanted_length[~order.served]
    lines = []
    for index, valve in enumerate(left):
        place = int(made.choice[index])
        nearest = f"it wants {words.inches(wanted[index])} ball centre to ball centre"
        if place < 0:
            lines.append(f"NO STOCK LENGTH SERVES {valve}, and no step of a made one either; {nearest}")
            continue
        centres = words.inches(made.ordered.pushrod_length[index])
        lines.append(
            f"NO STOCK LENGTH SERVES {valve}: have {listed_length(made, place)} made ({centres} ball centre to ball "
            f"centre); {nearest}"
        )
    return lines


def custom(order: Order, instead: Order, step: float) -> str:
    """Compare with a set made to measure."""
    if not instead.served.any():
        return f"made to measure in steps of {words.inches(step)}: no length serves"
    lengths = ", ".join(f"{len(line.valves)} of {listed_length(instead, line.place)}" for line in instead.lines)
    least, most = float(np.nansum(instead.penalty)), float(np.nanmax(instead.penalty))
    left = np.count_nonzero(~instead.served)
    unserved_too = f", {left} valves unserved" if left else ""
    ordered = f", against {words.inches(np.nansum(order.penalty))} from stock" if order.served.all() else ""
    return (
        f"made to measure in steps of {words.inches(step)} instead: {lengths}{unserved_too}; valves pay at most "
        f"{words.inches(most)}, together {words.inches(least)}{ordered}"
    )


def setting_table(order: Order, valves: Sequence[str]) -> Table:
    """Tabulate the nut's turns from zero lash, for the usual stud threads; studs with a pushrod only."""
    shown = np.flatnonzero(order.served & (order.mechanism.mount == "stud"))
    if shown.size == 0:
        return []
    threads = [THREADS[size] for size in STUD_THREADS]
    mechanism: Mechanism = take(order.mechanism, shown)
    settings = [nut_setting(mechanism, order.ordered.pushrod_length[shown], thread) for thread in threads]
    first = settings[0]
    if not np.any(np.abs(first.nut_travel) > words.SMALLEST):
        return []
    table: Table = [("valve", *(f"turns {t.size}" for t in threads), "nut down", "pivot after", "marks at zero lash")]
    edge = mechanism.stem_diameter / 2
    for index, place in enumerate(shown):
        marks = first.shown_in_check
        stations = (marks.contact_no_lift, marks.contact_half_lift, marks.contact_full_lift)
        table.append(
            (
                short(valves[int(place)]),
                *(f"{setting.turns[index]:+.2f}" for setting in settings),
                signed(first.nut_travel[index]),
                signed(first.pivot_height[index]),
                " ".join(three((edge + station)[index]) for station in stations),
            )
        )
    return table


def setting_sentences() -> list[str]:
    """Say how to set the nuts, and what not to correct."""
    return [
        "from zero lash, lifter on its base circle, turn the nut as tabled; positive tightens",
        "the rule: the nut moves the pushrod's cup (1 + 1/ratio) times its travel, and the gap at the tip (1 + ratio) "
        "times; turns are travel times threads an inch",
        "marks are from the inboard edge at no, half and full lift, as this pushrod shows them in a zero-lash check: "
        "that is right, do not take the lash or preload out again",
    ]


def delivery_table(delivery: Delivery, valves: Sequence[str]) -> Table:
    """Tabulate which delivered pushrod goes where."""
    table: Table = [("valve", "pushrod", "length", "off", "pays", "verdict")]
    for valve, row in delivery.to_frame(valves).iterrows():
        missing = not row["pushrod"]
        verdict = "NONE LEFT" if missing else "OUTSIDE, do not fit" if row["outside"] else "fit"
        table.append(
            (
                short(str(valve)),
                short(str(row["pushrod"])),
                three(row["pushrod_length"]),
                signed(row["length_error"]),
                three(row["penalty"]),
                verdict,
            )
        )
    return table


def delivery_sentences(delivery: Delivery) -> list[str]:
    """Say what is left over and what is outside."""
    said = ["the pushrods are matched so that all valves together pay least; lengths ball centre to ball centre"]
    if delivery.left_over:
        said.append(f"left over: {', '.join(delivery.delivered.labels[place] for place in delivery.left_over)}")
    return said
