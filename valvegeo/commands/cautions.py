"""``cautions``: every caution, step by step."""

from __future__ import annotations

import argparse

from valvegeo.commands.run import Run
from valvegeo.views.printed.text import as_text
from valvegeo.views.wording.caution_words import full_list


def run(arguments: argparse.Namespace) -> None:
    """Print the full list."""
    Run([], []).deliver([], as_text(full_list()))
