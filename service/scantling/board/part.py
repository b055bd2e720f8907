"""A part as the shop sees it: a blank with cuts in a board frame, placed in space.

`lay`, `put`, `at`, `against` and `turn` place it and answer the part itself, so that calls chain. Sizes are snapped to
0.01 mm when the part is made, before anything is placed, and never rounded afterwards: gaps then show truthfully.
"""

from dataclasses import dataclass, field, replace
from typing import Literal

from scantling.measure import snap

from .cell import Cell, Plane, box, clip, subtract, volume_and_centre
from .cuts import (
    Curve,
    Cut,
    CutError,
    Easing,
    FaceName,
    Hole,
    Recess,
    SawCut,
    Side,
    corner_cut,
    other_hand,
    traded,
)
from .frame import Frame
from .material import RoleMaterial
from .vector import Vector, add, cross, dot, named_axis, scale, sub

SIDES = ("start", "end", "near", "far", "back", "face")
OPPOSITE = {"start": "end", "end": "start", "near": "far", "far": "near", "back": "face", "face": "back"}
ALIGNED = 1e-9
LEAST_SIZE_MM = 1.0
MOST_SIZE_MM = 6000.0


class PlacingError(ValueError):
    """A placing that cannot be done; the message names the part and the reason."""


@dataclass(slots=True, eq=False)
class Part:
    """One piece cut from a sheet or a board.

    `shows` tells which faces may be seen: "face" (only the show face is good), "both", or "neither" (hidden, or any
    face will do). `seal` names the sides whose edges need sealing. `closing` marks the part of a dimension chain
    that is cut to the work and takes up the rounding of the others. `wears` marks a part that is screwed so that it
    can be replaced.
    """

    id: str
    name: str
    material: RoleMaterial
    length: float
    width: float
    thickness: float
    frame: Frame = field(default_factory=Frame)
    cuts: tuple[Cut, ...] = ()
    shows: Literal["face", "both", "neither"] = "face"
    grain: Literal["along", "across", "any"] = "along"
    seal: tuple[str, ...] = ()
    closing: bool = False
    wears: bool = False
    promises: list["Promise"] = field(default_factory=list)
    _local: tuple[Cell, ...] | None = None
    _world: tuple[Cell, ...] | None = None
    _bounds: tuple[Vector, Vector] | None = None
    _weighed: tuple[tuple[Cell, ...], float, Vector] | None = None

    def __post_init__(self) -> None:
        for label, value in (("length", self.length), ("width", self.width), ("thickness", self.thickness)):
            if not LEAST_SIZE_MM <= value <= MOST_SIZE_MM:
                raise CutError(
                    f"{self.id}: {label} {value:.2f} mm lies outside {LEAST_SIZE_MM:g} to {MOST_SIZE_MM:g} mm"
                )
        self.length, self.width, self.thickness = snap(self.length), snap(self.width), snap(self.thickness)

    # ------------------------------------------------------------------ shape

    @property
    def size(self) -> Vector:
        """Length, width and thickness of the blank, in mm."""
        return (self.length, self.width, self.thickness)

    def cells_local(self) -> tuple[Cell, ...]:
        """Return the convex cells in the board frame. Raises CutError when a cut removes the whole part."""
        if self._local is None:
            cells = [box((0.0, 0.0, 0.0), self.size, SIDES)]
            for cut in self.cuts:
                if isinstance(cut, SawCut):
                    plane = cut.plane(self.size)
                    cells = [c for cell in cells if (c := clip(cell, plane, cut.side)) is not None]
                elif isinstance(cut, Recess):
                    planes = cut.planes()
                    cells = [c for cell in cells for c in subtract(cell, planes, "cut")]
                if not cells:
                    raise CutError(f"{self.id}: the {cut} leaves nothing of the part")
            self._local = tuple(cells)
        return self._local

    def cells(self) -> tuple[Cell, ...]:
        """Return the convex cells where the part stands."""
        if self._world is None:
            self._world = tuple(self.frame.cell(c) for c in self.cells_local())
        return self._world

    def cut(self, *cuts: Cut) -> "Part":
        """Add cuts. Raises CutError when one cannot be made on this blank."""
        self.cuts = (*self.cuts, *cuts)
        self._local = self._world = self._bounds = None
        self.cells_local()
        return self

    def saw(
        self,
        side: Side,
        *,
        mitre: float = 0.0,
        bevel: float = 0.0,
        long_edge: Side | None = None,
        long_face: FaceName = "face",
        at: float = 0.0,
    ) -> "Part":
        """Saw one side: `mitre` on the face, `bevel` of the blade, in degrees; the long point lies where it says."""
        edge: Side = long_edge or ("far" if side in ("start", "end") else "end")
        return self.cut(SawCut(side, mitre, bevel, edge, long_face, snap(at)))

    def corner(self, end: Side, edge: Side, *, along: float, across: float) -> "Part":
        """Saw a corner off in a straight line that leaves `edge` `along` mm from `end`, and `end` `across` mm from it.

        The cut is told as one on the end, or as a rip where that needs less angle of the saw.
        """
        return self.cut(corner_cut(self.size, end, edge, along, across))

    def notch(self, x: tuple[float, float], y: tuple[float, float]) -> "Part":
        """Cut a rectangular notch through the thickness, by its bounds along and across the board."""
        return self._recess("notch", x, y, (-1.0, self.thickness + 1.0))

    def rabbet(self, side: Side, *, width: float, depth: float, into: FaceName = "back") -> "Part":
        """Cut a rabbet along one side, `width` in from it and `depth` into a face."""
        x, y = (-1.0, self.length + 1.0), (-1.0, self.width + 1.0)
        if side in ("start", "end"):
            x = (-1.0, width) if side == "start" else (self.length - width, self.length + 1.0)
        else:
            y = (-1.0, width) if side == "near" else (self.width - width, self.width + 1.0)
        return self._recess("rabbet", x, y, self._into(into, depth))

    def dado(self, at: float, *, width: float, depth: float, into: FaceName = "back") -> "Part":
        """Cut a dado across the grain, starting `at` mm from the start."""
        return self._recess("dado", (at, at + width), (-1.0, self.width + 1.0), self._into(into, depth))

    def groove(self, at: float, *, width: float, depth: float, into: FaceName = "back") -> "Part":
        """Cut a groove along the grain, starting `at` mm from the near edge."""
        return self._recess("groove", (-1.0, self.length + 1.0), (at, at + width), self._into(into, depth))

    def hole(
        self, x: float, y: float, diameter: float, *, depth: float | None = None, into: FaceName = "face",
        purpose: str = "hole",
    ) -> "Part":  # fmt: skip
        """Drill a round hole `x` mm from the start and `y` mm from the near edge, right through or `depth` mm deep."""
        return self.cut(Hole(snap(x), snap(y), snap(diameter), depth, into, purpose))

    def ease(self, *edges: str, size: float = 3.0) -> "Part":
        """Round over the named edges ("near/face") by a radius in mm."""
        return self.cut(*(Easing(e, size) for e in edges))

    def curve(self, side: Side, rise: float) -> "Part":
        """Bow one side in by `rise` mm at its middle."""
        return self.cut(Curve(side, snap(rise)))

    def _into(self, face: FaceName, depth: float) -> tuple[float, float]:
        if not 0 < depth < self.thickness:
            raise CutError(f"{self.id}: a depth of {depth:.2f} mm does not lie inside {self.thickness:.2f} mm of wood")
        return (-1.0, depth) if face == "back" else (self.thickness - depth, self.thickness + 1.0)

    def _recess(
        self,
        kind: Literal["notch", "groove", "rabbet", "dado", "slot"],
        x: tuple[float, float],
        y: tuple[float, float],
        z: tuple[float, float],
    ) -> "Part":
        return self.cut(Recess(kind, snap(x[0]), snap(x[1]), snap(y[0]), snap(y[1]), snap(z[0]), snap(z[1])))

    # ------------------------------------------------------------------ placing

    def lay(self, length: str | Vector, width: str | Vector) -> "Part":
        """Turn the board so that its length and width run along two directions: "x", "-z", or a vector.

        The thickness follows, since the board frame is right-handed. Raises PlacingError unless they are square.
        """
        along = named_axis(length) if isinstance(length, str) else length
        across = named_axis(width) if isinstance(width, str) else width
        try:
            return self._place(Frame.from_directions(self.frame.origin, along, across))
        except ValueError as error:
            raise PlacingError(f"{self.id}: {error}") from None

    def put(self, **bounds: float) -> "Part":
        """Move the part so that its bounds lie where told: x0, x1 (least, greatest) or xc (middle), and so for y, z.

        Bounds are those of the shape as it stands, after cuts. Raises PlacingError for an unknown or doubled bound.
        """
        low, high = self.bounds()
        shift = [0.0, 0.0, 0.0]
        told: set[int] = set()
        for name, value in bounds.items():
            if len(name) != 2 or name[0] not in "xyz" or name[1] not in "01c":
                raise PlacingError(f"{self.id}: put() takes x0, x1 or xc (and y, z), not {name!r}")
            axis = "xyz".index(name[0])
            if axis in told:
                raise PlacingError(f"{self.id}: put() was told two places for {name[0]}; give one")
            told.add(axis)
            here = {"0": low[axis], "1": high[axis], "c": (low[axis] + high[axis]) / 2}[name[1]]
            shift[axis] = value - here
        return self._place(self.frame.moved((shift[0], shift[1], shift[2])))

    def at(self, corner: tuple[str, str, str], world: Vector) -> "Part":
        """Move the part so that a corner, named by three sides, comes to a point of the world."""
        return self._place(self.frame.moved(sub(world, self.pt(*corner))))

    def against(
        self, side: str, other: "Part", other_side: str, *, gap: float = 0.0, flush: dict[str, str] | None = None
    ) -> "Part":
        """Slide the part square to `other_side` of another until its own `side` touches it (or stands `gap` off).

        `flush` maps own sides to sides of the other that shall end level with them; each is recorded as a promise the
        dry fit checks. Raises PlacingError unless the two sides face each other.
        """
        mine, theirs = self.plane(side), other.plane(other_side)
        if dot(mine.normal, theirs.normal) > -1 + ALIGNED:
            raise PlacingError(f"{self.id}: its {side} does not face the {other_side} of {other.id}")
        self._slide(theirs.normal, theirs.offset + gap + mine.offset)
        self.promises.append(Promise("touches" if gap == 0 else "gap", (self.id, other.id), (side, other_side), gap))
        for own, target in (flush or {}).items():
            self.flush(own, other, target)
        return self

    def flush(self, side: str, other: "Part", other_side: str, *, inset: float = 0.0) -> "Part":
        """Slide the part until its `side` is level with `other_side` of another, or `inset` mm inside it."""
        mine, theirs = self.plane(side), other.plane(other_side)
        if dot(mine.normal, theirs.normal) < 1 - ALIGNED:
            raise PlacingError(f"{self.id}: its {side} does not look the same way as the {other_side} of {other.id}")
        self._slide(mine.normal, theirs.offset - inset - mine.offset)
        self.promises.append(Promise("flush", (self.id, other.id), (side, other_side), inset))
        return self

    def turn(self, axis: str | Vector, degrees: float, about: Vector) -> "Part":
        """Turn the part about an axis through a point, right-handed, by an angle in degrees."""
        direction = named_axis(axis) if isinstance(axis, str) else axis
        return self._place(self.frame.turned(direction, degrees, about))

    def shift(self, by: Vector) -> "Part":
        """Move the part by a vector in mm."""
        return self._place(self.frame.moved(by))

    def copied(self, id: str, by: Vector) -> "Part":
        """Return a copy of this part, `by` mm away, with an id of its own."""
        return replace(self, id=id, frame=self.frame.moved(by), promises=[], _local=None, _world=None, _bounds=None)

    def mirrored(self, axis: str, at: float, id: str) -> "Part":
        """Return the other hand of this part, mirrored in the plane `axis` = `at`, with an id of its own.

        The board frame stays right-handed by trading near for far; cuts are renamed to match.
        """
        mirror = named_axis(axis)
        origin = add(_reflected(self.frame.point((0.0, self.width, 0.0)), mirror), scale(mirror, 2 * at))
        frame = Frame(
            origin,
            _reflected(self.frame.along, mirror),
            scale(_reflected(self.frame.across, mirror), -1.0),
            _reflected(self.frame.through, mirror),
        )
        cuts = tuple(other_hand(c, self.width) for c in self.cuts)
        seal = tuple(traded(s) for s in self.seal)
        twin = replace(
            self, id=id, frame=frame, cuts=cuts, seal=seal, promises=[], _local=None, _world=None, _bounds=None
        )
        twin.cells_local()
        return twin

    def _slide(self, direction: Vector, distance: float) -> None:
        self._place(self.frame.moved(scale(direction, distance)))

    def _place(self, frame: Frame) -> "Part":
        self.frame, self._world, self._bounds = frame, None, None
        return self

    # ------------------------------------------------------------------ reading

    def bounds(self) -> tuple[Vector, Vector]:
        """Return the least and greatest corner of the box round the part as it stands."""
        if self._bounds is None:
            points = [c for cell in self.cells() for f in cell.faces for c in f.corners]
            xs, ys, zs = zip(*points, strict=True)
            self._bounds = (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))
        return self._bounds

    @property
    def x0(self) -> float:
        """Least x of the part as it stands."""
        return self.bounds()[0][0]

    @property
    def x1(self) -> float:
        """Greatest x of the part as it stands."""
        return self.bounds()[1][0]

    @property
    def y0(self) -> float:
        """Least y of the part as it stands."""
        return self.bounds()[0][1]

    @property
    def y1(self) -> float:
        """Greatest y of the part as it stands."""
        return self.bounds()[1][1]

    @property
    def z0(self) -> float:
        """Least z of the part as it stands."""
        return self.bounds()[0][2]

    @property
    def z1(self) -> float:
        """Greatest z of the part as it stands."""
        return self.bounds()[1][2]

    def plane_local(self, side: str) -> Plane:
        """Return the plane of a named side in the board frame, after saw cuts."""
        if side not in SIDES:
            raise PlacingError(f"{self.id}: {side!r} is not a side; use one of {', '.join(SIDES)}")
        for cut in reversed(self.cuts):
            if isinstance(cut, SawCut) and cut.side == side:
                return cut.plane(self.size)
        axis, outwards = SIDES.index(side) // 2, 1.0 if SIDES.index(side) % 2 else -1.0
        normal = [0.0, 0.0, 0.0]
        normal[axis] = outwards
        return Plane((normal[0], normal[1], normal[2]), self.size[axis] if outwards > 0 else 0.0)

    def plane(self, side: str) -> Plane:
        """Return the plane of a named side where the part stands, its normal pointing out of the wood."""
        return self.frame.plane(self.plane_local(side))

    def pt(self, *sides: str) -> Vector:
        """Return the corner where three named sides meet, after saw cuts, in the world.

        Raises PlacingError unless one end, one edge and one face are named.
        """
        if sorted(SIDES.index(s) // 2 for s in sides if s in SIDES) != [0, 1, 2]:
            raise PlacingError(f"{self.id}: a corner is named by an end, an edge and a face, got {sides}")
        a, b, c = (self.plane_local(s) for s in sides)
        det = dot(a.normal, cross(b.normal, c.normal))
        if abs(det) < 1e-9:
            raise PlacingError(f"{self.id}: the sides {sides} do not meet in a corner")
        local = scale(
            add(
                add(
                    scale(cross(b.normal, c.normal), a.offset),
                    scale(cross(c.normal, a.normal), b.offset),
                ),
                scale(cross(a.normal, b.normal), c.offset),
            ),
            1 / det,
        )
        return self.frame.point(local)

    def volume_and_centre(self) -> tuple[float, Vector]:
        """Return the volume in mm³ and the centre of gravity where the part stands."""
        cells = self.cells()
        if self._weighed is None or self._weighed[0] is not cells:  # asked for again and again while it stays as it is
            self._weighed = (cells, *volume_and_centre(cells))
        return self._weighed[1:]

    def mass_kg(self) -> float:
        """Return the mass from the material's density."""
        return self.volume_and_centre()[0] * 1e-9 * self.material.density_kg_m3

    def grain_angle(self, direction: Vector) -> Literal["face", "edge", "end"]:
        """Return what a screw along `direction` enters: a face, an edge, or end grain (within 45° of each)."""
        d = [abs(dot(direction, e)) for e in (self.frame.through, self.frame.across, self.frame.along)]
        names: tuple[Literal["face", "edge", "end"], ...] = ("face", "edge", "end")
        return names[d.index(max(d))]


@dataclass(frozen=True, slots=True)
class Promise:
    """Something the placing helper saw to and the dry fit checks: parts that touch, end level, or stand apart.

    `kind` is touches, gap, flush, size, clear or floor; `value` in mm (for flush: the inset).
    """

    kind: str
    parts: tuple[str, ...]
    sides: tuple[str, ...]
    value: float


def _reflected(v: Vector, mirror: Vector) -> Vector:
    """Return a vector reflected in the plane through the origin with the unit normal `mirror`."""
    return sub(v, scale(mirror, 2 * dot(v, mirror)))
