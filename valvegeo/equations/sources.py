"""Whether the printed equations are still those of the sources they were printed from."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256
from importlib.resources import files

ROOMS = ("quantities", "equations", "equations/geometry", "equations/deriving")
"""Folders of what decides, by their path in the package."""

APART = ("quantities/signs.py",)
"""Modules of those folders that have no part in deriving."""

PRINTED = "equations/printed.py"
"""What is printed."""


def source_names() -> tuple[str, ...]:
    """Name the files that decide what is printed, by their path in the package.

    Returns
    -------
    tuple of str
        The registry, and every module of equations, except the printed one and :data:`APART`.
    """
    here = files("valvegeo")
    names = [f"{room}/{entry.name}" for room in ROOMS for entry in here.joinpath(*room.split("/")).iterdir()]
    return tuple(sorted(name for name in names if name.endswith(".py") and name not in (PRINTED, *APART)))


def digest(name: str) -> str | None:
    """Hash a source, the same whichever way its lines end.

    Parameters
    ----------
    name : str
        Path in the package, with slashes.

    Returns
    -------
    str or None
        SHA-256 in hexadecimal; None where the source cannot be read.
    """
    try:
        text = files("valvegeo").joinpath(*name.split("/")).read_bytes()
    except OSError:
        return None
    return sha256(text.replace(b"\r\n", b"\n")).hexdigest()


def changed(printed_from: Mapping[str, str]) -> tuple[str, ...]:
    """Find the sources that are not what they were when they were printed.

    Parameters
    ----------
    printed_from : mapping of str to str
        Name -> digest then.

    Returns
    -------
    tuple of str
        Their names. None at all where no source can be read, as in an installation without them.
    """
    now = {name: digest(name) for name in printed_from}
    if not any(now.values()):
        return ()
    return tuple(name for name, was in printed_from.items() if now[name] != was)
