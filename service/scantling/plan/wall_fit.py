"""Does a set fit its walls: at every height measured, at both extremes of its stock, and how far it stands off."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from scantling.board import Assembly, AssemblyError, ChainError, CutError, PlacingError
from scantling.findings import Finding
from scantling.kit import Build
from scantling.mechanics.notice import notice
from scantling.mechanics.place import check_gap_behind, gap_at_wall

from .arrangement import FLUSH_MM, Arrangement
from .building import Built
from .footprint import BANDS, span_at
from .poses import Stood, WallLine
from .room import HEIGHTS, SQUARE, Room

LARGEST_GAP_MM = 10.0  # a wider gap behind a seat shows and swallows things; practice


@dataclass(frozen=True, slots=True)
class Fit:
    """A wall at one height: its run there and what the set takes of it, mm; slack at both extremes of the stock.

    Where the run was not `measured` at that height, the least of those that were stands for it.
    """

    wall: str
    height: str
    run: float
    taken: float
    slack_least: float
    slack_most: float
    measured: bool = True

    @property
    def slack(self) -> float:
        """Return what is left over with the stock as measured, mm."""
        return self.run - self.taken


@dataclass(frozen=True, slots=True)
class Gap:
    """The largest gap between a wall and what stands at it: how wide, behind what, how far along the wall, mm."""

    gap: float
    module: str
    wall: str
    along: float


def at_extremes(built: Built) -> tuple[Assembly, Assembly]:
    """Return a piece built of the thinnest and of the thickest stock of every role; as it is where that cannot be."""
    found = []
    for bound in ("least", "most"):
        materials = {role: replace(m, thickness=getattr(m, bound)) for role, m in built.assembly.materials.items()}
        try:
            found.append(built.module().build(Build(built.parameters, materials)))
        except (AssemblyError, CutError, PlacingError, ChainError):
            found.append(built.assembly)
    return found[0], found[1]


def fits_of(arrangement: Arrangement, extremes: Mapping[str, tuple[Assembly, Assembly]]) -> list[Fit]:
    """Return every measured wall with something along it, at the floor, at seat and at back height."""
    found = []
    for i, line in enumerate(arrangement.lines):
        row = arrangement.row(i)
        if not row or not line.wall.lengths:
            continue
        taken = _taken(arrangement, i, line, row)
        less, more = sorted(_change(arrangement, i, extremes, k) for k in (0, 1))
        for height in HEIGHTS:
            here = taken - sum(_recess(arrangement, i, end, height) for end in ("first", "last"))
            run = line.wall.lengths.get(height, line.length)
            known = height in line.wall.lengths
            found.append(Fit(line.wall.id, height, run, here, run - here - more, run - here - less, known))
    return found


def _taken(arrangement: Arrangement, wall: int, line: WallLine, row: Sequence[int]) -> float:
    """Return the length of a wall its row takes, from the corner it stands in or from its left end."""
    run = arrangement.runs[wall]
    points = [line.along_at(p) for k in row for p in _box(arrangement.stood[k])]
    if run.last_corner is None:
        return max(points)
    if run.first_corner is None:
        return line.length - min(points)
    return max(arrangement.used[wall], max(points) - min(points))


def _box(stood: Stood) -> list[tuple[float, float]]:
    return [stood.corner(right, back) for right in (False, True) for back in (False, True)]


def _change(
    arrangement: Arrangement, wall: int, extremes: Mapping[str, tuple[Assembly, Assembly]], which: int
) -> float:
    """Return how much longer the row is with the thinnest (0) or thickest (1) stock, mm."""
    run = arrangement.runs[wall]
    total = 0.0
    for k in arrangement.row(wall):
        axis = 1 if k == run.last_corner else 0
        stood = arrangement.stood[k]
        total += _size(extremes[stood.stand.module][which], axis) - _size(stood.assembly, axis)
    return total


def _size(assembly: Assembly, axis: int) -> float:
    low, high = assembly.bounds()
    return high[axis] - low[axis]


def _recess(arrangement: Arrangement, wall: int, end: str, height: str) -> float:
    """Return how far the row stands back from its end at a height: a lean that is wide only at the top, arms above."""
    run, first = arrangement.runs[wall], end == "first"
    corner = run.first_corner if first else run.last_corner
    if corner is not None:
        axis, low_side = (0, True) if first else (1, False)
        k = corner
    elif run.pieces:
        axis, low_side, k = 0, first, run.pieces[0 if first else -1]
    elif first:
        axis, low_side, k = 1, True, arrangement.row(wall)[0]  # the front of a corner piece that stands alone
    else:
        axis, low_side, k = 0, False, arrangement.row(wall)[-1]
    assembly = arrangement.stood[k].assembly
    span = span_at(assembly, axis, *BANDS[height])
    if span is None:
        return 0.0
    low, high = assembly.bounds()
    return span[0] - low[axis] if low_side else high[axis] - span[1]


def fit_findings(fits: Sequence[Fit], arrangement: Arrangement, room: Room) -> list[Finding]:
    """Say for each wall where its set does not fit, fits only of thin stock, or leaves less than the scribe gap."""
    found: list[Finding] = []
    for i, line in enumerate(arrangement.lines):
        mine = [f for f in fits if f.wall == line.wall.id]
        parts = tuple(arrangement.stood[k].name for k in arrangement.row(i))
        if parts and not mine:
            text = f"{line.wall.id}: its length was not given, so whether {_list(parts)} fit is not known."
            found.append(notice("wall-not-measured", text, parts=parts))
        if not mine:
            continue
        worst = min(mine, key=lambda f: f.slack)
        least = min(mine, key=lambda f: f.slack_least)
        if worst.slack < -FLUSH_MM:
            found.append(replace(_too_long(worst, parts), pointer=f"/place/walls/{i}"))
        elif least.slack_least < -FLUSH_MM:
            found.append(replace(_only_thin(least, parts), pointer=f"/place/walls/{i}"))
        elif least.slack_least < room.scribe:
            text = (
                f"{least.wall}, at {least.height} height: {least.slack_least:.0f} to {least.slack_most:.0f} mm are "
                f"left over; a scribe gap of {room.scribe:.0f} mm was asked for."
            )
            found.append(
                notice("place-fits-narrowly", text, parts=parts, value=least.slack_least, limit=room.scribe, unit="mm")
            )
    return found


def _too_long(fit: Fit, parts: tuple[str, ...]) -> Finding:
    text = (
        f"{fit.wall}, at {fit.height} height: the run is {fit.run:.0f} mm and {_list(parts)} take {fit.taken:.0f} mm."
    )
    remedy = f"Make the set {-fit.slack:.0f} mm shorter and leave a scribe gap, or stand a piece elsewhere."
    return notice(
        "does-not-fit-place", text, parts=parts, value=fit.taken, limit=fit.run, unit="mm", source="measured",
        remedy=remedy,
    )  # fmt: skip


def _only_thin(fit: Fit, parts: tuple[str, ...]) -> Finding:
    text = (
        f"{fit.wall}, at {fit.height} height: {fit.slack:.0f} mm are left over with the stock as measured, "
        f"{fit.slack_least:.0f} mm with the thickest sold."
    )
    return notice("fits-only-thin", text, parts=parts, value=fit.slack_least, limit=0.0, unit="mm", source="geometry")


def _list(names: Sequence[str]) -> str:
    return " and ".join(names) if len(names) < 3 else f"{', '.join(names[:-1])} and {names[-1]}"


def largest_gap(arrangement: Arrangement) -> Gap | None:
    """Return the largest gap behind the set: from a corner out of square, a skirting, or as asked for."""
    gaps = [gap for i in range(len(arrangement.lines)) for gap in _gaps_at(arrangement, i)]
    return max(gaps, key=lambda g: (round(g.gap, 3), -g.along), default=None)


def gap_findings(arrangement: Arrangement) -> list[Finding]:
    """Say how far skirtings and corners out of square keep the set off its walls."""
    found: list[Finding] = []
    for i, (line, keep) in enumerate(zip(arrangement.lines, arrangement.keeps, strict=True)):
        names = tuple(arrangement.stood[k].name for k in arrangement.row(i))
        if names:
            found += check_gap_behind(keep, why=f"skirting of {line.wall.id}", parts=names).findings()
    for group in arrangement.groups:
        for i, j in pairwise(group):
            found += _corner(arrangement, i, j)
    return found


def _corner(arrangement: Arrangement, i: int, j: int) -> list[Finding]:
    line = arrangement.lines[i]
    k = arrangement.runs[i].last_corner
    stood = arrangement.stood[k] if k is not None else None
    if stood is None:
        return []
    if line.wall.corner is None:
        shorter = min(arrangement.used[i], arrangement.used[j])
        opens = gap_at_wall(SQUARE - 1, shorter)
        text = (
            f"The corner of {line.wall.id} and {arrangement.lines[j].wall.id} was not measured and taken as square; "
            f"one degree off would open {opens:.0f} mm behind {stood.name} or the end of its row."
        )
        return [notice("corner-assumed", text, parts=(stood.name,), value=SQUARE, unit="degrees", source="geometry")]
    flush = arrangement.flush[i]
    loose = j if flush == i else i
    worst = max(_gaps_at(arrangement, loose), key=lambda g: g.gap)
    if worst.gap - arrangement.keeps[loose] <= LARGEST_GAP_MM:
        return []
    text = (
        f"The corner is {line.corner:.1f}° and the set is square: flush with {arrangement.lines[flush].wall.id}, it "
        f"stands {worst.gap:.0f} mm off {worst.wall} behind {worst.module}, {worst.along:.0f} mm along that wall."
    )
    remedy = "Close it with a scribed strip, or pack the joints with wedges so that each run follows its own wall."
    return [
        notice(
            "gap-behind", text, parts=(worst.module,), value=worst.gap, limit=LARGEST_GAP_MM, unit="mm",
            source="geometry", remedy=remedy,
        )
    ]  # fmt: skip


def _gaps_at(arrangement: Arrangement, wall: int) -> list[Gap]:
    """Return how far both ends of every back at a wall stand off it."""
    line, found = arrangement.lines[wall], []
    for k in arrangement.row(wall):
        stood = arrangement.stood[k]
        side = k == arrangement.runs[wall].last_corner
        ends = ((False, False), (False, True)) if side else ((False, True), (True, True))
        points = [stood.corner(*end) for end in ends]
        found += [Gap(max(0.0, line.off(p)), stood.name, line.wall.id, line.along_at(p)) for p in points]
    return found
