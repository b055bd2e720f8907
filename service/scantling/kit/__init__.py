"""Everything an author of a furniture module imports; nothing else is public to plugins."""

from scantling.board import (
    Assembly,
    AssemblyError,
    Cushion,
    CutError,
    Joint,
    JointKind,
    Part,
    PlacingError,
    ScrewRole,
)
from scantling.findings import Finding, Severity
from scantling.measure import rise_over_run, snap

from .hooks import hook
from .module import INTERFACE, Build, Module, Role
from .parameters import CushionSize, Parameters, angle, choice, count, cushion, flag, length, ratio

__all__ = [
    "INTERFACE", "Assembly", "AssemblyError", "Build", "Cushion", "CushionSize", "CutError", "Finding", "Joint",
    "JointKind", "Module", "Parameters", "Part", "PlacingError", "Role", "ScrewRole", "Severity", "angle", "choice",
    "count", "cushion", "flag", "hook", "length", "ratio", "rise_over_run", "snap",
]  # fmt: skip
