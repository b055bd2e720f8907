"""Where each piece of a set stands: along its walls, into its corners, or free in the room.

A set that goes round a corner is laid out first as if every corner were square, because its corner seat is; then it is
turned and slid as one into the corner there is: flush with its longest wall, touching the next one.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.board import Assembly
from scantling.mechanics.floor_plan import Point, unit

from .footprint import outline_of, stand_off
from .poses import Pose, Stood, WallLine
from .room import SQUARE, Room, Stand

NOT_MEASURED_MM = 1000.0  # a wall of no length told and nothing along it, for the drawing
FLUSH_MM = 0.5  # a gap no wider is taken for none


@dataclass(frozen=True, slots=True)
class Run:
    """What stands along one wall, left to right, by places in the list of stands; corner pieces at its ends."""

    pieces: tuple[int, ...]
    first_corner: int | None
    last_corner: int | None


@dataclass(frozen=True, slots=True)
class Arrangement:
    """The set in its place: walls on the plan, each piece where it stands, how much of each wall the set takes.

    `keeps` is how far skirtings keep the rows off their walls, mm; `groups` the walls one set goes along without a
    break; `flush` says for each wall which of its group the set is flush with.
    """

    lines: tuple[WallLine, ...]
    stood: tuple[Stood, ...]
    runs: tuple[Run, ...]
    used: tuple[float, ...]
    keeps: tuple[float, ...]
    groups: tuple[tuple[int, ...], ...]
    flush: Mapping[int, int]

    def row(self, wall: int) -> list[int]:
        """Return what stands along a wall from left to right, its corner pieces with it, by place in the list."""
        run = self.runs[wall]
        return [k for k in (run.first_corner, *run.pieces, run.last_corner) if k is not None]


def arrange(room: Room, assemblies: Mapping[str, Assembly]) -> Arrangement:
    """Return where each stand of a room puts its piece; `assemblies` are the pieces by the id of their module."""
    pieces = [assemblies[s.module] for s in room.stands]
    runs = tuple(_run(room.stands, i) for i in range(len(room.walls)))
    keeps = tuple(_keeps_off(room, pieces, runs, i) for i in range(len(room.walls)))
    used = tuple(run_length(room.stands, pieces, runs[i], keeps, i) for i in range(len(room.walls)))
    lines = _lines(room, used)
    groups = _groups(runs)
    stood: dict[int, Stood] = {}
    flush: dict[int, int] = {}
    for group in groups:
        ideal = _ideal(room, pieces, runs, keeps, used, group)
        longest = max(group, key=lambda i: (used[i], -i))
        flush.update(dict.fromkeys(group, longest))
        stood.update(_into_place(ideal, lines, group, longest, used, keeps))
    for k, stand in enumerate(room.stands):
        if stand.wall is None:
            stood[k] = _free(stand, pieces[k])
    shapes = {module: outline_of(assemblies[module]) for module in dict.fromkeys(s.module for s in room.stands)}
    ordered = tuple(replace(stood[k], shape=shapes[s.module]) for k, s in enumerate(room.stands))
    return Arrangement(lines, ordered, runs, used, keeps, groups, flush)


def _run(stands: Sequence[Stand], wall: int) -> Run:
    pieces = tuple(k for k, s in enumerate(stands) if s.wall == wall and not s.corner)
    first = next((k for k, s in enumerate(stands) if s.corner and s.wall == wall - 1), None)
    last = next((k for k, s in enumerate(stands) if s.corner and s.wall == wall), None)
    return Run(pieces, first, last)


def _keeps_off(room: Room, pieces: Sequence[Assembly], runs: Sequence[Run], wall: int) -> float:
    """Return how far the skirting of a wall keeps the whole row off it: fronts stay in one line."""
    skirting, run = room.walls[wall].skirting, runs[wall]
    backs = [stand_off(pieces[k], skirting, 1) for k in (*run.pieces, *_one(run.first_corner))]
    sides = [stand_off(pieces[k], skirting, 0) for k in _one(run.last_corner)]
    return max((*backs, *sides), default=0.0)


def _one(k: int | None) -> tuple[int, ...]:
    return () if k is None else (k,)


def run_length(
    stands: Sequence[Stand], pieces: Sequence[Assembly], run: Run, keeps: Sequence[float], wall: int
) -> float:
    """Return how much of a wall its row takes: pieces, gaps, and the sides of the corner pieces at its ends, mm."""
    total = sum(stands[k].gap + _size(pieces[k], 0) for k in run.pieces)
    if run.first_corner is not None:
        total += keeps[wall - 1] + _size(pieces[run.first_corner], 0)
    if run.last_corner is not None:
        total += stands[run.last_corner].gap + keeps[wall + 1] + _size(pieces[run.last_corner], 1)
    return total


def _size(assembly: Assembly, axis: int) -> float:
    low, high = assembly.bounds()
    return high[axis] - low[axis]


def _lines(room: Room, used: Sequence[float]) -> tuple[WallLine, ...]:
    """Return the walls on the plan, each from the end of the one before; one not measured is as long as its row."""
    lines: list[WallLine] = []
    at, turn = (0.0, 0.0), 0.0
    for wall, row in zip(room.walls, used, strict=True):
        length = wall.least if wall.least is not None else max(row, NOT_MEASURED_MM)
        corner = wall.corner if wall.corner is not None else SQUARE
        line = WallLine(wall, at, turn, length, corner)
        lines.append(line)
        at, turn = line.end, turn + 180.0 - corner
    return tuple(lines)


def _groups(runs: Sequence[Run]) -> tuple[tuple[int, ...], ...]:
    """Return the walls that one set goes along, joined by the pieces in their corners."""
    groups: list[list[int]] = []
    for i, run in enumerate(runs):
        if run.first_corner is not None and groups:
            groups[-1].append(i)
        else:
            groups.append([i])
    return tuple(tuple(g) for g in groups)


def _ideal(
    room: Room, pieces: Sequence[Assembly], runs: Sequence[Run], keeps: Sequence[float], used: Sequence[float],
    group: tuple[int, ...],
) -> dict[int, Stood]:  # fmt: skip
    """Return the pieces of a group as if its walls met square, its first wall from 0, 0 to the right."""
    found: dict[int, Stood] = {}
    start = (0.0, 0.0)
    for n, wall in enumerate(group):
        turn, run = SQUARE * n, runs[wall]
        along, out = unit(turn), unit(turn + SQUARE)
        s, before = 0.0, run.first_corner
        if run.first_corner is not None:
            corner = pieces[run.first_corner]
            s = keeps[wall - 1] + _size(corner, 0)
            inset = keeps[wall - 1] - corner.bounds()[0][0]
            pose = _against(start, along, out, turn, inset, keeps[wall], corner)
            found[run.first_corner] = Stood(
                room.stands[run.first_corner], corner, pose, _before(room, runs, wall, run.first_corner)
            )
        for k in run.pieces:
            s += room.stands[k].gap
            beside = before if room.stands[k].gap <= FLUSH_MM else None
            off = keeps[wall] + room.stands[k].off
            pose = _against(start, along, out, turn, s - pieces[k].bounds()[0][0], off, pieces[k])
            found[k] = Stood(room.stands[k], pieces[k], pose, beside)
            s, before = s + _size(pieces[k], 0), k
        start = (start[0] + along[0] * used[wall], start[1] + along[1] * used[wall])
    return found


def _before(room: Room, runs: Sequence[Run], wall: int, corner: int) -> int | None:
    """Return what stands flush against the corner piece at the left end of a wall, on the wall before."""
    row = runs[wall - 1].pieces
    if room.stands[corner].gap > FLUSH_MM:
        return None
    return row[-1] if row else runs[wall - 1].first_corner


def _against(start: Point, along: Point, out: Point, turn: float, s: float, off: float, piece: Assembly) -> Pose:
    """Return the pose of a piece whose origin lies `s` along a wall and whose back stands `off` it."""
    away = off + piece.bounds()[1][1]
    return Pose((start[0] + along[0] * s + out[0] * away, start[1] + along[1] * s + out[1] * away), turn)


def _into_place(
    ideal: Mapping[int, Stood], lines: Sequence[WallLine], group: tuple[int, ...], flush: int, used: Sequence[float],
    keeps: Sequence[float],
) -> dict[int, Stood]:  # fmt: skip
    """Return the pieces of a group flush with one of its walls and touching the next of them."""
    n = group.index(flush)
    start = (0.0, 0.0)
    for k, wall in enumerate(group[:n]):
        along = unit(SQUARE * k)
        start = (start[0] + along[0] * used[wall], start[1] + along[1] * used[wall])
    line = lines[flush]
    by = line.turn - SQUARE * n
    placed = {k: replace(s, pose=s.pose.moved(start, line.at, by)) for k, s in ideal.items()}
    if len(group) == 1:
        return placed
    next_wall = lines[group[n - 1]] if n > 0 else lines[group[n + 1]]
    way = line.along if n == 0 else (-line.along[0], -line.along[1])
    side = SQUARE if n == 0 else -SQUARE
    backs = [p for s in placed.values() for p in _backs(s, line.turn + side)]
    nearest = min(next_wall.off(p) for p in backs)
    keep = keeps[group[n - 1]] if n > 0 else keeps[group[n + 1]]
    closing = -(way[0] * next_wall.out[0] + way[1] * next_wall.out[1])
    slide = (nearest - keep) / closing
    return {
        k: replace(s, pose=Pose((s.pose.at[0] + way[0] * slide, s.pose.at[1] + way[1] * slide), s.pose.turn))
        for k, s in placed.items()
    }


def _backs(stood: Stood, turn: float) -> list[Point]:
    """Return the points of a piece that face a wall of a turn: the ends of its back, or of its left side."""
    if abs((stood.pose.turn - turn + 180.0) % 360.0 - 180.0) < 1.0:
        return [stood.corner(False, True), stood.corner(True, True)]
    if stood.stand.corner and abs((stood.pose.turn - SQUARE - turn + 180.0) % 360.0 - 180.0) < 1.0:
        return [stood.corner(False, False), stood.corner(False, True)]
    return []


def _free(stand: Stand, piece: Assembly) -> Stood:
    """Return a piece that stands free, its front left corner at x and y."""
    low = piece.bounds()[0]
    pose = Pose((0.0, 0.0), stand.turn)
    at = pose.point(low[0], low[1])
    return Stood(stand, piece, Pose((stand.at[0] - at[0], stand.at[1] - at[1]), stand.turn))
