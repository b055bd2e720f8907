"""What a fastener check notices about grain, edges, ends, spacing, pilot holes and loads, in plain words."""

from collections.abc import Iterator
from types import MappingProxyType

from scantling.findings import Finding, Severity
from scantling.tables import screw_gauge, screw_gauges

from .connection import Capacity, FastenerJoint
from .eurocode5_spacing import nail_distance, predrilling_needed
from .fastener_findings import GUARD_MM, finding
from .inch_pound import QUARTER_INCH_MM
from .spacing import Distance, edge_distance, end_distance, spacing

WORDS = MappingProxyType(
    {
        "withdrawal": "it pulls out of the wood",
        "pull-through": "its head pulls through the upper part",
        "withdrawal and lateral together": "pulled and pushed at once",
    }
)
YIELDS = MappingProxyType(
    {
        **dict.fromkeys(("Im", "b", "h"), "it crushes the wood that holds it"),
        **dict.fromkeys(("Is", "a", "g"), "it crushes the wood under the head"),
        **dict.fromkeys(("II", "c"), "it tilts in both parts"),
        **dict.fromkeys(("IIIm", "IIIs", "d", "e", "j"), "it bends once and crushes the wood"),
        **dict.fromkeys(("IV", "f", "k"), "it bends twice"),
    }
)


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


def place_findings(joint: FastenerJoint, method: str = "nds") -> Iterator[Finding]:
    """Yield edge and end distances, spacing and pilot holes that want attention: warnings, cleared by a pilot hole.

    Units: mm. Valid: any joint; a distance nobody stated is not judged. Raises: nothing.
    Source: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6 (advice), Tables 12.5.1A to 12.5.1D, 12.1.5; or
    EN 1995-1-1 Table 8.2 and 8.3.1.1(2) by `method`.
    """
    edge, end, beside = _wanted(joint, method)
    yield from _distance(joint, "screw-near-edge", "edge", joint.edge_distance_mm, edge)
    yield from _distance(joint, "screw-near-end", "end", joint.end_distance_mm, end)
    yield from _distance(joint, "fastener-spacing", "next one", joint.spacing_mm, beside)
    if joint.pilot is False and joint.size.kind in ("wood screw", "nail"):
        yield from _eurocode_pilot(joint) if method == "eurocode5" else _nds_pilot(joint)


def _wanted(joint: FastenerJoint, method: str) -> tuple[Distance, Distance, Distance]:
    """Return the edge distance, end distance and spacing the method wants for this joint and load."""
    diameter, pushed = joint.size.diameter_mm, joint.loads.lateral_n > 0 and joint.role == "holds"
    if method == "eurocode5" and joint.size.kind in ("wood screw", "nail") and diameter <= 8.0:
        angle = joint.load_angle if pushed else 0.0
        return (
            nail_distance("loaded edge" if pushed else "edge", diameter, angle),
            nail_distance("loaded end" if pushed else "end", diameter, angle),
            nail_distance("a1", diameter, angle),
        )
    return edge_distance(diameter), end_distance(diameter, pushed, joint.woods[-1].softwood), spacing(diameter, True)


def _nds_pilot(joint: FastenerJoint) -> Iterator[Finding]:
    gravity = joint.woods[-1].bearing
    if joint.size.kind == "wood screw" and gravity is not None and gravity.value > 0.5:
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


def _eurocode_pilot(joint: FastenerJoint) -> Iterator[Finding]:
    for wood, layer in zip(joint.woods, joint.stack.layers, strict=True):
        known = wood.characteristic
        if known is None or wood.is_panel:
            continue
        if predrilling_needed(known.value, joint.size.diameter_mm, layer.thickness_mm):
            kind = joint.size.kind
            text = f"{wood.title.lower()}, {layer.thickness_mm:.1f} mm thick, wants a pilot hole for this {kind}"
            yield finding(
                joint, "pilot-hole-needed", text, source="EN 1995-1-1 8.3.1.1 and Eq. 8.18", status=known.status
            )
            return


def _distance(joint: FastenerJoint, code: str, where: str, stated: float | None, wanted: Distance) -> Iterator[Finding]:
    if stated is None:
        return
    always_drilled = joint.size.diameter_mm >= QUARTER_INCH_MM - 1e-6
    limit = wanted.prebored_mm if joint.pilot and not always_drilled else wanted.plain_mm
    if stated >= limit - GUARD_MM:
        return
    cleared = not always_drilled and not joint.pilot and stated >= wanted.prebored_mm - GUARD_MM
    state = "with a pilot hole" if joint.pilot else "without a pilot hole"
    if always_drilled:
        state = f"for the full value, {wanted.prebored_mm:.1f} mm at least"
    remedy = f"Drill the pilot hole: with one {wanted.prebored_mm:.1f} mm is enough." if cleared else None
    if code == "screw-near-edge" and not cleared:
        remedy = _thinner(joint, stated, limit)
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


def _thinner(joint: FastenerJoint, stated: float, limit: float) -> str | None:
    """Return the thickest screw that may sit this near the edge: in a panel's edge nothing can be moved inwards."""
    own = joint.size.gauge
    if own is None:
        return None
    share = limit / joint.size.diameter_mm
    fitting = [g for g, row in screw_gauges().items() if g < own and share * row.diameter_mm <= stated + GUARD_MM]
    if not fitting:
        return None
    needs = share * screw_gauge(max(fitting)).diameter_mm
    return f"Keep it centred and drill a pilot hole, or take a #{max(fitting)}, which wants {needs:.1f} mm."


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
            f"the load is {ratio:.2f} times what {_number(joint)} may carry: {in_words(mode)}",
            value=ratio,
            limit=1.0,
            unit="1",
            source=capacity.code,
            status=capacity.status,
            remedy=_more(joint, ratio),
        )


def in_words(mode: str) -> str:
    """Return a governing mode in words a woodworker knows.

    Units: none. Valid: any mode; one without words is returned as it is. Raises: nothing.
    Source: the pictures of the yield modes in NDS 2018 Appendix I and EN 1995-1-1 Figure 8.2.
    """
    kind, _, name = mode.partition(" ")
    return f"sideways, {YIELDS[name]}" if kind == "lateral" and name in YIELDS else WORDS.get(mode, mode)


def _number(joint: FastenerJoint) -> str:
    return f"one {joint.size.label}" if joint.count == 1 else f"{joint.count} {joint.size.label}s"


def _more(joint: FastenerJoint, ratio: float) -> str:
    needed = -int(-joint.count * ratio // 1)
    return f"{needed} instead of {joint.count} would carry it, if they fit; or a larger gauge, or a deeper bite."
