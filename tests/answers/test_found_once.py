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

FOUR_NUMBERS = ["--arm", "1.52", "--ratio", "1.6", "--lift", "0.57", "--mark-travel", "0.044"]
TIP, DECK, GASKET = (["--tip-height-change", "0.060"], ["--deck-cut", "0.030"], ["--gasket-change", "0.030"])
HOT = ["--temperature-rise", "60"]

COMMANDS = {
    "size": (["size", PAIR], 2 * 2),
    "size a stand": (["size", STAND], 2 * 2),
    "read": (["read", PAIR, MARKS], None),
    "order": (["order", SIX, STOCK, "--delivered", DELIVERED], 12 * 2),
    "changes, one": (["changes", PAIR, *TIP], 2 * (2 + 1)),
    "changes, two": (["changes", PAIR, *TIP, *GASKET], 2 * (2 + 2 + 1)),
    "changes, hot too": (["changes", PAIR, *TIP, *GASKET, *HOT], 2 * (2 + 3 + 1)),
    "changes, all undone": (["changes", PAIR, *DECK, *GASKET], 2 * (2 + 2)),
    "changes a stand": (["changes", STAND, *TIP, *GASKET, "--fitted", "intake=7.85"], 2 * (2 + 2 + 1)),
    "quick": (["quick", *FOUR_NUMBERS], 0),
}
"""Arguments, and how many best poses there are to find: of each valve running and at a zero-lash check; for changes
also of each change alone, and of all together where that is another mechanism. None: those of the
draws too; there the one build a valve that stands for them all is found by its best length, and then sized."""


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
    written = [] if name == "quick" else ["--results", str(tmp_path / "r.csv")]
    assert main([*arguments, *written]) == 0
    assert capsys.readouterr().out
    assert bool(found) is (poses != 0)
    again = [times for times in found.values() if times > 1]
    assert again == ([2, 2] if name == "read" else [])
    assert poses is None or len(found) == poses
