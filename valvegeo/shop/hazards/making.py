"""Hazards of making a checking pushrod, in the order in which they are met."""

from __future__ import annotations

from valvegeo.shop.hazards.caution import Caution

MAKING: tuple[Caution, ...] = (
    Caution(
        "never_run_softened",
        "A cut, softened or drilled pushrod is for checking by hand and never runs: mark it so.",
        "A checking pushrod made from a cut, torch-softened or drilled pushrod is for checking by hand with light "
        "springs and never runs in an engine: softened steel bends, and its threads strip. Mark it so that nobody "
        "fits it.",
        ("make",),
        ("make",),
    ),
    Caution(
        "flame_safe_cleaner",
        "Degrease with a flame-safe cleaner only: chlorinated ones make poison gas when hot.",
        "Degrease only with a cleaner that is safe with flame, and let it dry and air out before anything is lit. "
        "Chlorinated ones, as some brake and contact cleaners are, make poison gas (phosgene) in a flame or on hot "
        "steel, which injures the lungs and may be felt only hours later. Flammable ones stay away from torch and "
        "sparks. Wear eye protection.",
        ("make",),
        ("make",),
    ),
    Caution(
        "no_closed_tube",
        "Never heat a closed or oily tube: it bursts or throws burning oil. Cut it open first.",
        "Never heat a closed or oily tube: what is shut inside bursts it or comes out burning. Oil holes open at both "
        "ends, washed through and dry; if you cannot see through it, cut it open before it is heated.",
        ("make",),
        ("make",),
    ),
    Caution(
        "plating_fumes",
        "Plating and coatings give off poisonous fumes when hot: bare steel only, in moving air.",
        "Heating plated or coated steel gives off poisonous fumes (zinc, cadmium, chromium): heat bare steel only, in "
        "the open or under extraction, never in a closed room. If you do not know what it is plated with, take "
        "another.",
        ("make",),
    ),
    Caution(
        "torch",
        "Torch: bottles chained upright, no oil near oxygen, joints leak-tested, shaded eyes.",
        "Gas bottles stand upright and chained, with the maker's regulators and flashback arrestors; no oil or grease "
        "on anything that carries oxygen; try every joint with leak fluid before lighting, and shut the bottles "
        "after. Eye protection shaded for the flame. Who has not been taught the torch leaves it to somebody who has.",
        ("make",),
    ),
    Caution(
        "hot_metal",
        "Steel stays hot after it stops glowing: tongs, gloves, extinguisher, still air.",
        "Steel stays hot long after it has stopped glowing: tongs and gloves, nothing that burns nearby, an "
        "extinguisher at hand. Let it cool in still air; quenched, it may harden again.",
        ("make",),
    ),
    Caution(
        "cutting",
        "Clamp it before sawing, grinding or drilling; eye protection; no gloves at what turns.",
        "Clamp the pushrod between soft jaws before sawing, grinding, drilling or tapping: a tube that turns with the "
        "drill takes hands with it. No gloves or loose sleeves near turning tools; wear eye protection, and hearing "
        "protection at the grinder.",
        ("make",),
    ),
    Caution(
        "tapping",
        "Taps splinter: cutting oil, straight in, back off every half turn, eye protection.",
        "Taps are brittle and break into splinters: cutting oil, straight in, back the tap off every half turn, eye "
        "protection on.",
        ("make",),
    ),
    Caution(
        "deburr_and_wash",
        "Deburr, wash and blow the bore clean, eyes protected: chips destroy bearings.",
        "Deburr every cut, then wash and blow the bore through until it is clean, with eye protection on: chips that "
        "reach a lifter or bearing destroy it.",
        ("make",),
    ),
)
"""Cutting, softening, drilling and tapping a pushrod."""
