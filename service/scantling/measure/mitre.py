"""Angles and lengths of mitred work: frames, boxes with leaning sides, cornices, folded mitres.

All angles are degrees; lengths may be in any one unit. A mitre angle is measured from a square crosscut (0 = square),
as on the scale of a mitre saw; a bevel angle is the tilt of the blade from upright. Formulas are plain solid geometry;
the saw owner's manual chart they are tested against is named in tests/published/test_compound_mitre.py.
"""

from math import asin, atan, cos, degrees, radians, sin, tan
from typing import NamedTuple


class SawSetting(NamedTuple):
    """Mitre and bevel of a saw, in degrees: the turn from a square crosscut and the tilt of the blade."""

    mitre: float
    bevel: float


def frame_mitre(sides: int) -> float:
    """Return the mitre of a flat frame with equal sides and angles: 180° over the number of sides."""
    _check_sides(sides)
    return 180.0 / sides


def compound_mitre(sides: int, pitch: float) -> SawSetting:
    """Return mitre and bevel for a regular box of `sides` sides that stand at `pitch` degrees from flat.

    90 is an upright box (mitre 0, bevel 180/n), 0 a flat frame (mitre 180/n, bevel 0). The board lies flat on the saw:
    mitre = atan(tan(180/n)·cos P), bevel = asin(sin(180/n)·sin P). ValueError outside 0 to 90 degrees.
    """
    _check_sides(sides)
    if not 0 <= pitch <= 90:
        raise ValueError(f"the pitch must lie between 0 (flat) and 90 (upright) degrees, not {pitch}")
    half, slope = radians(180.0 / sides), radians(pitch)
    return SawSetting(degrees(atan(tan(half) * cos(slope))), degrees(asin(sin(half) * sin(slope))))


def cornice_mitre(spring: float, corner: float) -> SawSetting:
    """Return mitre and bevel for a cornice laid flat on the saw.

    `spring` is the angle between the back of the moulding and the wall, `corner` the corner of the walls (90 for a
    square room). mitre = atan(sin S / tan(C/2)), bevel = asin(cos S · cos(C/2)).
    """
    if not (0 < spring < 90 and 0 < corner < 180):
        raise ValueError("the spring must lie between 0 and 90 degrees and the corner between 0 and 180")
    s, half = radians(spring), radians(corner / 2)
    return SawSetting(degrees(atan(sin(s) / tan(half))), degrees(asin(cos(s) * cos(half))))


def polygon_side(sides: int, across_flats: float) -> float:
    """Return the side of a regular polygon from twice its inner radius, which for even counts is flat to flat."""
    return across_flats * tan(radians(frame_mitre(sides)))


def polygon_across_corners(sides: int, across_flats: float) -> float:
    """Return twice the outer radius of a regular polygon, which for even counts is corner to corner."""
    return across_flats / cos(radians(frame_mitre(sides)))


def mitre_run(thickness: float, angle: float = 45.0) -> float:
    """Return by how much the inner face of a mitred end is shorter than the outer one: t·tan angle."""
    return thickness * tan(radians(angle))


def folded_mitre_groove(thickness: float, angle: float = 45.0) -> float:
    """Return the width, on the inside face, of the V-groove that lets a sheet be folded: twice `mitre_run`."""
    return 2.0 * mitre_run(thickness, angle)


def mitre_face(width: float, angle: float = 45.0) -> float:
    """Return the length of the mating face of a mitre across a board of some width: w/cos angle."""
    return width / cos(radians(angle))


def kerf_on_face(kerf: float, bevel: float) -> float:
    """Return the width a tilted blade takes on the face of the board: k/cos bevel."""
    return kerf / cos(radians(bevel))


class MitreError(NamedTuple):
    """What a gap allows, in degrees: all cuts of the frame together, and each of them."""

    total: float
    per_cut: float


def mitre_error(sides: int, joint_length: float, gap: float) -> MitreError:
    """Return the angle by which the cuts of a mitred frame may be wrong until the last joint gapes by `gap`.

    A frame of n sides has 2n cuts, and their errors add up in the last joint, which opens like a wedge over its
    `joint_length` (the mating face): total = atan(gap / joint length). Both lengths in one unit.
    """
    _check_sides(sides)
    if joint_length <= 0 or gap < 0:
        raise ValueError("the joint must have a length, and the gap cannot be less than zero")
    total = degrees(atan(gap / joint_length))
    return MitreError(total, total / (2 * sides))


def _check_sides(sides: int) -> None:
    if sides < 3:
        raise ValueError(f"a frame has at least 3 sides, not {sides}")
