"""A part as the shop sees it, placed in space: boards, cuts, joints, fasteners and the Assembly they make."""

from .alike import Group, alike
from .assembly import Assembly, AssemblyError, Cushion, Hardware, Step
from .cell import Cell, Face, Plane
from .chain import Chain, ChainError, Link
from .contact import Patch, patches, ray_through
from .cut_list import CutListRow, cut_list
from .cuts import Curve, Cut, CutError, Easing, Hole, Recess, SawCut
from .frame import Frame
from .joint import Fastener, Joint, JointKind, ScrewRole
from .load_case import LoadCase, LoadCaseError
from .material import RoleMaterial
from .part import Part, PlacingError, Promise
from .plain import all_promises, assembly_from_plain, assembly_to_plain
from .saw_settings import SawSetting, point_lengths, saw_settings

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
    "patches",
    "point_lengths",
    "ray_through",
    "saw_settings",
]
