"""Findings about screws, gathered: one error for a row of screws, one warning or note for all rows like it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from scantling.findings import Finding, Severity

from .scene import GUARD, Scene
from .screws import ScrewFit

if TYPE_CHECKING:
    from scantling.tables import Material

POINT_DIAMETERS = 2.0  # the tapered point: NDS 2018 Appendix Table L3, footnote 6
SPLITS_DIAMETERS = 5.0  # end distance of prebored solid wood: NDS 2018 Commentary C12.1.5.7 (advice)
AIR_MM = 1.0
WEAK_EDGES = ("fibreboard", "particleboard", "osb")
LIGHT_GRAVITY = 0.5  # NDS 2018 12.1.5: up to here lead holes may be left out
LIGHT_KG_M3 = 560.0


@dataclass(frozen=True, slots=True)
class _Seen:
    """One screw's finding before it is gathered: `badness` picks the one whose numbers speak for the row."""

    finding: Finding
    badness: float


def screw_findings(scene: Scene, fits: list[ScrewFit]) -> Iterator[Finding]:
    """Report what is wrong with screws, one finding for each joint and kind of fault."""
    seen = [s for fit in fits for s in _looked_at(scene, fit)]
    yield from gathered(seen, scene)
    yield from _pilots(scene, fits)


def gathered(seen: Iterable[_Seen], scene: Scene) -> Iterator[Finding]:
    """Gather findings of one code: errors by joint, the rest by the names of the parts. The worst speaks for all."""
    groups: dict[tuple[str, ...], list[_Seen]] = {}
    for s in seen:
        f = s.finding
        names = tuple(scene.assembly.parts[p].name for p in f.parts)
        where = (scene.assembly.fasteners[f.fasteners[0]].joint, *f.parts) if f.severity is Severity.ERROR else names
        groups.setdefault((f.code, f.severity.value, *where), []).append(s)
    for row in groups.values():
        worst = max(row, key=lambda s: s.badness).finding
        ids = tuple(s.finding.fasteners[0] for s in row)
        parts = tuple(dict.fromkeys((*worst.parts, *(p for s in row for p in s.finding.parts))))
        more = "" if len(ids) == 1 else f" The same goes for {len(ids) - 1} more."
        yield replace(worst, parts=parts, fasteners=ids, message=worst.message + more)


def _looked_at(scene: Scene, fit: ScrewFit) -> Iterator[_Seen]:
    if not fit.met:
        f = fit.fastener
        yield _seen(
            fit, "screw-in-the-air", Severity.ERROR, f"The screw {f.id} of {f.joint} is in no part at all.",
            f.parts, f.head, 0.0, 0.0, "mm", "Place its head on the surface of the part it goes through.",
        )  # fmt: skip
        return
    yield from _stack(scene, fit)
    yield from _point(scene, fit)
    yield from _edges(scene, fit)
    yield from _grain(scene, fit)
    yield from _head(fit)


def _seen(
    fit: ScrewFit, code: str, severity: Severity, message: str, parts: tuple[str, ...], at: tuple[float, float, float],
    value: float, limit: float | None, unit: str, remedy: str, source: str | None = None, badness: float | None = None,
) -> _Seen:  # fmt: skip
    finding = Finding(code, severity, message, parts, (fit.fastener.id,), at_mm=at, value=value, limit=limit, unit=unit,
                      source=source, remedy=remedy)  # fmt: skip
    return _Seen(finding, abs(value) if badness is None else badness)


def _stack(scene: Scene, fit: ScrewFit) -> Iterator[_Seen]:
    """Does it enter through its head part, and then meet the named parts in order, and no other?"""
    f, met = fit.fastener, fit.met
    strangers = [p for p in dict.fromkeys(met) if p not in f.parts]
    beyond = fit.ahead < 0 and bool(strangers) and met.index(strangers[0]) > met.index(fit.holder)
    if strangers and not beyond:
        yield _seen(
            fit, "screw-hits-part", Severity.ERROR,
            f"{f.id} of {f.joint} runs through {strangers[0]}, which it shall not.",
            (strangers[0],), f.head, 0.0, None, "mm", "Move the screw, shorten it, or name the part in its stack.",
        )  # fmt: skip
    missed = [p for p in f.parts if p not in met]
    if missed:
        yield _seen(
            fit, "screw-misses-part", Severity.ERROR, f"{f.id} of {f.joint} does not reach {missed[0]}.",
            (missed[0],), fit.point_at, 0.0, None, "mm", "Move it over the part, or take a longer screw.",
        )  # fmt: skip
        return
    order = [p for p in dict.fromkeys(met) if p in f.parts]
    if order != list(f.parts):
        yield _seen(
            fit, "screw-hits-part", Severity.ERROR,
            f"{f.id} of {f.joint} meets its parts in the order {', '.join(order)}, not {', '.join(f.parts)}.",
            f.parts, f.head, 0.0, None, "mm", "Turn the screw round, or name its parts from head to point.",
        )  # fmt: skip
        return
    enter = fit.stack[met.index(f.parts[0])].enter
    if abs(enter) > scene.settings.fit and not strangers:
        words = f"floats {enter:.2f} mm in front of" if enter > 0 else f"starts {-enter:.2f} mm inside"
        yield _seen(
            fit, "screw-head-off", Severity.ERROR, f"The head of {f.id} of {f.joint} {words} {f.parts[0]}.",
            (f.parts[0],), f.head, enter, 0.0, "mm", "Put the head on the surface; a sunk head is told by its depth.",
        )  # fmt: skip
    yield from _air(fit)


def _air(fit: ScrewFit) -> Iterator[_Seen]:
    last = fit.met.index(fit.holder)  # beyond it the screw has come out, which is told as that
    for here, there, a, b in zip(fit.stack[:last], fit.stack[1:], fit.met, fit.met[1:], strict=False):
        gap = there.enter - here.leave
        if gap > AIR_MM + GUARD:
            yield _seen(
                fit, "screw-crosses-air", Severity.WARNING,
                f"{fit.fastener.id} crosses {gap:.1f} mm of air between {a} and {b}.", tuple(dict.fromkeys((a, b))),
                fit.point_at, gap, AIR_MM, "mm", "Fill the gap with a packing piece, or move the screw.", "practice",
            )  # fmt: skip


def _point(scene: Scene, fit: ScrewFit) -> Iterator[_Seen]:
    f = fit.fastener
    if fit.holder not in fit.met:
        return
    if fit.ahead < -GUARD and fit.out_at is not None:
        other = [p for p in fit.met[fit.met.index(fit.holder) + 1 :] if p not in f.parts]
        into = f" and runs into {other[0]}" if other else ""
        yield _seen(
            fit, "screw-point-out", Severity.ERROR,
            f"The point of {f.id} ({f.length:.1f} mm) comes out of {fit.holder} by {-fit.ahead:.1f} mm{into}.",
            (fit.holder, *other[:1]), fit.out_at, -fit.ahead, 0.0, "mm",
            f"Take a screw at least {-fit.ahead + scene.settings.point_clear:.0f} mm shorter.",
        )  # fmt: skip
    elif fit.ahead < scene.settings.point_clear - GUARD:
        yield _seen(
            fit, "screw-point-close", Severity.WARNING,
            f"The point of {f.id} stops {max(0.0, fit.ahead):.1f} mm before it comes out of {fit.holder}.",
            (fit.holder,), fit.point_at, fit.ahead, scene.settings.point_clear, "mm",
            "Take the next shorter screw: sheets run thin, and drivers sink heads.", "practice", -fit.ahead,
        )  # fmt: skip
    least = bite_wanted(f.kind, f.role.value) * f.diameter
    if fit.bite < least - GUARD:
        no_thread = fit.bite < POINT_DIAMETERS * f.diameter - GUARD
        usual = Severity.WARNING if f.role.value == "holds" else Severity.NOTE  # practice alone never warns
        yield _seen(
            fit, "screw-shallow", Severity.ERROR if no_thread else usual,
            f"{f.id} bites {fit.bite:.1f} mm into {fit.holder}; a screw that {f.role.value} wants {least:.1f} mm.",
            (fit.holder,), fit.point_at, fit.bite, least, "mm",
            f"Take a screw {least - fit.bite:.0f} mm longer, or sink its head deeper.",
            "NDS 2018 12.1.5" if f.role.value == "holds" else "practice", -fit.bite,
        )  # fmt: skip


def known_material(id: str) -> "Material | None":
    """Return what the tables say of a material, None where they do not know it."""
    from scantling.tables import materials  # here: tables are read when the first screw is looked at

    return materials().get(id)


def _least_bite(kind: str, role: str) -> float:
    from scantling.tables import bite_diameters

    return bite_diameters(kind, role)[0]


@cache
def bite_wanted(kind: str, role: str) -> float:
    """Return the least bite in diameters; 0 for bolts, which are held by a nut, and dowels, which are glued."""
    return 0.0 if kind in ("bolt", "dowel") else _least_bite(kind, role)


def _edges(scene: Scene, fit: ScrewFit) -> Iterator[_Seen]:
    """How far is the axis from the sides of each part it passes?"""
    f = fit.fastener
    for name, p in zip(fit.met, fit.stack, strict=True):
        if name not in f.parts:
            continue
        part = scene.assembly.parts[name]
        gap, side = min((p.edge_gap, p.edge), (p.end_gap, "end"))
        least = scene.settings.edge_diameters * f.diameter
        if gap < f.diameter / 2 + GUARD:
            yield _seen(
                fit, "screw-breaks-out", Severity.ERROR,
                f"{f.id} runs {max(0.0, gap):.1f} mm from the {side} of {name} and breaks out of it.", (name,), f.head,
                gap, f.diameter / 2, "mm", f"Move it {least - gap:.1f} mm inwards.", None, -gap,
            )  # fmt: skip
        elif gap < least - GUARD:
            yield _seen(
                fit, "screw-near-edge", Severity.WARNING,
                f"{f.id} runs {gap:.1f} mm from the {side} of {name}; {least:.1f} mm keep it from splitting.", (name,),
                f.head, gap, least, "mm", f"Move it {least - gap:.1f} mm inwards, or take a thinner screw.",
                "practice", -gap,
            )  # fmt: skip
        elif part.material.stock_kind == "board" and p.end_gap < SPLITS_DIAMETERS * f.diameter - GUARD:
            least = SPLITS_DIAMETERS * f.diameter
            yield _seen(
                fit, "screw-near-end", Severity.NOTE,
                f"{f.id} runs {p.end_gap:.1f} mm from the end of {name}, where solid wood splits;"
                f" {least:.1f} mm in a drilled hole are advised.", (name,), f.head, p.end_gap, least, "mm",
                "Drill a pilot hole, and a clearance hole through the head part.",
                "NDS 2018 Commentary C12.1.5.7", -p.end_gap,
            )  # fmt: skip


def _grain(scene: Scene, fit: ScrewFit) -> Iterator[_Seen]:
    f, part = fit.fastener, scene.assembly.parts[fit.holder]
    if fit.holder not in fit.met or fit.grain == "face":
        return
    known = known_material(part.material.material)
    holds = f.role.value == "holds"
    if part.material.stock_kind == "board" and fit.grain == "end":
        yield _seen(
            fit, "screw-in-end-grain", Severity.WARNING if holds else Severity.NOTE,
            f"{f.id} is driven into the end grain of {fit.holder}, where a screw must not be counted on to hold.",
            (fit.holder,), fit.point_at, 0.0, None, "mm",
            "Screw across the grain: add a cleat or turn the joint; else let glue and shape carry the load.",
            "NDS 2018 12.2.2",
        )  # fmt: skip
    elif known is not None and known.family in WEAK_EDGES:
        yield _seen(
            fit, "screw-in-weak-edge", Severity.WARNING,
            f"{f.id} is driven into the edge of {fit.holder} ({known.title}), which splits and holds little.",
            (fit.holder,), fit.point_at, 0.0, None, "mm",
            "Add a cleat of solid wood and screw into that, or use dowels and glue.", "practice",
        )  # fmt: skip


def _head(fit: ScrewFit) -> Iterator[_Seen]:
    f = fit.fastener
    if not fit.hidden_by:
        return
    proud = f.head_depth <= 0
    words = "and its head is not sunk, so that part cannot lie flat" if proud else "and cannot be reached again"
    yield _seen(
        fit, "screw-head-hidden", Severity.WARNING if proud else Severity.NOTE,
        f"The head of {f.id} of {f.joint} lies under {fit.hidden_by[0]}, {words}.",
        (f.parts[0], fit.hidden_by[0]), f.head, f.head_depth, 0.0, "mm",
        "Sink the head, or drive the screw from the other side.", None, 0.0,
    )  # fmt: skip


def _pilots(scene: Scene, fits: list[ScrewFit]) -> Iterator[Finding]:
    """Say once for the whole piece which screws want a pilot hole, and why."""
    reasons: dict[str, list[str]] = {}
    for fit in fits:
        reason = pilot_reason(scene, fit)
        if reason is not None and fit.fastener.kind == "wood screw":
            reasons.setdefault(reason, []).append(fit.fastener.id)
    if reasons:
        count = sum(len(ids) for ids in reasons.values())
        said = "; ".join(f"{len(ids)} {reason}" for reason, ids in sorted(reasons.items()))
        yield Finding(
            "pilot-needed",
            Severity.NOTE,
            f"{count} screws want a pilot hole: {said}.",
            fasteners=tuple(i for ids in reasons.values() for i in ids),
            value=float(count),
            unit="screws",
            source="NDS 2018 12.1.5 for dense wood; edges and ends practice",
            remedy="Drill before driving; the fastener check gives the bit for each screw.",
        )


def pilot_reason(scene: Scene, fit: ScrewFit) -> str | None:
    """Return in words why a screw wants a pilot hole, or None."""
    material = scene.assembly.parts[fit.holder].material
    known = known_material(material.material)
    if fit.grain == "end" and material.stock_kind == "board":
        return "into end grain"
    if material.stock_kind == "sheet" and fit.grain != "face":
        return "into the edge of a sheet"
    gravity = known.specific_gravity_nds if known is not None else None
    dense = gravity > LIGHT_GRAVITY if gravity is not None else material.density_kg_m3 > LIGHT_KG_M3
    if dense:
        return "into dense wood"
    ends = [p.end_gap for n, p in zip(fit.met, fit.stack, strict=True)
            if scene.assembly.parts[n].material.stock_kind == "board"]  # fmt: skip
    if ends and min(ends) < 2 * SPLITS_DIAMETERS * fit.fastener.diameter:
        return "near the end of a board"
    return None
