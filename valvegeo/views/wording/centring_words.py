"""Where a band stands on the stem tip, said no finer than it is known, and what is said where the ink decides."""

from __future__ import annotations

from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Case
from valvegeo.motion.sweep import Band
from valvegeo.quantities import USABLE_SWEEP
from valvegeo.views.wording import words

INK_DECIDES = "the ink decides"
"""What is said where measurements leave open whether a band is centred."""

ONLY_INK = "ink: too near the limit for the measurements to tell, so read the ink; then `read` tells"
"""What a short report says of valves whose ink decides."""


def band(case: Case, centring: Centring) -> str:
    """Say how wide the band is and whether it is centred, no finer than that is known."""
    usable = "" if case.sweep_width <= USABLE_SWEEP else f", more than the usable {USABLE_SWEEP:.3f} in"
    return f"{words.inches(case.sweep_width)} wide{usable}; its middle {_how_centred(centring)}"


def _how_centred(centring: Centring) -> str:
    if centring.is_off:
        return f"{stands(centring)}: NOT centred"
    verdict = "centred" if centring.is_centred else INK_DECIDES
    return f"{stands(centring)}: {verdict} (up to {words.inches(centring.limit)} will do)"


def stands(centring: Centring) -> str:
    """Say where a band's middle is and how well that is known: ``0.003 in outboard of centre, give or take 0.022 in``.

    The interval is of 95 %.
    """
    middle = float(centring.middle)
    where = "at the centre" if abs(middle) < words.SMALLEST else f"{words.side(middle)} of centre"
    return f"{where}, give or take {words.inches(centring.half_width)}"


def in_a_word(centring: Centring) -> str:
    """Say in a table whether a band is centred."""
    if centring.is_centred:
        return "yes"
    return f"{'NO' if centring.is_off else 'ink decides'}: {words.side(centring.middle, words.three)}"


def verdict(centring: Centring) -> str:
    """Say in one word whether a band is centred."""
    return "yes" if centring.is_centred else "NO" if centring.is_off else "ink"


def off_briefly(centring: Centring) -> str:
    """Say in a line that a band is off centre, that length does not mend it, and where it stands what would."""
    where = words.side(centring.middle, words.three)
    return f"{where} of centre, and length won't fix it: --details says what would, with its cautions"


def if_off(centring: Centring, mended: str) -> str:
    """Say what mends a band off centre; where the ink decides, only for the case that it shows it so."""
    return f"if the ink shows it off centre, {mended}" if centring.ink_decides else mended


def beyond_length(case: Band, mechanism: Mechanism, centring: Centring) -> str:
    """Say :func:`off_centre` and about what would mend it, empty where there is nothing to mend."""
    verdict = off_centre(case, mechanism, centring)
    if not verdict:
        return ""
    off = float(centring.middle)
    holder = str(mechanism.mount)
    toward = "away from" if off > 0 else "toward"
    arm = "shorter" if off > 0 else "longer"
    move = f"the {holder} would have to move {words.inches(abs(off))} {toward} the valve"
    return f"{verdict}: {if_off(centring, f'{move}, or the arm be {arm} by that')}"


def off_centre(case: Band, mechanism: Mechanism, centring: Centring) -> str:
    """Say that the band that is ordered looks off centre, and that no length mends it; empty where it looks centred."""
    if centring.looks_centred:
        return ""
    left = float(-case.off_flat_by(mechanism.flat))
    where = f"{words.inches(left)} from the edge of the flat" if left >= 0.0 else f"{words.inches(-left)} off the flat"
    band_named = "the narrowest band" if mechanism.length_moves_pivot else "with the stand where it is the band"
    decides = "" if centring.is_off else f" ({INK_DECIDES})"
    return f"{band_named} stands {stands(centring)}{decides}, {where}, and length does not centre it"
