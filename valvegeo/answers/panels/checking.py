"""A checking pushrod's plan, and what each change of donor or wish makes of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from valvegeo.shop.checking.plan import Donor, Plan, Wish
from valvegeo.shop.checking.pushrod import plan


def planned(donor: Donor, wish: Wish) -> Plan:
    """Lay out a checking pushrod; it says itself why it will not do."""
    return plan(donor, wish)


def with_donor(made: Plan, **changed: Any) -> Plan:
    """Cut another donor: fields of :class:`Donor`."""
    return plan(replace(made.donor, **changed), made.wish)


def with_wish(made: Plan, **changed: Any) -> Plan:
    """Wish for something else: fields of :class:`Wish`."""
    return plan(made.donor, replace(made.wish, **changed))
