"""Where a band stands on the stem tip, said no finer than it is known, and what is said where the ink decides."""

from __future__ import annotations

from valvegeo.findings.lengths import bare, told
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Case
from valvegeo.motion.sweep import Band
from valvegeo.quantities import USABLE_SWEEP
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording import words

INK_DECIDES = "the ink decides"
"""What is said where measurements leave open whether a band is centred."""

ONLY_INK = "ink: too near the limit for the measurements to tell, so read the ink; then `read` tells"
"""What a short report says of valves whose ink decides."""


def band(case: Case, centring: Centring) -> str:
    """Say how wide the band is and whether it is centred, no finer than that is known."""
    usable = f", more than the usable {told(USABLE_SWEEP)}" if case.is_too_wide else ""
    return f"{told(case.sweep_width)} wide{usable}; its middle {_how_centred(centring)}"


def _how_centred(centring: Centring) -> str:
    if centring.is_off:
        return f"{stands(centring)}: NOT centred"
    verdict = "centred" if centring.is_centred else INK_DECIDES
    return f"{stands(centring)}: {verdict} (up to {told(centring.limit)} will do)"


def stands(centring: Centring) -> str:
    """Say where a band's middle is and how well that is known: ``0.003 in outboard of centre, give or take 0.022 in``.

    The interval is of 95 %.
    """
    middle = float(centring.middle)
    where = "at the centre" if is_nothing(middle) else f"{words.side(middle)} of centre"
    return f"{where}, give or take {told(centring.half_width)}"


def in_a_word(centring: Centring) -> str:
    """Say in a table whether a band is centred."""
    if centring.is_centred:
        return "yes"
    return f"{'NO' if centring.is_off else 'ink decides'}: {words.side(centring.middle, bare)}"


def verdict(centring: Centring) -> str:
    """Say in one word whether a band is centred."""
    return "yes" if centring.is_centred else "NO" if centring.is_off else "ink"


def off_briefly(centring: Centring) -> str:
    """Say in a line that a band is off centre, that length does not mend it, and where it stands what would."""
    where = words.side(centring.middle, bare)
    return f"{where} of centre, and length won't fix it: --details says what would, with its cautions"


def if_off(centring: Centring, mended: str) -> str:
    """Say what mends a band off centre; where the ink decides, only for the case that it shows it so."""
    return f"if the ink shows it off centre, {mended}" if centring.ink_decides else mended


def off_centre(case: Band, mechanism: Mechanism, centring: Centring) -> str:
    """Say that the band that is ordered looks off centre, and that no length mends it; empty where it looks centred."""
    if centring.looks_centred:
        return ""
    off, is_on = told(abs(case.off_flat_by(mechanism.flat))), case.is_on_flat(mechanism.flat)
    where = f"{off} from the edge of the flat" if is_on else f"{off} off the flat"
    band_named = (
        "the narrowest band" if mechanism.length_moves_pivot else f"{words.held_where_it_is(mechanism)} the band"
    )
    decides = "" if centring.is_off else f" ({INK_DECIDES})"
    return f"{band_named} stands {stands(centring)}{decides}, {where}, and length does not centre it"
