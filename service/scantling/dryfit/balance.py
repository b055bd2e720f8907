"""Does it stand? Mass, centre of gravity, the polygon it stands on, and how far it leans before it falls each way."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot
from typing import Any

from scantling.board import Assembly
from scantling.findings import Finding, Severity

from .scene import Scene
from .settings import Load

Point = tuple[float, float, float]
Flat = tuple[float, float]
ON_FLOOR_MM = 0.05
SIT_IN_MM = 100.0  # a sitter on the front edge has the weight about this far in: practice
LINE_MM = 1.0
CUSHIONS = "cushions"
FOAM_KG_M3 = 40.0  # middle of the band of seat foam in tables/data/cushions.csv: memory, shown and never judged


@dataclass(frozen=True, slots=True)
class Tip:
    """Tipping over one side of the support polygon, from `a` to `b` on the floor: degrees before it falls.

    Negative means that it does not stand at all with this load. `towards` says which way in words.
    """

    load: str
    angle: float
    a: Flat
    b: Flat
    towards: str


@dataclass(frozen=True, slots=True)
class Balance:
    """Mass in kg and centre of gravity in mm of the parts, what they stand on, and how they tip.

    `hung_by` says what holds a piece on a wall: it stands on nothing and tips nowhere. `cushions` is what the cushions
    weigh in kg, beside `mass`.
    """

    mass: float
    centre: Point
    support: tuple[Flat, ...]
    loads: tuple[Load, ...]
    tips: tuple[Tip, ...]
    hung_by: str = ""
    cushions: float = 0.0

    def to_plain(self) -> dict[str, Any]:
        """Return the balance as JSON members."""
        return {
            "mass_kg": round(self.mass, 3),
            "cushions_kg": round(self.cushions, 3),
            "hung_by": self.hung_by,
            "centre_mm": [round(c, 1) for c in self.centre],
            "support_mm": [[round(x, 1), round(y, 1)] for x, y in self.support],
            "loads": [{"id": p.id, "mass_kg": p.mass_kg, "at_mm": [round(c, 1) for c in p.at]} for p in self.loads],
            "tips": [
                {"load": t.load, "towards": t.towards, "angle_deg": round(t.angle, 1)} for t in self.tips
            ],
        }  # fmt: skip


def balance(scene: Scene) -> Balance:
    """Return how the piece stands on its lowest points: empty, with its cushions, and under every load.

    Cushions weigh in under the loads where the settings give their density; an assumed one is shown by itself only.
    """
    mass, centre = scene.assembly.mass_and_centre()
    given = scene.settings.loads
    loads = tuple(sitters(scene.assembly, scene.settings.person_kg)) if given is None else given
    density = scene.settings.cushion_kg_m3
    soft = _cushions(scene.assembly, FOAM_KG_M3 if density is None else density)
    kg = soft.mass_kg if soft is not None else 0.0
    if scene.assembly.hung_by:
        return Balance(mass, centre, (), loads, (), scene.assembly.hung_by, kg)
    support = hull(_floor_points(scene))
    always = (soft,) if soft is not None and density is not None else ()
    tips: list[Tip] = []
    for name, on in (
        ("empty", ()),
        *([(CUSHIONS, (soft,))] if soft is not None else []),
        *((load.id, (*always, load)) for load in loads),
    ):
        tips += _least(_tips(name, _together(mass, centre, on), support, scene.low[2]))
    return Balance(mass, centre, support, loads, tuple(tips), "", kg)


def _together(mass: float, centre: Point, on: Sequence[Load]) -> Point:
    """Return the common centre of gravity of the piece and what is on it."""
    total = mass + sum(load.mass_kg for load in on)
    x, y, z = ((mass * c + sum(load.mass_kg * load.at[k] for load in on)) / total for k, c in enumerate(centre))
    return x, y, z


def _cushions(assembly: Assembly, density: float) -> Load | None:
    """Return all cushions of a piece as one load where their common centre of gravity lies; None without any."""
    if not assembly.cushions:
        return None
    sizes = [(c, c.width * c.depth * c.thickness * 1e-9 * density) for c in assembly.cushions]
    total = sum(kg for _, kg in sizes)
    x, y, z = (
        sum(kg * (c.origin[k] + (c.width, c.depth, c.thickness)[k] / 2) for c, kg in sizes) / total for k in range(3)
    )
    return Load(CUSHIONS, total, (x, y, z))


def sitters(assembly: Assembly, mass_kg: float) -> Iterator[Load]:
    """Yield a person on the middle and on the front edge of every seat cushion, its top as sat on."""
    for c in assembly.cushions:
        if c.kind == "seat":
            x, top = c.origin[0] + c.width / 2, c.origin[2] + c.loaded
            yield Load(f"person on {c.id}", mass_kg, (x, c.origin[1] + c.depth / 2, top))
            yield Load(f"person on the front edge of {c.id}", mass_kg, (x, c.origin[1] + SIT_IN_MM, top))


def _floor_points(scene: Scene) -> list[Flat]:
    floor = scene.low[2] + ON_FLOOR_MM
    return [
        (x, y)
        for cell, low in zip(scene.soup.cells, scene.soup.low[:, 2], strict=True)
        if low <= floor
        for x, y, z in cell.corners
        if z <= floor
    ]


def hull(points: Sequence[Flat]) -> tuple[Flat, ...]:
    """Return the convex hull anticlockwise (monotone chain), points within 1e-6 mm of a line left out."""
    ordered = sorted({(round(x, 6), round(y, 6)) for x, y in points})
    if len(ordered) < 3:
        return tuple(ordered)

    def half(row: Sequence[Flat]) -> list[Flat]:
        chain: list[Flat] = []
        for p in row:
            while len(chain) > 1 and turn(chain[-2], chain[-1], p) <= 1e-6:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    return tuple(half(ordered) + half(ordered[::-1]))


def turn(a: Flat, b: Flat, c: Flat) -> float:
    """Return twice the area of a triangle, positive when it runs anticlockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _tips(load: str, centre: Point, support: tuple[Flat, ...], floor: float) -> Iterator[Tip]:
    """Yield the angle over each side of the support: tan = distance of the centre of gravity inside it / its height."""
    if len(support) < 3:
        return
    height = max(centre[2] - floor, 1e-9)
    for a, b in zip(support, (*support[1:], support[0]), strict=True):
        inside = turn(a, b, (centre[0], centre[1])) / hypot(b[0] - a[0], b[1] - a[1])
        yield Tip(load, degrees(atan2(inside, height)), a, b, _towards(a, b))


def _least(tips: Iterator[Tip]) -> list[Tip]:
    """Return the side that gives way first of those that look the same way."""
    found: dict[str, Tip] = {}
    for tip in tips:
        if tip.towards not in found or tip.angle < found[tip.towards].angle:
            found[tip.towards] = tip
    return list(found.values())


def _towards(a: Flat, b: Flat) -> str:
    """Return which way is out over a side of an anticlockwise polygon."""
    out = (b[1] - a[1], a[0] - b[0])
    if abs(out[0]) > abs(out[1]):
        return "to the right" if out[0] > 0 else "to the left"
    return "backwards" if out[1] > 0 else "forwards"


def balance_findings(scene: Scene, found: Balance) -> Iterator[Finding]:
    """Report a piece that falls over, tips easily, or has no footing; one on a wall is held by its screws."""
    if found.hung_by:
        return
    if len(found.support) < 3 or _width(found.support) < LINE_MM:
        yield Finding(
            "no-footing", Severity.WARNING,
            "The piece touches the floor on a point or a line only, so it cannot stand by itself.",
            at_mm=(*found.support[0], scene.low[2]), value=float(len(found.support)), limit=3.0, unit="points",
            remedy="Let three or more feet reach the floor, or fix it to a wall and leave this out.",
        )  # fmt: skip
        return
    by_load: dict[str, Tip] = {}
    for tip in found.tips:
        if tip.load not in by_load or tip.angle < by_load[tip.load].angle:
            by_load[tip.load] = tip
    if scene.settings.cushion_kg_m3 is None:
        by_load.pop(CUSHIONS, None)
    for load, tip in by_load.items():
        x, y = (tip.a[0] + tip.b[0]) / 2, (tip.a[1] + tip.b[1]) / 2
        who = {"empty": "Empty", CUSHIONS: "With its cushions"}.get(load, f"With {_a(load)}")
        limit = scene.settings.tip_least_deg if load in ("empty", CUSHIONS) else 0.0
        if tip.angle < limit:
            falls = tip.angle < 0
            words = "it falls over" if falls else f"{tip.angle:.1f}° of lean tip it over"
            yield Finding(
                "tips-over" if falls else "tips-easily", Severity.ERROR if falls else Severity.WARNING,
                f"{who} {words} {tip.towards}.", at_mm=(x, y, scene.low[2]), value=tip.angle, limit=limit, unit="deg",
                source="practice", remedy="Set the feet further out on that side, or make the piece heavier low down.",
            )  # fmt: skip


def _a(load: str) -> str:
    return f"a {load}" if load.startswith("person") else load


def _width(support: Sequence[Flat]) -> float:
    """Return the least width of the support polygon."""
    sides = zip(support, (*support[1:], support[0]), strict=True)
    return min(max(turn(a, b, p) for p in support) / hypot(b[0] - a[0], b[1] - a[1]) for a, b in sides)
