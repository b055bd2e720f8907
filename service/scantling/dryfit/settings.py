"""What the dry fit is told: tolerances, drivers, people; every default is marked as what it is."""

from dataclasses import dataclass

from scantling.measure import Tape

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Barrel:
    """One round section of a tool on the screw's axis: from `start` to `end` mm behind the head, `radius` mm thick."""

    start: float
    end: float
    radius: float


@dataclass(frozen=True, slots=True)
class Tool:
    """A driver as barrels on one axis. `assumed` says that the sizes are ours, not measured on the caller's tool."""

    id: str
    title: str
    barrels: tuple[Barrel, ...]
    assumed: bool = True


# Sizes from memory of common drill drivers: assumptions to be replaced by a caliper on one's own tool.
SHORT_BIT = Tool("short-bit", "driver with a 50 mm bit", (Barrel(0.0, 50.0, 5.5), Barrel(50.0, 230.0, 27.0)))
LONG_BIT = Tool("long-bit", "driver with a 150 mm bit", (Barrel(0.0, 150.0, 5.5), Barrel(150.0, 330.0, 27.0)))
ANGLE_HEAD = Tool("angle-head", "angle head", (Barrel(0.0, 65.0, 20.0),))
TOOLS = (SHORT_BIT, LONG_BIT, ANGLE_HEAD)


@dataclass(frozen=True, slots=True)
class Load:
    """A person (or a thing) of `mass_kg` whose weight acts at a point of the world, in mm."""

    id: str
    mass_kg: float
    at: Point


@dataclass(frozen=True, slots=True)
class DryfitSettings:
    """Limits of the dry fit, in mm unless named otherwise.

    `fit`: overlap beyond it is an error, a gap within it is touching: a computing tolerance, never a promise at the
    bench. `near`: a gap up to it that nobody declared is reported. `open_limit`: how far a glued or visible joint may
    gape before it is a warning (practice). `point_clear`: wood wanted between a screw's point and the far side
    (practice). `edge_diameters`: least distance of a screw's axis from an edge in diameters (practice; NDS 2018
    Commentary C12.1.5.7 advises 2.5, which no screw in the edge of a sheet under 21 mm can keep). `screw_gap`: wood
    wanted between two screws (practice). `tools` are tried in order. `loads` None puts a person of `person_kg` on
    every seat cushion; `cushion_kg_m3` is what the cushions are of: without it they are shown and not judged;
    `tip_least_deg` is the angle an empty piece must lean before it falls (practice).
    `hands` is how many people build. `seek_order` False leaves the order of assembly out, which takes half of the
    time. `tape` has the gaps found that come from cutting to its marks.
    """

    fit: float = 0.05
    near: float = 1.0
    open_limit: float = 0.4
    point_clear: float = 2.0
    edge_diameters: float = 2.0
    screw_gap: float = 1.0
    tools: tuple[Tool, ...] = TOOLS
    loads: tuple[Load, ...] | None = None
    person_kg: float = 100.0
    cushion_kg_m3: float | None = None
    tip_least_deg: float = 5.0
    hands: int = 1
    seek_order: bool = True
    tape: Tape | None = None
