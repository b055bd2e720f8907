"""What a fastener check notices, in plain words: length, bite, grain, distances, pilot, load."""

from collections.abc import Iterator

from scantling.findings import Finding, Severity, entry
from scantling.tables import LengthWindow, Status, StockScrew

from .connection import Capacity, FastenerJoint
from .spacing import Distance, edge_distance, end_distance, spacing

CLEAR_MM = 2.0
GUARD_MM = 0.01
BITE_SOURCE = "NDS 2018 12.1.4 to 12.1.6"
_MEMORY = " (a figure in this is from memory: it informs, it does not decide)"


def finding(
    joint: FastenerJoint,
    code: str,
    message: str,
    *,
    severity: Severity | None = None,
    value: float | None = None,
    limit: float | None = None,
    unit: str | None = None,
    source: str | None = None,
    remedy: str | None = None,
    status: Status = Status.READ,
) -> Finding:
    """Return a finding about a joint. A figure from memory lowers an error to a warning and says so.

    Units: value and limit in `unit`. Valid: codes of the catalogue. Raises: KeyError for another code.
    Source: rule of the house: what is only remembered never decides.
    """
    known = entry(code)
    level = severity or known.severity
    if status is Status.MEMORY and level is Severity.ERROR:
        level, message = Severity.WARNING, message + _MEMORY
    return Finding(
        code,
        level,
        f"{joint.id}: {message}",
        parts=tuple(dict.fromkeys(bite.part for bite in joint.stack.layers)),
        fasteners=(joint.id,),
        pointer=joint.pointer or None,
        value=value,
        limit=limit,
        unit=unit,
        source=source,
        remedy=remedy or known.remedy,
    )


def length_findings(
    joint: FastenerJoint,
    window: LengthWindow,
    pick: StockScrew | None,
    other: StockScrew | None,
    inside: StockScrew | None,
) -> Iterator[Finding]:
    """Yield what is wrong with the length, with the length to take instead: `pick` of this gauge, `other` of another,
    or `inside`, which does not come out but bites less than the role wants.

    Units: mm. Valid: any joint. Raises: nothing. Source: geometry; least bites of NDS 2018 12.1.4 to 12.1.6, practice
    for screws that clamp or locate.
    """
    if joint.size.kind == "bolt":
        yield from _bolt_length(joint, window)
        return
    stack, receiver = joint.out_stack, joint.out_stack.receiver
    remedy = _take(window, pick, other, inside)
    if stack.protrusion_mm > GUARD_MM:
        yield finding(
            joint,
            "screw-point-out",
            f"the point comes out by {stack.protrusion_mm:.1f} mm: {joint.size.length_mm:.1f} mm long, head"
            f" {stack.head_mm:.1f} mm below the surface, {receiver.exit_mm:.1f} mm of wood{_range(joint)}",
            value=joint.size.length_mm,
            limit=max(0.0, window.longest_mm),
            unit="mm",
            source="geometry",
            remedy=remedy,
        )
    elif joint.bite_stack.receiver.bite_mm <= GUARD_MM:
        gap = joint.bite_stack.receiver.entry_mm - stack.point_mm
        yield finding(
            joint,
            "screw-misses-part",
            f"the point ends {gap:.1f} mm before {receiver.part}{_range(joint)}",
            value=joint.size.length_mm,
            limit=window.shortest_mm,
            unit="mm",
            source="geometry",
            remedy=remedy,
        )
    elif 0 <= stack.left_mm < CLEAR_MM - GUARD_MM:
        yield finding(
            joint,
            "screw-point-close",
            f"the point ends {stack.left_mm:.1f} mm from the far face of {receiver.part}",
            severity=Severity.NOTE,
            value=stack.left_mm,
            limit=CLEAR_MM,
            unit="mm",
            source="practice",
        )
    yield from _bite_findings(joint, window, pick, remedy)


def _range(joint: FastenerJoint) -> str:
    return " at the worst thickness stated" if joint.thinnest is not None else ""


def _bolt_length(joint: FastenerJoint, window: LengthWindow) -> Iterator[Finding]:
    if joint.size.length_mm < window.shortest_mm - GUARD_MM:
        over = max(0.0, joint.stack.point_mm - joint.stack.receiver.exit_mm)
        yield finding(
            joint,
            "bolt-too-short",
            f"the bolt leaves {over:.1f} mm for washer and nut",
            value=joint.size.length_mm,
            limit=window.shortest_mm,
            unit="mm",
            source="practice",
            remedy=f"Take a bolt {window.shortest_mm:.0f} to {window.longest_mm:.0f} mm long.",
        )


def _bite_findings(
    joint: FastenerJoint, window: LengthWindow, pick: StockScrew | None, remedy: str
) -> Iterator[Finding]:
    """Yield a bite too short for the role, and a receiver or a shop that offers no length for it."""
    receiver, size = joint.bite_stack.receiver, joint.size
    if receiver.bite_mm <= GUARD_MM:
        return
    if receiver.bite_mm < size.bite_mm - GUARD_MM and (joint.role == "holds" or not window.empty):
        yield _short(joint, window, remedy)
    if window.empty:
        needed = window.shortest_mm - window.longest_mm
        yield finding(
            joint,
            "receiver-too-thin",
            f"{receiver.part} is {receiver.thickness_mm:.1f} mm deep, {needed:.1f} mm too little for this"
            f" {size.kind} where it {joint.role}",
            value=receiver.thickness_mm,
            limit=receiver.thickness_mm + needed,
            unit="mm",
            source=BITE_SOURCE,
            remedy=None if joint.role == "holds" else remedy,
        )
    elif pick is None and size.gauge is not None:
        text = f"no stocked #{size.gauge} screw is {window.shortest_mm:.1f} to {window.longest_mm:.1f} mm long"
        yield finding(joint, "screw-not-stocked", text, source="practice", remedy=remedy)


def _short(joint: FastenerJoint, window: LengthWindow, remedy: str) -> Finding:
    """Return what a bite under the least of the standard means: by load for a holding screw, by role for another."""
    receiver, size = joint.bite_stack.receiver, joint.size
    diameters = receiver.bite_mm / size.diameter_mm
    words = f"{receiver.bite_mm:.1f} mm of bite in {receiver.part}, {diameters:.1f} diameters{_range(joint)}"
    if joint.role == "holds":
        return finding(
            joint,
            "screw-shallow",
            f"{words}; the standard gives a holding {size.kind} no value under {size.bite_mm:.1f} mm",
            severity=Severity.ERROR if joint.loads.any else Severity.WARNING,
            value=receiver.bite_mm,
            limit=size.bite_mm,
            unit="mm",
            source=BITE_SOURCE,
            remedy=remedy,
        )
    if size.length_mm < window.shortest_mm - GUARD_MM:
        return finding(
            joint,
            "screw-shallow",
            f"{words}, little for a screw that {joint.role}",
            value=receiver.bite_mm,
            limit=receiver.bite_mm + window.shortest_mm - size.length_mm,
            unit="mm",
            source="practice",
            remedy=remedy,
        )
    return finding(
        joint,
        "screw-no-design-value",
        f"{words}: enough for a screw that only {joint.role}, too little to carry load by the standard",
        value=receiver.bite_mm,
        limit=size.bite_mm,
        unit="mm",
        source=BITE_SOURCE,
    )


def _take(window: LengthWindow, pick: StockScrew | None, other: StockScrew | None, inside: StockScrew | None) -> str:
    span = f"{window.shortest_mm:.1f} to {window.longest_mm:.1f} mm"
    if pick is not None:
        return f"Take {pick.label} ({pick.length_mm:.1f} mm): {span} do."
    if other is not None:
        first = "No length of this gauge does" if window.empty else f"{span} would do, which this gauge is not sold in"
        return f"{first}; {other.label} ({other.length_mm:.1f} mm) fits."
    if inside is not None:
        return (
            f"{inside.label} is the longest that stays inside ({window.longest_mm:.1f} mm at most) but bites little:"
            " glue or a thicker part must carry the load."
        )
    return "No stocked screw does: add wood behind, or join it another way."


def grain_findings(joint: FastenerJoint) -> Iterator[Finding]:
    """Yield what end grain and panel edges mean for this fastener.

    Units: N. Valid: any joint. Raises: nothing. Source: NDS 2018 12.2.2, 12.2.3, 12.5.2.
    """
    receiver, wood = joint.stack.receiver, joint.woods[-1]
    if joint.size.kind == "bolt" or receiver.bite_mm <= GUARD_MM:
        return
    if receiver.grain == "end" and not wood.is_panel and joint.size.kind != "lag screw":
        pulled = joint.loads.withdrawal_n > 0
        if joint.role == "holds":
            yield finding(
                joint,
                "screw-in-end-grain",
                f"the {joint.size.kind} enters the end grain of {receiver.part}, which counts for no withdrawal",
                severity=Severity.ERROR if pulled else Severity.WARNING,
                value=joint.loads.withdrawal_n,
                limit=0.0,
                unit="N",
                source="NDS 2018 12.2.2 and 12.2.3",
            )
    if wood.chips and receiver.grain in ("edge", "end"):
        yield finding(joint, "screw-in-panel-edge", f"the {joint.size.kind} enters the edge of {wood.title.lower()}")


def place_findings(joint: FastenerJoint) -> Iterator[Finding]:
    """Yield edge and end distances, spacing and pilot holes that want attention: warnings, cleared by a pilot hole.

    Units: mm. Valid: any joint; a distance nobody stated is not judged. Raises: nothing.
    Source: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6 (advice), Tables 12.5.1A to 12.5.1D, 12.1.5.
    """
    diameter = joint.size.diameter_mm
    pushed = joint.loads.lateral_n > 0 and joint.role == "holds"
    yield from _distance(joint, "screw-near-edge", "edge", joint.edge_distance_mm, edge_distance(diameter))
    end = end_distance(diameter, pushed, joint.woods[-1].softwood)
    yield from _distance(joint, "screw-near-end", "end", joint.end_distance_mm, end)
    yield from _distance(joint, "fastener-spacing", "next one", joint.spacing_mm, spacing(diameter, True))
    gravity = joint.woods[-1].bearing
    if joint.size.kind == "wood screw" and joint.pilot is False and gravity is not None and gravity.value > 0.5:
        yield finding(
            joint,
            "pilot-hole-needed",
            f"{joint.woods[-1].title.lower()} has a specific gravity of {gravity.value:.2f}: drill a pilot hole",
            value=gravity.value,
            limit=0.5,
            unit="1",
            source="NDS 2018 12.1.5",
            status=gravity.status,
        )


def _distance(joint: FastenerJoint, code: str, where: str, stated: float | None, wanted: Distance) -> Iterator[Finding]:
    if stated is None:
        return
    limit = wanted.prebored_mm if joint.pilot else wanted.plain_mm
    if stated >= limit - GUARD_MM:
        return
    cleared = not joint.pilot and stated >= wanted.prebored_mm - GUARD_MM
    state = "with a pilot hole" if joint.pilot else "without a pilot hole"
    remedy = f"Drill the pilot hole: with one {wanted.prebored_mm:.1f} mm is enough." if cleared else None
    yield finding(
        joint,
        code,
        f"{stated:.1f} mm to the {where}; published advice is {limit:.1f} mm {state}",
        severity=Severity.WARNING,
        value=stated,
        limit=limit,
        unit="mm",
        source=wanted.source,
        remedy=remedy,
    )


def load_findings(
    joint: FastenerJoint, capacity: Capacity, ratios: dict[str, float], unknown: tuple[str, ...]
) -> Iterator[Finding]:
    """Yield what the stated loads mean: overloaded, no published capacity, or a load on a screw that only clamps.

    Units: ratios are demand over capacity. Valid: any joint. Raises: nothing. Source: the capacity's own.
    """
    if not joint.loads.any:
        return
    if joint.role != "holds":
        yield finding(joint, "load-on-clamping-screw", f"a load is stated, but the role is {joint.role}")
        return
    if unknown:
        reasons = "; ".join(dict.fromkeys(capacity.missing[name] for name in unknown))
        yield finding(joint, "fastener-capacity-unknown", f"{', '.join(unknown)}: {reasons}", source=capacity.code)
    if not ratios:
        return
    mode, ratio = max(ratios.items(), key=lambda item: item[1])
    if ratio > 1 + 1e-9:
        yield finding(
            joint,
            "fastener-overloaded",
            f"the load is {ratio:.2f} times what {joint.count} x {joint.size.label} carry ({mode})",
            value=ratio,
            limit=1.0,
            unit="1",
            source=capacity.code,
            status=capacity.status,
            remedy=_more(joint, ratio),
        )


def _more(joint: FastenerJoint, ratio: float) -> str:
    needed = -int(-joint.count * ratio // 1)
    return f"{needed} instead of {joint.count} would carry it, if they fit; or a larger gauge, or a deeper bite."
