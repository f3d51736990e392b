"""Pushrod length and rocker geometry: from a few bench measurements to the contact sweep across the valve stem.

Inches and degrees throughout; signs and names in :mod:`valvegeo.quantities`. Names are loaded when first used, so that
``import valvegeo`` costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from valvegeo.motion.best import best_pose
    from valvegeo.motion.checking import check, locate
    from valvegeo.motion.cycle import Path, follow
    from valvegeo.motion.mechanism import Mechanism, swapped, zero_lash
    from valvegeo.motion.pose import Pose, at_rise, reach, settle
    from valvegeo.motion.sizing import Case, Sizing, size
    from valvegeo.motion.sweep import Sweep, sweep
    from valvegeo.records.build_file import Build, read_build, write_build
    from valvegeo.records.table import BadInput
    from valvegeo.records.valvetrain import Valvetrain

_HOME = {
    "valvegeo.motion.best": ("best_pose",),
    "valvegeo.motion.checking": ("check", "locate"),
    "valvegeo.motion.cycle": ("Path", "follow"),
    "valvegeo.motion.mechanism": ("Mechanism", "swapped", "zero_lash"),
    "valvegeo.motion.pose": ("Pose", "at_rise", "reach", "settle"),
    "valvegeo.motion.sizing": ("Case", "Sizing", "size"),
    "valvegeo.motion.sweep": ("Sweep", "sweep"),
    "valvegeo.records.build_file": ("Build", "read_build", "write_build"),
    "valvegeo.records.table": ("BadInput",),
    "valvegeo.records.valvetrain": ("Valvetrain",),
}
_MODULE_OF = {name: module for module, names in _HOME.items() for name in names}

__all__ = [
    "BadInput", "Build", "Case", "Mechanism", "Path", "Pose", "Sizing", "Sweep", "Valvetrain", "at_rise", "best_pose",
    "check", "follow", "locate", "reach", "read_build", "settle", "size", "swapped", "sweep", "write_build",
    "zero_lash",
]  # fmt: skip


def __getattr__(name: str) -> object:
    if name in _MODULE_OF:
        return getattr(import_module(_MODULE_OF[name]), name)
    raise AttributeError(f"module 'valvegeo' has no attribute {name!r}")


def __dir__() -> list[str]:
    return __all__
