"""An order in the builder's words: tables of text and sentences, for the printed report and the page alike.

Lengths are in inches with bare decimals; a supplier's own length stands in the unit and convention of its list.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

import numpy as np
from numpy.typing import ArrayLike

from valvegeo.answers.order import OrderAnswer, ValveOrder
from valvegeo.answers.ordered_length import OrderedLength
from valvegeo.findings.lengths import as_typed, bare, given, plus, told, with_unit
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities.signs import is_nothing
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.shop.lengths import COMMON_GAUGE_HOLE
from valvegeo.shop.ordering.delivery import Delivery
from valvegeo.shop.ordering.stock import Order
from valvegeo.views.wording import reading_words, screw_words, stand_words, words
from valvegeo.views.wording.listed_words import in_centres, in_convention, listed_length, measured_over, step_of
from valvegeo.views.wording.sections import Table


def signed(value: ArrayLike) -> str:
    """Write a length's number with its sign, nothing without one; nothing for a missing one."""
    return bare(value) if bare(value) == bare(0.0) else plus(value)


def headline(order: Order) -> str:
    """Say how many lengths serve how many valves."""
    served, valves = int(order.served.sum()), order.choice.size
    count = len(order.lines)
    if not served:
        return f"none of the {valves} valves is served by this stock"
    lengths = "one length serves" if count == 1 else f"{count} different lengths serve"
    if served == valves:
        return f"{lengths} all {valves} valves" + ("" if count == 1 else "; fewer will not do")
    return f"{lengths} {served} of the {valves} valves" + (
        "" if count == 1 else f"; fewer will not do for those {served}"
    )


def sheet_table(answer: OrderAnswer) -> Table:
    """Tabulate what to write to the supplier: a row a length, in its convention with the others beside it."""
    columns: dict[str, Callable[[OrderedLength], str]] = {
        "pushrod": lambda one: one.label,
        "pieces": lambda one: str(len(one.valves) + answer.spares),
        "order as": lambda one: f"{listed_length(one)} {CONVENTIONS[one.measured_as].column}",
        "ball": lambda one: as_typed(one.ball_diameter),
        "flat": lambda one: as_typed(one.end_flat),
        **{how.column: partial(in_convention, convention=name) for name, how in CONVENTIONS.items()},
        "hole": lambda one: as_typed(one.gauge_hole),
    }
    return Table.of(answer.lengths, columns)


def sheet_sentences(answer: OrderAnswer) -> list[str]:
    """Say what the sheet's columns are, and what was assumed."""
    said = ["ball, flat and hole are diameters of both ends; a blank one is not in the list"]
    if answer.spares:
        each = "" if answer.spares == 1 else "s"
        said.insert(0, f"pieces include {answer.spares} spare{each} of each length")
    if any(np.isnan(one.listed_hole) for one in answer.lengths):
        holes = f"gauge lengths are over holes of {as_typed(COMMON_GAUGE_HOLE)} where the list gives none"
        said.append(f"{holes}: ask the supplier")
    said.append(
        "pushrods with a cup at one end, or unlike ends, have to be converted first and listed ball centre to ball "
        "centre"
    )
    return said


def _known(sizes: Iterable[float]) -> list[float]:
    """Sizes that are given, each once, the smallest first."""
    return sorted({float(size) for size in sizes if not np.isnan(size)})


def _listed(sizes: Iterable[float]) -> str:
    return with_unit(", ".join(map(as_typed, sizes)))


def unlike_ends(answer: OrderAnswer) -> list[str]:
    """Warn of ends that differ among the pushrods ordered, or from the checking pushrod's."""
    found = []
    for name, quantity in (("ball", "ball_diameter"), ("oil-hole flat", "end_flat")):
        sizes = {as_typed(getattr(one, quantity)) or "not given" for one in answer.lengths}
        if len(sizes) > 1:
            found.append(
                f"the pushrods ordered differ in {name} ({', '.join(sorted(sizes))}): look which fit lifter and "
                "rocker, and which carry oil"
            )
    checked = _known(np.ravel(answer.sizing.valvetrain.check_ball_diameter))
    balls = _known(one.ball_diameter for one in answer.lengths)
    if checked and any(not any(is_nothing(ball - other) for other in checked) for ball in balls):
        found.append(
            f"the check was made with a ball of {_listed(checked)}, and {_listed(balls)} is ordered: look which fit "
            "lifter and rocker"
        )
    return found


def from_the_check(answer: OrderAnswer) -> list[str]:
    """Say what the order stands on: each valve's check in its own convention, the same ones together."""
    said: dict[str, list[str]] = {}
    for name, one in zip(answer.build.valves, answer.sized, strict=True):
        said.setdefault(words.checking_pushrod(one), []).append(name)
    everyone = len(said) == 1
    found = [f"checked with {length}" + ("" if everyone else f": {', '.join(who)}") for length, who in said.items()]
    return [*found, *(map(_where_it_is, _nouns(answer, held=True)))]


def _where_it_is(noun: str) -> str:
    """Say what an order for valves on stands holds for."""
    return (
        f"on a {noun} the order is for the {noun} where it was at that check: whoever moves a {noun} checks again, and "
        "orders by the new check"
    )


def _nouns(answer: OrderAnswer, *, held: bool) -> list[str]:
    """Name what holds the pivots that stay whatever the length, or those that a length moves."""
    mechanisms = (one.mechanism for one in answer.sized)
    return list(dict.fromkeys(words.mount_of(one).noun for one in mechanisms if bool(one.length_moves_pivot) != held))


def of_the_valves(answer: OrderAnswer) -> list[str]:
    """Repeat what sizing warns of, valve by valve, and what length does not mend."""
    names = answer.build.valves
    found = [f"{names[wary.valve]}: {wary.sentence}" for wary in answer.warnings]
    for name, one, centring, mended in zip(names, answer.sized, answer.centrings, answer.remedies, strict=True):
        moved = next(iter(mended), None)
        beyond = reading_words.beyond_briefly(one.ordered, one.mechanism, centring, moved)
        found += [f"{name}: {beyond}"] if beyond else []
    return found


def options(answer: OrderAnswer) -> list[str]:
    """Say for which stands moving is worth it, or is not for all on them, and what it brings: not what is ordered."""
    named = dict(zip(answer.build.valves, answer.sized, strict=True))
    alone = [
        f"{name}: {stand_words.gain(one.as_mounted, one.best, words.mount_of(one.mechanism).noun)}: "
        f"{stand_words.shim(one)}, check again and order by that check"
        for name, one in named.items()
        if one.is_worth_moving() and not one.company.is_shared
    ]
    return [*alone, *stand_words.together(named)]


def who(answer: OrderAnswer) -> list[str]:
    """Say which valves each length is for, made ones too."""
    return [f"{one.label}: {', '.join(one.valves)}" for one in answer.lengths]


def valve_table(answer: OrderAnswer) -> Table:
    """Tabulate what each valve gets, at which cost, with what has to be made for those that the stock leaves."""
    over = dict(zip(answer.build.valves, (float(one.over_centres) for one in answer.sized), strict=True))
    standing = bool(answer.order.mechanism.length_moves_setting.any())
    columns: dict[str, Callable[[ValveOrder], str]] = {
        "valve": lambda one: one.name,
        "pushrod": lambda one: one.stock_label or "NONE",
        "length": lambda one: bare(one.pushrod_length + over[one.name]),
        "off": lambda one: signed(one.length_error),
        "sweep": lambda one: bare(one.sweep_width),
        "middle": lambda one: signed(one.sweep_centre),
        **({"lash/preload": lambda one: bare(one.setting)} if standing else {}),
        "cost": lambda one: bare(one.penalty),
    }
    return Table.of(answer.valves, columns, names=2)


def meaning(answer: OrderAnswer) -> list[str]:
    """Say what the columns of the valves' table are."""
    order = answer.order
    measured = f"{words.conventions(answer.sized)}, as the check was measured"
    said = [f"length: {measured}; off: + longer, - shorter than wanted"]
    most = given(order.limits.sweep_allowance)
    for noun in _nouns(answer, held=False):
        said.append(f"on a {noun} the cost is sweep wider than the narrowest; up to {most} is allowed")
    if order.mechanism.length_moves_screw.any():
        said.append("with an adjuster the cost is how far its screw is from the check (common practice)")
    held = (one.mechanism for one in answer.sized if one.mechanism.length_moves_setting)
    for noun in dict.fromkeys(words.mount_of(mechanism).noun for mechanism in held):
        said.append(
            f"on a {noun} the pivot stays and the cost is lash or preload off the declared one; "
            f"{'; '.join(_allowed(answer))} will do"
        )
    return said


def _allowed(answer: OrderAnswer) -> list[str]:
    """Say which lash or preload is allowed on stands: once where it is the same for all, else for whom."""
    windows: dict[str, list[str]] = {}
    for one, valve in zip(answer.valves, answer.sized, strict=True):
        if not np.isnan(one.window).any():
            least, most = one.window
            setting = valve.mechanism.setting_name
            windows.setdefault(f"{as_typed(least)} to {given(most)} {setting}", []).append(one.name)
    everyone = len(windows) == 1
    return [window + ("" if everyone else f" ({', '.join(names)})") for window, names in windows.items()]


def unserved(answer: OrderAnswer) -> list[str]:
    """Say which valves no stock length serves, and what to have made for them, a sentence a length."""
    sized = dict(zip(answer.build.valves, answer.sized, strict=True))
    wanted = {one.name: words.as_checked(one.wanted_length, sized[one.name]) for one in answer.valves}
    made = [one for one in answer.lengths if one.is_made]
    found = [screw_words.out_of_thread(one) for one in answer.out_of_thread]
    for one in made:
        each = ", ".join(f"{name} {wanted[name]}" for name in one.valves)
        found.append(
            f"no stock length serves {', '.join(one.valves)}: have made {listed_length(one)} "
            f"{measured_over(one)}{in_centres(one)}; wanted: {each}"
        )
    served = {name for one in made for name in one.valves}
    for name in answer.left:
        if name not in served:
            found.append(f"no stock length serves {name}, and no step of a made one either; it wants {wanted[name]}")
    return found


def custom(answer: OrderAnswer) -> str:
    """Compare with a set made to measure, in the steps that its list of lengths has."""
    order, instead = answer.order, answer.instead
    step = step_of(float(np.diff(instead.stock.length)[0]), instead.stock.units[0])
    if not instead.served.any():
        return f"made to measure in steps of {step}: no length serves"
    lengths = ", ".join(f"{len(one.valves)} of {listed_length(one)}{in_centres(one)}" for one in answer.instead_lengths)
    least, most = float(np.nansum(instead.penalty)), float(np.nanmax(instead.penalty))
    left = np.count_nonzero(~instead.served)
    unserved_too = f", {left} valves unserved" if left else ""
    ordered = f", against {told(np.nansum(order.penalty))} from stock" if order.served.all() else ""
    cost = f"that costs a valve at most {told(most)}, all together {told(least)}"
    return (
        f"made to measure instead, in steps of {step} {measured_over(answer.instead_lengths[0])}: "
        f"{lengths}{unserved_too}; {cost}{ordered}"
    )


def delivery_table(delivery: Delivery, sizing: Sizing, valves: Sequence[str]) -> Table:
    """Tabulate which delivered pushrod goes where, its length as the valve's check was measured."""
    rows = []
    lengths = delivery.pushrod_length + sizing.over_centres
    got = zip(valves, delivery.pushrod, lengths, delivery.length_error, delivery.penalty, delivery.outside, strict=True)
    for valve, pushrod, length, off, cost, outside in got:
        verdict = "OUTSIDE, do not fit" if outside else "fit" if pushrod else "NONE LEFT"
        rows.append((valve, str(pushrod), as_typed(length), plus(off), bare(cost), verdict))
    return Table(("valve", "pushrod", "length", "off", "cost", "verdict"), tuple(rows), names=2)


def delivery_sentences(delivery: Delivery, sized: Iterable[Sizing]) -> list[str]:
    """Say how the pushrods are matched, in which convention they are told, and what is left over."""
    said = [
        "the pushrods are matched so that the fewest valves are outside, and then at the least cost for all together; "
        f"lengths {words.conventions(sized)}, as the check was measured"
        + ("; a blank under cost: the parts cannot meet" if np.isnan(delivery.penalty).any() else "")
    ]
    if delivery.left_over:
        said.append(f"left over: {', '.join(delivery.delivered.labels[place] for place in delivery.left_over)}")
    return said
