"""Panels that rest on all four edges, found from what they touch: checked as plates and not as strips."""

from dataclasses import dataclass

from scantling.board import Part
from scantling.mechanics.basis import Strength
from scantling.mechanics.beams import rectangle
from scantling.mechanics.loads import Load
from scantling.mechanics.members import Member, MemberResult, Stress
from scantling.mechanics.plates import PlateBending, patch_on_four_edges

from .part_woods import wood_of_part
from .structure import Structure

HELD = 0.8  # share of an edge that must be carried for it to count as a support; practice
EDGE_MM = 60.0  # a support lies within this of the edge it holds; practice
WHOLE = (1e9, 1e9)


@dataclass(frozen=True, slots=True)
class Plate:
    """What presses the middle of a panel on four edges: the load as it is, and its area along and across it, mm."""

    load: Load
    patch: tuple[float, float]


def rests_on_four_edges(structure: Structure, id: str) -> bool:
    """Whether a level panel is carried along all four edges, by what lies under it or holds its sides fast."""
    part = structure.part(id)
    if part.material.stock_kind == "board" or abs(part.frame.through[2]) < 0.9:
        return False
    spans: dict[str, list[tuple[float, float]]] = {"start": [], "end": [], "near": [], "far": []}
    for support in structure.supports(id):
        local = [part.frame.local(c) for c in support.patch.corners]
        us, vs = [p[0] for p in local], [p[1] for p in local]
        for edge, near, along in (
            ("start", min(us) <= EDGE_MM, vs),
            ("end", max(us) >= part.length - EDGE_MM, vs),
            ("near", min(vs) <= EDGE_MM, us),
            ("far", max(vs) >= part.width - EDGE_MM, us),
        ):
            if near:
                spans[edge].append((min(along), max(along)))
    sizes = {"start": part.width, "end": part.width, "near": part.length, "far": part.length}
    return all(_covered(found) >= HELD * sizes[edge] for edge, found in spans.items())


def _covered(stretches: list[tuple[float, float]]) -> float:
    """Return how much of a line some stretches cover together, mm."""
    total, end = 0.0, float("-inf")
    for a, b in sorted(stretches):
        if b > end:
            total += b - max(a, end)
            end = b
    return total


def plate_result(part: Part, plate: Plate, service_class: int, parts: tuple[str, ...]) -> MemberResult:
    """Return a panel on four edges under a load pressed on its middle, as the check of a member.

    The panel is bent both ways; the worse of the two is reported. Raises ValueError or LookupError for wood or sizes
    no table covers.
    """
    load = plate.load
    woods = [wood_of_part(part, axis, "flat") for axis in ("length", "width")]
    t, sides = part.thickness, (part.length, part.width)
    patch = (min(plate.patch[0], sides[0]), min(plate.patch[1], sides[1]))
    stiff = tuple(w.modulus * t**3 / 12 for w in woods)
    torsion = min(w.shear_modulus for w in woods) * t**3 / 6
    bent = patch_on_four_edges(load.force_n, patch, sides, (stiff[0], stiff[1]), torsion)
    strengths = [w.test() if load.basis == "test" else w.service(load.duration, service_class) for w in woods]
    stresses = [_bending(bent, i, t, strengths[i]) for i in (0, 1)]
    worst = max((0, 1), key=lambda i: stresses[i].ratio)
    short = min(sides)
    member = Member(
        part.id[:1].upper() + part.id[1:], rectangle(max(sides), t), max(sides), short, "uniform-simple", woods[worst],
        held_mm=0.0, service_class=service_class, parts=parts,
    )  # fmt: skip
    moment = (bent.moment_a_nmm_per_mm, bent.moment_b_nmm_per_mm)[worst] * max(sides)
    return MemberResult(member, load, strengths[worst], (stresses[worst],), moment, bent.deflection_mm, None, edges=4)


def _bending(bent: PlateBending, i: int, thickness: float, strength: Strength) -> Stress:
    moment = (bent.moment_a_nmm_per_mm, bent.moment_b_nmm_per_mm)[i]
    return Stress("bending", 6 * moment / thickness**2, strength.bending, strength.status_of("bending"))
