"""What the service takes and answers, as types. Made by generate_models.py from the contract: do not edit.

A length is a number in the request's `units`, or text that carries its own unit, such as `"3/4 in"`. Answers may carry
more members than are listed here.
"""

# fmt: off
# ruff: noqa: E501 - the contract's lists of words are long

from typing import Any, Literal, NotRequired, TypeAlias, TypedDict


class Link(TypedDict):
    """Where something is."""

    href: str
    """Address, relative to the service."""

    title: str
    """What is there."""


class About(TypedDict):
    """The service about itself."""

    interface_version: str
    """Version of the interface, the one in the paths."""

    links: dict[str, Link]
    """The addresses of the service by name."""

    name: str
    """Name of the service."""

    tables_version: str
    """Fingerprint of the published tables it computes with."""

    version: str
    """Version of the service; figures may change with it."""


Allowance: TypeAlias = float | str


Thickness: TypeAlias = float | str


class Band(TypedDict):
    """A thickness known only within a range."""

    least: Thickness
    """Least thickness."""

    most: Thickness
    """Greatest thickness, not below `least`."""

    status: Literal["assumed", "measured"]
    """`assumed` until the sheet has been measured with a caliper: joints are not cut to it."""


AnyThickness: TypeAlias = Thickness | list[Thickness] | Band


class AssemblyMaterial(TypedDict):
    """What a role is made of."""

    assumed: bool
    """True until it has been measured."""

    board_width_mm: float | None
    """Width of the board it is cut from."""

    density_kg_m3: float
    """Density."""

    has_grain: bool
    """Whether the direction matters when cutting."""

    least_mm: float
    """Least thickness."""

    material: str
    """Id of the material."""

    most_mm: float
    """Greatest thickness."""

    stock_kind: str
    """`sheet` or `board`."""

    thickness_mm: float
    """Thickness to build with."""


class Frame(TypedDict):
    """Where a part stands."""

    length: list[float]
    """Unit direction of its length."""

    origin_mm: list[float]
    """The start/near/back corner of the blank."""

    width: list[float]
    """Unit direction of its width."""


class AssemblyPart(TypedDict):
    """One part: its blank, its cuts, and where it stands."""

    cuts: list[dict[str, Any]]
    """Its cuts in the board frame; `kind` names the shop operation."""

    frame: Frame
    """Where it stands."""

    grain: str
    """Where the grain runs relative to the length."""

    id: str
    """Id of the part."""

    length_mm: float
    """Length of the blank."""

    name: str
    """What it is called."""

    role: str
    """The role it is made of."""

    shows: str
    """Which face shows."""

    thickness_mm: float
    """Thickness of the blank."""

    width_mm: float
    """Width of the blank."""


class Fastener(TypedDict):
    """A screw or another fastener in its place."""

    diameter_mm: float
    """Diameter."""

    direction: list[float]
    """Unit direction from head to point."""

    gauge: int | None
    """Gauge number of a screw."""

    head_depth_mm: float
    """How deep its head is sunk."""

    head_mm: list[float]
    """Where its head sits."""

    id: str
    """Id of the fastener."""

    joint: str
    """Id of the joint it belongs to."""

    kind: str
    """What it is."""

    length_mm: float
    """Length."""

    parts: list[str]
    """Ids of the parts it passes, the head's first."""

    role: str
    """`holds`, `clamps` or `locates`."""


class Joint(TypedDict):
    """Where parts meet."""

    clearance_mm: float
    """Gap that is meant to be there."""

    glued: bool
    """Whether it is glued."""

    id: str
    """Id of the joint."""

    kind: str
    """How they are joined."""

    parts: list[str]
    """Ids of the parts."""


class Assembly(TypedDict):
    """A piece of furniture in space."""

    cautions: list[str]
    """What to be careful of."""

    chains: list[dict[str, Any]]
    """The dimension chains, in mm."""

    cushions: list[dict[str, Any]]
    """The cushions where they lie, in mm."""

    fasteners: list[Fastener]
    """The fasteners."""

    hardware: list[dict[str, Any]]
    """What else it takes."""

    hung_by: NotRequired[str]
    """What holds the piece on a wall; empty where it stands on the floor."""

    joints: list[Joint]
    """The joints."""

    loads: NotRequired[list[dict[str, Any]]]
    """
    What parts carry beyond cushions: `kind` (sitter, leaning, arm, books, library shelf, other shelf, mass),
    `parts`, `amount` in `unit` (null: the published preset).
    """

    materials: dict[str, AssemblyMaterial]
    """What each role is made of."""

    module: str
    """Id of the module it was built by."""

    motions: NotRequired[list[dict[str, Any]]]
    """What moves in use, as POST /v1/dry-fits takes it: lids, doors, drawers."""

    parts: list[AssemblyPart]
    """The parts."""

    promises: list[dict[str, Any]]
    """What the module promises: sizes, flush faces, clearances, in mm."""

    steps: list[dict[str, Any]]
    """The order of work as the module's author gives it."""

    title: str
    """What it is called."""


class Bite(TypedDict):
    """One part as the fastener meets it."""

    bite_mm: float
    """Length of the fastener in it."""

    entry_mm: float
    """Where the part begins, from the surface."""

    exit_mm: float
    """Where it ends."""

    grain: str
    """What the fastener enters there."""

    material: str
    """Id of the material."""

    part: str
    """The caller's name for the part."""

    thread_mm: float
    """Length of thread in it."""

    threads: float | None
    """Turns of thread in it."""


BodySize: TypeAlias = float | str


class Capacity(TypedDict):
    """What one fastener carries; null where nothing is published, with the reason in `missing`."""

    code: str
    """The standard, or the tests, that the values are from."""

    count: int
    """How many fasteners share the load."""

    factors: dict[str, float]
    """What the values were multiplied by."""

    lateral_mode: str | None
    """The yield mode that gives the lateral value."""

    lateral_n: float | None
    """Against a load across it."""

    missing: dict[str, str]
    """Why a value is null, by its name."""

    modes_n: dict[str, float]
    """The unadjusted lateral value of every yield mode."""

    pull_through_n: float | None
    """Against the head being pulled through."""

    sources: list[str]
    """Where the figures are from."""

    status: Literal["read", "derived", "memory"]
    """How well the least certain figure is known; one from `memory` decides nothing."""

    withdrawal_n: float | None
    """Against being pulled out."""


class Chain(TypedDict):
    """A dimension chain as read on the tape: its links add up, because one of them closes it."""

    axis: list[float] | None
    """Unit direction it runs along; null where its links do not tell its place."""

    closing: Any
    """Which link takes up the rounding."""

    from_mm: float | None
    """Where it begins along that direction."""

    lines: list[str]
    """Its links in words."""

    name: str
    """What it measures."""

    ruled_by: str | None
    """The chain over the same span that rules it; it is derived from that one."""

    takes_up_mm: float
    """How much longer its closing link is fitted than derived: the rounding of the others."""

    to_mm: float | None
    """Where it ends."""

    total_mm: float
    """Its sum."""

    total_text: str
    """Its sum as read on the tape."""


class Check(TypedDict):
    """One condition of being ready."""

    detail: str
    """In words."""

    name: str
    """What is checked."""

    ok: bool
    """Whether it holds."""


class CheckRow(TypedDict):
    """One thing that was checked, whether it held or not: a demand against a capacity on one basis."""

    basis: str
    """
    What it is compared with: a `design` value, an `ultimate` one (tests), `statics`, `stiffness`, `movement`,
    `people` or `practice`.
    """

    bound: bool
    """True where the demand is the worst of several paths and not a share by statics."""

    capacity: float | None
    """What may be asked, in `unit`."""

    check: str
    """What was checked, such as `bending`, `glue line`, `screws`, `stands`, `shelf sag`."""

    code: str
    """The standard or table the figures come from, with the load duration factor."""

    demand: float | None
    """What is asked, in `unit`."""

    duration: str
    """How long that load stands."""

    governing: str
    """What governs."""

    load: str
    """The load it stands under."""

    note: str
    """What else is to be known."""

    parts: list[str]
    """Ids of the parts."""

    ratio: float | None
    """Demand over capacity; null where it was not judged (`note` says why)."""

    status: str
    """How well the least known figure is known: `read`, `derived` or `memory`."""

    subject: str
    """What it was checked on: parts of one name, a joint, a direction."""

    unit: str
    """Unit of demand and capacity."""


Length: TypeAlias = float | str


class Clamp(TypedDict):
    """Clamps of one kind."""

    count: NotRequired[int]
    """How many there are."""

    id: str
    """The caller's name for them."""

    kind: Literal["bar", "pipe", "parallel", "screw", "spring", "band"]
    """What sort they are."""

    reach: Length
    """Widest opening."""

    throat: NotRequired[Length | None]
    """Depth of the throat."""


class Coat(TypedDict):
    """One coat of a finish."""

    coat: int
    """Its number."""

    starts_h: float
    """When it goes on, counted from the first."""


class Code(TypedDict):
    """One finding code."""

    code: str
    """The code, kebab-case, the same in every answer."""

    meaning: str
    """What it means."""

    origin: str | None
    """The plugin whose check finds it; null for the service's own."""

    remedy: str
    """What usually mends it."""

    severity: Literal["error", "warning", "note"]
    """Its usual severity."""

    subject: str
    """What it is about."""

    title: str
    """What it is called."""


class Codes(TypedDict):
    """Every code that a finding may carry."""

    findings: list[Code]
    """The codes, sorted."""


class CornerMeasured(TypedDict):
    """The corner at the right end of a wall, measured with a tape: two legs and the diagonal between their ends."""

    diagonal: Length
    """From the end of one leg to the end of the other."""

    first: Length
    """Leg along this wall, back from the corner."""

    second: Length
    """Leg along the next wall."""


class CostLine(TypedDict):
    """
    One line of the costing: goods, labour, tax or a mark-up; the `as_bought` of all lines add up to the total.
    """

    as_bought: str | None
    """Cost of what is bought."""

    as_used: str | None
    """Cost of what is used up."""

    bought: float | None
    """How much is bought."""

    currency: str
    """Currency of the amounts."""

    id: str
    """Id of the take-off line, or the name of what is added."""

    kind: str
    """Kind of the line; besides those of the take-off `labour`, `tax` and `mark-up`."""

    left_over: float | None
    """How much is left."""

    left_over_value: str | None
    """Worth of what is left."""

    needed_with_waste: float | None
    """The quantity with waste."""

    on_hand: float | None
    """What is there already."""

    pack: float | None
    """How much is in a pack."""

    packs: int | None
    """How many packs are bought."""

    price: str | None
    """Price of a pack; null where it is unknown."""

    quantity: float | None
    """The net quantity, in `unit`."""

    share_percent: float | None
    """Its part of the goods."""

    taxed: bool
    """Whether sales tax is due on it."""

    unit: str | None
    """What it is counted or measured in."""

    used: float | None
    """How much is used up."""

    what: str
    """What it is."""


class CostSum(TypedDict):
    """How the lines add up."""

    goods: str
    """All goods."""

    labour: str
    """All work."""

    mark_ups: list[dict[str, Any]]
    """What is added, each with its amount."""

    tax: str
    """Sales tax."""

    tax_included: bool
    """True where the tax is within the goods."""

    total: str
    """All of it."""


class Finding(TypedDict):
    """Something that the computation noticed."""

    at_mm: list[float] | None
    """Place in the piece: x, y, z."""

    code: str
    """Kebab-case code; GET /v1/findings lists them."""

    fasteners: list[str]
    """Ids of the fasteners it is about."""

    limit: float | None
    """What it is held against, in `unit`."""

    message: str
    """What was noticed, for people."""

    parts: list[str]
    """Ids of the parts it is about."""

    pointer: str | None
    """JSON Pointer to the member of the request it is about."""

    remedy: str | None
    """What to do about it."""

    severity: Literal["error", "warning", "note"]
    """An error is mended before building, a warning weighed, a note read."""

    source: str | None
    """Where the limit is from, or `practice`."""

    unit: str | None
    """Unit of `value` and `limit`."""

    value: float | None
    """What was found, in `unit`."""


class LeftOver(TypedDict):
    """What is left when the piece is built."""

    lines: list[dict[str, Any]]
    """What it is, line by line."""

    value: str
    """Its worth."""


class Total(TypedDict):
    """The total as bought."""

    amount: str
    """The total."""

    lower_bound: bool
    """True where something has no price, so that it will cost more."""

    text: str
    """The total for people."""


class CostingAnswer(TypedDict):
    """What to buy and what it costs."""

    as_bought: CostSum
    """What has to be paid, in whole packs."""

    as_used: CostSum
    """What ends up in the piece or in the sawdust."""

    currency: str
    """Currency of every amount."""

    findings: list[Finding]
    """What was noticed, errors first."""

    left_over: LeftOver
    """What is left."""

    lines: list[CostLine]
    """The lines."""

    summary: list[str]
    """At most seven lines for people."""

    total: Total

    unknown: list[dict[str, Any]]
    """What has no price, by name."""


class Labour(TypedDict):
    """Hours of work."""

    hours: float
    """How many hours."""

    rate: NotRequired[str | None]
    """Price of an hour; left out, the work is listed as unknown."""

    taxed: NotRequired[bool]
    """Whether sales tax is due on it."""

    what: NotRequired[str]
    """What the work is called."""


class MarkUp(TypedDict):
    """Something added as a share of everything before it."""

    percent: float
    """How much is added."""

    what: str
    """What it is called, such as `overhead`."""


class Price(TypedDict):
    """What one pack costs, for one line or for every line of a kind."""

    id: NotRequired[str | None]
    """Id of the take-off line; either this or `kind`."""

    kind: NotRequired[Literal["sheet", "board", "screw", "glue", "finish", "cushion", "hardware", "other"] | None]
    """The kind of line; a price for a line's id rules over it."""

    pack: NotRequired[float | None]
    """How much is in a pack, in `unit`; null where any quantity can be bought."""

    price: str
    """Price of a pack."""

    taxed: NotRequired[bool]
    """Whether sales tax is due on it."""

    unit: NotRequired[Literal["piece", "sheet", "board", "pair", "set", "roll", "lot", "mm", "m", "in", "ft", "m2", "ft2", "bf", "m3", "mL", "L", "fl oz", "qt", "gal", "g", "kg", "oz", "lb"] | None]
    """Unit of `pack`; the line's own where it is left out."""


class PricesFromList(TypedDict):
    """The prices of a shop, by the name of its list."""

    also: NotRequired[list[Price] | None]
    """The caller's own prices, which rule over those of the list."""

    list: str
    """Id of a list of GET /v1/price-lists."""


class TakeOffLine(TypedDict):
    """One thing the job takes."""

    estimate: NotRequired[str | None]
    """Why the quantity is an estimate, where it is one."""

    id: str
    """The caller's name for it; prices refer to it."""

    kind: Literal["sheet", "board", "screw", "glue", "finish", "cushion", "hardware", "other"]
    """What sort of thing it is; prices and waste may be given for a kind."""

    on_hand: NotRequired[float]
    """How much is there already, in `unit`."""

    quantity: float
    """How much is needed, in `unit`."""

    unit: NotRequired[Literal["piece", "sheet", "board", "pair", "set", "roll", "lot", "mm", "m", "in", "ft", "m2", "ft2", "bf", "m3", "mL", "L", "fl oz", "qt", "gal", "g", "kg", "oz", "lb"]]
    """What it is counted or measured in."""

    used: NotRequired[float | None]
    """How much of it is used up, where that is less than `quantity`."""

    what: NotRequired[str | None]
    """What it is, for people; the id where it is left out."""


class Tax(TypedDict):
    """Sales tax."""

    included: NotRequired[bool]
    """True where the prices hold it already: then it is shown and not added."""

    percent: NotRequired[float]
    """Tax on what is taxed."""


Yield = TypedDict(
    "Yield",
    {
        "yield": float,
    },
)
"""Waste as the usable part of what is bought."""


class Waste(TypedDict):
    """How much more than the net quantity is used up, by kind."""

    board: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    cushion: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    finish: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    glue: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    hardware: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    other: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    screw: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""

    sheet: NotRequired[float | Yield | None]
    """Percent added to the need, or `{yield}`, the usable percent."""


class CostingRequest(TypedDict):
    """A take-off and what is known of prices, work, tax and waste."""

    currency: NotRequired[str]
    """Currency of every price of the request, as an ISO 4217 code."""

    labour: NotRequired[Labour | None]
    """The work."""

    mark_ups: NotRequired[list[MarkUp] | None]
    """Overhead, profit and the like, one after the other."""

    prices: NotRequired[list[Price] | PricesFromList | None]
    """What packs cost, or `{list, also}` to name a shop's price list; what has no price comes back as unknown."""

    take_off: list[TakeOffLine]
    """Everything to buy."""

    tax: NotRequired[Tax | None]
    """Sales tax."""

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""

    waste: NotRequired[Waste | None]
    """How much more than the net quantity is used up, by kind."""


class Countersink(TypedDict):
    """The cone for a flat head."""

    angle_degrees: float
    """Its full angle."""

    depth_mm: float
    """Its depth."""

    diameter_mm: float
    """Its width at the surface."""

    source: str
    """Where the figures are from."""

    status: Literal["read", "derived", "memory"]
    """How well they are known; one from `memory` decides nothing."""


class CutAt(TypedDict):
    """One cut of one layout."""

    cut: int
    """Number of the cut in it."""

    layout: int
    """Number of the layout, from 1."""


class SawSetting(TypedDict):
    """One end or edge that is cut at an angle."""

    bevel_deg: float
    """Bevel from an upright blade."""

    mitre_deg: float
    """Mitre from a square crosscut."""

    side: str
    """Which end or edge."""

    text: str
    """The setting for people, with its rise over run."""


class CutListRow(TypedDict):
    """Alike parts: cut from one setting."""

    closing: bool
    """True when it is cut to fit the work."""

    grain: str
    """Where the grain runs relative to the length."""

    hand: str
    """`left` or `right` for handed parts, else empty."""

    id: str
    """Id of the first of them."""

    ids: list[str]
    """Ids of all of them."""

    length_mm: float
    """Length of the blank, to the long points."""

    length_text: str
    """Length as read on the tape, with the rounding error."""

    long_point_mm: float
    """Length at the long point."""

    material: str
    """Id of the material."""

    name: str
    """What it is called."""

    operations: list[str]
    """What else is cut or bored, in words."""

    quantity: int
    """How many there are."""

    role: str
    """The module's word for what it is made of."""

    rounding_length_mm: float
    """What rounding the length to the tape adds or takes."""

    rounding_width_mm: float
    """What rounding the width to the tape adds or takes."""

    saw_settings: list[SawSetting]
    """Ends and edges cut at an angle."""

    seal: list[str]
    """Ends and edges to seal."""

    short_point_mm: float
    """Length at the short point."""

    shows: str
    """Which face shows."""

    thickness_mm: float
    """Thickness."""

    twin: str | None
    """Id of the part of the other hand."""

    waits_for: str | None
    """What must be measured before it is cut."""

    width_mm: float
    """Width of the blank."""

    width_text: str
    """Width as read on the tape, with the rounding error."""


LengthOrZero: TypeAlias = float | str


class Defect(TypedDict):
    """A stretch of a board that no part may touch: a knot, a split, a stain."""

    end: Length
    """Where it ends."""

    start: LengthOrZero
    """Where it begins, from the board's start."""


class Demand(TypedDict):
    """What one fastener is asked to carry."""

    count: int
    """How many share the load."""

    lateral_n: float
    """Across it."""

    withdrawal_n: float
    """Pulling out."""


Diameter: TypeAlias = float | str


FastenerLength: TypeAlias = float | str


class DrivenFastener(TypedDict):
    """What is driven in, by its trade size; the maker's own figures rule over the table's."""

    bending_yield: NotRequired[float | None]
    """The maker's bending yield strength; for `nds`."""

    declared_density: NotRequired[float | None]
    """Density that the maker's parameters are declared for; 350 kg/m3 where it is left out."""

    design_lateral_n: NotRequired[float | None]
    """For kind `other`: the maker's design value of one pushed sideways."""

    design_withdrawal_n: NotRequired[float | None]
    """For kind `other`: the maker's design value of one pulled out, in this wood and for this duration."""

    diameter: NotRequired[Diameter | None]
    """Diameter of a lag screw, nail, bolt or dowel, of the wire of a staple."""

    gauge: NotRequired[int | None]
    """Gauge number of a wood screw; or give its `diameter` and `root_diameter`."""

    head_diameter: NotRequired[Diameter | None]
    """The maker's head diameter."""

    head_parameter: NotRequired[float | None]
    """
    The maker's characteristic parameter of the head being pulled through (EN 14592), with `head_diameter`; for
    `eurocode5`.
    """

    kind: NotRequired[Literal["wood screw", "lag screw", "nail", "staple", "bolt", "dowel", "other"]]
    """
    What it is; a `dowel` is glued and sits half in each of two parts, each leg of a `staple` counts as a nail of
    its wire. Pocket screws, one-piece connector screws and the like have no published values: give them as `other`
    with the maker's own.
    """

    length: NotRequired[FastenerLength | None]
    """Length from under the head to the point."""

    name: NotRequired[str | None]
    """What a fastener of kind `other` is called."""

    pennyweight: NotRequired[Literal["6d", "8d", "10d", "12d", "16d", "20d"] | None]
    """Size of a nail; then it needs neither diameter nor length, and a length given rules."""

    root_diameter: NotRequired[Diameter | None]
    """The maker's root diameter."""

    style: NotRequired[Literal["common", "box", "sinker"]]
    """Style of a nail."""

    tensile_strength: NotRequired[float | None]
    """The maker's tensile strength of the wire; for `eurocode5`."""

    thread_length: NotRequired[FastenerLength | None]
    """The maker's length of thread."""

    withdrawal_parameter: NotRequired[float | None]
    """The maker's characteristic withdrawal parameter (EN 14592); for `eurocode5`."""

    yield_moment: NotRequired[float | None]
    """The maker's characteristic yield moment; for `eurocode5`."""


class FitPlacedChain(TypedDict):
    """Where a dimension chain begins and ends, and the chain it is derived from."""

    axis: list[float]
    """Unit direction it runs along."""

    closing: str
    """Label of the link that takes up the rounding."""

    from_mm: float
    """Where it begins along that direction."""

    name: str
    """What it measures."""

    ruled_by: str | None
    """The chain that rules it: the first stated over its span, or one whose links it runs along."""

    to_mm: float
    """Where it ends."""

    total_mm: float
    """Its sum."""


class FitRoundedPart(TypedDict):
    """A part cut to the nearest mark that meets others at both ends: a gap that comes from rounding alone."""

    error_mm: float
    """How much longer it is cut than derived."""

    joints: list[str]
    """Ids of the joints at its ends."""

    part: str
    """Id of the part."""


class FitTakenUp(TypedDict):
    """What the closing part of a chain takes up."""

    chain: str
    """Name of the chain."""

    closing: str
    """Label of its closing link."""

    takes_up_mm: float
    """How much longer it is fitted than derived."""


class FitRounding(TypedDict):
    """What comes of cutting to the marks of a tape, and of nothing else."""

    closing: list[FitTakenUp]
    """What the closing part of each chain takes up."""

    gaps: list[FitRoundedPart]
    """Gaps wholly due to rounding."""

    limit_mm: float
    """Joints that are glued or seen are warned of above this."""

    tape: str
    """The step of the tape."""


class FitFingerGap(TypedDict):
    """A gap that takes a finger and may not let it go."""

    at: float
    """Where on the way that is."""

    beside: str
    """What it passes."""

    gap_mm: float
    """How far apart they are at the nearest."""

    part: str
    """Id of the part that moves."""


class FitWeight(TypedDict):
    """How what swings about a level hinge line weighs on it."""

    hold_nm: float
    """Greatest torque towards shut on the way: what its stays must hold together."""

    mass_kg: float
    """Mass of all that moves, cushions left out."""

    open_nm: float
    """Torque when open; above 0 where its weight pulls it further open."""

    past_upright_deg: float
    """How far past upright it stands."""


class FitSwept(TypedDict):
    """What a motion meets on its way from shut to open."""

    at_mm: list[float] | None
    """Where it meets it: x, y, z."""

    clashes_with: list[str]
    """What it meets: ids of parts, or `wall`; empty where it opens freely."""

    depth_mm: float
    """About how deep it would go in."""

    finger_gaps: list[FitFingerGap]
    """Gaps on its way that take a finger and may hold it."""

    free: float
    """How far it goes before it meets something: degrees or millimetres."""

    held_by: str
    """What holds it open, as told."""

    high_mm: list[float]
    """Greatest corner of that room."""

    kind: Literal["swing", "slide"]
    """How it moves."""

    leans_on: str
    """What it leans on when it stands open past upright and nothing holds it."""

    least_gap_mm: float | None
    """Least gap to anything on its way; null where it meets something, or all is over 12 mm off."""

    low_mm: list[float]
    """Least corner of the room it takes on its way."""

    motion: str
    """Id of the motion."""

    parts: list[str]
    """Ids of all parts that move: those named and what is fixed to them."""

    tolerance_mm: float
    """A clash deeper than the fit and this is found for certain; 0 where the way is computed exactly."""

    travel: float
    """How far it was asked to go."""

    weight: FitWeight | None
    """Its weight on a level hinge line; null for doors and slides."""


class DryFitAnswer(TypedDict):
    """Whether it goes together."""

    alike: list[dict[str, Any]]
    """Groups of parts that are alike."""

    balance: dict[str, Any] | None
    """Mass, centre of gravity and how far it may lean, mm, kg, deg."""

    chains: list[FitPlacedChain]
    """Where each dimension chain begins and ends, and what rules it."""

    contacts: list[dict[str, Any]]
    """How joints meet, mm."""

    findings: list[Finding]
    """What was noticed, errors first."""

    glue_ups: list[dict[str, Any]] | None
    """Glue-ups within open time; null without glue."""

    motions: list[FitSwept]
    """What each motion meets: those of the assembly, then those asked for beside it."""

    order: dict[str, Any] | None
    """An order of assembly; null where there is none."""

    rounding: FitRounding | None
    """What comes of cutting to the tape; null where none was named."""

    screws: list[dict[str, Any]]
    """What each screw passes, mm."""

    summary: list[str]
    """At most seven lines for people."""

    work: list[dict[str, Any]]
    """The order of work."""


class FitLink(TypedDict):
    """One link of a dimension chain."""

    label: str
    """What it is."""

    size_mm: float
    """How long it is."""


class FitChain(TypedDict):
    """A dimension chain."""

    closing: str
    """Label of the link that takes up the rounding."""

    links: list[FitLink]
    """Its links."""

    name: str
    """What it measures."""

    total_mm: float
    """Its sum."""


class FitCushion(TypedDict):
    """A cushion where it lies."""

    assumed: bool
    """True until it has been measured."""

    depth_mm: float
    """Depth."""

    id: str
    """Id of the cushion."""

    kind: Literal["seat", "back"]
    """What it is."""

    loaded_mm: float
    """Thickness with somebody on it."""

    origin_mm: list[float]
    """Its least corner."""

    stopped_by: str
    """What keeps it from sliding."""

    thickness_mm: float
    """Thickness."""

    width_mm: float
    """Width."""


class FitFastener(TypedDict):
    """A fastener in its place."""

    diameter_mm: float
    """Diameter."""

    direction: list[float]
    """Unit direction from head to point."""

    gauge: int
    """Gauge number; 0 where it has none."""

    head_depth_mm: NotRequired[float]
    """How deep its head is sunk."""

    head_mm: list[float]
    """Where its head sits."""

    id: str
    """Id of the fastener."""

    joint: str
    """Id of the joint it belongs to."""

    kind: Literal["wood screw", "nail", "dowel", "bolt"]
    """What it is."""

    length_mm: float
    """Length."""

    parts: list[str]
    """Ids of the parts it passes, the head's first."""

    role: Literal["holds", "clamps", "locates"]
    """What it is there for."""


class FitHardware(TypedDict):
    """What else it takes."""

    quantity: int
    """How many."""

    says: NotRequired[str | None]
    """What to look for."""

    what: str
    """What it is."""


class FitJoint(TypedDict):
    """Where parts meet."""

    clearance_mm: NotRequired[float]
    """Gap that is meant to be there."""

    glued: NotRequired[bool]
    """Whether it is glued."""

    id: str
    """Id of the joint."""

    kind: Literal["glue", "screws", "nails", "dowels", "folded-mitre", "housed", "bolted", "hinged", "sliding", "loose", "clipped"]
    """How they are joined."""

    parts: list[str]
    """Ids of the parts."""

    shows: NotRequired[bool]
    """Whether the joint is seen."""


class FitLoad(TypedDict):
    """What parts carry in use."""

    amount: NotRequired[float | None]
    """How much, in `unit`."""

    kind: Literal["sitter", "leaning", "arm", "books", "library shelf", "other shelf", "mass"]
    """What the load is."""

    parts: list[str]
    """Ids of the parts that carry it."""

    unit: NotRequired[str | None]
    """Unit of the amount."""


class FitMaterial(TypedDict):
    """What a role is made of."""

    assumed: NotRequired[bool]
    """True until it has been measured."""

    board_width_mm: NotRequired[float | None]
    """Width of the board."""

    density_kg_m3: NotRequired[float | None]
    """Density; the table's where it is left out."""

    has_grain: NotRequired[bool]
    """Whether the direction matters when cutting."""

    least_mm: NotRequired[float | None]
    """Least thickness."""

    material: str
    """Id of the material."""

    most_mm: NotRequired[float | None]
    """Greatest thickness."""

    stock_kind: NotRequired[Literal["sheet", "board"]]
    """What it is cut from."""

    thickness_mm: float
    """Thickness."""


class FitMoves(TypedDict):
    """Something that moves when the piece is used: a lid or a door that swings, a drawer that slides."""

    axis: list[float]
    """Unit direction of the hinge line (the swing is right-handed about it) or of the slide."""

    cushions: NotRequired[list[str] | None]
    """Ids of the cushions that are fixed to it and move with it."""

    held_by: NotRequired[str | None]
    """What keeps it open, such as `a lid stay`."""

    id: str
    """The caller's name for it."""

    kind: Literal["swing", "slide"]
    """How it moves."""

    parts: list[str]
    """Ids of the parts that move together."""

    point_mm: NotRequired[list[float] | None]
    """A point of the hinge line of a swing; the origin where it is left out."""

    travel: float
    """How far it goes from shut to open: degrees of a swing, millimetres of a slide; not 0."""


class FitCut(TypedDict):
    """One cut in the board frame; which members it takes is its kind's affair."""

    at_mm: NotRequired[float | None]
    """Where a saw cut is."""

    bevel_deg: NotRequired[float | None]
    """Bevel of a saw cut."""

    depth_mm: NotRequired[float | None]
    """Depth of a hole; through where absent."""

    diameter_mm: NotRequired[float | None]
    """Diameter of a hole."""

    edge: NotRequired[str | None]
    """Edge that is eased."""

    form: NotRequired[Literal["round-over", "chamfer"] | None]
    """Form of an easing."""

    kind: Literal["saw", "hole", "easing", "curve", "notch", "groove", "rabbet", "dado", "slot"]
    """The shop operation."""

    long_edge: NotRequired[Literal["start", "end", "near", "far"] | None]
    """Edge at which a mitred end is longest."""

    long_face: NotRequired[Literal["back", "face"] | None]
    """Face at which a bevelled end is longest."""

    mitre_deg: NotRequired[float | None]
    """Mitre of a saw cut."""

    purpose: NotRequired[str | None]
    """What a hole is for."""

    rise_mm: NotRequired[float | None]
    """Rise of a curve."""

    side: NotRequired[Literal["start", "end", "near", "far", "back", "face"] | None]
    """The end or edge of a saw cut or curve, the face of a hole."""

    size_mm: NotRequired[float | None]
    """Radius or width of an easing."""

    stopped: NotRequired[bool | None]
    """True for a recess that ends before the edge."""

    x0_mm: NotRequired[float | None]
    """Least x of a recess."""

    x1_mm: NotRequired[float | None]
    """Greatest x of a recess."""

    x_mm: NotRequired[float | None]
    """Middle of a hole along the length."""

    y0_mm: NotRequired[float | None]
    """Least y of a recess."""

    y1_mm: NotRequired[float | None]
    """Greatest y of a recess."""

    y_mm: NotRequired[float | None]
    """Middle of a hole along the width."""

    z0_mm: NotRequired[float | None]
    """Least z of a recess."""

    z1_mm: NotRequired[float | None]
    """Greatest z of a recess."""


class FitFrame(TypedDict):
    """Where a part stands."""

    length: list[float]
    """Unit direction of its length."""

    origin_mm: list[float]
    """The start/near/back corner of the blank."""

    width: list[float]
    """Unit direction of its width."""


class FitPart(TypedDict):
    """One part: its blank, its cuts, and where it stands."""

    closing: NotRequired[bool]
    """True when it is cut to fit the work."""

    cuts: NotRequired[list[FitCut] | None]
    """Its cuts."""

    frame: FitFrame
    """Where it stands."""

    grain: NotRequired[Literal["along", "across", "any"]]
    """Where its grain runs."""

    id: str
    """Id of the part."""

    length_mm: float
    """Length of the blank."""

    name: NotRequired[str | None]
    """What it is called."""

    role: str
    """The role it is made of."""

    seal: NotRequired[list[Literal["start", "end", "near", "far", "back", "face"]] | None]
    """Ends and edges to seal."""

    shows: NotRequired[Literal["face", "both", "neither"]]
    """Which face shows."""

    thickness_mm: float
    """Thickness of the blank."""

    wears: NotRequired[bool]
    """True when it must come out to be renewed."""

    width_mm: float
    """Width of the blank."""


class FitPromise(TypedDict):
    """What is promised of the piece."""

    kind: Literal["touches", "gap", "flush", "size", "clear", "floor"]
    """What is promised."""

    parts: list[str]
    """Ids of the parts."""

    sides: list[Literal["start", "end", "near", "far", "back", "face"] | Literal["x", "y", "z"]]
    """Sides of the parts, or an axis."""

    value_mm: float
    """The size or gap."""


class FitStep(TypedDict):
    """One step of the order of work."""

    fasteners: NotRequired[list[str] | None]
    """Ids of the fasteners that are driven."""

    parts: NotRequired[list[str] | None]
    """Ids of the parts that are put on."""

    text: str
    """What is done."""


class FitAssembly(TypedDict):
    """A piece of furniture in space; what POST /v1/modules/{module}/parts answers as `assembly`."""

    cautions: NotRequired[list[str] | None]
    """What to be careful of."""

    chains: NotRequired[list[FitChain] | None]
    """The dimension chains."""

    cushions: NotRequired[list[FitCushion] | None]
    """The cushions."""

    fasteners: NotRequired[list[FitFastener] | None]
    """The fasteners."""

    hardware: NotRequired[list[FitHardware] | None]
    """What else it takes."""

    hung_by: NotRequired[str | None]
    """What holds the piece on a wall; empty or left out where it stands on the floor."""

    joints: NotRequired[list[FitJoint] | None]
    """The joints."""

    loads: NotRequired[list[FitLoad] | None]
    """What it carries in use."""

    materials: dict[str, Any]
    """What each role is made of."""

    module: NotRequired[str | None]
    """Id of the module it was built by."""

    motions: NotRequired[list[FitMoves] | None]
    """What moves in use: each is carried from shut to open."""

    parts: list[FitPart]
    """The parts."""

    promises: NotRequired[list[FitPromise] | None]
    """What is promised."""

    steps: NotRequired[list[FitStep] | None]
    """The order of work."""

    title: NotRequired[str | None]
    """What it is called."""


class FitClamp(TypedDict):
    """Clamps of one kind."""

    count: int
    """How many there are."""

    id: str
    """The caller's name for them."""

    reach_mm: float
    """Widest opening."""

    throat_mm: float
    """Depth of the throat."""


class FitGlue(TypedDict):
    """The glue, by its label."""

    clamp_minutes: float
    """Under the clamps."""

    id: str
    """The caller's name for it."""

    open_minutes: float
    """From spreading to closing."""


class FitWall(TypedDict):
    """A plane that nothing may pass: a wall, a floor, a neighbouring piece."""

    normal: list[float]
    """Unit direction into the room."""

    offset_mm: float
    """How far it is from the origin along its normal."""


class FitMotion(TypedDict):
    """The same with walls, as a request names them beside the assembly."""

    axis: list[float]
    """Unit direction of the hinge line (the swing is right-handed about it) or of the slide."""

    cushions: NotRequired[list[str] | None]
    """Ids of the cushions that are fixed to it and move with it."""

    held_by: NotRequired[str | None]
    """What keeps it open, such as `a lid stay`."""

    id: str
    """The caller's name for it."""

    kind: Literal["swing", "slide"]
    """How it moves."""

    parts: list[str]
    """Ids of the parts that move together."""

    point_mm: NotRequired[list[float] | None]
    """A point of the hinge line of a swing; the origin where it is left out."""

    travel: float
    """How far it goes from shut to open: degrees of a swing, millimetres of a slide; not 0."""

    walls: NotRequired[list[FitWall] | None]
    """What it must not run into."""


class FitSetLoad(TypedDict):
    """A person or a thing on the piece."""

    at_mm: list[float]
    """Where its weight acts: x, y, z."""

    id: str
    """The caller's name for it."""

    mass_kg: float
    """Its mass."""


class FitBarrel(TypedDict):
    """One round section of a driver, on the axis of the screw."""

    end_mm: float
    """Where it ends."""

    radius_mm: float
    """Half its thickness."""

    start_mm: float
    """Where it begins, behind the screw's head."""


class FitTool(TypedDict):
    """A driver, as measured with a caliper."""

    barrels: list[FitBarrel]
    """Its round sections, from the head backwards."""

    id: str
    """The caller's name for it."""

    title: str
    """What it is called in messages."""


class FitSettings(TypedDict):
    """How strictly it is checked, and with what it is built."""

    cushion_kg_m3: NotRequired[float | None]
    """What the cushions are of; without it their weight is shown and not judged."""

    edge_diameters: NotRequired[float | None]
    """Least distance of a screw's axis from an edge, in diameters of the screw."""

    fit_mm: NotRequired[float | None]
    """
    Parts that share more than this do not fit, a gap within it is touching; 0.05 where it is left out, a computing
    tolerance.
    """

    hands: NotRequired[int | None]
    """How many people build it."""

    loads: NotRequired[list[FitSetLoad] | None]
    """
    Who or what weighs on the piece, and where; a person on every seat cushion where it is left out, nobody for an
    empty list.
    """

    near_mm: NotRequired[float | None]
    """A gap up to this that nobody declared is reported."""

    open_limit_mm: NotRequired[float | None]
    """Widest open joint that passes."""

    person_kg: NotRequired[float | None]
    """Mass of who sits on it."""

    point_clear_mm: NotRequired[float | None]
    """Wood to be left beyond a screw's point."""

    screw_gap_mm: NotRequired[float | None]
    """Wood wanted between two screws."""

    tape: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"] | None]
    """The step parts are cut to: gaps that come from cutting to its marks are found."""

    tip_least_deg: NotRequired[float | None]
    """Least tip angle that passes."""

    tools: NotRequired[list[FitTool] | None]
    """The drivers there are, tried in order; usual ones where they are left out."""


class DryFitRequest(TypedDict):
    """A piece to be put together without glue, in thought. Every length is millimetres."""

    assembly: FitAssembly
    """The piece."""

    clamps: NotRequired[list[FitClamp] | None]
    """The clamps there are."""

    glue: NotRequired[FitGlue | None]
    """The glue; with it glue-ups are planned."""

    motions: NotRequired[list[FitMotion] | None]
    """More that moves in use, with the walls it must not run into."""

    settings: NotRequired[FitSettings | None]
    """How strictly it is checked."""


class ErrorCode(TypedDict):
    """One code of an entry of `errors`."""

    code: str
    """The code."""

    cross_field: bool
    """True when a body that fits its schema can still be refused with this code."""

    meaning: str
    """What it means."""


class Hole(TypedDict):
    """A hole to drill."""

    diameter_mm: float
    """Diameter wanted."""

    drill: str
    """The nearest inch bit."""

    drill_mm: float
    """The nearest metric bit."""

    needed: bool
    """False where it may be left out."""

    source: str
    """Where the figure is from."""

    status: NotRequired[Literal["read", "derived", "memory"] | None]
    """How well the figure is known; one from `memory` decides nothing."""


class LengthWindow(TypedDict):
    """Which lengths would do for the role."""

    empty: bool
    """True when none would."""

    longest_mm: float
    """Longest that stays inside."""

    shortest_mm: float
    """Shortest that bites."""

    stocked: list[dict[str, Any]]
    """Lengths as sold within it."""

    take: str | None
    """The one to take."""


Point = TypedDict(
    "Point",
    {
        "at_mm": float,
        "in": str | None,
        "protrusion_mm": float,
        "wood_left_mm": float,
    },
)
"""Where the point ends."""


class ReceiverBite(TypedDict):
    """How far the fastener bites into the last part."""

    diameters: float
    """The bite in diameters of the fastener."""

    mm: float
    """The bite."""

    part: str
    """The last part."""

    thread_mm: float
    """Length of thread in it."""


class FastenerJointAnswer(TypedDict):
    """What a fastener does in its stack."""

    bite: ReceiverBite
    """How far it bites into the last part."""

    capacity: Capacity
    """What one fastener carries."""

    clearance_hole: Hole | None
    """Clearance hole through the upper parts."""

    countersink: Countersink | None
    """The cone for the head; null where none is cut."""

    demand: Demand

    fastener: str
    """The fastener in words."""

    findings: list[Finding]
    """What was noticed, errors first."""

    governing: str | None
    """What governs."""

    id: str
    """The caller's name for the joint."""

    length_window: LengthWindow
    """Which lengths would do."""

    pilot: Hole | None
    """Pilot hole."""

    point: Point

    ratio: float | None
    """Demand over capacity."""

    role: str
    """Its role."""

    stack: list[Bite]
    """The parts along the fastener."""

    ultimate_withdrawal_n: float | None
    """At what pull tests found such a fastener to come out, as a mean: no value to design with."""


class FastenerAnswer(TypedDict):
    """The joints, each with what was found."""

    cautions: list[str]
    """What the figures are not."""

    joints: list[FastenerJointAnswer]
    """The joints in the order given."""

    method: str
    """The design method."""


class Layer(TypedDict):
    """One part that the fastener passes or ends in."""

    characteristic_density: NotRequired[float | None]
    """Own characteristic density in place of that of the table's strength class; for `eurocode5`."""

    grain: NotRequired[Literal["side", "face", "edge", "end"]]
    """
    What the fastener enters: the `side` grain of solid wood, the `face` or `edge` of a panel, or the `end` grain.
    """

    material: str
    """
    Id of a material, of GET /v1/tables/materials; a wood that is not there by any name, with its own
    `specific_gravity` or `characteristic_density`.
    """

    part: NotRequired[str | None]
    """The caller's name for the part."""

    specific_gravity: NotRequired[float | None]
    """Own value in place of the table's, on oven-dry volume; for `nds`."""

    thickness: AnyThickness
    """
    Thickness along the fastener. One length, a list of caliper readings, or `{status, least, most}`. Of a range the
    point is checked against the thinnest stack and the bite against the least there may be.
    """


class Loads(TypedDict):
    """What pulls on the whole joint."""

    lateral_n: NotRequired[float]
    """Across the fasteners."""

    withdrawal_n: NotRequired[float]
    """Along the fasteners, pulling out."""


class FastenerJoint(TypedDict):
    """A stack of parts and the fasteners through it."""

    count: NotRequired[int]
    """How many alike share the load."""

    duration: NotRequired[Literal["permanent", "long", "medium", "short", "instantaneous"]]
    """
    How long the full load stands in all: `long` is ten years, `medium` two months, `short` seven days,
    `instantaneous` ten minutes.
    """

    edge_distance: NotRequired[Length | None]
    """From the fastener to the nearest edge."""

    end_distance: NotRequired[Length | None]
    """From the fastener to the nearest end."""

    fastener: DrivenFastener
    """The fastener."""

    head_depth: NotRequired[LengthOrZero | None]
    """How deep the head is sunk below the surface."""

    id: str
    """The caller's name for the joint."""

    layers: list[Layer]
    """The parts from the head to the point."""

    load_angle: NotRequired[float]
    """Angle of the lateral load to the grain."""

    loads: NotRequired[Loads | None]
    """What pulls on the joint."""

    pilot: NotRequired[bool | None]
    """Whether a pilot hole is drilled."""

    role: NotRequired[Literal["holds", "clamps", "locates"]]
    """`holds` carries the load, `clamps` pulls up a glued joint, `locates` keeps in place."""

    service: NotRequired[Literal["dry", "wet"]]
    """Whether the wood gets wet in use."""

    spacing: NotRequired[Length | None]
    """From one fastener to the next."""

    toe: NotRequired[bool]
    """True when it is driven at a slant."""


class FastenerRequest(TypedDict):
    """Joints to be checked."""

    joints: list[FastenerJoint]
    """The joints."""

    method: NotRequired[Literal["nds", "eurocode5"]]
    """
    The design method: `nds`, by the ANSI/AWC NDS (allowable values), or `eurocode5`, by EN 1995-1-1 (design
    values). Dowels have no design values in either; they are held against published tests.
    """

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""


FaultEntry = TypedDict(
    "FaultEntry",
    {
        "code": str,
        "detail": str,
        "in": NotRequired[Literal["query", "path", "header"] | None],
        "name": NotRequired[str | None],
        "pointer": NotRequired[str | None],
    },
)
"""One fault of a request."""


class FigureParameter(TypedDict):
    """One query value of a figure."""

    choices: list[str]
    """The words it takes, where it is a choice."""

    default: str | None
    """Its default; null where it must be given."""

    default_in: str | None
    """Its default where `units` is `in`; null where it must be given."""

    kind: str
    """`length`, `angle`, `count`, `number` or `choice`."""

    least: float
    """Least value, in mm, degrees or 1."""

    most: float
    """Greatest value, in mm, degrees or 1."""

    name: str
    """Its name in the query."""

    sentence: str
    """What it is."""


class FigureEntry(TypedDict):
    """One figure that can be asked for."""

    name: str
    """Its name in the address."""

    parameters: list[FigureParameter]
    """Its query values."""

    sentence: str
    """What it answers."""


class FigureList(TypedDict):
    """The figures that can be asked for."""

    figures: list[FigureEntry]
    """The figures."""


class FigureRow(TypedDict):
    """One line of a figure's table."""

    text: str
    """The value for people."""

    unit: str
    """Its unit; empty for a count."""

    value: float
    """The value, in `unit`."""

    what: str
    """What the value is."""


class FigureValue(TypedDict):
    """A figure: one value and the short table behind it."""

    name: str
    """Name of the figure."""

    note: str
    """What was assumed."""

    proven: bool
    """False where a better value may exist."""

    rows: list[FigureRow]
    """The value and what goes with it."""

    text: str
    """The answer for people."""

    unit: str
    """Its unit; empty for a count."""

    value: float
    """The value, in `unit`."""


class Finish(TypedDict):
    """What the surface is coated with: a kind of finish, or a finish system of a plugin."""

    coats: NotRequired[int | None]
    """How many coats; the usual number where it is left out."""

    kind: NotRequired[Literal["semitransparent stain", "paint", "water repellent preservative", "varnish or polyurethane", "oil"] | None]
    """What it is; either this or `system`."""

    system: NotRequired[str | None]
    """Id of a finish system, of GET /v1/finish-systems."""


class FinishSchedule(TypedDict):
    """When the coats of a finish system go on."""

    area_m2: float
    """All surfaces of all parts, edges too."""

    care_months: int
    """How often to look after it."""

    coats: list[Coat]
    """The coats in order."""

    exposures: list[str]
    """Where it may stand."""

    in_use_after_h: float
    """From the first coat to use."""

    kind: str
    """The kind of finish it is."""

    litres: float
    """What it takes at its least coverage."""

    source: str
    """Where its figures are from."""

    system: str
    """Id of the finish system."""

    title: str
    """What it is called."""


class FinishSystemEntry(TypedDict):
    """What is put on a surface, by the label of the can."""

    care_months: int
    """How often to look after it."""

    coats: int
    """How many coats."""

    exposures: list[str]
    """Where it may stand."""

    id: str
    """Its name in a request."""

    kind: str
    """The kind of finish it is."""

    least_m2_per_l: float
    """Least that a litre covers in one coat."""

    most_m2_per_l: float
    """Most that a litre covers in one coat."""

    plugin: str
    """The plugin it comes from."""

    ready_h: float
    """From the last coat to use."""

    recoat_h: float
    """From one coat to the next."""

    says: str
    """What it is, in a sentence."""

    source: str
    """Where its figures are from."""

    title: str
    """What it is called."""


class FinishSystems(TypedDict):
    """The finish systems of all plugins."""

    finish_systems: list[FinishSystemEntry]
    """The systems, sorted by id."""


class FitAtHeight(TypedDict):
    """A wall run at one height against what stands along it."""

    height: str
    """floor, seat or back."""

    measured: bool
    """False where the least of the other heights stands for one not measured."""

    run_mm: float
    """The run as measured there."""

    set_mm: float
    """What the set takes there, its gaps included."""

    slack_least_mm: float
    """Left over with the thickest stock sold."""

    slack_most_mm: float
    """Left over with the thinnest stock sold."""


class FloorReading(TypedDict):
    """One reading of the floor below a level line."""

    below: LengthOrZero
    """From the level line down to the floor."""

    x: LengthOrZero
    """Along the first wall from its left end."""

    y: LengthOrZero
    """Out from the first wall."""


class Floor(TypedDict):
    """How the floor falls: so much in a metre towards a side, or readings below one level line."""

    fall: NotRequired[float | None]
    """Fall of the floor."""

    readings: NotRequired[list[FloorReading] | None]
    """Readings at three points or more."""

    towards: NotRequired[Literal["back", "front", "left", "right"] | None]
    """Where it falls to, as one faces the first wall; `back` is that wall."""


class Glue(TypedDict):
    """The glue, by its label."""

    clamp_min: NotRequired[float | None]
    """Under the clamps."""

    kind: Literal["PVA", "cross-linking PVA", "polyurethane", "epoxy", "resorcinol"]
    """What it is."""

    open_min: NotRequired[float | None]
    """From spreading to closing the joint."""


Kerf: TypeAlias = float | str


class LabelGrid(TypedDict):
    """A sheet of labels by its numbers, in millimetres of paper whatever `units` says."""

    across: NotRequired[int]
    """Labels beside each other."""

    down: NotRequired[int]
    """Labels under each other."""

    gap_x: NotRequired[float]
    """Between labels beside each other."""

    gap_y: NotRequired[float]
    """Between labels under each other."""

    height: NotRequired[float]
    """Height of a label."""

    left: NotRequired[float]
    """From the left edge to the first label."""

    top: NotRequired[float]
    """From the top edge to the first label."""

    width: NotRequired[float]
    """Width of a label."""


class LargestGap(TypedDict):
    """The widest gap behind the set."""

    along_mm: float
    """How far along the wall from its left end."""

    gap_mm: float
    """How wide, square to the wall."""

    module: str
    """Behind which piece."""

    wall: str
    """At which wall."""


class Placement(TypedDict):
    """One piece on a sheet or board."""

    end_bevel: NotRequired[float | None]
    """The same of its other end."""

    end_for_end: NotRequired[bool | None]
    """True where it lies turned half round on its face, its own end nearer the board's start."""

    end_slope: NotRequired[float | None]
    """The same of its other end."""

    face_down: NotRequired[bool | None]
    """True where its show side lies down."""

    far_mm: NotRequired[list[float] | None]
    """The same on the far edge."""

    length_mm: float
    """The part's own length."""

    near_mm: NotRequired[list[float] | None]
    """Where its ends cross the near edge of the board's upper face."""

    part: str
    """Id of the part."""

    start_bevel: NotRequired[float | None]
    """The blade's tilt at its end nearer the board's start."""

    start_slope: NotRequired[float | None]
    """Slope of its end nearer the board's start as it lies; absent where both are square."""

    turned: NotRequired[bool | None]
    """True where the part's length lies along y; absent on boards."""

    width_mm: NotRequired[float | None]
    """The part's own width; absent on boards."""

    x_mm: float
    """Along the stock's length, from the corner of the untrimmed sheet."""

    y_mm: float
    """Along the stock's width; 0 on boards."""


class Layout(TypedDict):
    """How one sheet or board is cut, and how many are cut alike."""

    against: NotRequired[list[int]]
    """Numbers of the cuts whose saws would have it the other way: score or tape those lines first."""

    count: int
    """How many are cut so."""

    cuts: list[dict[str, Any]]
    """The cuts in an order that a saw can follow."""

    face_up: NotRequired[str | None]
    """Which face lies up for the saw."""

    length_mm: float
    """Length of the stock."""

    mirrored: NotRequired[bool]
    """True where the sheet is turned over, so that y is seen from the far edge."""

    offcuts: list[dict[str, Any]]
    """What is left and worth keeping."""

    placements: list[Placement]
    """The pieces."""

    runs: NotRequired[int | None]
    """How often its cuts are made for all of them."""

    saw: NotRequired[str | None]
    """Id of the saw that decides how the sheet lies."""

    stack: NotRequired[int]
    """How many are cut on top of each other."""

    stock: str
    """Id of the stock."""

    tilts: NotRequired[str | None]
    """The side its blade tilts to."""

    width_mm: float | None
    """Width of the stock; null of a board."""


class LeastOffcut(TypedDict):
    """What is worth keeping."""

    length: Length
    """Least length."""

    width: Length
    """Least width."""


class Liveness(TypedDict):
    """The service runs."""

    live: Literal[True]
    """Always true."""


class Material(TypedDict):
    """A material that is in no table, described by the caller."""

    density_kg_m3: float
    """Density at about 12 % moisture content."""

    grain: NotRequired[bool]
    """Whether the direction matters when cutting."""

    id: str
    """The caller's name for it."""

    kind: NotRequired[Literal["panel", "softwood", "hardwood"]]
    """What sort of material it is."""

    specific_gravity: NotRequired[float | None]
    """On oven-dry volume; fasteners are checked with it."""


class ModuleRole(TypedDict):
    """A module's own word for what some parts are made of, with its default."""

    least_mm: float
    """Least thickness that a shop may sell."""

    material: str
    """Id of the default material."""

    most_mm: float
    """Greatest thickness that a shop may sell."""

    says: str
    """What is made of it."""

    stock_kind: str
    """`sheet` or `board`."""

    thickness_mm: float
    """Default thickness, assumed until measured."""

    width_mm: float | None
    """Width of a board as bought."""


class ModuleAnswer(TypedDict):
    """One kind of furniture with its roles and parameters."""

    family: str
    """The family it belongs to."""

    id: str
    """Its name in the address."""

    parameters: dict[str, Any]
    """JSON Schema of the parameters; members marked `x-quantity: length` give mm."""

    plugin: str
    """The plugin it comes from."""

    roles: dict[str, ModuleRole]
    """The module's own words for what it is made of."""

    sentence: str
    """What it is, in one sentence."""

    sources: list[str]
    """Where its default sizes come from."""

    title: str
    """What it is called."""

    when_not: str
    """When not to build it."""


class ModuleEntry(TypedDict):
    """One kind of furniture."""

    family: str
    """The family it belongs to."""

    id: str
    """Its name in the address."""

    plugin: str
    """The plugin it comes from."""

    sentence: str
    """What it is, in one sentence."""

    title: str
    """What it is called."""


class ModuleList(TypedDict):
    """The kinds of furniture."""

    modules: list[ModuleEntry]
    """The modules, sorted by id."""


class Remainder(TypedDict):
    """The largest rectangle left that is worth keeping."""

    length_mm: float
    """Along the stock's length."""

    width_mm: float | None
    """Along its width; null of a board."""


class NestingPlan(TypedDict):
    """One way to cut it all, measured from its cuts."""

    chosen: bool
    """True of the plan whose layouts are the answer's."""

    cost: str | None
    """Price of its stock; null where a price is missing."""

    cuts: int
    """How many cuts it takes."""

    distinct_layouts: int
    """How many different layouts it has."""

    layouts: NotRequired[list[dict[str, Any]] | None]
    """Where its pieces lie, to pin them; absent of the plan that is chosen."""

    name: str
    """`cheapest` or `easier to cut`; one plan can be both."""

    remainder: Remainder | None
    """The largest remainder worth keeping; null where there is none."""

    settings: int
    """How often a saw is set."""

    summary: str
    """What it costs and takes, in a sentence."""


class SawSetup(TypedDict):
    """One setting of one saw and all cuts made with it before it is touched again."""

    bevel_deg: NotRequired[float]
    """How far its blade is tilted."""

    cuts: list[CutAt]
    """The cuts, in the order they are made."""

    kind: str
    """`rip` or `crosscut`."""

    method: str
    """How the saw is set: `fence`, `stop`, `guide` or `line`."""

    mitre_deg: NotRequired[float]
    """How far it cuts off square across the face."""

    saw: str | None
    """Id of the saw; null where no saws were given."""

    setting_mm: float
    """What it is set to."""


class Unplaced(TypedDict):
    """A part that could not be placed."""

    excess_mm: NotRequired[list[float] | None]
    """By how much the part exceeds it, along its length and width."""

    nearest_stock: NotRequired[str | None]
    """Id of the stock that comes nearest."""

    part: str
    """Id of the part."""

    quantity: int
    """How many of it are missing."""

    reason: str
    """Why."""


class NestingAnswer(TypedDict):
    """How the parts are cut, what it costs, and the least it could cost."""

    bound: str | None
    """No cutting can cost less."""

    cost: str | None
    """Price of the stock used; null where a price is missing."""

    currency: str
    """Currency of the amounts."""

    cuts: int
    """How many cuts it takes."""

    findings: list[Finding]
    """What was noticed, errors first."""

    gap: float
    """How far the answer may be from the least, as a part of it."""

    layouts: list[Layout]
    """The layouts."""

    offcuts: list[dict[str, Any]]
    """Everything left that is worth keeping."""

    plans: NotRequired[list[NestingPlan]]
    """The plan that was chosen and those it was chosen from, by their names."""

    proven_minimal: bool
    """True when nothing can be cheaper."""

    seed: int
    """Seed of the search."""

    settings: list[SawSetup]
    """The cuts gathered by saw and setting, in the order of work."""

    stopped_by: str
    """Why the search ended: `proof`, `effort` or `time`."""

    two_stage_bound: str | None
    """
    No plan cut in two stages (strips, then pieces across them, each trimmed where narrower) can cost less; a plan
    with more stages may. Null where it was not worked out: a price is missing, the answer is proved without it or
    leaves parts out, or the job is too large for its effort.
    """

    unplaced: list[Unplaced]
    """What could not be placed; empty when everything is."""

    work: int
    """Work done."""


class NestingObjective(TypedDict):
    """What a plan is chosen by, once nothing more can be placed."""

    least_offcut: NotRequired[LeastOffcut | None]
    """Least size of a remainder worth keeping; 300 by 100 mm where it is left out."""

    order: NotRequired[list[Literal["money", "remainder", "settings", "cuts", "layouts"]] | None]
    """
    The aims, first one first: `money`, the largest `remainder`, the fewest saw `settings`, the fewest `cuts`, the
    fewest different `layouts`. That is the order where it is left out; an aim that does not stand here does not
    count.
    """

    worth: NotRequired[float | None]
    """
    Costs within so many percent of the cheapest found count as equal; 2 where it is left out, an assumption. 0 asks
    for the cheapest.
    """


class NestingPart(TypedDict):
    """A kind of part to be cut."""

    end_bevel: NotRequired[float]
    """The same of its end."""

    end_slope: NotRequired[float]
    """The same of its end."""

    far_bevel: NotRequired[float]
    """The same of its far edge."""

    grain: NotRequired[Literal["along", "across", "any"]]
    """Where the part's grain runs, relative to its length."""

    group: NotRequired[str | None]
    """Parts of one group come from one sheet or board."""

    id: str
    """The caller's name for it."""

    length: Length
    """Length of the piece."""

    material: NotRequired[str | None]
    """Id of a material: of GET /v1/tables/materials or of the request's `materials`."""

    near_bevel: NotRequired[float]
    """How far its near edge is off square through the thickness; of parts from sheets."""

    one_face: NotRequired[bool]
    """True where only one face may show, so that it is not cut lying on it."""

    oversize: NotRequired[Allowance | None]
    """Added to length and width when cutting, for jointing."""

    quantity: NotRequired[int]
    """How many are needed."""

    start_bevel: NotRequired[float]
    """How far its start is off square through the thickness."""

    start_slope: NotRequired[float]
    """
    How far its start is off square on the wide face of a board, seen with the length to the right; above 0 leans to
    the end with the width. Like slopes at both ends make a parallelogram. A part with a `width` of its own is cut
    from a square blank.
    """

    stock: NotRequired[str | None]
    """Id of the stock it must come from."""

    thickness: NotRequired[AnyThickness | None]
    """One length, a list of caliper readings, or `{status, least, most}`."""

    width: NotRequired[Length | None]
    """Width of the piece; without it the part is cut from boards."""


class TrimEdges(TypedDict):
    """What is cut off each edge of a sheet before it is used."""

    end: NotRequired[LengthOrZero | None]
    """Off the end of the length."""

    far: NotRequired[LengthOrZero | None]
    """Off the far long edge."""

    near: NotRequired[LengthOrZero | None]
    """Off the near long edge."""

    start: NotRequired[LengthOrZero | None]
    """Off the start of the length."""


class NestingSaw(TypedDict):
    """How the shop cuts."""

    cutting_error: NotRequired[Allowance | None]
    """How far a cut may be off; 0.5 mm where it is left out."""

    first_cut: NotRequired[Literal["along", "across", "either"]]
    """Which way the first cuts of a sheet run, relative to its length."""

    kerf: Kerf
    """Width of the blade's cut."""

    stages: NotRequired[int | None]
    """How often a piece may be turned between cuts; null for any."""

    trim: NotRequired[LengthOrZero | TrimEdges | None]
    """What is cut off every edge of a sheet, or off each; 0 for sheets whose edges you trust."""


class Papers(TypedDict):
    """How drawings and papers are made; without effect on JSON and CSV."""

    also: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"] | None]
    """A second step, written in brackets behind the first."""

    as_built: NotRequired[str | None]
    """What was built, and where it departs from the plan."""

    author: NotRequired[str | None]
    """Who answers for the plan."""

    date: NotRequired[str | None]
    """Date of the plan; written as 2026-05-01 it also dates the care."""

    labels: NotRequired[LabelGrid | None]
    """The grid of the label sheet."""

    licence: NotRequired[str | None]
    """On what terms others may use the plan."""

    paper: NotRequired[Literal["letter", "a4"]]
    """Size of the paper."""

    stamp: NotRequired[Literal["computed", "checked", "built"]]
    """What the plan may claim; `built` needs a record in `as_built`."""

    tape: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"] | None]
    """The step sizes are written in; without it the request's `tape`."""

    version: NotRequired[str | None]
    """Version of the plan, for its cover and the foot of every page."""


class PinnedPlacement(TypedDict):
    """Where one piece of a pinned layout lies, as an answer gives it; always in mm."""

    end_bevel: NotRequired[Any]
    """As an answer gives it; not read."""

    end_for_end: NotRequired[bool | None]
    """Of a board: turned half round on its face."""

    end_slope: NotRequired[Any]
    """As an answer gives it; not read."""

    face_down: NotRequired[bool | None]
    """Of a board: its show side down."""

    far_mm: NotRequired[Any]
    """As an answer gives it; not read."""

    length_mm: NotRequired[float | None]
    """If given, it must be the part's own."""

    near_mm: NotRequired[Any]
    """As an answer gives it; not read."""

    part: str
    """Id of the part."""

    start_bevel: NotRequired[Any]
    """As an answer gives it; not read."""

    start_slope: NotRequired[Any]
    """As an answer gives it; not read."""

    turned: NotRequired[bool | None]
    """True where the part's length lies along y."""

    width_mm: NotRequired[float | None]
    """If given, it must be the part's own."""

    x_mm: float
    """Along the stock's length, from the untrimmed corner."""

    y_mm: NotRequired[float]
    """Along the stock's width; 0 on boards."""


class PinnedLayout(TypedDict):
    """A layout that is kept as it is: an entry of `layouts` of an earlier answer, or its first three members."""

    against: NotRequired[Any]
    """As an answer gives it; not read."""

    count: NotRequired[int]
    """How many sheets or boards are cut so."""

    cuts: NotRequired[Any]
    """As an answer gives it; not read."""

    face_up: NotRequired[Any]
    """As an answer gives it; not read."""

    length_mm: NotRequired[Any]
    """As an answer gives it; not read."""

    mirrored: NotRequired[Any]
    """As an answer gives it; not read."""

    offcuts: NotRequired[Any]
    """As an answer gives it; not read."""

    placements: list[PinnedPlacement]
    """The pieces."""

    runs: NotRequired[Any]
    """As an answer gives it; not read."""

    saw: NotRequired[Any]
    """As an answer gives it; not read."""

    stack: NotRequired[Any]
    """As an answer gives it; not read."""

    stock: str
    """Id of the stock."""

    tilts: NotRequired[Any]
    """As an answer gives it; not read."""

    width_mm: NotRequired[Any]
    """As an answer gives it; not read."""


SawKerf: TypeAlias = float | str


SawLength: TypeAlias = float | str


class ShopSaw(TypedDict):
    """A saw of the shop and what it can do; what is left out is taken as usual for its kind."""

    bevel_limit: NotRequired[float | None]
    """Farthest the blade tilts."""

    crosscut: NotRequired[SawLength | None]
    """Widest board it cuts square across."""

    crosscut_45: NotRequired[SawLength | None]
    """Widest board it cuts across at 45 degrees."""

    depth: NotRequired[SawLength | None]
    """Depth of cut with the blade upright."""

    depth_45: NotRequired[SawLength | None]
    """Depth of cut with the blade at 45 degrees."""

    diameter: NotRequired[SawLength | None]
    """Diameter of its round blade, for where stopped cuts end."""

    error: NotRequired[SawKerf | None]
    """How far a cut may be off in place."""

    guide: NotRequired[SawLength | None]
    """Longest cut along its guide."""

    id: str
    """The caller's name for it."""

    kerf: NotRequired[SawKerf | None]
    """Width of its cut."""

    kind: Literal["table saw", "mitre saw", "track saw", "circular saw", "band saw", "jigsaw", "hand saw", "panel saw"]
    """What sort of saw it is; `panel saw` is the seller's."""

    least_piece: NotRequired[SawLength | None]
    """Shortest piece that can be held safely."""

    least_width: NotRequired[SawLength | None]
    """Narrowest piece that can be held safely."""

    mitre_limit: NotRequired[float | None]
    """Farthest it cuts across at an angle."""

    most_cuts: NotRequired[int | None]
    """How many cuts it makes; for the seller's saw."""

    rip: NotRequired[SawLength | None]
    """Widest strip between blade and fence."""

    setting_error: NotRequired[float | None]
    """How far an angle set on it may be off."""

    tilts: NotRequired[Literal["left", "right"] | None]
    """The side the blade tilts to."""

    trim: NotRequired[LengthOrZero | TrimEdges | None]
    """What is cut off every edge of a sheet, or off each; 0 for sheets whose edges you trust."""


class Stack(TypedDict):
    """Sheets of one layout cut on top of each other, as many as both members and the saws allow."""

    sheets: NotRequired[int | None]
    """Most sheets in one stack."""

    thickness: NotRequired[Length | None]
    """Most thickness in all."""


class Stock(TypedDict):
    """Something that can be bought or is on hand: a sheet, a board, an offcut."""

    board_width: NotRequired[Length | None]
    """Width of a board as sold, to tell boards apart; sloped ends share cuts only where it is known."""

    defects: NotRequired[list[Defect] | None]
    """What no part may touch; of boards only."""

    id: str
    """The caller's name for it."""

    length: Length
    """Length; the stock's grain runs along it."""

    material: NotRequired[str | None]
    """Id of a material: of GET /v1/tables/materials or of the request's `materials`."""

    offcut: NotRequired[bool]
    """True for stock that is on hand already."""

    price: NotRequired[str | None]
    """Price of one; of an offcut its book value."""

    quantity: NotRequired[int | None]
    """How many there are; null for as many as needed."""

    thickness: NotRequired[AnyThickness | None]
    """One length, a list of caliper readings, or `{status, least, most}`."""

    width: NotRequired[Length | None]
    """Width; without it the stock is a board, cut to length only."""


class StockFromList(TypedDict):
    """What a shop sells, by the name of its list."""

    also: NotRequired[list[Stock] | None]
    """What there is besides, such as offcuts; an entry rules over one of the list with its id."""

    list: str
    """Id of a list of GET /v1/stock-lists."""


class NestingRequest(TypedDict):
    """Parts to be cut from stock."""

    carry_kg: NotRequired[float]
    """
    What one person lifts; heavier pieces are cut on the floor or by two. 23 kg at best is the load constant of the
    NIOSH lifting equation.
    """

    currency: NotRequired[str]
    """Currency of every price of the request, as an ISO 4217 code."""

    effort: NotRequired[Literal["quick", "normal", "thorough"] | int]
    """How long to search, in work units or as a preset; `normal` is worth about one second of one core."""

    hands: NotRequired[int]
    """How many people cut together."""

    layouts: NotRequired[list[PinnedLayout] | None]
    """Layouts that are kept as they are, such as sheets already cut; the rest is nested round them."""

    objective: NotRequired[NestingObjective | None]
    """What a plan is chosen by."""

    papers: NotRequired[Papers | None]
    """How drawings and papers are made."""

    parts: list[NestingPart]
    """The parts."""

    saw: NotRequired[NestingSaw | None]
    """The saw; without it a kerf of 3.2 mm and no trim."""

    saws: NotRequired[list[ShopSaw] | None]
    """The saws there are; with them every cut names its saw and setting."""

    seed: NotRequired[int]
    """Seed of the search: another seed may find another answer."""

    stack: NotRequired[Stack | None]
    """Cut alike sheets in stacks; without it each by itself."""

    stock: list[Stock] | StockFromList
    """What they may be cut from, or `{list, also}` to name a shop's stock list."""

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""


class Overall(TypedDict):
    """Overall sizes of a piece."""

    depth_mm: float
    """Depth, front to back."""

    depth_text: str
    """Depth as read on the tape."""

    height_mm: float
    """Height."""

    height_text: str
    """Height as read on the tape."""

    width_mm: float
    """Width."""

    width_text: str
    """Width as read on the tape."""


class PartsAnswer(TypedDict):
    """A piece of furniture: its parts, how they go together, and what was noticed."""

    assembly: Assembly
    """The piece in space; what POST /v1/dry-fits will read."""

    cautions: list[str]
    """What to be careful of."""

    centre_mm: list[float]
    """Centre of gravity: x, y, z."""

    chains: list[Chain]
    """The dimension chains."""

    checks: NotRequired[list[CheckRow]]
    """What was checked for strength, standing, people and weather, worst first."""

    fasteners: list[Fastener]
    """What is driven or bored in."""

    findings: list[Finding]
    """What was noticed, errors first."""

    glue_ups: NotRequired[list[dict[str, Any]]]
    """Glue-ups within open time; empty without the glue of a project."""

    joints: list[Joint]
    """Where parts meet and how."""

    mass_kg: float
    """Mass without cushions."""

    module: str
    """Id of the module."""

    motions: NotRequired[list[FitSwept]]
    """What lids, doors and drawers meet on their way from shut to open."""

    overall: Overall
    """Overall sizes."""

    parameters: dict[str, Any]
    """The parameters it was built with, lengths in mm."""

    parts: list[CutListRow]
    """The cut list: alike parts in one row."""

    steps: list[dict[str, Any]]
    """The order of work."""

    summary: list[str]
    """At most seven lines for people."""

    work: NotRequired[list[dict[str, Any]]]
    """The order of work again, with how the piece lies and is held at each step."""


class RoleMaterial(TypedDict):
    """What a role of a module is made of."""

    material: NotRequired[str | None]
    """Id of a material: of GET /v1/tables/materials or of the request's `materials`."""

    thickness: NotRequired[AnyThickness | None]
    """One length, a list of caliper readings, or `{status, least, most}`."""

    width: NotRequired[Length | None]
    """Width of the board as bought, for a role cut from boards."""


class PartsRequest(TypedDict):
    """One piece of furniture to be worked out."""

    described: NotRequired[list[Material] | None]
    """Materials that are in no table."""

    dry_fit: NotRequired[FitSettings | None]
    """
    How strictly it is put together and with which drivers; the tape and the hands of the request stand where they
    are left out. `open_limit_mm` is what rounding to the tape may open at a glued or visible joint.
    """

    materials: NotRequired[dict[str, Any] | None]
    """What each role of the module is made of; a role that is left out is made of the module's default."""

    papers: NotRequired[Papers | None]
    """How drawings and papers are made."""

    parameters: NotRequired[dict[str, Any] | None]
    """
    The module's own parameters; its schema stands at GET /v1/modules/{module}. Lengths as everywhere; what is left
    out takes its default.
    """

    tape: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]]
    """The step lengths are shown in: what the tape at the bench is read to."""

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""


class Person(TypedDict):
    """Somebody who will use the furniture."""

    child: NotRequired[bool]
    """A small child: openings, lids and boxes are checked for it, seats are not fitted to it."""

    elbow: NotRequired[BodySize | None]
    """Elbow above the seat, sitting."""

    hip: NotRequired[BodySize | None]
    """Width across the hips, sitting."""

    id: str
    """The caller's name for them."""

    knee: NotRequired[BodySize | None]
    """Top of the knee above the floor, sitting, barefoot."""

    knee_back_height: NotRequired[BodySize | None]
    """Back of the knee above the floor, barefoot."""

    mass: NotRequired[float | None]
    """Mass."""

    seat_depth: NotRequired[BodySize | None]
    """Back of the knee to the back of the seat, sitting."""

    thigh: NotRequired[BodySize | None]
    """Thickness of the thigh above the seat, sitting."""


class Stand(TypedDict):
    """Where one piece stands: against a wall in the order of the list, in a corner, or free at x and y."""

    corner: NotRequired[bool]
    """It stands in the corner at the right end of that wall, its left side against the wall."""

    gap: NotRequired[LengthOrZero | None]
    """Left free between it and what is left of it; 0 without."""

    module: str
    """Id of a module of the request; once for each piece of its quantity."""

    off: NotRequired[LengthOrZero | None]
    """How far its back stands off the wall; 0 without."""

    turn: NotRequired[float | None]
    """Free in the room: clockwise from above; 0 has its back to the first wall."""

    wall: NotRequired[str | None]
    """Id of the wall its back is against; the list goes from left to right."""

    x: NotRequired[LengthOrZero | None]
    """Free in the room: its front left corner, along the first wall from that wall's left end."""

    y: NotRequired[LengthOrZero | None]
    """Free in the room: its front left corner, out from the first wall."""


class RoomDoor(TypedDict):
    """A door in a wall, by its hinge and its leaf."""

    at: LengthOrZero
    """Its hinge, from the left end of the wall."""

    hinge: NotRequired[Literal["left", "right"]]
    """Side of the opening the hinge is on, facing the wall."""

    id: str
    """The caller's name for it."""

    opens: NotRequired[Literal["in", "out"]]
    """Into this room, or out of it."""

    width: Length
    """Width of its leaf."""


class Skirting(TypedDict):
    """A skirting board along a wall."""

    depth: Length
    """How far it stands out from the wall."""

    height: Length
    """Height above the floor."""


class Socket(TypedDict):
    """A socket or a switch on a wall."""

    at: LengthOrZero
    """Its middle, from the left end of the wall."""

    height: LengthOrZero
    """Its middle above the floor."""

    id: str
    """The caller's name for it."""


class Window(TypedDict):
    """A window in a wall."""

    at: LengthOrZero
    """Its left edge, from the left end of the wall."""

    id: str
    """The caller's name for it."""

    sill: Length
    """Height of its sill above the floor."""

    width: Length
    """Its width."""


class Wall(TypedDict):
    """A wall run, measured at three heights; the least rules. Walls go round the room from left to right."""

    back: NotRequired[Length | None]
    """Its length at the height of a back."""

    corner: NotRequired[CornerMeasured | None]
    """The corner at its right end, to the next wall; taken as square where it was not measured."""

    doors: NotRequired[list[RoomDoor] | None]
    """Doors in it."""

    floor: NotRequired[Length | None]
    """Its length at the floor, above any skirting at its ends."""

    id: str
    """The caller's name for it."""

    seat: NotRequired[Length | None]
    """Its length at seat height."""

    skirting: NotRequired[Skirting | None]
    """Its skirting, where it has one."""

    sockets: NotRequired[list[Socket] | None]
    """Sockets and switches on it."""

    windows: NotRequired[list[Window] | None]
    """Windows in it."""


class WayIn(TypedDict):
    """One narrow place on the way in, by its clear size."""

    height: Length
    """Clear height; on stairs square to their slope."""

    id: str
    """The caller's name for it."""

    kind: NotRequired[Literal["door", "gate", "passage", "stairs", "hatch", "lift"]]
    """What it is."""

    length: NotRequired[Length | None]
    """Clear depth of a lift; what goes in must fit inside."""

    turn: NotRequired[Length | None]
    """Clear width of the passage or landing behind it, where one turns a square corner at once."""

    width: Length
    """Clear width."""


class Place(TypedDict):
    """Where the furniture stands."""

    ceiling: NotRequired[Length | None]
    """Clear height up to the ceiling or roof."""

    depth: NotRequired[Length | None]
    """Depth of the place."""

    door_height: NotRequired[Length | None]
    """Clear height of that door."""

    door_width: NotRequired[Length | None]
    """Clear width of the narrowest door on the way in."""

    exposure: NotRequired[Literal["indoors", "damp", "covered outdoors", "outdoors"]]
    """What the weather does to it."""

    floor: NotRequired[Floor | None]
    """How the floor falls."""

    scribe: NotRequired[LengthOrZero | None]
    """Scribe gap wanted at the end of a run; 6 mm without."""

    stands: NotRequired[list[Stand] | None]
    """Where each piece stands."""

    use: NotRequired[Literal["home", "public"]]
    """Who sits there: a household, or the public, for whom seats are checked with heavier loads."""

    walkway: NotRequired[Length | None]
    """Least width to keep free in front of the pieces; a published figure without."""

    walls: NotRequired[list[Wall] | None]
    """The walls, from left to right."""

    way_in: NotRequired[list[WayIn] | None]
    """The narrow places on the way in."""

    width: NotRequired[Length | None]
    """Width of the place, along the back wall."""


class PlaceJoint(TypedDict):
    """A joint between two neighbours, made where they stand."""

    apart_mm: float
    """How far the holes of a pair lie apart at most."""

    between: list[str]
    """The two modules, left one first."""

    bolt: str | None
    """What to buy for each, as on the list."""

    bolts: int
    """How many."""

    heights_mm: list[float]
    """Heights of the holes above the floor."""

    parts: list[str]
    """The parts the bolts go through."""

    stack_mm: float
    """Wood the bolts go through."""


class PlacedPiece(TypedDict):
    """A piece where it stands."""

    clear_in_front_mm: float | None
    """To what stands in front of it; null where nothing known does."""

    copy_number: int
    """Which of its copies, from 1."""

    corner: bool
    """Whether it stands in the corner at the left end of that wall."""

    mass_kg: float
    """What is carried in, without cushions."""

    module: str
    """The caller's name for the module."""

    off_wall_mm: float | None
    """Largest distance of its back from the wall."""

    opened_mm: list[list[float]] | None
    """What its open lid, doors and drawers cover besides."""

    outline_mm: list[list[float]]
    """Its outline from above, with its lean."""

    raise_feet_mm: list[float] | None
    """How far its feet come up to be level: front left, front right, back right, back left."""

    turn_deg: float
    """Clockwise from above; 0 has its back to the first wall."""

    wall: str | None
    """The wall its back is against."""

    x_mm: float
    """Its front left corner, along the first wall."""

    y_mm: float
    """Its front left corner, out from the first wall."""


class PlacedDoor(TypedDict):
    """A door of the room and the quarter its leaf sweeps."""

    id: str
    """The caller's name for it."""

    opens: str
    """in or out."""

    swept_mm: list[list[float]]
    """Hinge, leaf shut, leaf open. x along the first wall from its left end, y out from it."""


class PlacedWall(TypedDict):
    """A wall on the floor plan."""

    corner_deg: float | None
    """The corner at its right end."""

    doors: list[PlacedDoor]
    """The doors in it."""

    fits: list[FitAtHeight]
    """The set along it, at each height that was measured."""

    from_mm: list[float]
    """Its left end as one faces it. x along the first wall from its left end, y out from it."""

    id: str
    """The caller's name for it."""

    to_mm: list[float]
    """Its right end."""

    turn_deg: float
    """Clockwise from the first wall."""


class PlaceAnswer(TypedDict):
    """The set in its place."""

    joints: list[PlaceJoint]
    """The joints between neighbours."""

    largest_gap: LargestGap | None
    """The widest gap behind the set."""

    pieces: list[PlacedPiece]
    """The pieces that were given a place."""

    steps: list[str]
    """The work at the place, in order."""

    walls: list[PlacedWall]
    """The walls."""


class PlannedModule(TypedDict):
    """One module of the set, worked out."""

    assembly: Assembly
    """The piece in space; what POST /v1/dry-fits will read."""

    cautions: list[str]
    """What to be careful of."""

    centre_mm: list[float]
    """Centre of gravity: x, y, z."""

    chains: list[Chain]
    """The dimension chains."""

    checks: NotRequired[list[CheckRow]]
    """What was checked for strength, standing, people and weather, worst first."""

    fasteners: list[Fastener]
    """What is driven or bored in."""

    findings: list[Finding]
    """What was noticed, errors first."""

    glue_ups: NotRequired[list[dict[str, Any]]]
    """Glue-ups within open time; empty without the glue of a project."""

    id: str
    """The caller's name for it."""

    joints: list[Joint]
    """Where parts meet and how."""

    mass_kg: float
    """Mass without cushions."""

    module: str
    """Id of the module."""

    motions: NotRequired[list[FitSwept]]
    """What lids, doors and drawers meet on their way from shut to open."""

    overall: Overall
    """Overall sizes."""

    parameters: dict[str, Any]
    """The parameters it was built with, lengths in mm."""

    parts: list[CutListRow]
    """The cut list: alike parts in one row."""

    quantity: int
    """How many are made."""

    steps: list[dict[str, Any]]
    """The order of work."""

    summary: list[str]
    """At most seven lines for people."""

    work: NotRequired[list[dict[str, Any]]]
    """The order of work again, with how the piece lies and is held at each step."""


class StopMark(TypedDict):
    """One cut that does not run through the part, and where its blade stops."""

    length_mm: float
    """How far the cut goes."""

    line_at_mm: float
    """How far the line lies from it."""

    line_from: str
    """The end or edge that the line of the cut is measured from."""

    overrun_mm: float | None
    """How much farther a round blade cuts in the face against table or base."""

    saw: str | None
    """Id of the saw; null where nothing is sawn in from an edge."""

    seen_mm: float | None
    """How long the kerf that is seen gets."""

    starts_at: str
    """The end or edge the blade comes in from; `inside` where it does not."""

    text: str
    """What to do."""


class PlannedRow(TypedDict):
    """One row of the cut list of the whole set."""

    closing: bool
    """True when it is cut to fit the work."""

    grain: str
    """Where the grain runs relative to the length."""

    hand: str
    """`left` or `right` for handed parts, else empty."""

    id: str
    """Id of the first of them."""

    ids: list[str]
    """Ids of all of them."""

    length_mm: float
    """Length of the blank, to the long points."""

    length_text: str
    """Length as read on the tape, with the rounding error."""

    long_point_mm: float
    """Length at the long point."""

    lot: str
    """What it is cut from: material and thickness."""

    material: str
    """Id of the material."""

    module: str
    """The caller's name for the module it belongs to."""

    name: str
    """What it is called."""

    operations: list[str]
    """What else is cut or bored, in words."""

    quantity: int
    """How many there are."""

    role: str
    """The module's word for what it is made of."""

    rounding_length_mm: float
    """What rounding the length to the tape adds or takes."""

    rounding_width_mm: float
    """What rounding the width to the tape adds or takes."""

    saw_settings: list[SawSetting]
    """Ends and edges cut at an angle."""

    seal: list[str]
    """Ends and edges to seal."""

    short_point_mm: float
    """Length at the short point."""

    shows: str
    """Which face shows."""

    stop_marks: NotRequired[list[StopMark]]
    """Where its stopped cuts end."""

    thickness_mm: float
    """Thickness."""

    twin: str | None
    """Id of the part of the other hand."""

    waits_for: str | None
    """What must be measured before it is cut."""

    width_mm: float
    """Width of the blank."""

    width_text: str
    """Width as read on the tape, with the rounding error."""


class PluginWarning(TypedDict):
    """Something about a plugin that is loaded all the same."""

    code: str
    """`interface-deprecated` or `no-manifest`."""

    message: str
    """What it is, for people."""

    until: str | None
    """Last day on which a release still takes the plugin as it is."""


class PluginEntry(TypedDict):
    """One plugin."""

    distribution: str
    """The distribution it is installed with."""

    hooks: list[str]
    """The hooks it implements."""

    interface: int | None
    """The interface version it speaks."""

    manifest: dict[str, Any] | None
    """What it says of itself, known without loading it; null where it has no manifest."""

    modules: list[str]
    """Ids of the modules it gives."""

    name: str
    """Its name."""

    offers: dict[str, list[str]]
    """Ids of the other things it gives, by sort."""

    reason: str | None
    """Why it is not loaded."""

    source: str
    """Where it was found: `entry point`, `folder` or `list`."""

    status: str
    """`loaded`, `failed` or `left-out`."""

    version: str
    """Version of the distribution."""

    warnings: list[PluginWarning]
    """What its users should know although it is loaded."""


class PluginExporter(TypedDict):
    """A form of an answer that a plugin writes."""

    format: str
    """The word for `?format=`."""

    kinds: list[str]
    """What it is written of: `parts`, `project`."""

    media_type: str
    """What Accept asks for."""

    plugin: str
    """The plugin it comes from."""

    title: str
    """What it is."""


class Plugins(TypedDict):
    """The plugins that were found."""

    codes: list[Code]
    """The finding codes of plugins' checks."""

    exporters: list[PluginExporter]
    """The forms of an answer that plugins add."""

    interface: int
    """The interface version that the service speaks."""

    interfaces: list[int]
    """The interface versions that it takes, the current one first."""

    plugins: list[PluginEntry]
    """The plugins, loaded and not."""


class PriceListEntry(TypedDict):
    """The prices of one shop."""

    currency: str
    """Currency of its prices."""

    id: str
    """Its name in a request."""

    plugin: str
    """The plugin it comes from."""

    prices: list[dict[str, Any]]
    """The prices, as members of `prices` of a request."""

    says: str
    """What it is, in a sentence."""

    title: str
    """What it is called."""


class PriceLists(TypedDict):
    """The price lists of all plugins."""

    price_lists: list[PriceListEntry]
    """The lists, sorted by id."""


class Problem(TypedDict):
    """A problem document (RFC 9457)."""

    available: NotRequired[list[str] | None]
    """Media types the answer comes in (406)."""

    detail: str
    """What happened this time, for people."""

    errors: NotRequired[list[FaultEntry] | None]
    """One entry for each fault, where there are any."""

    instance: str
    """Names this occurrence."""

    request_id: str
    """Id of the request, as in the X-Request-ID header and in the log."""

    retry_after: NotRequired[int | None]
    """Seconds to wait before asking again (429, 503)."""

    status: int
    """The HTTP status code."""

    title: str
    """What the kind of problem is called."""

    type: str
    """Address of the kind of problem, relative to the service."""


class ProblemKind(TypedDict):
    """One kind of problem."""

    codes: list[ErrorCode]
    """The codes that its `errors` may carry."""

    example: str
    """An example of `detail`."""

    meaning: str
    """What it means."""

    remedy: str
    """What mends it."""

    slug: str
    """Its name in the address."""

    status: int
    """The HTTP status code."""

    title: str
    """What it is called."""

    type: str
    """The `type` of its documents."""


class ProblemKinds(TypedDict):
    """Every kind of problem the service answers with."""

    problems: list[ProblemKind]
    """The kinds, by status."""


class ProjectAnswer(TypedDict):
    """The whole plan."""

    cautions: list[str]
    """What to be careful of."""

    costing: CostingAnswer

    cut_list: list[PlannedRow]
    """The cut list of the whole set."""

    findings: list[Finding]
    """What was noticed, errors first."""

    finishing: NotRequired[FinishSchedule | None]
    """When the coats go on, where a finish system is named."""

    mass_kg: float
    """Mass of the set without cushions."""

    modules: list[PlannedModule]
    """The furniture, piece by piece."""

    name: str
    """What the set is called."""

    nesting: NestingAnswer
    """How it is cut from sheets and boards."""

    place: PlaceAnswer | None
    """The set in its place; null where no piece was given one."""

    summary: list[str]
    """At most seven lines for people: buildable or not, what to buy, cost, what to fix first."""

    tape: str
    """The step lengths are shown in."""


class ProjectModule(TypedDict):
    """One kind of furniture of the set, made once or several times."""

    id: str
    """The caller's name for it."""

    loads: NotRequired[list[FitSetLoad] | None]
    """
    Who or what weighs on this piece and where, in mm from its own left front corner on the floor: whether it tips;
    a person on every seat cushion where it is left out.
    """

    materials: NotRequired[dict[str, Any] | None]
    """What each role of the module is made of; a role that is left out is made of the module's default."""

    module: str
    """Id of the module, of GET /v1/modules."""

    parameters: NotRequired[dict[str, Any] | None]
    """
    The module's own parameters; its schema stands at GET /v1/modules/{module}. Lengths as everywhere; what is left
    out takes its default.
    """

    quantity: NotRequired[int]
    """How many are made."""

    sits: NotRequired[Literal["dining", "sofa", "lounge", "easy to rise from"] | None]
    """How one sits on it; a cushioned seat is a lounge and a bare one a dining seat without it."""


class ScrewBox(TypedDict):
    """Screws that can be bought, by the box."""

    box: NotRequired[int]
    """How many are in a box."""

    gauge: int
    """Gauge number."""

    id: str
    """The caller's name for them."""

    kind: NotRequired[Literal["wood screw"]]
    """What they are."""

    length: Length
    """Length."""

    price: NotRequired[str | None]
    """Price of a box."""


class Tool(TypedDict):
    """Another tool of the shop."""

    id: str
    """The caller's name for it."""

    kind: str
    """What it is, such as `drill`, `router` or `impact-driver`."""


class ProjectRequest(TypedDict):
    """A set of furniture and what is known of the shop, the place and the prices. Only `modules` is required."""

    carry_kg: NotRequired[float]
    """
    What one person lifts; heavier pieces are cut on the floor or by two. 23 kg at best is the load constant of the
    NIOSH lifting equation.
    """

    clamps: NotRequired[list[Clamp] | None]
    """The clamps."""

    currency: NotRequired[str]
    """Currency of every price of the request, as an ISO 4217 code."""

    dry_fit: NotRequired[FitSettings | None]
    """
    How strictly it is put together and with which drivers; the tape and the hands of the request stand where they
    are left out. `open_limit_mm` is what rounding to the tape may open at a glued or visible joint.
    """

    effort: NotRequired[Literal["quick", "normal", "thorough"] | int]
    """How long to search, in work units or as a preset; `normal` is worth about one second of one core."""

    fasteners: NotRequired[list[ScrewBox] | None]
    """Fasteners by the box."""

    finish: NotRequired[Finish | None]
    """The finish; without one none is taken off."""

    glue: NotRequired[Glue | None]
    """The glue."""

    hands: NotRequired[int]
    """How many people build it."""

    labour: NotRequired[Labour | None]
    """The work."""

    layouts: NotRequired[list[PinnedLayout] | None]
    """Layouts of `nesting` that are kept as they are; parts go by their ids there."""

    mark_ups: NotRequired[list[MarkUp] | None]
    """Overhead, profit and the like, one after the other."""

    materials: NotRequired[list[Material] | None]
    """Materials that are in no table."""

    modules: list[ProjectModule]
    """The furniture."""

    moisture: NotRequired[float | None]
    """Moisture content of the boards when they are cut, where it was measured; wet ones shrink later."""

    name: NotRequired[str | None]
    """What the set is called."""

    objective: NotRequired[NestingObjective | None]
    """What the cutting plan is chosen by."""

    papers: NotRequired[Papers | None]
    """How drawings and papers are made."""

    people: NotRequired[list[Person] | None]
    """Who will use it."""

    place: NotRequired[Place | None]
    """Where it stands."""

    prices: NotRequired[list[Price] | PricesFromList | None]
    """What packs cost, or `{list, also}` to name a shop's price list; what has no price comes back as unknown."""

    saws: NotRequired[list[ShopSaw] | None]
    """The saws; kerf and trim come from them."""

    seed: NotRequired[int]
    """Seed of the search: another seed may find another answer."""

    stack: NotRequired[Stack | None]
    """Cut alike sheets in stacks; without it each by itself."""

    stock: NotRequired[list[Stock] | StockFromList | None]
    """Sheets, boards and offcuts, or `{list, also}` to name a shop's stock list."""

    tape: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]]
    """The step lengths are shown in: what the tape at the bench is read to."""

    tax: NotRequired[Tax | None]
    """Sales tax."""

    tools: NotRequired[list[Tool] | None]
    """The other tools."""

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""

    waste: NotRequired[Waste | None]
    """How much more than the net quantity is used up, by kind."""


class RangeBand(TypedDict):
    """What a thickness may be."""

    least: Thickness
    """Least thickness."""

    most: Thickness
    """Greatest thickness."""


class ProofRanges(TypedDict):
    """Over what a module is proved; what is left out takes the band of the role's material and the usual errors."""

    drier: NotRequired[float | None]
    """How much the moisture content may fall."""

    length_error_mm: NotRequired[float | None]
    """How far a length may be off; 0.3 where it is left out."""

    saw_error_deg: NotRequired[float | None]
    """How far an angle set on a saw may be off."""

    square_error_deg: NotRequired[float | None]
    """How far a cut meant to be square may be off; 0.1 where it is left out."""

    thickness: NotRequired[dict[str, Any] | None]
    """Thickness by role."""

    wetter: NotRequired[float | None]
    """How much the moisture content may rise."""


class ProofsAnswer(TypedDict):
    """What opens, closes or fails over the range."""

    failed: list[dict[str, Any]]
    """Combinations at which it does not go together, mm."""

    findings: list[Finding]
    """What was noticed, errors first."""

    length_errors: list[dict[str, Any]]
    """What a length a little off leaves open, mm."""

    module: str
    """Id of the module."""

    ranges: dict[str, Any]
    """The ranges that were tried: mm, degrees, per cent."""

    saw_errors: list[dict[str, Any]]
    """What opens when a saw is set wrong, mm and degrees."""

    seasons: list[dict[str, Any]]
    """What swells and shrinks: gaps, depths in grooves, widths glued up, overall sizes, mm."""

    summary: list[str]
    """At most seven lines for people."""

    variants: int
    """How many combinations were tried."""


class ProofsRequest(TypedDict):
    """One piece of furniture to be proved over a range."""

    described: NotRequired[list[Material] | None]
    """Materials that are in no table."""

    dry_fit: NotRequired[FitSettings | None]
    """
    How strictly it is put together and with which drivers; the tape and the hands of the request stand where they
    are left out. `open_limit_mm` is what rounding to the tape may open at a glued or visible joint.
    """

    materials: NotRequired[dict[str, Any] | None]
    """What each role of the module is made of; a role that is left out is made of the module's default."""

    parameters: NotRequired[dict[str, Any] | None]
    """
    The module's own parameters; its schema stands at GET /v1/modules/{module}. Lengths as everywhere; what is left
    out takes its default.
    """

    ranges: NotRequired[ProofRanges | None]
    """Over what it is proved."""

    tape: NotRequired[Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]]
    """The step lengths are shown in: what the tape at the bench is read to."""

    units: NotRequired[Literal["mm", "in"]]
    """What a bare number means where a length is asked for."""


class Readiness(TypedDict):
    """Whether the service can take work."""

    checks: list[Check]
    """The checks."""

    ready: bool
    """Whether every check holds."""


class StockListEntry(TypedDict):
    """What one shop sells."""

    currency: str | None
    """Currency of its prices; null where it has none."""

    fasteners: list[dict[str, Any]]
    """Screws by the box, as members of `fasteners`; mm."""

    id: str
    """Its name in a request."""

    plugin: str
    """The plugin it comes from."""

    says: str
    """What it is, in a sentence."""

    stock: list[dict[str, Any]]
    """Sheets and boards, as members of `stock` of a request; mm."""

    title: str
    """What it is called."""


class StockLists(TypedDict):
    """The stock lists of all plugins."""

    stock_lists: list[StockListEntry]
    """The lists, sorted by id."""


class TableRow(TypedDict):
    """One row: the table's own columns, and where the figures are from."""

    source: str
    """Title, edition and place the figures are from."""

    status: Literal["read", "derived", "memory"]
    """`read` in the source, `derived` from rows that were, or from `memory`: such a row only informs."""

    unit: str
    """Unit of the row's numbers, or of each column that holds numbers."""


class TableAnswer(TypedDict):
    """A published table."""

    about: str
    """How to read it; may be empty."""

    id: str
    """Its name in the address."""

    rows: list[TableRow]
    """The rows, in the table's own order."""

    title: str
    """What it holds."""

    units: dict[str, str]
    """Unit by column."""


class TableEntry(TypedDict):
    """One published table."""

    about: str
    """How to read it; may be empty."""

    id: str
    """Its name in the address."""

    rows: int
    """How many rows it has."""

    title: str
    """What it holds."""


class Tables(TypedDict):
    """The published tables."""

    tables: list[TableEntry]
    """The tables, sorted by name."""


__all__ = [
    "About",
    "Allowance",
    "AnyThickness",
    "Assembly",
    "AssemblyMaterial",
    "AssemblyPart",
    "Band",
    "Bite",
    "BodySize",
    "Capacity",
    "Chain",
    "Check",
    "CheckRow",
    "Clamp",
    "Coat",
    "Code",
    "Codes",
    "CornerMeasured",
    "CostLine",
    "CostSum",
    "CostingAnswer",
    "CostingRequest",
    "Countersink",
    "CutAt",
    "CutListRow",
    "Defect",
    "Demand",
    "Diameter",
    "DrivenFastener",
    "DryFitAnswer",
    "DryFitRequest",
    "ErrorCode",
    "Fastener",
    "FastenerAnswer",
    "FastenerJoint",
    "FastenerJointAnswer",
    "FastenerLength",
    "FastenerRequest",
    "FaultEntry",
    "FigureEntry",
    "FigureList",
    "FigureParameter",
    "FigureRow",
    "FigureValue",
    "Finding",
    "Finish",
    "FinishSchedule",
    "FinishSystemEntry",
    "FinishSystems",
    "FitAssembly",
    "FitAtHeight",
    "FitBarrel",
    "FitChain",
    "FitClamp",
    "FitCushion",
    "FitCut",
    "FitFastener",
    "FitFingerGap",
    "FitFrame",
    "FitGlue",
    "FitHardware",
    "FitJoint",
    "FitLink",
    "FitLoad",
    "FitMaterial",
    "FitMotion",
    "FitMoves",
    "FitPart",
    "FitPlacedChain",
    "FitPromise",
    "FitRoundedPart",
    "FitRounding",
    "FitSetLoad",
    "FitSettings",
    "FitStep",
    "FitSwept",
    "FitTakenUp",
    "FitTool",
    "FitWall",
    "FitWeight",
    "Floor",
    "FloorReading",
    "Frame",
    "Glue",
    "Hole",
    "Joint",
    "Kerf",
    "LabelGrid",
    "Labour",
    "LargestGap",
    "Layer",
    "Layout",
    "LeastOffcut",
    "LeftOver",
    "Length",
    "LengthOrZero",
    "LengthWindow",
    "Link",
    "Liveness",
    "Loads",
    "MarkUp",
    "Material",
    "ModuleAnswer",
    "ModuleEntry",
    "ModuleList",
    "ModuleRole",
    "NestingAnswer",
    "NestingObjective",
    "NestingPart",
    "NestingPlan",
    "NestingRequest",
    "NestingSaw",
    "Overall",
    "Papers",
    "PartsAnswer",
    "PartsRequest",
    "Person",
    "PinnedLayout",
    "PinnedPlacement",
    "Place",
    "PlaceAnswer",
    "PlaceJoint",
    "PlacedDoor",
    "PlacedPiece",
    "PlacedWall",
    "Placement",
    "PlannedModule",
    "PlannedRow",
    "PluginEntry",
    "PluginExporter",
    "PluginWarning",
    "Plugins",
    "Point",
    "Price",
    "PriceListEntry",
    "PriceLists",
    "PricesFromList",
    "Problem",
    "ProblemKind",
    "ProblemKinds",
    "ProjectAnswer",
    "ProjectModule",
    "ProjectRequest",
    "ProofRanges",
    "ProofsAnswer",
    "ProofsRequest",
    "RangeBand",
    "Readiness",
    "ReceiverBite",
    "Remainder",
    "RoleMaterial",
    "RoomDoor",
    "SawKerf",
    "SawLength",
    "SawSetting",
    "SawSetup",
    "ScrewBox",
    "ShopSaw",
    "Skirting",
    "Socket",
    "Stack",
    "Stand",
    "Stock",
    "StockFromList",
    "StockListEntry",
    "StockLists",
    "StopMark",
    "TableAnswer",
    "TableEntry",
    "TableRow",
    "Tables",
    "TakeOffLine",
    "Tax",
    "Thickness",
    "Tool",
    "Total",
    "TrimEdges",
    "Unplaced",
    "Wall",
    "Waste",
    "WayIn",
    "Window",
    "Yield",
]
