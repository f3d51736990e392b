"""Pushrod lengths for engines built of several makers' parts, from measurements on the bench.

Inches and degrees throughout; signs and names in :mod:`valvegeo.quantities`. Names are loaded when first used, so that
``import valvegeo`` costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from valvegeo.findings.refusal import BadInput
    from valvegeo.motion.belief.fit import fit_marks
    from valvegeo.motion.belief.mark_fit import MarkFit
    from valvegeo.motion.best import best_pose
    from valvegeo.motion.certainty.tolerance import LengthUncertainty, length_uncertainty
    from valvegeo.motion.checking import check, locate
    from valvegeo.motion.cycle import Path, follow
    from valvegeo.motion.judged.remedies import Remedy, remedies
    from valvegeo.motion.mechanism import Mechanism, swapped, zero_lash
    from valvegeo.motion.pose import Pose, at_rise, reach, settle
    from valvegeo.motion.sizing import Case, Sizing, size
    from valvegeo.motion.sweep import Sweep, sweep
    from valvegeo.records.files.build_file import Build, read_build, write_build
    from valvegeo.records.files.marks_file import Marks, read_marks
    from valvegeo.records.files.stock_file import PushrodList, read_pushrod_list
    from valvegeo.records.reading import Reading
    from valvegeo.records.valvetrain import Valvetrain
    from valvegeo.shop.ordering.stock import Order, choose

_HOME = {
    "valvegeo.motion.best": ("best_pose",),
    "valvegeo.motion.checking": ("check", "locate"),
    "valvegeo.motion.cycle": ("Path", "follow"),
    "valvegeo.motion.belief.fit": ("fit_marks",),
    "valvegeo.motion.belief.mark_fit": ("MarkFit",),
    "valvegeo.motion.mechanism": ("Mechanism", "swapped", "zero_lash"),
    "valvegeo.motion.pose": ("Pose", "at_rise", "reach", "settle"),
    "valvegeo.motion.judged.remedies": ("Remedy", "remedies"),
    "valvegeo.motion.sizing": ("Case", "Sizing", "size"),
    "valvegeo.motion.sweep": ("Sweep", "sweep"),
    "valvegeo.motion.certainty.tolerance": ("LengthUncertainty", "length_uncertainty"),
    "valvegeo.records.files.build_file": ("Build", "read_build", "write_build"),
    "valvegeo.records.files.marks_file": ("Marks", "read_marks"),
    "valvegeo.records.reading": ("Reading",),
    "valvegeo.records.files.stock_file": ("PushrodList", "read_pushrod_list"),
    "valvegeo.findings.refusal": ("BadInput",),
    "valvegeo.records.valvetrain": ("Valvetrain",),
    "valvegeo.shop.ordering.stock": ("Order", "choose"),
}
_MODULE_OF = {name: module for module, names in _HOME.items() for name in names}

__all__ = [
    "BadInput", "Build", "Case", "LengthUncertainty", "MarkFit", "Marks", "Mechanism", "Order",
    "Path", "Pose", "PushrodList", "Reading", "Remedy", "Sizing", "Sweep", "Valvetrain", "at_rise",
    "best_pose", "check", "choose", "fit_marks", "follow", "length_uncertainty", "locate", "reach",
    "read_build", "read_marks", "read_pushrod_list", "remedies", "settle", "size", "swapped", "sweep",
    "write_build", "zero_lash",
]  # fmt: skip


def __getattr__(name: str) -> object:
    if name in _MODULE_OF:
        return getattr(import_module(_MODULE_OF[name]), name)
    raise AttributeError(f"module 'valvegeo' has no attribute {name!r}")


def __dir__() -> list[str]:
    return __all__
