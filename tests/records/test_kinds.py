"""Kinds of mount, lifter and length convention: the tables hold every choice, and nothing else gets through."""

from __future__ import annotations

import ast

import numpy as np
import pytest

from tests.builds import CENTRED
from tests.modules import FILES, source
from valvegeo import Valvetrain, locate
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.mechanism import pivot_held, swapped
from valvegeo.quantities import BY_NAME
from valvegeo.records.ends import by_convention
from valvegeo.records.kinds import CONVENTIONS, LIFTERS, MOUNTS, checked_choice, has_lash, length_moves_pivot
from valvegeo.shop.lengths import End, centre_length, measured_length


@pytest.mark.parametrize(
    ("table", "quantity"), [(MOUNTS, "mount"), (LIFTERS, "lifter"), (CONVENTIONS, "check_measured_as")]
)
def test_a_row_for_each_choice(table: dict[str, object], quantity: str) -> None:
    assert tuple(table) == BY_NAME[quantity].choices


def test_what_a_length_moves_and_what_is_set() -> None:
    assert length_moves_pivot(np.array(["stud", "stand"])).tolist() == [True, False]
    assert has_lash(np.array(["solid", "hydraulic"])).tolist() == [True, False]


def test_no_module_asks_for_a_mount_or_lifter_by_its_word() -> None:
    """What a kind is like stands in its table, so that another kind is a row more."""
    words = {*MOUNTS, *LIFTERS}
    asked = [
        f"{module}:{node.lineno}"
        for module in FILES
        for node in ast.walk(ast.parse(source(module)))
        if isinstance(node, ast.Compare)
        and any(isinstance(part, ast.Constant) and part.value in words for part in ast.walk(node))
    ]
    assert asked == []


def test_word_that_is_no_choice_is_refused_with_the_choices() -> None:
    with pytest.raises(ValueError, match=r"^mount: got 'stdu'; allowed: one of stud, stand; did you mean stud\?$"):
        checked_choice("mount", ["stud", "stdu"])


def test_every_word_that_is_no_choice_is_told() -> None:
    with pytest.raises(
        Misfit, match=r"^first: got 'hydro'; allowed: .*\nfirst: got 'jelly'; .*; write one of these words$"
    ):
        checked_choice("lifter", ["jelly", "solid", "hydro"], called="first")


@pytest.mark.parametrize(("name", "word"), [("mount", "stdu"), ("lifter", "Solid"), ("tip_kind", "")], ids=str)
def test_mechanism_with_such_a_word_cannot_be_made(name: str, word: str) -> None:
    mechanism = locate(Valvetrain.of(**CENTRED))
    with pytest.raises(ValueError, match=f"^{name}: got '{word}'; allowed"):
        swapped(mechanism, **{name: word})


def test_held_pivot_moves_with_no_length() -> None:
    mechanism = locate(Valvetrain.of(**CENTRED))
    assert mechanism.length_moves_pivot.all()
    assert not pivot_held(mechanism).length_moves_pivot.any()


_NO_CONVENTION = r"measured_as: got '{}'; allowed: one of ball_centre, overall, gauge; {}"


@pytest.mark.parametrize(
    ("word", "cure"),
    [("overal", r"did you mean overall\?"), ("foo", "write one of these words"), ("Gauge", r"did you mean gauge\?")],
)
def test_unknown_convention_is_refused_and_never_means_that_nothing_is_added(word: str, cure: str) -> None:
    refused = f"^{_NO_CONVENTION.format(word, cure)}$"
    ends = {name: np.array(0.1) for name in CONVENTIONS}
    with pytest.raises(Misfit, match=refused):
        by_convention(["overall", word], ends)
    with pytest.raises(ValueError, match=refused):
        End(0.3125).reach(word)
    with pytest.raises(ValueError, match=refused):
        centre_length(8.0, word, End(0.3125))
    with pytest.raises(ValueError, match=refused):
        measured_length(8.0, word, End(0.3125))


def test_blank_convention_is_refused_as_missing() -> None:
    with pytest.raises(ValueError, match=r"^measured_as: got ''; allowed: one of ball_centre, overall, gauge; it must"):
        End(0.3125).reach("")
