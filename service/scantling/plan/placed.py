"""The set in its place: all that is computed from where the pieces stand, as findings, goods to buy and an answer."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from scantling.board import Assembly, Hardware
from scantling.findings import Finding
from scantling.measure import Tape
from scantling.mechanics.notice import notice

from .arrangement import Arrangement, arrange
from .building import Built
from .footprint import Opened
from .levelling import level_findings, raised_feet
from .neighbours import Beside, PlaceJoint, beside_of, joint_findings, joint_of, unused_holes
from .place_steps import place_steps
from .room import Room, room_of
from .room_checks import opened_pieces, opening_findings, overlap_findings
from .room_doors import ceiling_findings, door_findings, leaves_of, wall_findings
from .set_sizes import set_findings
from .swings import swing_findings
from .walking import Ahead, clear_fronts, uses_of, walkway_findings
from .wall_fit import LARGEST_GAP_MM, Fit, Gap, at_extremes, fit_findings, fits_of, gap_findings, largest_gap


@dataclass(frozen=True, slots=True)
class Placed:
    """A set in its place: where all stands, what was found, the joints made there, the work in order."""

    arrangement: Arrangement
    fits: tuple[Fit, ...]
    gap: Gap | None
    fronts: tuple[Ahead, ...]
    opened: tuple[Opened, ...]
    raised: tuple[tuple[float, ...] | None, ...]
    joints: tuple[PlaceJoint, ...]
    steps: tuple[str, ...]
    findings: tuple[Finding, ...]

    def bought(self) -> list[Hardware]:
        """Return what the joints take, each bolt counted once."""
        counts: Counter[str] = Counter()
        for joint in self.joints:
            if joint.bolt is not None:
                counts[joint.bolt.words] += joint.count
        return [Hardware(what, n, "joints made at the place") for what, n in sorted(counts.items())]


def place_line(placed: Placed | None, tape: Tape) -> list[str]:
    """Return one line about the set in its place for people, or none where no piece was given one."""
    if placed is None:
        return []
    walls = dict.fromkeys(f.wall for f in placed.fits)
    least = {wall: min(f.slack for f in placed.fits if f.wall == wall) for wall in walls}
    said = [
        f"{tape.show(room)} to spare along {wall}" if room >= 0 else f"{tape.show(-room)} too long for {wall}"
        for wall, room in least.items()
    ]
    if placed.gap is not None and placed.gap.gap > LARGEST_GAP_MM:
        said.append(f"{tape.show(placed.gap.gap)} off {placed.gap.wall} at most")
    bolts = sum(j.count for j in placed.joints)
    said += [f"{bolts} bolts join it there"] if bolts else []
    return [f"In its place: {', '.join(said)}."] if said else []


def placed_set(request: Mapping[str, Any], pieces: Sequence[Built]) -> tuple[Placed | None, tuple[Finding, ...]]:
    """Return the set in its place, None where no piece was given one, and what was found about it.

    Raises RequestError with pointers for a place that cannot be read.
    """
    by_id = {p.id: p for p in pieces}
    place = request.get("place") or {}
    room = room_of(place, {p.id: p.quantity for p in pieces})
    assemblies = {p.id: p.assembly for p in pieces if p.assembly.parts}
    stands = tuple(s for s in room.stands if s.module in assemblies)
    if not stands:
        return None, tuple(unused_holes(assemblies, {}, {p.id: p.quantity for p in pieces}))
    placed = _placed(replace(room, stands=stands), by_id, assemblies)
    return placed, placed.findings


def _placed(room: Room, pieces: Mapping[str, Built], assemblies: Mapping[str, Assembly]) -> Placed:
    arrangement = arrange(room, assemblies)
    measured = [i for i, line in enumerate(arrangement.lines) if line.wall.lengths]
    at_walls = {arrangement.stood[k].stand.module for i in measured for k in arrangement.row(i)}
    extremes = {id: at_extremes(pieces[id]) for id in sorted(at_walls)}
    fits = tuple(fits_of(arrangement, extremes))
    fronts = tuple(clear_fronts(arrangement, room))
    opened = tuple(opened_pieces(arrangement))
    raised = tuple(raised_feet(arrangement, room.fall))
    beside = beside_of(arrangement)
    made = [joint_of(arrangement, b) for b in beside]
    joints = tuple(j for j in made if j is not None)
    findings = [
        *fit_findings(fits, arrangement, room),
        *gap_findings(arrangement),
        *overlap_findings(arrangement),
        *walkway_findings(arrangement, room, fronts, uses_of(pieces)),
        *opening_findings(arrangement, room, fronts, opened),
        *door_findings(arrangement),
        *wall_findings(arrangement),
        *ceiling_findings(arrangement, room),
        *level_findings(arrangement, raised),
        *(f for b, j in zip(beside, made, strict=True) for f in joint_findings(arrangement, b, j)),
        *(f for b in beside for f in set_findings(arrangement, b, pieces)),
        *_nowhere(arrangement, pieces),
        *unused_holes(assemblies, _used(arrangement, beside), {id: p.quantity for id, p in pieces.items()}),
    ]
    findings += swing_findings(arrangement, room, findings)
    steps = place_steps(arrangement, joints, raised)
    return Placed(
        arrangement, fits, largest_gap(arrangement), fronts, opened, raised, joints, tuple(steps), tuple(findings)
    )


def _used(arrangement: Arrangement, beside: Sequence[Beside]) -> Counter[str]:
    """Return how many bolt holes of each module meet a neighbour, with holes of its own or to be bored through."""
    used: Counter[str] = Counter()
    for b in beside:
        for k, holes in zip((b.left, b.right), b.holes, strict=True):
            used[arrangement.stood[k].stand.module] += len(holes)
    return used


def _nowhere(arrangement: Arrangement, pieces: Mapping[str, Built]) -> list[Finding]:
    stood = Counter(s.stand.module for s in arrangement.stood)
    left = [(id, p.quantity - stood[id]) for id, p in pieces.items() if p.quantity > stood[id]]
    if not left:
        return []
    words = ", ".join(f"{n} × {id}" if n > 1 else id for id, n in left)
    return [notice("stands-nowhere", f"Not said where to stand: {words}.", parts=tuple(id for id, _ in left))]


def placed_to_plain(placed: Placed) -> dict[str, Any]:
    """Return the set in its place as JSON members."""
    arrangement = placed.arrangement
    leaves = leaves_of(arrangement)
    return {
        "walls": [
            {
                "id": line.wall.id,
                "from_mm": _point(line.at),
                "to_mm": _point(line.end),
                "turn_deg": round(line.turn, 2),
                "corner_deg": None if line.wall.corner is None else round(line.wall.corner, 2),
                "fits": [_fit(f) for f in placed.fits if f.wall == line.wall.id],
                "doors": [
                    {
                        "id": leaf.id,
                        "swept_mm": [_point(leaf.hinge), _point(leaf.shut), _point(leaf.opened)],
                        "opens": "in" if leaf.inwards else "out",
                    }
                    for leaf in leaves
                    if leaf.wall == line.wall.id
                ],
            }
            for line in arrangement.lines
        ],
        "pieces": [_piece(placed, k) for k in range(len(arrangement.stood))],
        "largest_gap": None
        if placed.gap is None
        else {
            "gap_mm": round(placed.gap.gap, 1),
            "module": placed.gap.module,
            "wall": placed.gap.wall,
            "along_mm": round(placed.gap.along, 1),
        },
        "joints": [_joint(j) for j in placed.joints],
        "steps": list(placed.steps),
    }


def _piece(placed: Placed, k: int) -> dict[str, Any]:
    arrangement = placed.arrangement
    stood = arrangement.stood[k]
    wall = None if stood.stand.wall is None else arrangement.lines[stood.stand.wall + stood.stand.corner]
    front, raised = stood.corner(False, False), placed.raised[k]
    clear = placed.fronts[k].clear
    backs = (stood.corner(False, True), stood.corner(True, True))
    return {
        "module": stood.stand.module,
        "copy_number": stood.stand.copy,
        "wall": None if wall is None else wall.wall.id,
        "corner": stood.stand.corner,
        "x_mm": round(front[0], 1),
        "y_mm": round(front[1], 1),
        "turn_deg": round(stood.pose.turn % 360.0, 2),
        "outline_mm": [_point(p) for p in stood.outline],
        "opened_mm": _opened(placed, k),
        "off_wall_mm": None if wall is None else round(max(wall.off(p) for p in backs), 1),
        "clear_in_front_mm": None if clear == inf else round(clear, 1),
        "raise_feet_mm": None if raised is None else [round(h, 1) for h in raised],
        "mass_kg": round(stood.assembly.mass_and_centre()[0], 2),
    }


def _opened(placed: Placed, k: int) -> list[list[float]] | None:
    """Return what a piece covers with all open besides its outline, as a rectangle before or behind it."""
    stood, wide = placed.arrangement.stood[k], placed.opened[k]
    low, high = stood.assembly.bounds()
    if wide.front > 0:
        corners = [(low[0], low[1] - wide.front), (high[0], low[1] - wide.front), (high[0], low[1]), (low[0], low[1])]
    elif wide.behind > 0:
        corners = [
            (low[0], high[1]),
            (high[0], high[1]),
            (high[0], high[1] + wide.behind),
            (low[0], high[1] + wide.behind),
        ]
    else:
        return None
    return [_point(stood.pose.point(x, y)) for x, y in corners]


def _fit(fit: Fit) -> dict[str, Any]:
    return {
        "height": fit.height,
        "run_mm": round(fit.run, 1),
        "measured": fit.measured,
        "set_mm": round(fit.taken, 1),
        "slack_least_mm": round(fit.slack_least, 1),
        "slack_most_mm": round(fit.slack_most, 1),
    }


def _joint(joint: PlaceJoint) -> dict[str, Any]:
    return {
        "between": list(joint.between),
        "parts": list(joint.parts),
        "bolts": joint.count,
        "bolt": None if joint.bolt is None else joint.bolt.words,
        "stack_mm": round(joint.stack, 2),
        "heights_mm": list(joint.heights),
        "apart_mm": round(joint.apart, 2),
    }


def _point(point: tuple[float, float]) -> list[float]:
    return [round(point[0], 1) + 0.0, round(point[1], 1) + 0.0]
