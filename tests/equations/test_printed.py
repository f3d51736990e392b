"""The printed module is what the sources give: byte for byte by the sympy that printed it, in numbers by any other."""

from __future__ import annotations

import importlib
import pkgutil

import mpmath
import numpy as np
import pytest
import sympy as sp

import valvegeo
from tests.equations.compiled_sets import EQUATION_SETS
from valvegeo.equations import printed, sources
from valvegeo.equations.deriving import __main__ as command
from valvegeo.equations.deriving.numpy_source import derived, is_current, module_text
from valvegeo.equations.deriving.sets import SETS
from valvegeo.equations.geometry.sensitivity import Implicit
from valvegeo.equations.numeric import Compiled
from valvegeo.equations.symbols import SYMBOLS
from valvegeo.motion.certainty.sensitivity import Slopes
from valvegeo.quantities import BY_NAME

PRINT_ANEW = "run `python -m valvegeo.equations.deriving`"
TEXT = command.PRINTED.read_text(encoding="utf-8")


def at_random(arguments: tuple[str, ...], seed: int) -> dict[str, float]:
    """Arguments of a set where its geometry can be assembled: an engine's, each a little off; radians."""
    middle = {
        "valve_arm": 1.5, "rocker_ratio": 1.6, "cup_drop": 0.06, "tip_radius": 0.25, "check_length": 8.0,
        "pushrod_length": 8.0, "check_pivot_height": 0.0, "axle_above_pivot": 0.25, "check_valve_lift": 0.5,
        "pivot_x": -1.5, "pivot_y": 0.1, "seat_x": -3.1, "seat_y": -7.9, "seat_z": -0.2, "lobe_lift": 0.35,
        "lifter_travel": 0.2, "stem_diameter": 0.34, "stud_offset": 1.5, "valve_lift": 0.5, "mark_travel": 0.03,
        "ball_diameter": 0.3125, "check_ball_diameter": 0.3125, "gauge_hole": 0.14, "check_gauge_hole": 0.14,
        "end_flat": 0.1, "check_end_flat": 0.1, "cup_depth": 0.2,
    }  # fmt: skip
    off = np.random.default_rng(seed).uniform(-0.02, 0.02, len(BY_NAME))
    near = {name: middle.get(name, 0.0) + change for name, change in zip(BY_NAME, off, strict=True)}
    return {name: float(near[name]) for name in arguments}


def test_the_module_is_printed_from_these_sources() -> None:
    if sp.__version__ == printed.SYMPY:
        assert module_text() == TEXT, PRINT_ANEW
    assert sources.changed(printed.SOURCES) == (), PRINT_ANEW
    assert tuple(printed.SOURCES) == sources.source_names(), PRINT_ANEW
    assert is_current(TEXT)
    assert f"Printed with sympy {printed.SYMPY} by" in printed.__doc__


@pytest.mark.parametrize("name", SETS)
def test_a_printed_set_is_the_set_derived_now(name: str) -> None:
    here = derived(EQUATION_SETS[name])
    there = printed.SETS[name]
    assert (here.arguments, here.outputs) == (there.arguments, there.outputs)
    assert (here.unknowns, here.inputs, here.answers) == (there.unknowns, there.inputs, there.answers)
    given = at_random(there.arguments, seed=1)
    np.testing.assert_allclose(there.function(**given), here.function(**given), rtol=1e-10, atol=1e-13)


@pytest.mark.slow
@pytest.mark.parametrize("name", SETS)
def test_a_printed_set_gives_its_expressions_values(name: str) -> None:
    """Against each expression on its own to thirty digits, no subexpression shared and NumPy not asked."""
    set_ = printed.SETS[name]
    for seed in range(3):
        given = at_random(set_.arguments, seed)
        found = dict(zip(set_.outputs, set_.function(**given), strict=True))
        assert np.isfinite(list(found.values())).all()
        for output, expression in EQUATION_SETS[name].expressions.items():
            with mpmath.workdps(30):
                exact = sp.lambdify([SYMBOLS[each] for each in given], expression, "mpmath")(
                    *(mpmath.mpf(value) for value in given.values())
                )
            assert float(found[output]) == pytest.approx(float(exact), rel=1e-9, abs=1e-12), output


def test_what_is_left_out_of_the_derivatives_is_zero() -> None:
    for name in SETS:
        module, attribute = name.split(".")
        found = getattr(importlib.import_module(f"valvegeo.equations.geometry.{module}"), attribute)
        if isinstance(found, Implicit):
            slopes = {f"{row}_by_{column}": slope for (row, column), slope in found.partials.items()}
            assert {row for row, slope in slopes.items() if slope != 0} == set(printed.SETS[name].outputs)
            assert found.unknowns == printed.SETS[name].unknowns
            assert found.inputs == printed.SETS[name].inputs
            assert tuple(found.answers) == printed.SETS[name].answers


def test_every_set_is_used_and_every_set_used_is_listed() -> None:
    used = set()
    for found in pkgutil.walk_packages(valvegeo.__path__, "valvegeo."):
        if not found.name.endswith("__main__"):
            for value in vars(importlib.import_module(found.name)).values():
                compiled = value.partials if isinstance(value, Slopes) else value
                if isinstance(compiled, Compiled):
                    used.add(compiled.source)
    assert used == set(SETS)


@pytest.mark.slow
def test_check_tells_whether_printing_is_due(tmp_path, monkeypatch, capsys) -> None:
    other = tmp_path / "printed.py"
    monkeypatch.setattr(command, "PRINTED", other)
    monkeypatch.setattr("sys.argv", ["deriving", "--check"])
    assert command.main() == 1
    assert "not current: run this without --check" in capsys.readouterr().out
    assert not other.exists()
    other.write_text(module_text().replace("x0**2", "x0**3", 1), encoding="utf-8")
    assert command.main() == 1
    monkeypatch.setattr("sys.argv", ["deriving"])
    assert command.main() == 0
    assert f"{len(SETS)} sets" in capsys.readouterr().out
    monkeypatch.setattr("sys.argv", ["deriving", "--check"])
    assert command.main() == 0
    assert "printed.py is current" in capsys.readouterr().out


def test_of_another_sympy_s_module_the_sources_are_judged() -> None:
    """Its numbers are held to those derived here above; its bytes may differ."""
    other = TEXT.replace(f'SYMPY = "{sp.__version__}"', 'SYMPY = "1.0"').replace("x0**2", "x0*x0", 1)
    assert is_current(other)
    assert not is_current(other.replace(printed.SOURCES["equations/geometry/frame.py"], "0" * 64))


def test_a_source_s_line_ends_do_not_count() -> None:
    assert sources.changed({"quantities/measured.py": sources.digest("quantities/measured.py") or ""}) == ()
    assert sources.changed({"quantities/measured.py": "0" * 64}) == ("quantities/measured.py",)
    assert sources.digest("equations/nothing.py") is None
    assert sources.changed({"equations/nothing.py": "0" * 64}) == ()
    named = {"equations/nothing.py": "0" * 64, "quantities/measured.py": sources.digest("quantities/measured.py") or ""}
    assert sources.changed(named) == ("equations/nothing.py",)
