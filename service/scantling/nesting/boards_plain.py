"""What is particular to boards in a plain request and its answer: defects, and how a piece with sloped ends lies."""

from collections.abc import Iterable, Iterator, Mapping
from math import ceil, floor
from typing import Any

from scantling.measure import RequestProblem, pointer

from .boards_ends import Joints, lie_of
from .boards_problem import ends_of
from .nouns import UNITS_PER_MM, Piece, Placement, Stock

_EXACT = 1e-5  # of a hundredth of a millimetre: what binary fractions lose


def plain_ends(piece: Piece, placed: Placement, stock: Stock) -> dict[str, Any]:
    """Return the members of a placement that say how its ends slope as it lies; none for a square piece."""
    ends = ends_of(piece)
    if ends.square:
        return {}
    lie = lie_of(ends, placed.end_for_end, placed.face_down)
    joints = Joints(0, stock.board_width, stock.thickness)
    first = joints.marks(lie.start, placed.x, True)
    last = joints.marks(lie.end, placed.x + placed.length, False)
    return {
        "start_slope": lie.start[0] / 100,
        "end_slope": lie.end[0] / 100,
        "start_bevel": lie.start[1] / 100,
        "end_bevel": lie.end[1] / 100,
        "end_for_end": placed.end_for_end,
        "face_down": placed.face_down,
        "near_mm": [first[0] / UNITS_PER_MM, last[0] / UNITS_PER_MM],
        "far_mm": [first[1] / UNITS_PER_MM, last[1] / UNITS_PER_MM],
    }


def refuse_defects(entry: Mapping[str, Any], index: int) -> Iterator[RequestProblem]:
    """Yield what is wrong with the defects of one stock: upside down, beyond its end, or on a sheet."""
    length = entry.get("length") or 0.0
    for number, defect in enumerate(entry.get("defects") or ()):
        place = pointer("stock", index, "defects", number)
        if entry.get("width") is not None:
            yield RequestProblem(place, "defects are of boards only; accepted: stock without a width", "contradiction")
        elif not 0 <= defect["start"] < defect["end"] <= length:
            detail = f"{defect['start']:g} to {defect['end']:g} mm is no stretch of a board {length:g} mm long"
            accepted = "accepted: the start before the end, both within the board"
            yield RequestProblem(place, f"{detail}; {accepted}", "values-do-not-go-together")


def plain_defects(entries: Iterable[Mapping[str, float]] | None) -> tuple[tuple[int, int], ...]:
    """Return the stretches of a board that no piece may touch, rounded outwards to whole 0.01 mm, in order."""
    return tuple(
        sorted(
            (floor(e["start"] * UNITS_PER_MM + _EXACT), ceil(e["end"] * UNITS_PER_MM - _EXACT)) for e in entries or ()
        )
    )
