"""What `read` prints: for each valve what the marks say, what to set and order, how sure, and what to read next."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from valvegeo.motion.marks.advice import advise, is_wide
from valvegeo.motion.marks.bench import Card, bench_cards
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.motion.marks.lifter_sinking import unexpected_lift
from valvegeo.motion.marks.marks_verdict import NOT_SQUARE, PARTIAL_WIPE, marks_warnings
from valvegeo.motion.remedies import remedies
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take
from valvegeo.records.build_file import Build
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.printed.layout import aligned, entry
from valvegeo.views.wording import reading_words, words


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
        lines += [f"{title}: {len(fit.readings)} readings", ""]
        lines += aligned(_readings(fit), indent=4)
        lift = valve_lifts.get(name)
        lines += entry("marks", [reading_words.last_mark(fit), _explained(fit), *_understood(fit)])
        lines += entry("card", _cards(measured, fit, lift))
        lines += entry("do", reading_words.to_do(measured, fit))
        lines += entry("sure", reading_words.how_sure(measured, fit, advise(fit) if is_wide(fit) else None))
        lines += entry("expect", reading_words.to_expect(fit))
        lines += entry("beyond", _beyond(fit))
        short = None if lift is None else unexpected_lift(measured, fit.length_now, lift)
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
    table: list[tuple[str, ...]] = [("valve", "set check to", "order", "good to", "from last trial", "look at")]
    for name, fit in fits.items():
        table.append(
            (
                textwrap.shorten(name, 16, placeholder="~"),
                words.inches(fit.trial_length),
                words.inches(fit.pushrod_length),
                f"±{words.inches(fit.length_uncertainty)}",
                words.longer_or_shorter(fit.trial_length - fit.length_now).partition(":")[0],
                _look_at(fit),
            )
        )
    return table


def _look_at(fit: MarkFit) -> str:
    """Name what is doubtful, for the overview."""
    if fit.odd is not None:
        return fit.odd.reading.place
    if fit.contradictory:
        return "the readings"
    return "the build" if fit.disagreements else "nothing"


def _understood(fit: MarkFit) -> list[str]:
    """Say how the build counted, and how trials on a stand are understood."""
    if fit.build_overruled:
        found = ["they disagree with the build's pivot height and offset, and were believed: see the warning"]
    elif fit.from_build == "starting_guess":
        found = ["the build's pivot height and offset are a starting guess only, as asked"]
    else:
        height, offset = (words.inches(BY_NAME[name].uncertainty) for name in ("check_pivot_height", "stud_offset"))
        found = [
            f"weighed together with the build's pivot height (taken as good to ±{height}, one standard deviation) and "
            f"offset (±{offset}); where those were only guessed, say --starting-guess"
        ]
    if fit.sizing.mechanism.mount == "stand":
        found.append("each trial is understood with the stand shimmed so that its pushrod gives zero lash")
    return found


def _readings(fit: MarkFit) -> list[tuple[str, ...]]:
    table: list[tuple[str, ...]] = [("trial", "length", "station", "read", "by the fit", "off by")]
    for reading, expected, residual in zip(fit.readings, fit.expected, fit.residuals, strict=True):
        table.append(
            (
                textwrap.shorten(reading.trial, 16, placeholder="~"),
                words.inches(reading.pushrod_length),
                reading_words.spoken(reading.station),
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
        "length: the order has the preload in it besides (lash moves it by only about a sixth of itself)",
    ]


def _card(card: Card) -> str:
    way = "too long" if card.pushrod_too_long > 0 else "too short"
    half = {True: "", False: "; half lift is not the furthest out", None: ""}[card.half_lift_furthest_out]
    return (
        f"trial {card.trial}: no lift less full lift {card.mark_travel:+.3f} in over {words.inches(card.valve_lift)} "
        f"lift: {words.inches(abs(card.pushrod_too_long))} {way}, give or take {words.inches(card.uncertainty)}{half}"
    )


def _beyond(fit: MarkFit) -> list[str]:
    """What length does not mend, and what would."""
    found = reading_words.off_centre(fit)
    if not found:
        return []
    mount = str(fit.sizing.mechanism.mount)
    each = (f"- {reading_words.remedy(one, mount)}" for one in remedies(fit.sizing))
    return [f"{found}. Any one of these alone would:", *each]
