"""Small vector arithmetic on tuples of three floats; faster than arrays for one vector at a time."""

from math import cos, radians, sin, sqrt

Vector = tuple[float, float, float]

X: Vector = (1.0, 0.0, 0.0)
Y: Vector = (0.0, 1.0, 0.0)
Z: Vector = (0.0, 0.0, 1.0)
ZERO: Vector = (0.0, 0.0, 0.0)


def add(a: Vector, b: Vector) -> Vector:
    """Return a + b."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vector, b: Vector) -> Vector:
    """Return a − b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vector, k: float) -> Vector:
    """Return k·a."""
    return (a[0] * k, a[1] * k, a[2] * k)


def along(a: Vector, direction: Vector, distance: float) -> Vector:
    """Return the point `distance` from a along a direction."""
    return (a[0] + direction[0] * distance, a[1] + direction[1] * distance, a[2] + direction[2] * distance)


def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def norm(a: Vector) -> float:
    """Return the length of a."""
    return sqrt(dot(a, a))


def unit(a: Vector) -> Vector:
    """Return a scaled to length 1. Raises ValueError for the zero vector."""
    length = norm(a)
    if length < 1e-12:
        raise ValueError("a direction needs a length; got the zero vector")
    return (a[0] / length, a[1] / length, a[2] / length)


def rotate(a: Vector, axis: Vector, degrees: float) -> Vector:
    """Return a turned about a unit axis through the origin, right-handed, by an angle in degrees (Rodrigues)."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    k = dot(axis, a) * (1 - c)
    w = cross(axis, a)
    return (
        a[0] * c + w[0] * s + axis[0] * k,
        a[1] * c + w[1] * s + axis[1] * k,
        a[2] * c + w[2] * s + axis[2] * k,
    )


def named_axis(word: str) -> Vector:
    """Return the unit vector for "x", "-x", "y", "-y", "z" or "-z". Raises ValueError for any other word."""
    axes = {"x": X, "y": Y, "z": Z}
    letter = word.removeprefix("-")
    if letter not in axes:
        raise ValueError(f"{word!r} is not a direction; use x, y or z, or the same with a minus sign")
    return scale(axes[letter], -1.0) if word.startswith("-") else axes[letter]
