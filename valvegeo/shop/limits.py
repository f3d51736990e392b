"""What a question to the shop may be asked with: numbers in the registry's ranges, and what a pushrod may cost."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME


def require(values: Mapping[str, float]) -> None:
    """Let numbers pass that their quantities may have.

    Parameters
    ----------
    values : mapping of str to float
        By registry name, each in its quantity's unit.

    Raises
    ------
    ValueError
        Naming every one that is not a finite number within its quantity's range, with what is allowed.
    """
    found = [
        Finding("limit.range", {"range": BY_NAME[name].allowed}, name, repr(value))
        for name, value in values.items()
        if not (math.isfinite(value) and BY_NAME[name].low <= value <= BY_NAME[name].high)
    ]
    if found:
        raise Misfit(found)


def _default(name: str) -> float:
    value = BY_NAME[name].default
    assert isinstance(value, float)
    return value


@dataclass(frozen=True)
class Limits:
    """What a pushrod may cost before it is refused [in]; the declared lash or preload itself is always allowed.

    Fields are quantities of :data:`valvegeo.quantities.ORDERING`, held to their ranges.
    """

    sweep_allowance: float = _default("sweep_allowance")
    lash_least: float = _default("lash_least")
    lash_most: float = _default("lash_most")
    preload_least: float = _default("preload_least")
    preload_most: float = _default("preload_most")

    def __post_init__(self) -> None:
        require(vars(self))
