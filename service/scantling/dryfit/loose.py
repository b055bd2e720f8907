"""Loose parts that lie on others, such as lids: do they stay where they are, and under somebody on their edge?"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from scantling.board import JointKind, Motion, Patch
from scantling.findings import Finding, Severity

from .balance import Flat, hull, turn
from .disassembly import bits, components
from .order import Assembling

TIPS_DEG = 20.0  # a lid that comes up so far has tipped
ROCKS_DEG = 4.0  # one that is caught before this rocks and does not throw anybody: practice
EDGE_IN_MM = 50.0  # a sitter on the edge of a lid has the weight about this far in: practice
SIDEWAYS = (
    ((1.0, 0.0, 0.0), "to the right"),
    ((-1.0, 0.0, 0.0), "to the left"),
    ((0.0, 1.0, 0.0), "backwards"),
    ((0.0, -1.0, 0.0), "forwards"),
)


@dataclass(frozen=True, slots=True)
class Lying:
    """A loose group of parts: where it can slide off to, and how far its edge reaches beyond what carries it, in mm.

    `tips_kg` is what, put on that edge, would lift the other side; None where the edge is carried. `caught` is the
    angle in degrees at which its cleats catch when it tips there, None where nothing catches it.
    """

    parts: tuple[str, ...]
    slides: tuple[str, ...]
    overhang: float
    tips_kg: float | None
    caught: float | None = None

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {
            "parts": list(self.parts),
            "slides": list(self.slides),
            "overhang_mm": round(self.overhang, 1),
            "tips_kg": None if self.tips_kg is None else round(self.tips_kg, 1),
            "caught_deg": None if self.caught is None else round(self.caught, 1),
        }


def lying(assembling: Assembling) -> list[Lying]:
    """Return the loose groups that lie on others, each with how it is held."""
    scene = assembling.scene
    ties = [assembling.mask(j.parts) for j in scene.assembly.joints.values() if j.kind is not JointKind.LOOSE]
    groups = components((1 << len(scene.parts)) - 1, ties)
    loose = [assembling.mask(j.parts) for j in scene.assembly.joints.values() if j.kind is JointKind.LOOSE]
    found = []
    for group in groups:
        if not any(group & j and j & ~group for j in loose):
            continue
        under = _carriers(assembling, group)
        if under:
            found.append(_lying(assembling, group, under))
    return found


def _carriers(assembling: Assembling, group: int) -> list[Patch]:
    """Return the patches on which a group lies on others, level and from above."""
    carrying = []
    for (i, j), patches in assembling.scene.contacts.items():
        upper = 1 if group >> j & 1 and not group >> i & 1 else -1 if group >> i & 1 and not group >> j & 1 else 0
        carrying += [p for p in patches if upper * p.normal[2] > 0.99 and abs(p.least_gap) <= 0.1]
    return carrying


def _lying(assembling: Assembling, group: int, under: list[Patch]) -> Lying:
    scene = assembling.scene
    slides = tuple(words for way, words in SIDEWAYS if not assembling.sweeps.group_blocked_by(group, way))
    footing = hull([(c[0], c[1]) for p in under for c in p.corners])
    corners = [c for i in bits(group) for cell in scene.parts[i].cells() for c in cell.corners]
    outline = hull([(c[0], c[1]) for c in corners])
    mass, x, y = 0.0, 0.0, 0.0
    for i in bits(group):
        volume, centre = scene.parts[i].volume_and_centre()
        kg = volume * 1e-9 * scene.parts[i].material.density_kg_m3
        mass, x, y = mass + kg, x + kg * centre[0], y + kg * centre[1]
    overhang, lifts, caught = 0.0, None, None
    top = max(c[2] for p in under for c in p.corners)
    for a, b in zip(footing, (*footing[1:], footing[0]), strict=True):
        run = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
        out = max(-turn(a, b, p) / run for p in outline)
        inside = turn(a, b, (x / mass, y / mass)) / run
        overhang = max(overhang, out)
        if out > EDGE_IN_MM:
            needs = mass * inside / (out - EDGE_IN_MM)
            if lifts is None or needs < lifts:
                lifts, caught = needs, _caught(assembling, group, (a, b), top)
    return Lying(scene.ids(*bits(group)), slides, overhang, lifts, caught)


def _caught(assembling: Assembling, group: int, edge: tuple[Flat, Flat], top: float) -> float | None:
    """Return the angle at which a group that tips over an edge of what carries it is caught, in degrees."""
    from .motion import sweep  # here, since few pieces have a lid that can tip

    scene, ((ax, ay), (bx, by)) = assembling.scene, edge
    motion = Motion("tips", "swing", scene.ids(*bits(group)), (bx - ax, by - ay, 0.0), TIPS_DEG, (ax, ay, top))
    swept = sweep(scene.assembly, motion, scene.settings)
    return abs(swept.free) if swept.clashes else None


def lying_findings(assembling: Assembling, found: list[Lying]) -> Iterator[Finding]:
    """Report loose parts that can slide off, and lids that tip under a person on their edge."""
    scene = assembling.scene
    for group in found:
        sat_on = _sat_on(assembling, group)
        if len(group.slides) > 0:
            yield Finding(
                "loose-part-slides", Severity.WARNING if sat_on else Severity.NOTE,
                f"Nothing keeps {group.parts[0]} from sliding {' or '.join(group.slides)}.", group.parts,
                value=float(len(group.slides)), limit=0.0, unit="ways",
                source="practice", remedy="Fix cleats under it just inside what carries it, with a little play.",
            )  # fmt: skip
        person, lid = scene.settings.person_kg, group.parts[0]
        if group.tips_kg is not None and group.tips_kg < person:
            held = group.caught is not None and group.caught <= ROCKS_DEG
            ends = f" until its cleats catch at {group.caught:.1f}°" if held else ""
            loud = Severity.WARNING if held else Severity.ERROR
            yield Finding(
                "lid-tips", loud if sat_on else Severity.NOTE,
                f"{lid} reaches {group.overhang:.0f} mm beyond what carries it: {max(0.0, group.tips_kg):.0f} kg"
                f" near its edge lift the other side{ends}.", group.parts, value=group.tips_kg, limit=person, unit="kg",
                source="plain statics", remedy="Carry the lid out to its edge, or screw it down.",
            )  # fmt: skip


def _sat_on(assembling: Assembling, group: Lying) -> bool:
    """Whether a seat cushion lies on a loose group."""
    top = max(assembling.scene.assembly.parts[p].bounds()[1][2] for p in group.parts)
    return any(c.kind == "seat" and abs(c.origin[2] - top) < 1.0 for c in assembling.scene.assembly.cushions)
