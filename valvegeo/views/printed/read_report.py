"""What `read` prints: for each valve what the marks say, what to set and order, how sure, and what to read next."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

import numpy as np

from valvegeo.motion.marks.advice import FurtherReading, advise, is_wide
from valvegeo.motion.marks.bench import Card, bench_cards
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.motion.marks.lifter_sinking import short_lift
from valvegeo.motion.marks.marks_verdict import NOT_SQUARE, PARTIAL_WIPE, marks_warnings
from valvegeo.motion.marks.remedies import Remedy, margin, remedies
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.batch import take
from valvegeo.records.build_file import Build
from valvegeo.records.reading import STATIONS
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.printed.layout import aligned, entry
from valvegeo.views.wording import words

_REMEDY = {
    "stud_position": ("the {mount} moved {by} {way}", "away from the valve", "toward the valve"),
    "valve_arm": ("a valve arm {by} {way}, the pushrod arm as it is (ratio {ratio:.2f})", "longer", "shorter"),
    "tip_height": ("the stem tip {by} {way}, by a cap or another valve", "higher", "lower"),
}
_REMEDY_NAME = {"stud_position": "{mount} position", "valve_arm": "arm length", "tip_height": "tip height"}


def read_report_text(build: Build, fits: Mapping[str, MarkFit], valve_lifts: Mapping[str, float]) -> str:
    """Write the printed report.

    Parameters
    ----------
    build : Build
        Names the valves.
    fits : mapping of str to MarkFit
        Valve -> what its marks say.
    valve_lifts : mapping of str to float
        Valve -> dial indicator's maximum [in], where one was read.

    Returns
    -------
    str
        Ends with a line break.
    """
    lines = ["In inches, lengths ball centre to ball centre; below they stand as the check was measured too.", ""]
    lines += [*aligned(_overview(fits)), ""]
    for index, name in enumerate(build.valves):
        if name not in fits:
            continue
        measured, fit = take(build.valvetrain, index), fits[name]
        title = textwrap.shorten(name, 60, placeholder="~")
        lines += [f"{title}: {len(fit.readings)} readings, {_mode(fit)}", ""]
        lines += aligned(_readings(fit), indent=4)
        lift = valve_lifts.get(name)
        lines += entry("marks", [words.travel(fit.sizing.checked), _explained(fit)])
        lines += entry("card", _cards(measured, fit, lift))
        lines += entry("do", _to_do(measured, fit))
        lines += entry("sure", _how_sure(measured, fit))
        lines += entry("beyond", _beyond(fit))
        short = None if lift is None else short_lift(measured, fit.length_now, lift)
        lines += entry("WARNING", marks_warnings(measured, fit, short))
        lines.append("")
    without = [valve for valve in build.valves if valve not in fits]
    if without:
        lines += [*entry("", [f"no marks for {', '.join(without)}: left as measured"]), ""]
    lines += [
        "About the marks",
        "",
        *entry("", [PARTIAL_WIPE, NOT_SQUARE]),
        "",
        "Before the next check",
        "",
        *entry("", AT_THE_CHECK),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _overview(fits: Mapping[str, MarkFit]) -> list[tuple[str, ...]]:
    table: list[tuple[str, ...]] = [("valve", "set check to", "order", "good to", "from last trial", "odd reading")]
    for name, fit in fits.items():
        table.append(
            (
                textwrap.shorten(name, 16, placeholder="~"),
                words.inches(fit.trial_length),
                words.inches(fit.pushrod_length),
                f"±{words.inches(fit.length_uncertainty)}",
                words.longer_or_shorter(fit.trial_length - fit.length_now).partition(":")[0],
                fit.odd.reading.place if fit.odd else ("contradictory" if fit.contradictory else "none"),
            )
        )
    return table


def _mode(fit: MarkFit) -> str:
    if fit.from_build == "measurement":
        return "weighed together with the build's pivot height and offset"
    return "the build's pivot height and offset being only a starting guess"


def _readings(fit: MarkFit) -> list[tuple[str, ...]]:
    table: list[tuple[str, ...]] = [("trial", "length", "station", "read", "by the fit", "off by")]
    for reading, expected, residual in zip(fit.readings, fit.expected, fit.residuals, strict=True):
        table.append(
            (
                textwrap.shorten(reading.trial, 16, placeholder="~"),
                words.inches(reading.pushrod_length),
                reading.station.replace("_", " "),
                words.inches(reading.from_inboard_edge),
                words.inches(expected),
                f"{round(residual, 3) + 0.0:+.3f} in",
            )
        )
    return table


def _explained(fit: MarkFit) -> str:
    height = float(fit.check_pivot_height)
    return (
        f"pivot {words.inches(abs(height))} {'above' if height > 0 else 'below'} the stem tip at the build's check, "
        f"{words.inches(fit.stud_offset)} from the valve's axis; the readings are {words.inches(fit.reading_rms)} from "
        "the fit, root mean square"
    )


def _cards(measured: Valvetrain, fit: MarkFit, valve_lift: float | None) -> list[str]:
    """Bench rule for each trial."""
    sentences = [_card(card) for card in bench_cards(fit.sizing, fit.readings, valve_lift)]
    if not sentences:
        return []
    return [
        *sentences,
        "bench rule: too long by arm × (1 + 1/ratio) × (no lift less full lift) / valve lift; it finds the zero-lash "
        "length, so add preload or lash for the order",
    ]


def _card(card: Card) -> str:
    way = "too long" if card.pushrod_too_long > 0 else "too short"
    half = {True: "", False: "; half lift is not the furthest out", None: ""}[card.half_lift_furthest_out]
    return (
        f"trial {card.trial}: no lift less full lift {card.mark_travel:+.3f} in over {words.inches(card.valve_lift)} "
        f"lift: {words.inches(abs(card.pushrod_too_long))} {way}, give or take {words.inches(card.uncertainty)}{half}"
    )


def _to_do(measured: Valvetrain, fit: MarkFit) -> list[str]:
    mechanism = fit.sizing.mechanism
    change = words.longer_or_shorter(fit.trial_length - fit.length_now)
    shims = words.shim(fit.sizing)
    return [
        *([f"{shims}: move the stand so from where it was at the build's check"] if shims else []),
        f"set the checking pushrod to {words.pushrod(fit.trial_length, measured)}",
        f"from the last trial's {words.inches(fit.length_now)}: {change}",
        f"order {words.pushrod(fit.pushrod_length, measured)}, {words.running(mechanism)}; from the build's check: "
        f"{words.longer_or_shorter(fit.length_change).partition(':')[0]}",
    ]


def _how_sure(measured: Valvetrain, fit: MarkFit) -> list[str]:
    found = [f"the order is good to ±{words.inches(fit.length_uncertainty)} (95 %)"]
    standard = float(fit.budget.standard)
    if not is_wide(fit):
        return [f"{found[0]}, within the {STOCK_STEP:.3f} in between stocked lengths: no need to know it better"]
    advice = advise(fit)
    found[0] += f": end to end more than the {STOCK_STEP:.3f} in between stocked lengths"
    if advice.halving is not None:
        found.append(f"to halve that: {further(advice.halving, measured)}")
    else:
        found += [
            f"no marks halve that; the best single one: {further(advice.single, measured)}",
            f"the bench counts more: {words.improve_first(advice.improve, standard)}",
        ]
    return found


def further(reading: FurtherReading, measured: Valvetrain) -> str:
    """Say which readings to add and what they leave."""
    stations = [station.replace("_", " ") for station in reading.stations]
    every = len(stations) == len(STATIONS)
    what = "all three stations" if every else " and ".join(stations)
    often = "" if reading.sets == 1 else f" {reading.sets} times, inked again each time,"
    leaves = f"leaves ±{words.inches(reading.half_width)}" if np.isfinite(reading.half_width) else "is a beginning"
    return f"read {what}{often} with {words.pushrod(reading.pushrod_length, measured)}: {leaves}"


def _beyond(fit: MarkFit) -> list[str]:
    """What length cannot mend, and what would."""
    best, mechanism = fit.sizing.best, fit.sizing.mechanism
    if words.is_centred(best):
        return []
    now = margin(mechanism, fit.sizing.best_sweep)
    head = (
        f"the narrowest band stands {words.side(best.sweep_centre)} of centre, {words.inches(now)} from the edge of "
        "the flat, and length does not centre it. Any one of these alone would:"
    )
    return [head, *(_remedy(remedy, str(mechanism.mount)) for remedy in remedies(fit.sizing))]


def _remedy(remedy: Remedy, mount: str) -> str:
    sentence, grows, shrinks = _REMEDY[remedy.name]
    if remedy.change is None or remedy.margin is None or remedy.pushrod_length is None:
        name = _REMEDY_NAME[remedy.name].format(mount=mount)
        return f"- {name} cannot: nothing within {words.inches(remedy.limit)} either way centres it"
    said = sentence.format(
        mount=mount,
        by=words.inches(abs(remedy.change)),
        way=grows if remedy.change > 0 else shrinks,
        ratio=remedy.rocker_ratio,
    )
    return (
        f"- {said}: leaves {words.inches(remedy.margin)} to the edge of the flat, and takes a pushrod of "
        f"{words.inches(remedy.pushrod_length)} ball centre to ball centre"
    )


def add_words(reading: FurtherReading | None, measured: Valvetrain) -> str:
    """Say what to add to readings that give no length."""
    if reading is None:
        return "read no lift and full lift at a length near the check's, where the marks stay on the flat"
    return f"{further(reading, measured)} (95 %)"
