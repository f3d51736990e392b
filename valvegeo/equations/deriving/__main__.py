"""Print all equations anew: ``python -m valvegeo.equations.deriving``. With ``--check``: tell whether that is due."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

import sympy as sp

from valvegeo.equations.deriving.numpy_source import is_current, module_text
from valvegeo.equations.deriving.sets import SETS

PRINTED = Path(__file__).parents[1] / "printed.py"


def main() -> int:
    """Print, or check.

    Returns
    -------
    int
        Exit status: 1 where a check finds that printing is due, otherwise 0.
    """
    parser = argparse.ArgumentParser(
        prog="python -m valvegeo.equations.deriving", description="Print all equations as plain NumPy."
    )
    parser.add_argument("--check", action="store_true", help="write nothing; exit status 1 where printing is due")
    if parser.parse_args().check:
        current = PRINTED.exists() and is_current(PRINTED.read_text(encoding="utf-8"))
        print(f"{PRINTED.name} is {'current' if current else 'not current: run this without --check'}")
        return 0 if current else 1
    PRINTED.write_text(module_text(), encoding="utf-8", newline="\n")
    print(f"{PRINTED.name}: {len(SETS)} sets of equations, printed with sympy {sp.__version__}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
