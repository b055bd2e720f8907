"""A part as the shop sees it, placed in space: boards, cuts, joints, fasteners and the Assembly they make."""

from typing import TYPE_CHECKING

from scantling.later import loaded_later

from .alike import Group, alike
from .assembly import Assembly, AssemblyError, Cushion, Hardware, Step, all_promises
from .cell import Cell, Face, Plane
from .chain import Chain, ChainError, Link
from .contact import Patch, patches, ray_through
from .cut_list import CutListRow, cut_list
from .cuts import Curve, Cut, CutError, Easing, Hole, Recess, SawCut
from .frame import Frame
from .joint import Fastener, Joint, JointKind, ScrewRole
from .load_case import LoadCase, LoadCaseError
from .material import RoleMaterial
from .motion import Motion, MotionError, moving_parts
from .part import Part, PlacingError, Promise
from .saw_settings import SawSetting, point_lengths, saw_settings

if TYPE_CHECKING:
    from .plain import assembly_from_plain, assembly_to_plain

__all__ = [
    "Assembly",
    "AssemblyError",
    "Cell",
    "Chain",
    "ChainError",
    "Curve",
    "Cushion",
    "Cut",
    "CutError",
    "CutListRow",
    "Easing",
    "Face",
    "Fastener",
    "Frame",
    "Group",
    "Hardware",
    "Hole",
    "Joint",
    "JointKind",
    "Link",
    "LoadCase",
    "LoadCaseError",
    "Motion",
    "MotionError",
    "Part",
    "Patch",
    "PlacingError",
    "Plane",
    "Promise",
    "Recess",
    "RoleMaterial",
    "SawCut",
    "SawSetting",
    "ScrewRole",
    "Step",
    "alike",
    "all_promises",
    "assembly_from_plain",
    "assembly_to_plain",
    "cut_list",
    "moving_parts",
    "patches",
    "point_lengths",
    "ray_through",
    "saw_settings",
]

if not TYPE_CHECKING:
    __getattr__ = loaded_later(
        __name__,
        {
            "plain": ("assembly_from_plain", "assembly_to_plain"),
        },
    )
