"""The nouns of nesting: what is asked for, what can be cut, and how it was cut.

Every length is an integer of 0.01 mm and every amount of money an integer of 1/10,000 of the currency unit, so
that "exactly fits" is exact and the same input gives the same bytes. `x` runs along the stock's length, `y`
along its width, from one corner of the untrimmed sheet.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from scantling.findings import Finding

UNITS_PER_MM = 100


class Grain(StrEnum):
    """Where a part's grain runs relative to its own length."""

    ALONG = "along"
    ACROSS = "across"
    ANY = "any"


class StockGrain(StrEnum):
    """Whether the stock has a grain; it runs along the stock's length, or the sheet has none."""

    ALONG = "along"
    NONE = "none"


class StoppedBy(StrEnum):
    """Why the search ended."""

    PROOF = "proof"
    EFFORT = "effort"
    TIME = "time"


@dataclass(frozen=True, slots=True)
class Piece:
    """A kind of part to be cut: `width` is None for a piece of board, which keeps the board's own width.

    `oversize` is added to both sizes when cutting (jointing, edge work). `group` names parts that must come from
    one sheet, in sequence. `stock` pins a part to one stock by its id.

    The ends of a piece of board may slope: its ends are lines x = c + y·tan(slope) on the wide face, seen with the
    length to the right and the show side up, and x = c + z·tan(bevel)/cos(slope) through the thickness; angles are
    whole 0.01 degrees off square with a sign, lengths go from long point to long point. So equal slopes at both ends
    make a parallelogram. They count of a piece as wide as its board, without a `width`. `one_face`: only one face may
    show, so the piece must not be cut lying on it.

    On a sheet the ends and the long edges (near, far) may be bevelled. The blank goes from long point to long point,
    and a tilted blade takes kerf/cos of the face, so it is laid out that much larger on each bevelled side. Mitred
    ends are cut from the square blank.
    """

    id: str
    length: int
    width: int | None = None
    quantity: int = 1
    grain: Grain = Grain.ALONG
    material: str | None = None
    thickness: int | None = None
    group: str | None = None
    oversize: int = 0
    stock: str | None = None
    start_slope: int = 0
    end_slope: int = 0
    start_bevel: int = 0
    end_bevel: int = 0
    near_bevel: int = 0
    far_bevel: int = 0
    one_face: bool = False


@dataclass(frozen=True, slots=True)
class Stock:
    """Something that can be bought or is on hand. `width` None means a board; `quantity` None as many as needed.

    `defects` are (start, end) stretches of a board that no piece may touch. `board_width` is how wide a board is, for
    the saws that cut it, its weight and its sloped ends; pieces are not matched by it.
    """

    id: str
    length: int
    width: int | None = None
    material: str | None = None
    thickness: int | None = None
    price: int | None = None
    quantity: int | None = None
    offcut: bool = False
    grain: StockGrain = StockGrain.ALONG
    defects: tuple[tuple[int, int], ...] = ()
    board_width: int | None = None


@dataclass(frozen=True, slots=True)
class Trim:
    """What is cut off each edge before the sheet is used: start and end along x, near and far along y."""

    start: int = 0
    end: int = 0
    near: int = 0
    far: int = 0


@dataclass(frozen=True, slots=True)
class Cutting:
    """How the shop cuts: the blade's kerf, the trim, how many stages of turns are allowed (None = any)."""

    kerf: int = 0
    trim: Trim = field(default_factory=Trim)
    stages: int | None = None
    first_cut: str = "either"  # "along", "across" or "either"
    cutting_error: int = 50  # of one cut; 0.5 mm, common practice


class Aim(StrEnum):
    """What a plan may be chosen by, once nothing more can be placed."""

    MONEY = "money"
    REMAINDER = "remainder"
    SETTINGS = "settings"
    CUTS = "cuts"
    LAYOUTS = "layouts"


@dataclass(frozen=True, slots=True)
class Objective:
    """What a plan is chosen by, first aim first. `worth`: costs within so many 1/10,000 of the least count as equal.

    Without prices the area bought stands for the money. An aim that is left out does not count.
    """

    order: tuple[Aim, ...] = (Aim.MONEY, Aim.REMAINDER, Aim.SETTINGS, Aim.CUTS, Aim.LAYOUTS)
    worth: int = 200  # 2 %: what an easier day's work may cost more; an assumption


@dataclass(frozen=True, slots=True)
class Stacking:
    """Sheets that are cut on top of each other: at most so many, at most so thick in all. None is not limited."""

    sheets: int | None = None
    thickness: int | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """A whole nesting request. `effort` counts work units of the search, `seed` fixes every choice it makes.

    `pinned` are layouts that are kept as they are; the rest of the parts is cut from the rest of the stock.
    `stacking` is None where every sheet is cut by itself. `with_two_stage_bound` asks what two stages of
    cuts cost at least, too.
    """

    pieces: tuple[Piece, ...]
    stock: tuple[Stock, ...]
    cutting: Cutting
    effort: int
    seed: int = 1
    least_offcut: tuple[int, int] = (30_000, 10_000)  # what is worth keeping: 300 × 100 mm
    pinned: tuple["Layout", ...] = ()
    aims: Objective = field(default_factory=Objective)
    stacking: Stacking | None = None
    with_two_stage_bound: bool = True


@dataclass(frozen=True, slots=True)
class Placement:
    """One piece on the stock. `length`/`width` are the piece's own; `turned` means its length lies along y.

    A piece of board with sloped ends may lie `end_for_end` (turned half round on its face) and `face_down`, which
    mirrors it across its width; of a piece that is both, the half turn comes first.
    """

    part: str
    x: int
    y: int
    length: int
    width: int | None
    turned: bool = False
    end_for_end: bool = False
    face_down: bool = False

    @property
    def along_x(self) -> int:
        """Extent along the stock's length."""
        return self.width if self.turned and self.width is not None else self.length

    @property
    def along_y(self) -> int:
        """Extent along the stock's width; 0 on a board."""
        if self.width is None:
            return 0
        return self.length if self.turned else self.width


@dataclass(frozen=True, slots=True)
class Node:
    """A rectangle of the sheet in the tree of through-cuts, so that a saw can make it edge to edge.

    A leaf is a piece (`part` set), an offcut worth keeping, or waste. A branch is split by parallel through-cuts:
    its children lie in order along `axis` ("x": the blade travels along y; "y": along x), each two neighbours one
    kerf apart. The root is the whole untrimmed sheet; its trim is cut like anything else.
    """

    x: int
    y: int
    along_x: int
    along_y: int
    axis: str | None = None
    children: tuple["Node", ...] = ()
    part: str | None = None
    turned: bool = False
    kept: bool = False


@dataclass(frozen=True, slots=True)
class Offcut:
    """A remainder worth keeping, with the grain along x as on the sheet it came from."""

    x: int
    y: int
    along_x: int
    along_y: int


@dataclass(frozen=True, slots=True)
class Layout:
    """One cutting layout, made `count` times from sheets or boards of one stock. `tree` is None for a board."""

    stock: str
    count: int
    placements: tuple[Placement, ...]
    offcuts: tuple[Offcut, ...]
    tree: Node | None = None


@dataclass(frozen=True, slots=True)
class Unplaced:
    """A part that could not be placed: how many of it, why, and the nearest stock with the excess over it."""

    part: str
    quantity: int
    reason: str
    nearest_stock: str | None = None
    excess: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Nesting:
    """The answer: layouts, what is left out, money (or area) spent and the least it could have been.

    `cost` and `bound` are money where every stock has a price, else None; `sheets` and `sheet_bound` count stock.
    `proven_minimal` says that the objective (money, or area without prices) equals its bound. `two_stage_bound` is
    money that no plan cut in two stages goes below (one with more stages may); None where it was not worked out.
    """

    layouts: tuple[Layout, ...]
    unplaced: tuple[Unplaced, ...]
    cost: int | None
    bound: int | None
    proven_minimal: bool
    work: int
    stopped_by: StoppedBy
    findings: tuple[Finding, ...] = ()
    objective: int = 0  # what was minimised: money, or area in 0.01 mm squared when prices are missing
    objective_bound: int = 0
    seed: int = 1
    plans: tuple["Plan", ...] = ()
    two_stage_bound: int | None = None


@dataclass(frozen=True, slots=True)
class Measures:
    """What a nesting is chosen by. `remainder` is the largest rectangle worth keeping, along x and y; (0, 0) if none.

    `beyond` counts the cuts that none of the saws can make, `settings` how often a saw has to be set, `cuts` the
    passes of the blade.
    """

    missing: int
    beyond: int
    objective: int
    remainder: tuple[int, int]
    settings: int
    cuts: int
    layouts: int


@dataclass(frozen=True, slots=True)
class Plan:
    """One way to cut the job, by its name for people, measured; `chosen` is the one whose layouts are the answer's."""

    name: str
    measures: Measures
    cost: int | None
    layouts: tuple[Layout, ...]
    chosen: bool
