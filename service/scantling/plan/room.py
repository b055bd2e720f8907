"""The place of a request as nouns: walls with their corners, doors and floor, and where each piece is to stand.

Plan frame: x to the right along the first wall as one faces it, y out of that wall into the room, in mm; angles
clockwise as seen from above. Walls go round the room from left to right, each turning right at its corner.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from scantling.measure import RequestError, RequestProblem, pointer
from scantling.mechanics.floor_plan import floor_plane
from scantling.mechanics.place import corner_angle
from scantling.mechanics.validity import OutOfValidity
from scantling.mechanics.way_in import Way

HEIGHTS = ("floor", "seat", "back")
SQUARE = 90.0
CORNERS = (60.0, 150.0)  # what a corner may measure and still be one a set could stand in
SCRIBE_MM = 6.0  # left at the end of a run where nothing was asked for; practice
_TOWARDS = {"back": (0.0, -1.0), "front": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall run: its lengths by height, mm, its skirting (height, depth), and the corner at its right end, degrees.

    `corner` is None where it was not measured; doors, windows and sockets are members as they were posted.
    """

    id: str
    lengths: Mapping[str, float]
    skirting: tuple[float, float] | None = None
    corner: float | None = None
    doors: Sequence[Mapping[str, Any]] = ()
    windows: Sequence[Mapping[str, Any]] = ()
    sockets: Sequence[Mapping[str, Any]] = ()

    @property
    def least(self) -> float | None:
        """Return the shortest of the lengths that were measured, mm."""
        return min(self.lengths.values(), default=None)


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a piece is to stand: at a wall by its number (in the corner at its right end, or along it), or at x, y."""

    module: str
    copy: int
    wall: int | None
    corner: bool = False
    gap: float = 0.0
    off: float = 0.0
    at: tuple[float, float] = (0.0, 0.0)
    turn: float = 0.0


@dataclass(frozen=True, slots=True)
class Room:
    """A place as it was measured. `fall` is the floor's fall along x and y, mm per mm, None where it was not given."""

    walls: tuple[Wall, ...] = ()
    stands: tuple[Stand, ...] = ()
    width: float | None = None
    depth: float | None = None
    ceiling: float | None = None
    scribe: float = SCRIBE_MM
    walkway: float | None = None
    fall: tuple[float, float] | None = None
    ways: tuple[Way, ...] = field(default=())


def ways_of(place: Mapping[str, Any]) -> tuple[Way, ...]:
    """Return the narrow places on the way in, as they were measured; a lift is deep as well as wide and high."""
    return tuple(
        Way(f"{w['id']} ({w.get('kind', 'door')})", w["width"], w["height"], w.get("turn"), w.get("length"))
        for w in place.get("way_in") or ()
    )


def room_of(place: Mapping[str, Any], quantities: Mapping[str, int]) -> Room:
    """Read the place of a request; `quantities` says how many of each module are made.

    Raises RequestError with a pointer for each fault: an unknown wall or module, more places than pieces, a corner
    that is none, a door outside its wall, a floor told twice.
    """
    faults: list[RequestProblem] = []
    entries = place.get("walls") or ()
    walls = tuple(_wall(w, i, len(entries), faults) for i, w in enumerate(entries))
    ids = [w.id for w in walls]
    for i, id in enumerate(ids):
        if id in ids[:i]:
            faults.append(_fault("id-repeated", f"the id {id!r} stands there twice; ids are unique", "walls", i, "id"))
    stands = _stands(place.get("stands") or (), ids, quantities, faults)
    fall = _fall(place.get("floor"), faults)
    if faults:
        raise RequestError(faults)
    return Room(
        walls, stands, place.get("width"), place.get("depth"), place.get("ceiling"), place.get("scribe", SCRIBE_MM),
        place.get("walkway"), fall, ways_of(place),
    )  # fmt: skip


def _fault(code: str, detail: str, *steps: str | int) -> RequestProblem:
    return RequestProblem(pointer("place", *steps), detail, code)


def _wall(wall: Mapping[str, Any], i: int, count: int, faults: list[RequestProblem]) -> Wall:
    lengths = {h: float(wall[h]) for h in HEIGHTS if h in wall}
    skirting = wall.get("skirting")
    read = Wall(
        wall["id"], lengths, (skirting["height"], skirting["depth"]) if skirting else None,
        _corner(wall, i, count, faults), wall.get("doors") or (), wall.get("windows") or (), wall.get("sockets") or (),
    )  # fmt: skip
    if read.least is not None:
        for name, openings in (("doors", read.doors), ("windows", read.windows), ("sockets", read.sockets)):
            for k, o in enumerate(openings):
                if o["at"] > max(lengths.values()):
                    detail = f"{o['at']:.0f} mm along a wall of {max(lengths.values()):.0f} mm; accepted: within it"
                    faults.append(_fault("out-of-range-here", detail, "walls", i, name, k, "at"))
    return read


def _corner(wall: Mapping[str, Any], i: int, count: int, faults: list[RequestProblem]) -> float | None:
    measured = wall.get("corner")
    if measured is None:
        return None
    if i == count - 1:
        faults.append(
            _fault("unknown-id", "the last wall has no next wall to make a corner with", "walls", i, "corner")
        )
        return None
    try:
        angle = corner_angle(measured["first"], measured["second"], measured["diagonal"])
    except OutOfValidity as error:
        faults.append(_fault("values-do-not-go-together", str(error), "walls", i, "corner", "diagonal"))
        return None
    if not CORNERS[0] <= angle <= CORNERS[1]:
        detail = (
            f"these legs and diagonal make a corner of {angle:.1f}°; accepted: {CORNERS[0]:.0f}° to {CORNERS[1]:.0f}°"
        )
        faults.append(_fault("values-do-not-go-together", detail, "walls", i, "corner", "diagonal"))
        return None
    return angle


def _stands(
    entries: Sequence[Mapping[str, Any]], walls: Sequence[str], quantities: Mapping[str, int],
    faults: list[RequestProblem],
) -> tuple[Stand, ...]:  # fmt: skip
    counted: dict[str, int] = {}
    cornered: set[int] = set()
    found = []
    for i, entry in enumerate(entries):
        module = entry["module"]
        copy = counted[module] = counted.get(module, 0) + 1
        if module not in quantities:
            names = ", ".join(quantities)
            faults.append(
                _fault("unknown-id", f"there is no module {module!r} here; there are {names}", "stands", i, "module")
            )
        elif copy > quantities[module]:
            detail = f"{module!r} is made {quantities[module]} times and stands in more places than that"
            faults.append(_fault("values-do-not-go-together", detail, "stands", i, "module"))
        wall = _wall_of(entry, i, walls, faults)
        if wall is not None and entry.get("corner"):
            if wall in cornered:
                faults.append(_fault("contradiction", "one piece stands in that corner already", "stands", i, "corner"))
            cornered.add(wall)
        at = (entry.get("x", 0.0), entry.get("y", 0.0))
        found.append(
            Stand(
                module,
                copy,
                wall,
                bool(entry.get("corner")),
                entry.get("gap", 0.0),
                entry.get("off", 0.0),
                at,
                entry.get("turn", 0.0),
            )
        )
    return tuple(found)


def _wall_of(entry: Mapping[str, Any], i: int, walls: Sequence[str], faults: list[RequestProblem]) -> int | None:
    free = [name for name in ("x", "y", "turn") if name in entry]
    if "wall" in entry:
        if free:
            detail = f"a piece stands at a wall or at x and y, not both; leave out {free[0]} or the wall"
            faults.append(_fault("contradiction", detail, "stands", i, free[0]))
        if entry["wall"] not in walls:
            names = ", ".join(walls) or "none given"
            faults.append(_fault("unknown-id", f"no wall {entry['wall']!r}; walls: {names}", "stands", i, "wall"))
            return None
        number = list(walls).index(entry["wall"])
        if entry.get("corner") and number == len(walls) - 1:
            detail = f"{entry['wall']!r} is the last wall; a corner needs a next wall at its right end"
            faults.append(_fault("needed-here", detail, "stands", i, "corner"))
            return None
        return number
    if entry.get("corner"):
        faults.append(_fault("needed-here", "a corner needs the wall whose right end it is", "stands", i, "wall"))
    elif not {"x", "y"} <= set(free):
        faults.append(_fault("needed-here", "give a wall, or x and y", "stands", i, "y" if "x" in free else "x"))
    return None


def _fall(floor: Mapping[str, Any] | None, faults: list[RequestProblem]) -> tuple[float, float] | None:
    if floor is None:
        return None
    told = [name for name in ("fall", "towards") if name in floor]
    if "readings" in floor:
        if told:
            faults.append(_fault("contradiction", "give the fall or readings, not both", "floor", told[0]))
        try:
            along = floor_plane([(r["x"], r["y"], r["below"]) for r in floor["readings"]])
        except OutOfValidity as error:
            faults.append(_fault("values-do-not-go-together", str(error), "floor", "readings"))
            return None
        return along[0], along[1]
    if len(told) == 1:
        missing = "towards" if told == ["fall"] else "fall"
        faults.append(_fault("needed-here", "a fall needs how much and where to", "floor", missing))
    if len(told) < 2:
        return None
    x, y = _TOWARDS[floor["towards"]]
    return x * floor["fall"] / 1000, y * floor["fall"] / 1000
