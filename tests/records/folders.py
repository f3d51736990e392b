"""What is in a folder, hidden or not."""

from pathlib import Path


def names_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}
