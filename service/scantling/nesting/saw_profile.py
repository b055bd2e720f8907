"""One saw: what sort it is, what it can cut, and what it is taken to be able to do until its owner says.

Lengths are integers of 0.01 mm, angles degrees. The usual limits stand in the table `saw_limits` with their sources.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from math import ceil, cos, radians

from scantling.tables import Row, Status, load_table

from .nouns import UNITS_PER_MM

_MM = {"mm": 1.0, "in": 25.4}


class SawKind(StrEnum):
    """The sorts of saw."""

    TABLE = "table saw"
    MITRE = "mitre saw"
    TRACK = "track saw"
    CIRCULAR = "circular saw"
    BAND = "band saw"
    JIGSAW = "jigsaw"
    HAND = "hand saw"
    PANEL = "panel saw"  # the seller's: it makes the first cuts, before the sheet comes home


# Saws over which the work is moved; with the others the work lies still and the saw is moved.
MOVES_WORK = frozenset({SawKind.TABLE, SawKind.MITRE, SawKind.BAND})
# Table saw up, portable circular saw and jigsaw down: APA, Building Hints (read). The rail side of a track saw is
# clean, and the blades of mitre, band and hand saws cut downwards: common practice, from memory.
GOOD_FACE = {
    SawKind.TABLE: "up",
    SawKind.MITRE: "up",
    SawKind.TRACK: "up",
    SawKind.BAND: "up",
    SawKind.HAND: "up",
    SawKind.CIRCULAR: "down",
    SawKind.JIGSAW: "down",
}


@dataclass(frozen=True, slots=True)
class Saw:
    """What a saw can do; None is not limited. `known` says of each limit not stated by its owner how it is known.

    rip: widest strip between blade and fence. crosscut: widest piece cut square across, crosscut_45 the same with
    the saw or gauge turned 45°. guide: longest cut along a guide. least_piece, least_width: the least that can be
    held. error: how far a cut may be off its line. diameter: of a round blade. most_cuts: how many cuts the seller
    makes. angle_error: degrees.
    """

    id: str
    kind: SawKind
    kerf: int
    rip: int | None = None
    crosscut: int | None = None
    crosscut_45: int | None = None
    guide: int | None = None
    depth: int | None = None
    depth_45: int | None = None
    bevel_limit: float | None = None
    mitre_limit: float | None = None
    least_piece: int | None = None
    least_width: int | None = None
    error: int = 100
    diameter: int | None = None
    angle_error: float | None = None
    most_cuts: int | None = None
    tilts: str | None = None
    known: tuple[tuple[str, Status], ...] = field(default=(), repr=False)

    def is_stated(self, limit: str) -> bool:
        """Tell whether the owner gave a limit (or it is not limited at all)."""
        return limit not in dict(self.known)

    def may_refuse(self, limit: str) -> bool:
        """Tell whether a limit may refuse a cut: it is the owner's or was read, not remembered."""
        return dict(self.known).get(limit) is not Status.MEMORY

    def depth_at(self, bevel: float) -> int | None:
        """Return the depth of cut in 0.01 mm with the blade tilted by `bevel` degrees; None where it is not limited.

        Depth falls with the cosine of the tilt; at 45° and beyond a stated depth at 45° counts.
        """
        if self.depth is None:
            return None
        by_cosine = int(self.depth * cos(radians(bevel)) + 1e-6)
        if bevel >= 45 and self.depth_45 is not None:
            return min(self.depth_45, by_cosine) if bevel > 45 else self.depth_45
        return by_cosine


LIMITS = (
    "kerf", "rip", "crosscut", "crosscut_45", "guide", "depth", "depth_45", "bevel_limit", "mitre_limit",
    "least_piece", "least_width", "error", "diameter",
)  # fmt: skip


def bevelled_kerf(kerf: int, bevel: float) -> int:
    """Return how much of a piece's face a kerf takes when the blade is tilted: kerf / cos, rounded up."""
    return ceil(kerf / cos(radians(bevel)) - 1e-9)


@cache
def usual_limits(kind: SawKind) -> dict[str, tuple[float, Status]]:
    """Return the usual limits of a kind of saw in mm or degrees, each with how it is known."""
    return {row.text("limit"): (_value(row), row.status) for row in load_table("saw_limits").rows if _is(row, kind)}


def usual_saw(kind: SawKind, name: str | None = None) -> Saw:
    """Return a saw of a kind with nothing but the usual limits."""
    return make_saw(name or kind.value, kind, {})


def make_saw(name: str, kind: SawKind, stated: dict[str, float], **others: object) -> Saw:
    """Return a saw from what its owner states (mm, degrees by limit); the usual limits fill the gaps and are marked."""
    usual = usual_limits(kind)
    values = {limit: value for limit, (value, _) in usual.items()} | stated
    if "crosscut" in stated and "crosscut_45" not in stated:
        values.pop("crosscut_45", None)  # the usual one belongs to the usual saw
    if "depth" in stated and "depth_45" not in stated:
        values.pop("depth_45", None)
    known = tuple(sorted((limit, usual[limit][1]) for limit in values if limit not in stated and limit in usual))
    angles = ("bevel_limit", "mitre_limit")
    sizes = {k: v if k in angles else round(v * UNITS_PER_MM) for k, v in values.items()}
    return Saw(name, kind, known=known, **sizes, **others)  # type: ignore[arg-type]


def _is(row: Row, kind: SawKind) -> bool:
    return row.text("saw") == kind.value


def _value(row: Row) -> float:
    value = row.number("value")
    return value if row.unit == "degrees" else value * _MM[row.unit]
