"""Does it fit its place: wall runs, corners, floors, walkways, doors, and who can lift it."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .figures import figure
from .notice import notice
from .validity import not_negative, positive, within

_WALKWAYS = (
    "walkway-main",
    "walkway-secondary",
    "behind-diner",
    "behind-diner-edge",
    "behind-diner-walk",
    "sofa-to-table-least",
    "bed-side",
    "bed-foot",
    "desk-behind",
    "route-clear",
)


@dataclass(frozen=True, slots=True)
class Run:
    """A wall run measured at three heights, mm; the least rules. `height_mm` clear to a sill or ceiling, if any."""

    floor_mm: float
    seat_mm: float
    back_mm: float
    height_mm: float | None = None

    @property
    def least_mm(self) -> float:
        """Return the shortest of the three lengths, mm."""
        return min(self.floor_mm, self.seat_mm, self.back_mm)


@dataclass(frozen=True, slots=True)
class PlaceResult:
    """A piece in its place: what was noticed about runs, walkways, doors, the way in and weight."""

    found: tuple[Finding, ...]

    def findings(self) -> tuple[Finding, ...]:
        """Return what was noticed."""
        return self.found


def corner_angle(first_mm: float, second_mm: float, diagonal_mm: float) -> float:
    """Return the angle of a corner from two legs and the diagonal across them.

    Units: mm in, degrees out. Valid: three lengths that make a triangle. Raises: OutOfValidity.
    Source: geometry, the law of cosines.
    """
    a, b = positive("first leg", first_mm, "mm"), positive("second leg", second_mm, "mm")
    d = within("diagonal", diagonal_mm, abs(a - b), a + b, "mm", "three sides of a triangle")
    return math.degrees(math.acos((a**2 + b**2 - d**2) / (2 * a * b)))


def gap_at_wall(angle_deg: float, depth_mm: float) -> float:
    """Return the largest gap behind or beside a square piece in a corner out of square.

    Units: degrees, mm. Valid: corners of 80 to 100 degrees. Raises: OutOfValidity. Source: geometry.
    """
    off = abs(within("corner angle", angle_deg, 80, 100, "degrees", "walls meant to be square") - 90)
    return positive("depth", depth_mm, "mm") * math.tan(math.radians(off))


def floor_fall(length_mm: float, high_mm: float, low_mm: float) -> float:
    """Return the slope of a floor in millimetres per metre from a level line to it at both ends.

    Units: mm in, mm per metre out. Valid: heights below one level line. Raises: OutOfValidity. Source: geometry.
    """
    return abs(high_mm - low_mm) / positive("length", length_mm, "mm") * 1000


def footprint_depth(depth_mm: float, back_height_mm: float, lean_deg: float, lid_mm: float = 0.0) -> float:
    """Return the depth a piece takes up with its back leaning out and its lid open behind it.

    Units: mm, degrees from upright. Valid: lean 0 to 60 degrees. Raises: OutOfValidity. Source: geometry.
    """
    lean = within("lean", lean_deg, 0, 60, "degrees", "backs of seats")
    out = not_negative("back height", back_height_mm, "mm") * math.sin(math.radians(lean))
    return positive("depth", depth_mm, "mm") + max(out, not_negative("open lid", lid_mm, "mm"))


def check_run(
    run: Run, length_mm: float, *, height_mm: float | None = None, scribe_mm: float = 6.0, parts: tuple[str, ...] = ()
) -> PlaceResult:
    """Check a piece against a wall run measured at floor, seat and back height.

    Units: mm. Valid: runs measured in their place; the least rules. Raises: OutOfValidity.
    Source: measuring practice; the scribe gap is the caller's (6 mm by default, practice).
    """
    room = positive("wall run", run.least_mm, "mm") - positive("length", length_mm, "mm")
    found = []
    if room < 0:
        text = f"The run is {run.least_mm:.0f} mm at its shortest and the piece {length_mm:.0f} mm long."
        found.append(
            notice(
                "does-not-fit-place",
                text,
                parts=parts,
                value=length_mm,
                limit=run.least_mm,
                unit="mm",
                source="measured",
            )
        )
    elif room < not_negative("scribe gap", scribe_mm, "mm"):
        text = f"The run leaves {room:.0f} mm; a scribe gap of {scribe_mm:.0f} mm was asked for."
        found.append(
            notice("place-fits-narrowly", text, parts=parts, value=room, limit=scribe_mm, unit="mm", source="practice")
        )
    if height_mm is not None and run.height_mm is not None and height_mm > run.height_mm:
        text = f"The piece is {height_mm:.0f} mm tall; {run.height_mm:.0f} mm are clear."
        found.append(
            notice(
                "does-not-fit-place",
                text,
                parts=parts,
                value=height_mm,
                limit=run.height_mm,
                unit="mm",
                source="measured",
            )
        )
    return PlaceResult(tuple(found))


def check_gap_behind(
    gap_mm: float, *, why: str = "skirting", largest_mm: float = 10.0, parts: tuple[str, ...] = ()
) -> PlaceResult:
    """Say how far a piece stands off the wall where that is more than is wanted.

    Units: mm. Valid: any gap. Raises: OutOfValidity. Source: geometry; 10 mm is the caller's default, practice.
    """
    gap = not_negative("gap behind", gap_mm, "mm")
    if gap <= largest_mm:
        return PlaceResult(())
    text = f"The {why} keeps the piece {gap:.0f} mm off the wall."
    return PlaceResult(
        (notice("gap-behind", text, parts=parts, value=gap, limit=largest_mm, unit="mm", source="measured"),)
    )


def check_walkway(kind: str, left_mm: float, *, parts: tuple[str, ...] = ()) -> PlaceResult:
    """Check the room left to walk or sit beside a piece.

    Units: mm. Valid: kinds walkway-main, walkway-secondary, behind-diner, behind-diner-edge, behind-diner-walk,
    sofa-to-table-least, bed-side, bed-foot, desk-behind, route-clear. Raises: ValueError for another, OutOfValidity.
    Source: NKBA guideline summaries, ADA 403.5.1, room planning guides: presets, not furniture law.
    """
    if kind not in _WALKWAYS:
        raise ValueError(f"a walkway is one of {', '.join(_WALKWAYS)}, not {kind!r}")
    least = figure(kind)
    left = not_negative("room left", left_mm, "mm")
    if left >= least.si:
        return PlaceResult(())
    wanted = f"{least.si:.0f} mm ({least.value:g} {least.unit})"
    text = f"{left:.0f} mm are left where {wanted} are wanted ({kind.replace('-', ' ')})."
    return PlaceResult(
        (notice("walkway-narrow", text, parts=parts, value=left, limit=least.si, unit="mm", source=least.source),)
    )


def check_door_swing(
    swing_mm: float, distance_mm: float, reach_mm: float, *, parts: tuple[str, ...] = ()
) -> PlaceResult:
    """Check that a door clears a piece: the door's width against the distance from its hinge line less what stands out.

    Units: mm. Valid: a door swinging towards the piece. Raises: OutOfValidity. Source: geometry.
    """
    left = not_negative("distance", distance_mm, "mm") - not_negative("depth standing out", reach_mm, "mm")
    if left >= positive("door width", swing_mm, "mm"):
        return PlaceResult(())
    text = f"The door needs {swing_mm:.0f} mm to swing and has {left:.0f} mm."
    return PlaceResult(
        (notice("door-blocked", text, parts=parts, value=left, limit=swing_mm, unit="mm", source="geometry"),)
    )


def check_weight(mass_kg: float, halves_kg: tuple[float, ...] = (), *, parts: tuple[str, ...] = ()) -> PlaceResult:
    """Check who can carry a piece, and say what its halves weigh where it comes apart.

    Units: kg. Valid: pieces with a grip near the body; less when reaching. Raises: OutOfValidity.
    Source: NIOSH lifting equation, 23 kg at best (from memory); two people half as much again, practice: advice only.
    """
    mass = not_negative("mass", mass_kg, "kg")
    one = figure("lift-one-person")
    two = one.value * figure("lift-two-persons").value
    if mass <= one.value:
        return PlaceResult(())
    split = f" Apart it weighs {' and '.join(f'{h:.0f} kg' for h in halves_kg)}." if halves_kg else ""
    code, limit = ("too-heavy-for-two", two) if mass > two else ("too-heavy-for-one", one.value)
    text = f"The piece weighs {mass:.0f} kg.{split}"
    found = notice(code, text, status=Status.MEMORY, parts=parts, value=mass, limit=limit, unit="kg", source=one.source)
    return PlaceResult((found,))
