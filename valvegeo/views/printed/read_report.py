"""What `read` prints: for each valve what the marks say, what to set and order, how sure, and what to read next."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from valvegeo.answers.read import FitRead, ReadAnswer
from valvegeo.motion.marks.bench import Card
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.quantities import BY_NAME
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.printed.layout import aligned, entry
from valvegeo.views.wording import reading_words, words


def read_report_text(answer: ReadAnswer) -> str:
    """Write the printed report.

    Parameters
    ----------
    answer : ReadAnswer
        Every valve that has marks has a length.

    Returns
    -------
    str
        Ends with a line break.
    """
    lines = ["In inches, lengths ball centre to ball centre; below they stand as the check was measured too.", ""]
    found = {name: valve.found for name, valve in answer.valves.items() if isinstance(valve.found, FitRead)}
    lines += [*aligned(_overview({name: read.fit for name, read in found.items()})), ""]
    for name, read in found.items():
        fit = read.fit
        title = textwrap.shorten(name, 60, placeholder="~")
        lines += [f"{title}: {len(fit.readings)} readings", ""]
        lines += aligned(_readings(fit), indent=4)
        lines += entry("marks", [reading_words.last_mark(read), _explained(fit), *_understood(fit)])
        lines += entry("card", _cards(answer.valves[name].cards))
        lines += entry("do", reading_words.to_do(fit))
        lines += entry("sure", reading_words.how_sure(read))
        lines += entry("expect", reading_words.to_expect(read))
        lines += entry("beyond", _beyond(read))
        lines += entry("WARNING", (wary.sentence for wary in read.warnings))
        lines.append("")
    without = [valve for valve in answer.build.valves if valve not in found]
    if without:
        lines += [*entry("", [f"no marks for {', '.join(without)}: left as measured"]), ""]
    lines += [
        "About the marks",
        "",
        *entry("", [reading_words.PARTIAL_WIPE, reading_words.NOT_SQUARE]),
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


def _cards(cards: Iterable[Card]) -> list[str]:
    """Bench rule for each trial."""
    sentences = [_card(card) for card in cards]
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


def _beyond(read: FitRead) -> list[str]:
    """What length does not mend, and what would."""
    found = reading_words.off_centre(read.fit)
    if not found:
        return []
    mount = str(read.fit.sizing.mechanism.mount)
    each = (f"- {reading_words.remedy(one, mount)}" for one in read.remedies)
    return [f"{found}. Any one of these alone would:", *each]
