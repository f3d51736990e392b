"""An order in the builder's words: tables of text and sentences, for the printed report and the page alike.

Lengths are in inches with three decimals; a supplier's own length stands in the unit and convention of its list.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.verdict import warnings
from valvegeo.records.batch import take
from valvegeo.records.units import convert
from valvegeo.shop.adjustment import nut_setting
from valvegeo.shop.delivery import Delivery
from valvegeo.shop.lengths import COMMON_GAUGE_HOLE, centre_lengths, ends_of, gauged, in_every_convention
from valvegeo.shop.stock import Order
from valvegeo.shop.threads import STUD_THREADS, THREADS
from valvegeo.views.wording import words

Table = list[tuple[str, ...]]
"""A row of text a line, below a header."""

AS_LISTED = {"ball_centre": "ball centres", "overall": "overall", "gauge": "gauge"}
"""Conventions, as short as a column is."""

_RULED = "3/8-24"
"""Thread for which the bench rule's turns stand beside the exact ones."""


def three(value: object) -> str:
    """Write inches with three decimals, nothing for a missing one, never a minus zero."""
    number = float(value)  # type: ignore[arg-type]
    return "" if np.isnan(number) else f"{round(number, 3) + 0.0:.3f}"


def signed(value: object) -> str:
    """Write signed inches with three decimals; nothing for a missing one."""
    number = round(float(value), 3) + 0.0  # type: ignore[arg-type]
    return "" if np.isnan(number) else "0.000" if number == 0.0 else f"{number:+.3f}"


def listed_length(order: Order, place: int) -> str:
    """Write a pushrod's length as its supplier does: ``8.100 in overall``, ``8.500 in gauge over 0.140 in holes``."""
    stock, unit = order.stock, order.stock.units[place]
    measured_as = str(stock.measured_as[place])
    over = three(np.asarray(gauged(ends_of(stock)).gauge_hole)[place])
    hole = f" over {over} in holes" if measured_as == "gauge" else ""
    return f"{in_list_unit(float(stock.length[place]), unit)} {unit} {AS_LISTED[measured_as]}{hole}"


def in_list_unit(length: float, unit: str) -> str:
    """Write a supplier's own length: to thousandths of an inch or hundredths of a millimetre, finer where it is."""
    value = convert(length, "in", unit)
    usual = 3 if unit == "in" else 2
    return f"{value:.{usual}f}" if abs(round(value, usual) - value) < 1e-7 else f"{value:.{usual + 1}f}"


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
    table: Table = [("pushrod", "pieces", "order as", "ball", "flat", "ball centres", "overall", "gauge", "hole")]
    for order in orders:
        ends = gauged(ends_of(order.stock))
        everywhere = in_every_convention(centre_lengths(order.stock), ends)
        for line in order.lines:
            at = line.place
            table.append(
                (
                    order.stock.labels[at],
                    str(len(line.valves) + spares),
                    f"{in_list_unit(float(order.stock.length[at]), order.stock.units[at])} {order.stock.units[at]} "
                    f"{AS_LISTED[str(order.stock.measured_as[at])]}",
                    three(order.stock.ball_diameter[at]),
                    three(order.stock.end_flat[at]),
                    *(three(everywhere[name][at]) for name in AS_LISTED),
                    three(np.asarray(ends.gauge_hole)[at]),
                )
            )
    return table


def sheet_sentences(orders: Sequence[Order], spares: int) -> list[str]:
    """Say what the sheet's columns are, and what was assumed."""
    said = ["ball, flat and hole are diameters of both ends; a blank one is not in the list"]
    if spares:
        said.insert(0, f"pieces include {spares} spare{'' if spares == 1 else 's'} of each length")
    if any(np.isnan(one.stock.gauge_hole[line.place]) for one in orders for line in one.lines):
        holes = f"gauge lengths are over holes of {COMMON_GAUGE_HOLE:.3f} where the list gives none"
        said.append(f"{holes}: ask the supplier")
    said.append(
        "pushrods with a cup at one end, or unlike ends, have to be converted first and listed ball centre to ball "
        "centre"
    )
    return said


def unlike_ends(orders: Sequence[Order], sizing: Sizing) -> list[str]:
    """Warn of ends that differ among the pushrods ordered, or from the checking pushrod's."""
    lines = [(one.stock, line.place) for one in orders for line in one.lines]
    found = []
    for name, quantity in (("ball", "ball_diameter"), ("oil-hole flat", "end_flat")):
        sizes = {three(getattr(stock, quantity)[place]) or "not given" for stock, place in lines}
        if len(sizes) > 1:
            found.append(
                f"the pushrods ordered differ in {name} ({', '.join(sorted(sizes))}): look which fit lifter and "
                "rocker, and which carry oil"
            )
    checked = {three(value) for value in np.ravel(sizing.valvetrain.check_ball_diameter)} - {""}
    balls = {three(stock.ball_diameter[place]) for stock, place in lines} - {""}
    if checked and balls - checked:
        found.append(
            f"the check was made with a ball of {', '.join(sorted(checked))} in, and {', '.join(sorted(balls))} in is "
            "ordered: look which fit lifter and rocker"
        )
    return found


def from_the_check(valves: Sequence[str], sizing: Sizing) -> list[str]:
    """Say what the order stands on: each valve's check in its own convention, the same ones together."""
    said: dict[str, list[str]] = {}
    for index, valve in enumerate(valves):
        one = take(sizing, index)
        said.setdefault(words.pushrod(one.checked.pushrod_length, one), []).append(valve)
    everyone = len(said) == 1
    return [f"checked with {length}" + ("" if everyone else f": {', '.join(who)}") for length, who in said.items()]


def of_the_valves(valves: Sequence[str], sizing: Sizing) -> list[str]:
    """Repeat what sizing warns of, valve by valve, and what length does not mend."""
    found = [f"{valves[wary.valve]}: {wary.sentence}" for wary in warnings(sizing)]
    for index, valve in enumerate(valves):
        one = take(sizing, index)
        beyond = words.beyond_length(one.best, one.mechanism)
        found += [f"{valve}: {beyond}"] if beyond else []
    return found


def who(order: Order, made: Order | None, valves: Sequence[str]) -> list[str]:
    """Say which valves each length is for, made ones too."""
    left = [valves[index] for index in np.flatnonzero(~order.served).tolist()]
    named = [(order, valves), *(((made, left),) if made is not None else ())]
    return [
        f"{one.stock.labels[line.place]}: {', '.join(names[index] for index in line.valves)}"
        for one, names in named
        for line in one.lines
    ]


def valve_table(order: Order, made: Order | None, valves: Sequence[str]) -> Table:
    """Tabulate what each valve gets and pays, with what has to be made for those that the stock does not serve."""
    standing = bool((order.mechanism.mount == "stand").any())
    head = ("valve", "pushrod", "length", "off", "sweep", "middle", *(("lash/preload",) if standing else ()), "pays")
    left = iter(range(int(np.count_nonzero(~order.served))))
    table: Table = [head]
    for index, valve in enumerate(valves):
        one, at = (order, index) if order.served[index] or made is None else (made, next(left))
        got = one.ordered
        slack = got.lash_ordered[at] if np.isnan(got.preload_ordered[at]) else got.preload_ordered[at]
        table.append(
            (
                valve,
                str(got.stock_label[at]) or "NONE",
                three(got.pushrod_length[at]),
                signed(got.length_error[at]),
                three(got.sweep_width[at]),
                signed(got.sweep_centre[at]),
                *((three(slack),) if standing else ()),
                three(one.penalty[at]),
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
    """Say which valves no stock length serves, and what to have made for them, a sentence a length."""
    if made is None:
        return []
    left = [valves[index] for index in np.flatnonzero(~order.served).tolist()]
    wanted = order.fits.wanted_length[~order.served]
    found = []
    for line in made.lines:
        ball = three(made.stock.ball_diameter[line.place])
        each = ", ".join(f"{left[index]} ({three(wanted[index])})" for index in line.valves)
        centres = words.inches(made.ordered.pushrod_length[line.valves[0]])
        found.append(
            f"no stock length serves {', '.join(left[index] for index in line.valves)}: have "
            f"{listed_length(made, line.place)} made{f' with {ball} in balls' if ball else ''}, {centres} ball centre "
            f"to ball centre; wanted: {each}"
        )
    for index in np.flatnonzero(~made.served).tolist():
        found.append(
            f"no stock length serves {left[index]}, and no step of a made one either; it wants "
            f"{words.inches(wanted[index])} ball centre to ball centre"
        )
    return found


def custom(order: Order, instead: Order) -> str:
    """Compare with a set made to measure, in the steps that its list of lengths has."""
    step = float(np.diff(instead.stock.length)[0])
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


def setting_table(order: Order, valves: Sequence[str], made: Order | None = None) -> Table:
    """Tabulate the nut's turns from zero lash, for the usual stud threads; studs with a pushrod, made or from stock."""
    lengths = order.ordered.pushrod_length.copy()
    if made is not None:
        lengths[~order.served] = made.ordered.pushrod_length
    shown = np.flatnonzero(np.isfinite(lengths) & (order.mechanism.mount == "stud"))
    if shown.size == 0:
        return []
    threads = [THREADS[size] for size in STUD_THREADS]
    mechanism: Mechanism = take(order.mechanism, shown)
    settings = [nut_setting(mechanism, lengths[shown], thread) for thread in threads]
    first = settings[0]
    if not np.any(np.abs(first.nut_travel) > words.SMALLEST):
        return []
    ruled = settings[STUD_THREADS.index(_RULED)]
    table: Table = [("valve", *(t.size for t in threads), f"{_RULED} rule", "pivot", "to", "sweep", "to", "marks")]
    edge = mechanism.stem_diameter / 2
    for index, place in enumerate(shown):
        marks = first.shown_in_check
        stations = (marks.contact_no_lift, marks.contact_half_lift, marks.contact_full_lift)
        table.append(
            (
                valves[int(place)],
                *(f"{setting.turns[index]:+.2f}" for setting in settings),
                f"{ruled.turns_by_rule[index]:+.2f}",
                signed(first.pivot_height_zero_lash[index]),
                signed(first.pivot_height[index]),
                three(first.sweep_zero_lash[index]),
                three(first.sweep_width[index]),
                " ".join(three((edge + station)[index]) for station in stations),
            )
        )
    return table


def setting_sentences() -> list[str]:
    """Say how to set the nuts, and what not to correct."""
    return [
        "from zero lash, lifter on its base circle, turn the nut as tabled for its thread; positive tightens. Pivot "
        "and sweep change from and to what stands there",
        "the rule: the nut moves the pushrod's cup (1 + 1/ratio) times its travel, and the gap at the tip (1 + ratio) "
        f"times; turns are travel times threads an inch; for {_RULED} it stands beside the exact turns",
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
                str(valve),
                str(row["pushrod"]),
                three(row["pushrod_length"]),
                signed(row["length_error"]),
                three(row["penalty"]),
                verdict,
            )
        )
    return table


def delivery_sentences(delivery: Delivery) -> list[str]:
    """Say what is left over and what is outside."""
    said = [
        "the pushrods are matched so that the fewest valves are outside, and then all together pay least; lengths ball "
        "centre to ball centre; a blank under pays: the parts cannot meet"
    ]
    if delivery.left_over:
        said.append(f"left over: {', '.join(delivery.delivered.labels[place] for place in delivery.left_over)}")
    return said
