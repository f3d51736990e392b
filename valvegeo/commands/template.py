"""``template``: an empty build file that says how to measure each row."""

from __future__ import annotations

import argparse

from valvegeo.commands.run import Run
from valvegeo.records.files.template import template_text
from valvegeo.views.wording.caution_words import three_lines


def run(arguments: argparse.Namespace) -> None:
    """Print a template for the valves named."""
    Run([], []).deliver([], template_text(arguments.valves, three_lines("measure")))
