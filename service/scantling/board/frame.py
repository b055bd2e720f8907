"""Where a board stands: an origin and three directions, always right-handed."""

from dataclasses import dataclass

from .cell import Cell, Face, Plane
from .vector import ZERO, Vector, X, Y, Z, add, cross, dot, rotate, scale, sub, unit

UNIT = 1e-12


@dataclass(frozen=True, slots=True)
class Frame:
    """A rigid placing: local (x, y, z) lies at origin + x·along + y·across + z·through."""

    origin: Vector = ZERO
    along: Vector = X
    across: Vector = Y
    through: Vector = Z

    @classmethod
    def from_directions(cls, origin: Vector, along: Vector, across: Vector) -> "Frame":
        """Build a frame from two directions square to each other. Raises ValueError where they are not.

        Directions of length 1 are kept to the last bit, so that a placing written and read again is the same.
        """
        ex, ey = (d if abs(dot(d, d) - 1) < UNIT else unit(d) for d in (along, across))
        if abs(dot(ex, ey)) > 1e-9:
            raise ValueError(f"length and width of a board must be square to each other, got {along} and {across}")
        return cls(origin, ex, ey, cross(ex, ey))

    def point(self, local: Vector) -> Vector:
        """Return the world place of a point of the board."""
        return add(self.origin, self.direction(local))

    def direction(self, local: Vector) -> Vector:
        """Return the world direction of a direction of the board."""
        return add(add(scale(self.along, local[0]), scale(self.across, local[1])), scale(self.through, local[2]))

    def local(self, world: Vector) -> Vector:
        """Return where a world point lies in the board's own frame."""
        d = sub(world, self.origin)
        return (dot(d, self.along), dot(d, self.across), dot(d, self.through))

    def moved(self, by: Vector) -> "Frame":
        """Return the frame shifted."""
        return Frame(add(self.origin, by), self.along, self.across, self.through)

    def turned(self, axis: Vector, degrees: float, about: Vector) -> "Frame":
        """Return the frame turned about a unit axis through a point."""
        return Frame(
            add(about, rotate(sub(self.origin, about), axis, degrees)),
            rotate(self.along, axis, degrees),
            rotate(self.across, axis, degrees),
            rotate(self.through, axis, degrees),
        )

    def plane(self, local: Plane) -> Plane:
        """Return a plane of the board as a plane of the world."""
        normal = self.direction(local.normal)
        return Plane(normal, local.offset + dot(normal, self.origin))

    def cell(self, local: Cell) -> Cell:
        """Return a cell of the board as a cell of the world."""
        (ox, oy, oz), (ax, ay, az) = self.origin, self.along  # written out: every placing comes through here
        (bx, by, bz), (cx, cy, cz) = self.across, self.through
        placed: dict[Vector, Vector] = {}
        for face in local.faces:
            for corner in face.corners:
                if corner not in placed:
                    x, y, z = corner
                    placed[corner] = (
                        ox + (ax * x + bx * y + cx * z),
                        oy + (ay * x + by * y + cy * z),
                        oz + (az * x + bz * y + cz * z),
                    )
        faces = tuple(Face(self.plane(f.plane), tuple([placed[c] for c in f.corners]), f.name) for f in local.faces)
        return Cell(faces, tuple([placed[c] for c in local.corners]))
