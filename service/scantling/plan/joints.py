"""Joints on the way to the floor: glue where it counts, else the screws alone; never both together."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.board import Part, Patch
from scantling.board.vector import dot
from scantling.mechanics.adjustment import load_duration
from scantling.mechanics.connection import Loads
from scantling.mechanics.exposure import GLUE_CLASSES, glue_suits
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.fastener_use_findings import in_words
from scantling.mechanics.glue import GlueLine, GlueResult, check_glue
from scantling.mechanics.loads import Load

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import NOTHING, Flow, Pair
from .members import scaled
from .part_woods import wood_of_part
from .structure import Structure

PLY_SHARE = 0.5  # of a plywood edge, the plies whose grain runs along the joint: every second one; practice
SNUG_MM = 0.15  # the widest gap a wood glue fills without losing strength, glue makers' text; epoxy fills more
GAP_FILLING = ("epoxy",)


@dataclass(frozen=True, slots=True)
class Demand:
    """What a joint must hold under one load, N: sideways, pulling, pressing on what it rests on.

    `bound` says that statics could not share the load.
    """

    pair: Pair
    load: Load
    sideways_n: float
    pulling_n: float
    bound: bool
    pressing_n: float = 0.0

    @property
    def force_n(self) -> float:
        """Return the larger of the two forces, N."""
        return max(self.sideways_n, self.pulling_n)

    @property
    def weight(self) -> float:
        """Return the force over the load duration factor of the NDS: the larger the worse."""
        return max(self.force_n, self.pressing_n) / load_duration(self.load.duration).value


def demands_of(flows: Sequence[Flow], sitting_one: Load, dropping_one: Load, heavy_n: float) -> list[Demand]:
    """Return the worse of everybody sitting and one person dropping, for every joint on the way down.

    `heavy_n` is the weight of the piece: what is levered up off loose feet pulls no harder than what hangs on it.
    """
    found = []
    for pair in dict.fromkeys(p for f in flows for p in (*f.sideways, *f.pulling, *f.lifting)):
        side = [f.sideways.get(pair, 0.0) for f in flows]
        pull = [f.pulling.get(pair, 0.0) for f in flows]
        lift = [f.lifting.get(pair, 0.0) for f in flows]
        bound = any(pair in f.bounds for f in flows)
        all_sit = _of_all(sitting_one, [s + p for s, p in zip(side, pull, strict=True)])
        lifted = min(heavy_n, max(lift) * dropping_one.force_n)
        every = Demand(pair, all_sit, sum(side) * sitting_one.force_n, sum(pull) * sitting_one.force_n, bound)
        one = Demand(
            pair, dropping_one, max(side) * dropping_one.force_n, max(pull) * dropping_one.force_n + lifted, bound
        )
        found.append(max(every, one, key=lambda d: d.weight))
    for pair in dict.fromkeys(p for f in flows for p in f.pressing):
        press = [f.pressing.get(pair, 0.0) for f in flows]
        bound = any(pair in f.bounds for f in flows)
        every = Demand(pair, _of_all(sitting_one, press), 0.0, 0.0, bound, sum(press) * sitting_one.force_n)
        one = Demand(pair, dropping_one, 0.0, 0.0, bound, max(press) * dropping_one.force_n)
        found.append(max(every, one, key=lambda d: d.weight))
    return found


def _of_all(one: Load, shares: Sequence[float]) -> Load:
    """Return the load of everybody whose weight comes to a joint, named by how many they are."""
    sitters = sum(1 for s in shares if s > NOTHING) or 1
    return replace(one, label=one.label if sitters == 1 else one.label.replace("one person", f"{sitters} people"))


def worst_of_pairs(demands: Iterable[Demand]) -> list[Demand]:
    """Return the worst demand on each joint, and the worst that presses on it, each by itself."""
    worst: dict[tuple[Pair, bool], Demand] = {}
    for one in demands:
        key = (one.pair, one.pressing_n > 0)
        if key not in worst or one.weight > worst[key].weight:
            worst[key] = one
    return list(worst.values())


def glue_result(structure: Structure, demand: Demand, who: Circumstances) -> GlueResult | None:
    """Return the glue line of two parts under its demand; None where none is glued or its wood is not known."""
    line = glue_line_of(structure, demand.pair, demand.load, who)
    if line is None:
        return None
    return check_glue(line, scaled(demand.load, 1.0), demand.force_n)


def glue_line_of(structure: Structure, pair: Pair, load: Load, who: Circumstances) -> GlueLine | None:
    """Return the glue line between two parts as it stands; None without glue, contact, or figures for the wood."""
    if not any(j.glued for j in structure.joined(*pair)):
        return None
    patches = structure.patches(*pair)
    if not patches:
        return None
    a, b = structure.part(pair[0]), structure.part(pair[1])
    sound = [p for p in patches if "end grain" not in (surface_of(a, p), surface_of(b, p))] or list(patches)
    strengths = []
    for part in (a, b):
        try:
            strengths.append(wood_of_part(part, "length", "flat").service(load.duration, who.service_class))
        except (ValueError, LookupError):
            return None
    return GlueLine(
        f"{pair[0]} to {pair[1]}",
        sum(p.area for p in sound),
        (surface_of(a, sound[0]), surface_of(b, sound[0])),
        (strengths[0].shear, strengths[1].shear),
        clamped=True,
        unsound=unsound(structure, pair, who),
        glue=who.glue or "pva",
        ply_share=PLY_SHARE,
        code=f"design shear of the weaker wood, {strengths[0].code}",
        status=max((s.status_of("shear") for s in strengths), key=("read", "derived", "memory").index),
        parts=pair,
    )


def unsound(structure: Structure, pair: Pair, who: Circumstances) -> str:
    """Return why the glue between two parts must not be counted on, empty where it is sound.

    A joint made tight is clamped or pulled up by its screws; one with play is filled and not glued, and a glue that is
    not made for the place lets go in time.
    """
    glued = [j for j in structure.joined(*pair) if j.glued]
    if glued and min(j.clearance for j in glued) > SNUG_MM and who.glue not in GAP_FILLING:
        return f"a gap of {min(j.clearance for j in glued):.1f} mm is filled by glue, not joined"
    if not glue_suits(GLUE_CLASSES.get(who.glue or ""), who.exposure):
        return f"{who.glue} is not made for this place ({who.exposure})"
    return ""


def surface_of(part: Part, patch: Patch) -> str:
    """Return what kind of surface a part has at a patch: long grain, end grain, ply edge or panel face."""
    normal = patch.normal
    grainwise = part.frame.along if part.grain != "across" else part.frame.across
    if part.material.stock_kind == "board":
        return "end grain" if abs(dot(normal, grainwise)) > 0.7 else "long grain"
    return "panel face" if abs(dot(normal, part.frame.through)) > 0.7 else "ply edge"


def glue_row(structure: Structure, glue: GlueResult, demand: Demand) -> CheckRow:
    """Return a glue line under its demand as a row."""
    return CheckRow(
        "glue line",
        joint_name(structure, demand.pair),
        demand.pair,
        glue.demand_n,
        glue.capacity_n,
        "N",
        code=glue.line.code,
        governing=f"{glue.credited_mm2 / 100:.0f} cm2 of {' on '.join(glue.line.surfaces)}; screws not added",
        ratio=glue.ratio,
        bound=demand.bound,
        status=glue.line.status.value,
        **row_of_load(demand.load),
    )


def joint_name(structure: Structure, pair: Pair) -> str:
    """Return a joint by the names of its parts, so that alike joints are one subject."""
    return " to ".join(structure.kind(id) for id in pair)


def loads_of(demand: Demand | None) -> tuple[Loads, str]:
    """Return what a row of screws is asked and how long, for the fastener check."""
    if demand is None:
        return Loads(), "long"
    return Loads(demand.pulling_n, demand.sideways_n), demand.load.duration


def screw_rows(
    structure: Structure, checks: Sequence[FastenerCheck], on_screws: Mapping[str, Demand]
) -> list[CheckRow]:
    """Return a row for every row of screws a load needs."""
    rows = []
    for check in checks:
        demand = on_screws.get(check.joint.id)
        if demand is None or check.joint.role != "holds":
            continue
        count, capacity = check.joint.count, check.capacity
        sideways = demand.sideways_n >= demand.pulling_n
        holds = capacity.lateral_n if sideways else capacity.axial_n
        missing = capacity.missing.get("lateral" if sideways else "withdrawal", "")
        rows.append(
            CheckRow(
                "screws",
                joint_name(structure, demand.pair),
                demand.pair,
                demand.force_n,
                None if holds is None else holds * count,
                "N",
                code=capacity.code,
                governing=f"{count} of {check.joint.size.label}"
                + (f", {in_words(check.governing)}" if check.governing else ""),
                ratio=check.ratio,
                bound=demand.bound,
                status=capacity.status.value,
                note="" if check.ratio is not None else missing,
                **row_of_load(demand.load),
            )
        )
    return rows
