"""Run every notebook and save it: ``python tests/save_notebooks.py [NOTEBOOK ...]``.

The same bytes come out every time: no clock, no widget state, no figures' JavaScript, no machine's own names. nbval
compares what is kept.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from valvegeo.views.live.notebook import LEAN_OUTPUT

NOTEBOOKS = Path(__file__).resolve().parents[1] / "notebooks"

LEFT_OUT = ("application/vnd.jupyter.widget-view+json", "application/vnd.bokehjs_load.v0+json")
"""Payloads that are for a live browser only."""

KERNEL = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}


def save(path: Path) -> None:
    """Run one notebook in its own folder and save it with its outputs."""
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(
        notebook,
        timeout=120,
        record_timing=False,
        store_widget_state=False,
        coalesce_streams=True,
        resources={"metadata": {"path": str(path.parent)}},
    ).execute()
    notebook.metadata = {"kernelspec": KERNEL, "language_info": {"name": "python"}}
    for cell in notebook.cells:
        cell.metadata = {}
        for output in cell.get("outputs", []):
            for payload in LEFT_OUT:
                output.get("data", {}).pop(payload, None)
    nbformat.write(notebook, path)


def main(names: Iterable[str]) -> None:
    """Save the notebooks named, or all of them."""
    os.environ[LEAN_OUTPUT] = "1"
    for path in [Path(name) for name in names] or sorted(NOTEBOOKS.glob("*.ipynb")):
        save(path)
        print(f"{path.name}: {path.stat().st_size / 1024:.0f} KB")


if __name__ == "__main__":
    main(sys.argv[1:])
