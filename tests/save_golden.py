"""Print every kind of report into ``tests/views/golden``: ``python tests/save_golden.py``.

Run it after a change of words that is meant, and read the difference: it is what a builder will read.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tests.views.reports import GOLDEN, REPORTS

if __name__ == "__main__":
    for name, make in REPORTS.items():
        (GOLDEN / f"{name}.txt").write_text(make(), encoding="utf-8")
        print(name)
