"""Shared fixtures: random builds, the same at every run."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, settings

from tests.builds import plausible
from valvegeo import Sizing, Valvetrain, size

settings.register_profile("house", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("house")


@pytest.fixture(scope="session")
def engines() -> Valvetrain:
    """Three hundred builds as engines are: both mounts, both lifters, all leans."""
    return plausible(300, seed=20)


@pytest.fixture(scope="session")
def sized(engines: Valvetrain) -> Sizing:
    return size(engines)
