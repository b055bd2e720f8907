"""Boards of another size than the design: what shrinks or grows, the nearest stock, and what to laminate."""

from dataclasses import dataclass
from itertools import combinations_with_replacement

from scantling.tables import dressed_sizes

from .validity import not_negative, positive

# Softwood a home shop finds in most yards, by nominal thickness in inches; 1-1/2, 2-1/2 and 3 are seldom stocked.
COMMON = ("1", "1-1/4", "2", "4")
NEAR = 0.2  # a board within a fifth of the wanted size may stand in for it, with the difference said


@dataclass(frozen=True, slots=True)
class Change:
    """What another thickness does: what was kept (`outside` or `inside`) and how sizes change in mm."""

    kept: str
    between_mm: float
    outside_mm: float

    def said(self) -> str:
        """Return the change in words."""
        if self.kept == "outside":
            way = "shorter" if self.between_mm < 0 else "longer"
            return f"outside kept: every part between two boards gets {abs(self.between_mm):.1f} mm {way}"
        way = "larger" if self.outside_mm > 0 else "smaller"
        return f"parts kept: the outside gets {abs(self.outside_mm):.1f} mm {way}"


@dataclass(frozen=True, slots=True)
class Nearest:
    """A dressed board that may stand in: nominal sizes in inches, and how it differs in mm (thinner is negative)."""

    thickness: str
    width: str
    thicker_mm: float
    wider_mm: float


def thickness_change(old_mm: float, new_mm: float, *, keep: str, boards: int = 2) -> Change:
    """Return what building with boards of another thickness does to a frame.

    Units: mm. Valid: parts standing between `boards` boards of the thickness; keep is outside or inside.
    Raises: ValueError for another word or no board, OutOfValidity. Source: geometry of a dimension chain.
    """
    if keep not in ("outside", "inside"):
        raise ValueError(f"keep outside or inside, not {keep!r}")
    if boards < 1:
        raise ValueError(f"a part stands between one board or more, not {boards}")
    grown = boards * (positive("new thickness", new_mm, "mm") - positive("old thickness", old_mm, "mm"))
    return Change(keep, -grown, 0.0) if keep == "outside" else Change(keep, 0.0, grown)


def nearest_board(thickness_mm: float, width_mm: float) -> Nearest | None:
    """Return the dressed dry board nearest to a wanted section, or None where none comes within a fifth.

    Units: mm. Valid: softwood as yards stock it, nominal 1, 1-1/4, 2 and 4 in thick. Raises: OutOfValidity.
    Source: American Softwood Lumber Standard PS 20, dressed dry sizes; what yards stock, practice.
    """
    t, w = positive("thickness", thickness_mm, "mm"), positive("width", width_mm, "mm")
    best: tuple[float, Nearest] | None = None
    for (side, name), size in dressed_sizes().items():
        if side != "thickness" or name not in COMMON:
            continue
        for (other, wide), across in dressed_sizes().items():
            if other != "width" or across.dry_mm < size.dry_mm:
                continue
            off = (abs(size.dry_mm / t - 1), abs(across.dry_mm / w - 1))
            if max(off) <= NEAR and (best is None or sum(off) < best[0]):
                best = (sum(off), Nearest(name, wide, size.dry_mm - t, across.dry_mm - w))
    return None if best is None else best[1]


def laminate(thickness_mm: float, most_layers: int = 4) -> tuple[tuple[float, ...], float]:
    """Return the dressed thicknesses to glue up for a thickness no yard sells, and how far off they come.

    Units: mm. Valid: up to four layers of nominal 1, 1-1/4 and 2 in boards; thickest first. Raises: OutOfValidity.
    Source: PS 20 dressed dry thicknesses; arithmetic.
    """
    wanted = positive("thickness", thickness_mm, "mm")
    not_negative("layers", most_layers, "layers")
    sold = [dressed_sizes()[("thickness", name)].dry_mm for name in COMMON[:3]]
    stacks = (
        s for n in range(1, most_layers + 1) for s in combinations_with_replacement(sorted(sold, reverse=True), n)
    )
    best = min(stacks, key=lambda s: (round(abs(sum(s) - wanted), 6), len(s)))
    return best, sum(best) - wanted
