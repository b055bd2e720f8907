"""What a fastener check notices about the length and bite of a fastener, in plain words."""

from collections.abc import Iterator

from scantling.findings import Finding, Severity, entry
from scantling.tables import LengthWindow, Status, StockScrew

from .connection import FastenerJoint

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
