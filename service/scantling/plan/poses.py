"""A piece and a wall on the floor plan: where they lie, which way they look."""

from dataclasses import dataclass
from typing import Literal

from scantling.board import Assembly
from scantling.mechanics.floor_plan import Outline, Point, unit

from .room import SQUARE, Stand, Wall
from .standing import hull

Edge = Literal["front", "back", "left", "right"]


@dataclass(frozen=True, slots=True)
class Pose:
    """Where a piece's own origin lies on the plan, mm, and how far it is turned, degrees clockwise."""

    at: Point
    turn: float

    @property
    def along(self) -> Point:
        """Return the direction of the piece's own x."""
        return unit(self.turn)

    @property
    def back(self) -> Point:
        """Return the direction of the piece's own y, to its back."""
        return unit(self.turn - SQUARE)

    def point(self, x: float, y: float) -> Point:
        """Return where a point of the piece lies on the plan."""
        (ax, ay), (bx, by) = self.along, self.back
        return self.at[0] + ax * x + bx * y, self.at[1] + ay * x + by * y

    def local_direction(self, way: Point) -> Point:
        """Return a direction of the plan in the piece's own x and y."""
        (ax, ay), (bx, by) = self.along, self.back
        return way[0] * ax + way[1] * ay, way[0] * bx + way[1] * by

    def local(self, point: Point) -> Point:
        """Return a point of the plan in the piece's own x and y."""
        return self.local_direction((point[0] - self.at[0], point[1] - self.at[1]))

    def moved(self, about: Point, to: Point, by: float) -> "Pose":
        """Return the pose turned about a point by degrees clockwise, that point then brought to another."""
        dx, dy = self.at[0] - about[0], self.at[1] - about[1]
        (c, s) = unit(by)
        return Pose((to[0] + c * dx - s * dy, to[1] + s * dx + c * dy), self.turn + by)


@dataclass(frozen=True, slots=True)
class Stood:
    """A piece where it stands: what it is and its pose.

    `left` is the piece that stands against its left side with no gap, by its place in the list; None where none does.
    `shape` is its outline from above in its own x and y.
    """

    stand: Stand
    assembly: Assembly
    pose: Pose
    left: int | None = None
    shape: Outline = ()

    @property
    def name(self) -> str:
        """Return the name of the piece, with a number where there are several."""
        return self.stand.module if self.stand.copy == 1 else f"{self.stand.module} {self.stand.copy}"

    @property
    def outline(self) -> Outline:
        """Return its outline on the plan."""
        return tuple(self.pose.point(x, y) for x, y in self.shape)

    def parts_on_plan(self) -> list[tuple[Outline, float, float]]:
        """Return the outline of every part of it on the plan, with the heights it lies between."""
        return [
            (tuple(self.pose.point(x, y) for x, y in hull([(c[0], c[1]) for c in cell.corners])), part.z0, part.z1)
            for part in self.assembly.parts.values()
            for cell in part.cells()
        ]

    def edge(self, side: Edge) -> tuple[Point, Point]:
        """Return the edge of the box round it on one side, as one faces it from outside: its left end, its right."""
        corners = {
            "front": ((0, 0), (1, 0)),
            "right": ((1, 0), (1, 1)),
            "back": ((1, 1), (0, 1)),
            "left": ((0, 1), (0, 0)),
        }
        (a, b), (c, d) = corners[side]
        return self.corner(bool(a), bool(b)), self.corner(bool(c), bool(d))

    def corner(self, right: bool, back: bool) -> Point:
        """Return a corner of the box round it, on the plan."""
        low, high = self.assembly.bounds()
        return self.pose.point(high[0] if right else low[0], high[1] if back else low[1])


@dataclass(frozen=True, slots=True)
class WallLine:
    """A wall on the plan: its left end, its turn and its length, and how far the set keeps off it, mm."""

    wall: Wall
    at: Point
    turn: float
    length: float
    corner: float = SQUARE

    @property
    def along(self) -> Point:
        """Return the direction from its left end to its right."""
        return unit(self.turn)

    @property
    def out(self) -> Point:
        """Return the direction from it into the room."""
        return unit(self.turn + SQUARE)

    @property
    def end(self) -> Point:
        """Return its right end."""
        return self.at[0] + self.along[0] * self.length, self.at[1] + self.along[1] * self.length

    def off(self, point: Point) -> float:
        """Return how far a point stands off the wall into the room, mm."""
        return (point[0] - self.at[0]) * self.out[0] + (point[1] - self.at[1]) * self.out[1]

    def along_at(self, point: Point) -> float:
        """Return how far along the wall from its left end a point lies, mm."""
        return (point[0] - self.at[0]) * self.along[0] + (point[1] - self.at[1]) * self.along[1]
