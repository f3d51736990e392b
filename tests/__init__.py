"""Tests; shared helpers are `builds` (random builds) and `by_hand` (an independent derivation)."""
