"""No best pose is found twice for the same mechanism in one command."""

from __future__ import annotations

from collections import Counter
from dataclasses import fields
from pathlib import Path

import numpy as np
import pytest

from valvegeo.cli import main
from valvegeo.motion import best
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose
from valvegeo.records.batch import batch_shape

DATA = Path(__file__).parents[2] / "data"
PAIR, SIX, STAND = (str(DATA / f"larkspur_{name}.csv") for name in ("pair", "six", "stand"))
MARKS, STOCK, DELIVERED = (str(DATA / f"larkspur_{name}.csv") for name in ("marks", "stock", "delivered"))

COMMANDS = {
    "size": (["size", PAIR], 2 * 2),
    "size a stand": (["size", STAND], 2 * 2),
    "read": (["read", PAIR, MARKS], None),
    "order": (["order", SIX, STOCK, "--delivered", DELIVERED], 12 * 2),
}
"""Arguments, and how many best poses there are to find: of each valve running and at a zero-lash check."""


def valves_of(mechanism: Mechanism) -> list[bytes]:
    """Every valve of a mechanism, as bytes that are the same for the same parts in the same places."""
    shape = batch_shape(mechanism)
    columns = [np.broadcast_to(getattr(mechanism, entry.name), shape).ravel() for entry in fields(mechanism)]
    return [b"|".join(np.asarray(value).tobytes() for value in valve) for valve in zip(*columns, strict=True)]


@pytest.fixture
def found(monkeypatch: pytest.MonkeyPatch) -> Counter[bytes]:
    """How often each mechanism's best pose is found."""
    counted: Counter[bytes] = Counter()
    whole = best.at_rise

    def counting(mechanism: Mechanism, pivot_rise: np.ndarray) -> Pose:
        counted.update(valves_of(mechanism))
        return whole(mechanism, pivot_rise)

    monkeypatch.setattr(best, "at_rise", counting)
    return counted


@pytest.mark.parametrize("name", COMMANDS)
def test_each_once(name: str, found: Counter[bytes], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    arguments, poses = COMMANDS[name]
    assert main([*arguments, "--results", str(tmp_path / "r.csv")]) == 0
    assert capsys.readouterr().out
    assert found
    assert set(found.values()) == {1}
    assert poses is None or len(found) == poses
