"""What `size` prints: for each valve now, what to do, and after; no line over 100 columns."""

from __future__ import annotations

import textwrap

from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.motion.sizing import Sizing
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.printed.layout import aligned, entry
from valvegeo.views.wording import reading_words, words

_NAME_WIDTH = 16


def report_text(answer: SizeAnswer) -> str:
    """Write the printed report.

    Parameters
    ----------
    answer : SizeAnswer

    Returns
    -------
    str
        Ends with a line break.
    """
    lines = ["In inches, lengths ball centre to ball centre; below they stand as the check was measured too.", ""]
    lines += [*aligned(overview(answer)), ""]
    for one in answer.valves:
        valve = one.sizing
        title = textwrap.shorten(one.name, 60, placeholder="~")
        lines += [f"{title}: {valve.mechanism.mount} mount, {valve.mechanism.lifter} lifter", ""]
        lines += entry("now", now(valve)) + entry("do", to_do(valve)) + entry("after", after(valve))
        lines += entry("sure", how_sure(one))
        lines += entry("beyond", beyond(one))
        lines += entry("WARNING", (wary.sentence for wary in one.warnings))
        lines.append("")
    lines += ["Before the next check", "", *entry("", AT_THE_CHECK)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def now(valve: Sizing) -> list[str]:
    """Say what the check showed, one valve."""
    return [
        f"checked at zero lash with {words.pushrod(valve.checked.pushrod_length, valve)}",
        f"marks from the inboard edge: {words.marks(valve.checked, valve.mechanism)}",
        f"sweep {words.band(valve.checked)}",
        words.travel(valve.checked),
    ]


def to_do(valve: Sizing) -> list[str]:
    """Say what to set, shim and order, one valve."""
    best, mechanism = valve.best, valve.mechanism
    trial_change = best.trial_length - valve.checked.pushrod_length
    trial = [
        f"set the checking pushrod to {words.pushrod(best.trial_length, valve)}",
        words.longer_or_shorter(trial_change),
    ]
    fits = "the pushrod checked is the one to run: " if abs(best.length_change) < words.SMALLEST else ""
    order = f"{fits}order {words.pushrod(best.pushrod_length, valve)}, {words.running(mechanism)}"
    if mechanism.mount == "stud":
        return [*trial, order]
    stay = words.pushrod(valve.as_mounted.pushrod_length, valve)
    return [
        f"{words.shim(valve)}: move the stand so for the narrowest sweep; length alone does not change it on a stand",
        *trial,
        f"{order}, with the stand so moved",
        f"or leave the stand and order {stay}: sweep {words.band(valve.as_mounted)}",
    ]


def how_sure(valve: ValveSize) -> list[str]:
    """Say how sure the lengths are, and what to measure better first, one valve."""
    found = valve.uncertainty
    first = words.improve_first(found.pushrod_length.largest(), float(found.pushrod_length.standard))
    if valve.sizing.mechanism.mount == "stud":
        return [f"the order is good to ±{words.inches(found.length_uncertainty)} (95 %); {first}"]
    mounted, moved = words.inches(found.as_mounted.half_width), words.inches(found.length_uncertainty)
    return [
        f"with the stand where it is, the order is good to ±{mounted} (95 %)",
        f"with the stand moved, to ±{moved}, since the shim is no surer: check again after shimming, and order by that "
        f"check; {first}",
    ]


def beyond(valve: ValveSize) -> list[str]:
    """Say what no length can mend and what each remedy alone would take, one valve; nothing where it is centred."""
    sentence = words.beyond_length(valve.sizing.best, valve.sizing.mechanism)
    if not sentence:
        return []
    mount = str(valve.sizing.mechanism.mount)
    return [f"{sentence}. Each alone:", *(f"- {reading_words.remedy(one, mount)}" for one in valve.remedies)]


def after(valve: Sizing) -> list[str]:
    """Say what the running engine will show, one valve."""
    lines = [
        f"running, marks from the inboard edge: {words.marks(valve.best, valve.mechanism)}",
        f"sweep {words.band(valve.best)}",
        f"valve lift {words.inches(valve.best.valve_lift)}, ratio {float(valve.best.ratio_half_lift):.2f} at half and "
        f"{float(valve.best.ratio_full_lift):.2f} at full lift",
    ]
    if valve.mechanism.mount == "stud" and words.inches(valve.best.trial_length) != words.inches(
        valve.best.pushrod_length
    ):
        lines.append(
            "the ordered pushrod in a zero-lash check will show: "
            f"{words.marks(valve.verify, valve.mechanism)}; that is right, do not correct it"
        )
    return lines


def overview(answer: SizeAnswer) -> list[tuple[str, ...]]:
    """Tabulate the answer, a row a valve below a header.

    Parameters
    ----------
    answer : SizeAnswer

    Returns
    -------
    list of tuple of str
    """
    on_stand = any(one.sizing.mechanism.mount == "stand" for one in answer.valves)
    head = ("valve", "sweep", "after", *(("stand",) if on_stand else ()), "length", "set to", "order", "centred")
    table: list[tuple[str, ...]] = [head]
    for one in answer.valves:
        valve, best = one.sizing, one.sizing.best
        cells = (
            words.inches(valve.checked.sweep_width),
            words.inches(best.sweep_width),
            *((words.shim(valve),) if on_stand else ()),
            words.longer_or_shorter(best.length_change).partition(":")[0],
            words.inches(best.trial_length),
            words.inches(best.pushrod_length),
            "yes" if words.is_centred(best) else f"NO: {words.side(best.sweep_centre)}",
        )
        short = textwrap.shorten(one.name, _NAME_WIDTH, placeholder="~")
        table.append((short, *(cell.replace(" in", "", 1) for cell in cells)))
    return table
