"""Things that lean: splayed legs, tilted seats and raked backs. Angles in degrees, lengths in any one unit."""

from math import atan, atan2, cos, degrees, hypot, radians, sin, tan
from typing import NamedTuple


class Splay(NamedTuple):
    """A leg leaning two ways at once.

    `front` and `side` are the lean seen from the side and from the front; `resultant` is the true lean from plumb,
    in the plane through the leg; `sightline` is the direction of that plane in plan, from the direction `side` leans
    towards; `length` is measured along the leg. Head and foot are cut parallel, at the angles `front` and `side`.
    """

    front: float
    side: float
    resultant: float
    sightline: float
    length: float


def splay_from_angles(height: float, front: float, side: float = 0.0) -> Splay:
    """Return a leg that stands `height` plumb and leans by two angles seen square on, each below 90 degrees."""
    if height <= 0 or not (0 <= front < 90 and 0 <= side < 90):
        raise ValueError("the height must be more than zero and both angles from 0 to below 90 degrees")
    return splay_from_set_out(height, height * tan(radians(front)), height * tan(radians(side)))


def splay_from_set_out(height: float, out: float, out_side: float = 0.0) -> Splay:
    """Return a leg that stands `height` plumb with its foot set out by `out`, and sideways by `out_side`."""
    if height <= 0 or out < 0 or out_side < 0:
        raise ValueError("the height must be more than zero, and a foot cannot be set out by less than zero")
    away = hypot(out, out_side)
    return Splay(
        front=degrees(atan(out / height)),
        side=degrees(atan(out_side / height)),
        resultant=degrees(atan(away / height)),
        sightline=degrees(atan2(out, out_side)),
        length=hypot(height, away),
    )


class SeatTilt(NamedTuple):
    """A tilted seat board: how high its rear edge is, and how deep it is in plan."""

    rear_height: float
    run: float


def seat_tilt(front_height: float, depth: float, tilt: float) -> SeatTilt:
    """Return where the rear of a seat comes that falls to the rear by `tilt` degrees over its `depth`."""
    return SeatTilt(front_height - depth * sin(radians(tilt)), depth * cos(radians(tilt)))


def back_rake(tilt: float, seat_to_back: float) -> float:
    """Return the lean of a back from plumb, from the tilt of the seat and the angle between seat and back."""
    return seat_to_back - 90.0 + tilt


def back_from_floor(tilt: float, seat_to_back: float) -> float:
    """Return the angle of a back with the floor, measured from in front: tilt plus the angle between them."""
    return tilt + seat_to_back


def back_set_off(length: float, rake: float) -> float:
    """Return how far behind its foot the top of a back of some length comes."""
    return length * sin(radians(rake))
