"""Do the parts of every joint meet? Overlaps, joints that gape, near misses, and parts nothing holds."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from scantling.board import Joint, Patch
from scantling.findings import Finding, Severity

from .arrays import Ints
from .contacts import Pair
from .distance import parts_distance
from .scene import STAND_APART, Scene

SMALL_MM2 = 100.0  # a glued or screwed joint smaller than a 10 mm square holds nothing: practice
MOST_ADRIFT = 10
PARALLEL_MM = 1.0  # a gap that widens by more is two faces at an angle, not a missed fit

__all__ = ["Meeting", "adrift", "joint_findings", "meetings", "near_misses", "overlap_findings"]


@dataclass(frozen=True, slots=True)
class Meeting:
    """How two parts of a joint meet: area in mm² of the faces that touch, least and greatest gap in mm.

    `least_gap` is negative where they overlap; `area` is 0 where nothing touches.
    """

    joint: str
    parts: tuple[str, str]
    area: float
    least_gap: float
    greatest_gap: float
    at: tuple[float, float, float] | None

    def to_plain(self) -> dict[str, Any]:
        """Return the meeting as JSON members."""
        return {
            "joint": self.joint,
            "parts": list(self.parts),
            "area_mm2": round(self.area, 1),
            "least_gap_mm": round(self.least_gap, 3),
            "greatest_gap_mm": round(self.greatest_gap, 3),
            "at_mm": None if self.at is None else [round(c, 2) for c in self.at],
        }


def overlap_findings(scene: Scene) -> Iterator[Finding]:
    """Report every two parts that share space."""
    for o in scene.overlaps:
        a, b = scene.ids(o.a, o.b)
        yield Finding(
            "parts-overlap",
            Severity.ERROR,
            f"{a} and {b} stand {o.depth:.2f} mm in each other.",
            (a, b),
            at_mm=o.at,
            value=o.depth,
            limit=scene.settings.fit,
            unit="mm",
            remedy=f"Move one of them by {o.depth:.2f} mm, make it shorter, or notch the other for it.",
        )
    more = len(scene.colliding) - len(scene.overlaps)
    if more > 0:
        yield Finding(
            "parts-overlap", Severity.ERROR, f"{more} more pairs of parts share space, less deeply.",
            value=float(more), limit=0.0, unit="pairs", remedy="Mend the deepest first; an order is sought after that.",
        )  # fmt: skip


def meetings(scene: Scene) -> list[Meeting]:
    """Return how the parts of every joint meet."""
    found = []
    for joint, pair in scene.meetings:
        allowed = joint.clearance + scene.settings.fit
        meeting = _meeting(joint, scene.ids(*pair), scene.patches(pair), allowed)
        if meeting is None:
            gap, at = parts_distance(scene.parts[pair[0]], scene.parts[pair[1]])
            meeting = Meeting(joint.id, _two(scene.ids(*pair)), 0.0, gap, gap, at)
        found.append(meeting)
    return found


def _two(ids: tuple[str, ...]) -> tuple[str, str]:
    return ids[0], ids[1]


def _meeting(joint: Joint, ids: tuple[str, ...], patches: list[Patch], allowed: float) -> Meeting | None:
    """Sum the patches that lie tight; without any, take the one that gapes least."""
    tight = [p for p in patches if abs(p.least_gap) <= allowed and p.greatest_gap <= allowed]
    if tight:
        area = sum(p.area for p in tight)
        least, greatest = min(p.least_gap for p in tight), max(p.greatest_gap for p in tight)
        return Meeting(joint.id, _two(ids), area, least, greatest, tight[0].centre)
    if not patches:
        return None
    best = min(patches, key=lambda p: (max(abs(p.least_gap), allowed), round(p.greatest_gap, 6), -p.area))
    touches = abs(best.least_gap) <= allowed
    return Meeting(joint.id, _two(ids), best.area if touches else 0.0, best.least_gap, best.greatest_gap, best.centre)


def joint_findings(scene: Scene, found: list[Meeting]) -> Iterator[Finding]:
    """Report joints whose parts do not meet, gape, meet on too little, or stand closer than declared."""
    overlapping = {tuple(sorted(scene.ids(c[0], c[1]))) for c in scene.colliding}
    for meeting in found:
        joint = scene.assembly.joints[meeting.joint]
        if tuple(sorted(meeting.parts)) in overlapping:
            continue  # reported as an overlap, which is the cause
        yield from _judged(scene, joint, meeting)


def _judged(scene: Scene, joint: Joint, m: Meeting) -> Iterator[Finding]:
    a, b = m.parts
    fit = scene.settings.fit
    allowed = joint.clearance + fit
    if m.least_gap > allowed:
        yield _joint_finding(
            "joint-apart", Severity.ERROR, m, m.least_gap, joint.clearance,
            f"{a} and {b} shall meet in the joint {joint.id!r}, but stand {m.least_gap:.2f} mm apart.",
            f"Move one of them by {m.least_gap - joint.clearance:.2f} mm, or declare the clearance that is meant.",
        )  # fmt: skip
    elif joint.clearance > 0 and joint.kind in STAND_APART and m.least_gap < joint.clearance - fit:
        yield _joint_finding(
            "clearance-lost", Severity.ERROR, m, m.least_gap, joint.clearance,
            f"{a} and {b} shall stand {joint.clearance:.2f} mm apart, but only {m.least_gap:.2f} mm are left.",
            f"Make one of them {joint.clearance - m.least_gap:.2f} mm smaller, or move it.",
        )  # fmt: skip
    elif m.greatest_gap > allowed:
        matters = (joint.glued or joint.shows) and m.greatest_gap > scene.settings.open_limit + joint.clearance
        yield _joint_finding(
            "joint-gapes", Severity.WARNING if matters else Severity.NOTE, m, m.greatest_gap,
            scene.settings.open_limit,
            f"{a} and {b} touch at one edge of the joint {joint.id!r} and gape {m.greatest_gap:.2f} mm at the other.",
            "Check the angles of both cuts; a test cut of two scraps shows the error doubled.",
        )  # fmt: skip
    elif m.area < SMALL_MM2 and joint.kind not in STAND_APART:
        yield _joint_finding(
            "joint-small", Severity.WARNING, m, m.area, SMALL_MM2,
            f"{a} and {b} meet on only {m.area:.0f} mm² in the joint {joint.id!r}.",
            "Let the parts lie further on each other, or add a cleat behind the joint.",
        )  # fmt: skip


def _joint_finding(
    code: str, severity: Severity, m: Meeting, value: float, limit: float, message: str, remedy: str
) -> Finding:
    unit = "mm2" if code == "joint-small" else "mm"
    return Finding(
        code, severity, message, m.parts, at_mm=m.at, value=value, limit=limit, unit=unit, source="practice",
        remedy=remedy,
    )  # fmt: skip


def near_misses(scene: Scene) -> Iterator[Finding]:
    """Report parts that stand a hair apart, face to face, where no joint declares a clearance."""
    declared: set[Pair] = {pair for _, pair in scene.meetings}
    promised = {tuple(sorted(scene.index[p] for p in m.parts)) for m in _gaps(scene)}
    shared = {(c[0], c[1]) for c in scene.colliding}
    for pair, patches in scene.contacts.items():
        if pair in declared or pair in promised or pair in shared:
            continue
        missed = [p for p in patches if _missed(p, scene)]
        if missed:
            yield _near_miss(scene, missed[0])


def _gaps(scene: Scene) -> list[Any]:
    kinds = ("gap", "clear")
    own = (p for part in scene.parts for p in part.promises)
    return [p for p in (*scene.assembly.promises, *own) if p.kind in kinds and p.value > 0]


def _missed(patch: Patch, scene: Scene) -> bool:
    s = scene.settings
    return s.fit + 1e-9 < patch.least_gap <= s.near and patch.greatest_gap - patch.least_gap <= PARALLEL_MM


def _near_miss(scene: Scene, patch: Patch) -> Finding:
    return Finding(
        "near-miss",
        Severity.WARNING,
        f"{patch.a} and {patch.b} stand {patch.least_gap:.2f} mm apart, face to face, and nothing says they should.",
        (patch.a, patch.b),
        at_mm=patch.centre,
        value=patch.least_gap,
        limit=scene.settings.near,
        unit="mm",
        source="practice",
        remedy="If it is meant, declare the clearance of the pair; else take the size from the part it should meet.",
    )


def adrift(scene: Scene) -> Iterator[Finding]:
    """Report parts no joint ties to the rest of the piece."""
    groups = tied(len(scene.parts), [pair for _, pair in scene.meetings])
    largest = max(groups, key=lambda g: (len(g), -g[0]))
    loose = [group for group in groups if group is not largest]
    if len(loose) > MOST_ADRIFT:  # told one by one they would bury all else
        loose = [sorted(i for group in loose for i in group)]
    for group in loose:
        ids = scene.ids(*group)
        yield Finding(
            "part-adrift",
            Severity.ERROR,
            f"No joint ties {_listed(ids)} to the rest of the piece.",
            ids,
            at_mm=_middle(scene, group[0]),
            remedy="Join it to what it touches: glue, screws, or a loose joint where it only lies there.",
        )


def tied(n: int, pairs: list[Pair]) -> list[list[int]]:
    """Return the groups of indexes below n that pairs tie together, each sorted, by their first member."""
    root = list(range(n))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    for i, j in pairs:
        a, b = find(i), find(j)
        root[max(a, b)] = min(a, b)
    groups: dict[int, list[int]] = {}
    for i in range(n):
        groups.setdefault(find(i), []).append(i)
    return list(groups.values())


def _listed(ids: tuple[str, ...]) -> str:
    shown = ", ".join(ids[:6])
    return shown if len(ids) <= 6 else f"{shown} and {len(ids) - 6} more"


def _middle(scene: Scene, part: int) -> tuple[float, float, float]:
    of_part: Ints = (scene.soup.part_of == part).nonzero()[0]
    low, high = scene.soup.low[of_part].min(axis=0), scene.soup.high[of_part].max(axis=0)
    x, y, z = (float(v) for v in (low + high) / 2)
    return (x, y, z)
