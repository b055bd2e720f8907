"""Sizes that come from cushions and rows of sitters: loaded heights, depth left, widths of rows, slack."""

import math

from .validity import not_negative, positive, within


def loaded_height(hard_mm: float, cushion_mm: float, sink: float = 0.5) -> float:
    """Return the height of a seat with somebody on it: hard height plus what is left of the cushion.

    Units: mm, sink a ratio 0 to 1. Valid: sink about 0.5 for a firm cushion, 0.55 for a soft one.
    Raises: OutOfValidity. Source: WOOD magazine (subtract half the cushion); trade sink 70 mm on 127 mm.
    """
    left = 1 - within("share of the cushion that sinks", sink, 0, 1, "", "a share of the thickness")
    return positive("hard seat height", hard_mm, "mm") + not_negative("cushion", cushion_mm, "mm") * left


def hard_height(target_mm: float, cushion_mm: float, sink: float = 0.5) -> float:
    """Return the height of the hard seat for a wanted height with somebody on it.

    Units: mm, sink a ratio 0 to 1. Valid: targets above what is left of the cushion. Raises: OutOfValidity.
    Source: WOOD magazine: 17 in wanted and a cushion of 5 in give 14.5 in.
    """
    left = 1 - within("share of the cushion that sinks", sink, 0, 1, "", "a share of the thickness")
    return positive("hard seat height", target_mm - not_negative("cushion", cushion_mm, "mm") * left, "mm")


def effective_depth(cushion_depth_mm: float, back_overlap_mm: float) -> float:
    """Return the depth left to sit on where a back cushion stands on the seat cushion.

    Units: mm. Valid: back cushion thinner than the seat is deep. Raises: OutOfValidity. Source: geometry.
    """
    return positive("depth left", cushion_depth_mm - not_negative("back cushion", back_overlap_mm, "mm"), "mm")


def row_breadth(people: int, mean_mm: float, deviation_mm: float, clothing_mm: float = 15.0, z: float = 1.645) -> float:
    """Return the width that suits 95 in a hundred rows of n people side by side.

    Units: mm. Valid: one person or more, z 1.645 for 95 per cent. Raises: ValueError, OutOfValidity.
    Source: Pheasant, Bodyspace 4.3.10: mean n m, deviation sqrt(n) s, 15 mm of clothing each.
    """
    if people < 1:
        raise ValueError(f"a row has one person or more, not {people}")
    mean = positive("mean breadth", mean_mm, "mm") + not_negative("clothing", clothing_mm, "mm")
    return people * mean + z * math.sqrt(people) * not_negative("deviation", deviation_mm, "mm")


def row_of_cushions(count: int, width_mm: float, gap_mm: float = 0.0) -> float:
    """Return the clear length of a row of cushions, a gap at both ends and between them.

    Units: mm; a negative gap squeezes soft foam. Valid: one cushion or more. Raises: ValueError, OutOfValidity.
    Source: geometry, n w + (n + 1) g.
    """
    if count < 1:
        raise ValueError(f"a row has one cushion or more, not {count}")
    return count * positive("cushion width", width_mm, "mm") + (count + 1) * gap_mm


def row_slack(clear_mm: float, count: int, width_mm: float) -> float:
    """Return what a clear width leaves over a row of cushions; below zero they must squeeze.

    Units: mm. Valid: one cushion or more. Raises: ValueError, OutOfValidity. Source: geometry.
    """
    return positive("clear width", clear_mm, "mm") - row_of_cushions(count, width_mm)


def tight_cover(width_mm: float, take_off_mm: float = 12.7) -> float:
    """Return the cover width a cushion maker cuts where several stand side by side in a tight space.

    Units: mm. Valid: a cushion wider than what is taken off. Raises: OutOfValidity.
    Source: a cushion maker's measuring page: take 1/2 in off each cushion.
    """
    return positive("cover width", width_mm - not_negative("taken off", take_off_mm, "mm"), "mm")
