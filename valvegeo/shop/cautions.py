"""Every hazard's words, once: whatever prints or shows a caution takes it from here."""

from __future__ import annotations

from valvegeo.shop.hazards.caution import Caution
from valvegeo.shop.hazards.engine import AT_THE_ENGINE
from valvegeo.shop.hazards.making import MAKING

CAUTIONS: tuple[Caution, ...] = AT_THE_ENGINE + MAKING
"""Every caution, in the order in which it is met."""

BY_KEY: dict[str, Caution] = {one.key: one for one in CAUTIONS}
"""Every caution by its name."""
