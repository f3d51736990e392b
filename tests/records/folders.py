"""What is in a folder, hidden or not, and what keeps files from being written there."""

from pathlib import Path

import pytest

from valvegeo.findings.refusal import BadInput
from valvegeo.records.files.whole import write_whole


def names_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def refused(texts: dict[Path, str], inputs: list[Path] | None = None) -> list[tuple[str, str]]:
    """Value and cure of each fault that writing these is refused with."""
    with pytest.raises(BadInput) as caught:
        write_whole(texts, inputs or [])
    return [(fault.value, fault.cure) for fault in caught.value.faults]
