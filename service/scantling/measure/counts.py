"""How many equal pieces a board or sheet gives, and how much wood that is.

Lengths are in mm unless stated. A saw cut takes its kerf, so n pieces in a row need n - 1 cuts between them; the cut
that frees the last piece may run off the end of the wood, or is counted too where every end must be cut. A length
counts as fitting when it is too long by less than a ten-thousandth of a millimetre (binary arithmetic, not wood).
"""

from dataclasses import dataclass
from math import ceil, floor

_SLIP = 1e-4  # mm


def board_feet(thickness_in: float, width_in: float, length_ft: float, quantity: int = 1) -> float:
    """Return board feet: thickness x width (inches, nominal) x length (feet) / 12, times the quantity.

    Softwood is sold by nominal sizes: a 2x4 counts 2 by 4 in, though it measures 1 1/2 by 3 1/2 in.
    """
    return thickness_in * width_in * length_ft / 12.0 * quantity


def surface_measure(width_in: float, length_ft: float) -> float:
    """Return the surface measure of a board in square feet: width (inches) x length (feet) / 12."""
    return width_in * length_ft / 12.0


def pieces_in_length(length: float, piece: float, kerf: float, *, cut_last: bool = False) -> int:
    """Return how many pieces a length gives.

    n pieces fit when n·piece + (n - 1)·kerf is at most the length; with `cut_last`, n·(piece + kerf).
    """
    if piece <= 0 or kerf < 0:
        raise ValueError("a piece must be longer than zero, and a kerf cannot be less than zero")
    return max(0, floor((length + (0.0 if cut_last else kerf) + _SLIP) / (piece + kerf)))


def left_over(length: float, piece: float, kerf: float, count: int) -> float:
    """Return what is left of a length after cutting off `count` pieces, the last cut included; never below 0."""
    return max(0.0, length - count * (piece + kerf))


def equal_width(width: float, count: int, kerf: float) -> float:
    """Return the greatest width of `count` equal strips: (width - (count - 1)·kerf) / count; not above 0 if none."""
    if count < 1 or kerf < 0:
        raise ValueError("there must be at least one strip, and a kerf cannot be less than zero")
    return (width - (count - 1) * kerf) / count


@dataclass(frozen=True, slots=True)
class Block:
    """Equal pieces in a grid: `along` of them in a row along the sheet's length, `across` rows; turned or not."""

    along: int
    across: int
    turned: bool

    @property
    def count(self) -> int:
        """The pieces of the block."""
        return self.along * self.across


@dataclass(frozen=True, slots=True)
class SheetYield:
    """What one sheet gives: its blocks (one or two), and the most that could ever fit (`bound`)."""

    blocks: tuple[Block, ...]
    bound: int

    @property
    def count(self) -> int:
        """The pieces of one sheet."""
        return sum(block.count for block in self.blocks)

    @property
    def proven(self) -> bool:
        """Whether no other pattern can give more."""
        return self.count == self.bound


def sheet_yield(
    length: float, width: float, piece_length: float, piece_width: float, kerf: float, grain: str = "any"
) -> SheetYield:
    """Return the best of three patterns of equal pieces on a sheet (`length` x `width` after trimming).

    The patterns are a plain grid, and two grids side by side, the pieces of one turned, parted by a cut along or
    across the sheet. All are cut by through cuts. `grain` is where the piece's grain runs relative to its own length:
    "along" (never turned), "across" (always turned) or "any". The stock's grain runs along its length.

    `bound` is exact where pieces may not be turned (a grid is then the best there is) and otherwise the area bound
    (L+k)(W+k) / ((l+k)(w+k)), which holds because every piece needs the kerf beside it. Where `proven` is false a
    cleverer layout may exist; the nesting endpoint looks for one.
    """

    def grid(along: float, across: float, turned: bool) -> Block:
        x, y = (piece_width, piece_length) if turned else (piece_length, piece_width)
        return Block(pieces_in_length(along, x, kerf), pieces_in_length(across, y, kerf), turned)

    if grain in {"along", "across"}:
        only = grid(length, width, grain == "across")
        return SheetYield((only,) if only.count else (), only.count)
    if grain != "any":
        raise ValueError(f"grain must be along, across or any, not {grain!r}")
    plain, turned = grid(length, width, False), grid(length, width, True)
    columns = _best_split(length, piece_length, plain.across, piece_width, turned.across, kerf)
    rows = _best_split(width, piece_width, plain.along, piece_length, turned.along, kerf)
    beside = grid(length - columns * (piece_length + kerf), width, True)
    below = grid(length, width - rows * (piece_width + kerf), True)
    patterns = (
        (plain,),
        (turned,),
        (Block(columns, plain.across, False), beside),
        (Block(plain.along, rows, False), below),
    )
    best = max(patterns, key=lambda blocks: sum(block.count for block in blocks))
    blocks = tuple(block for block in best if block.count)
    if not blocks:
        return SheetYield((), 0)
    area = (length + kerf) * (width + kerf) / ((piece_length + kerf) * (piece_width + kerf))
    return SheetYield(blocks, max(floor(area + 1e-9), sum(block.count for block in blocks)))


def _best_split(length: float, piece: float, per_row: int, turned: float, per_turned_row: int, kerf: float) -> int:
    """Return how many rows of unturned pieces, before rows of turned ones in what is left, hold the most."""

    def held(rows: int) -> int:
        rest = length - rows * (piece + kerf)
        return rows * per_row + pieces_in_length(rest, turned, kerf) * per_turned_row

    return max(range(pieces_in_length(length, piece, kerf) + 1), key=held)


def sheets_needed(quantity: int, per_sheet: int) -> int:
    """Return how many sheets or boards give the quantity, all cut alike. ValueError where one gives nothing."""
    if per_sheet < 1:
        raise ValueError("one sheet gives no piece at all")
    return ceil(quantity / per_sheet)
