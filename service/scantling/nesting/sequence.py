"""The cuts of a layout as a person makes them: in order, each with its saw, its setting, what is held, what falls off.

The order follows the shop: one long edge trued, all strips ripped from it, then the crosscuts; within that, cuts at
one setting are made one after the other. Every cut runs from edge to edge of the piece held at that time.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from .boards_cuts import OTHER_WAY, board_steps, has_slopes
from .nouns import Job, Layout, Stock
from .saws import Obstacle, SawKind, Saws, good_face
from .sequence_order import in_order
from .sequence_steps import Fall, Held, Step, steps_of

__all__ = ["Cut", "Fall", "Held", "Setup", "cut_sequence", "group_by_setting"]

_MM = 100


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut. Sizes and places in 0.01 mm on the whole sheet or board; `to_plain` gives mm.

    kind: rip (along the stock), crosscut, or trim (truing an edge). `method` says how the saw is set: fence, stop,
    guide or line, at `setting` from the edge against it to the near side of the blade (for an edge that is trued: how
    much comes off, 0 where the blade only shaves it); `saw` is None where no saws were given. `held` is the piece on
    the saw, `falls` what is cut off (None for a shaving) and `rest` what stays. `axis` is the direction across the
    blade, `at` where the kerf begins on it, `mark` the same on a board, from its start. `allowance` above 0 marks a
    break-down cut, that much oversize; the finish cut follows. `after` is the number of the cut that freed the held
    piece, `level` how deep it lies in the tree of cuts. `good_face` says which way the good face lies for this saw.
    `support` says what a piece above the stated weight needs: "second person" or "floor", to lie on; None else.
    A sloped end of a board has the `slope` and `bevel` of its cut in 0.01 degrees, signed as in Piece; `lie` says
    where the board is turned over, or the saw set the other way, for a cut that leans against its setting, and
    `marks` where its kerf begins on the near and the far edge.
    """

    number: int
    kind: str
    axis: str
    at: int
    kerf: int
    travel: int
    saw: str | None
    method: str
    setting: int
    held: Held
    falls: Fall | None
    rest: Fall
    after: int | None = None
    level: int = 0
    good_face: str | None = None
    allowance: int = 0
    finish: bool = False
    mark: int | None = None
    obstacles: tuple[Obstacle, ...] = ()
    by_hand: bool = False
    too_heavy: bool = False
    support: str | None = None
    slope: int = 0
    bevel: int = 0
    lie: str | None = None
    marks: tuple[int, int] | None = None

    @property
    def setup(self) -> tuple[str, str, str, int, int, int, bool]:
        """What has to be set before the cut: alike for cuts that can follow each other without touching the saw."""
        kind = "crosscut" if self.axis == "x" else "rip"
        angles = (abs(self.slope), abs(self.bevel), self.lie == OTHER_WAY)
        return (self.saw or "", self.method, kind, self.setting, *angles)

    def to_plain(self) -> dict[str, object]:
        """Return the cut as JSON members, lengths in mm."""
        return {
            "number": self.number,
            "kind": self.kind,
            "saw": self.saw,
            "method": self.method,
            "setting_mm": self.setting / _MM,
            "mark_mm": None if self.mark is None else self.mark / _MM,
            "axis": self.axis,
            "at_mm": self.at / _MM,
            "length_mm": self.travel / _MM if self.travel else None,  # of a board whose width is not known
            "kerf_mm": self.kerf / _MM,
            "held": self.held.to_plain(),
            "falls": None if self.falls is None else self.falls.to_plain(),
            "rest": self.rest.to_plain(),
            "good_face": self.good_face,
            "allowance_mm": self.allowance / _MM,
            "finish": self.finish,
            "by_hand": self.by_hand,
            "too_heavy": self.too_heavy,
            "support": self.support,
            **self._slope_to_plain(),
        }

    def _slope_to_plain(self) -> dict[str, object]:
        """Return the members of a sloped cut: what is set, and where the long point of the piece it frees lies."""
        if not (self.slope or self.bevel):
            return {}
        frees_start = self.falls is None or self.falls.kind == "waste"
        leans = -1 if frees_start and self.kind == "trim" else 1
        return {
            "mitre_deg": abs(self.slope) / 100,
            "bevel_deg": abs(self.bevel) / 100,
            "long_edge": None if not self.slope else "far" if self.slope * leans > 0 else "near",
            "long_face": None if not self.bevel else "face" if self.bevel * leans > 0 else "back",
            "lie": self.lie or "as it lies",
            "near_mm": None if self.marks is None else self.marks[0] / _MM,
            "far_mm": None if self.marks is None else self.marks[1] / _MM,
        }


@dataclass(frozen=True, slots=True)
class Setup:
    """One setting of one saw and the cuts made with it, as (index of the layout, number of the cut)."""

    saw: str | None
    method: str
    kind: str
    setting: int
    cuts: tuple[tuple[int, int], ...]
    mitre: int = 0
    bevel: int = 0

    def to_plain(self) -> dict[str, object]:
        """Return the setup as JSON members; layouts are counted from 1."""
        return {
            "saw": self.saw,
            "method": self.method,
            "kind": self.kind,
            "setting_mm": self.setting / _MM,
            "mitre_deg": self.mitre / 100,
            "bevel_deg": self.bevel / 100,
            "cuts": [{"layout": layout + 1, "cut": number} for layout, number in self.cuts],
        }


def cut_sequence(
    layout: Layout, job: Job, saws: Saws | None = None, densities: Mapping[str, float] | None = None
) -> tuple[Cut, ...]:
    """Return the cuts of one layout in the order they are made.

    Without saws every cut is listed with its setting but no saw. `densities` gives kg/m³ by material where the job's
    material names are not those of the materials table; a thickness must be known for a weight.
    """
    stock = next(s for s in job.stock if s.id == layout.stock)
    make = board_steps if stock.width is None and has_slopes(layout, job) else steps_of
    steps = make(layout, stock, job, saws, _kg_per_unit(stock, densities or {}))
    cuts = [_cut(step, stock, job) for step in steps]
    order = in_order([(c.setup, c.level, c.kind == "trim", c.after, c.travel) for c in cuts])
    number = {old: new for new, old in enumerate(order, start=1)}
    return _lettered(
        [
            replace(
                cuts[i],
                number=number[i],
                after=None if cuts[i].after is None else number[cuts[i].after or 0],
                support=_support(steps[i], saws),
            )
            for i in order
        ]
    )


def _support(step: Step, saws: Saws | None) -> str | None:
    """Return what keeps one person from lifting the piece of a step alone, where it is above the stated weight."""
    if saws is None or step.choice is None or (step.held.mass_kg or 0.0) <= saws.carry_kg * saws.people:
        return None
    if step.choice.saw.kind is SawKind.PANEL:
        return None  # it is the seller's to handle
    return "second person" if step.choice.too_heavy else "floor"


def group_by_setting(sequences: Sequence[Sequence[Cut]]) -> tuple[Setup, ...]:
    """Return the cuts of all layouts gathered by setting, in an order in which every piece is there when it is cut.

    A setting comes up again only where a piece for it does not exist before.
    """
    flat = [(index, cut) for index, cuts in enumerate(sequences) for cut in cuts]
    place = {(index, cut.number): i for i, (index, cut) in enumerate(flat)}
    order = in_order(
        [
            (c.setup, c.level, c.kind == "trim", None if c.after is None else place[index, c.after], c.travel)
            for index, c in flat
        ]
    )
    gathered: list[tuple[Cut, list[tuple[int, int]]]] = []
    for i in order:
        index, cut = flat[i]
        if not gathered or gathered[-1][0].setup != cut.setup:
            gathered.append((cut, []))
        gathered[-1][1].append((index, cut.number))
    return tuple(
        Setup(cut.saw, cut.method, cut.setup[2], cut.setting, tuple(made), abs(cut.slope), abs(cut.bevel))
        for cut, made in gathered
    )


def _lettered(cuts: list[Cut]) -> tuple[Cut, ...]:
    """Give the pieces in between the letters A, B … in the order in which they come off; the first keeps its name."""
    names = {cuts[0].held.name: cuts[0].held.name} if cuts else {}
    lettered = []
    for cut in cuts:
        falls, rest = (None if f is None else _renamed(f, names) for f in (cut.falls, cut.rest))
        held = replace(cut.held, name=names[cut.held.name])
        lettered.append(replace(cut, held=held, falls=falls, rest=rest or cut.rest))
    return tuple(lettered)


def _renamed(fall: Fall, names: dict[str, str]) -> Fall:
    if fall.kind != "piece" or fall.name is None:
        return fall
    if fall.name not in names:
        names[fall.name] = _letters(len(names) - 1)
    return replace(fall, name=names[fall.name])


def _letters(number: int) -> str:
    """Return A, B … Z, AA, AB … for 0, 1 …"""
    text = ""
    number += 1
    while number:
        number, digit = divmod(number - 1, 26)
        text = chr(ord("A") + digit) + text
    return text


def _cut(step: Step, stock: Stock, job: Job) -> Cut:
    choice = step.choice
    operation = step.operation
    method = ("stop" if stock.width is None else "line") if choice is None else choice.method
    setting = operation.wanted if choice is None else choice.setting
    if step.trims and method != "fence":  # an edge is trued at sight: what comes off is what is set
        method, setting = ("guide" if method == "guide" else "line"), operation.other
    kind = "trim" if step.trims else "rip" if operation.rip else "crosscut"
    return Cut(
        number=0,
        kind=kind,
        axis=step.axis,
        at=step.at,
        kerf=step.kerf,
        travel=operation.travel,
        saw=None if choice is None else choice.saw.id,
        method=method,
        setting=setting,
        held=step.held,
        falls=step.falls,
        rest=step.rest,
        after=step.after,
        level=step.level,
        good_face=None if choice is None else good_face(choice.saw),
        allowance=step.allowance,
        finish=step.finish,
        mark=step.at if stock.width is None else None,
        obstacles=() if choice is None else choice.obstacles,
        by_hand=choice is not None and choice.by_hand,
        too_heavy=choice is not None and choice.too_heavy,
        slope=step.end[0],
        bevel=step.end[1],
        lie=step.lie,
        marks=step.marks,
    )


def _kg_per_unit(stock: Stock, densities: Mapping[str, float]) -> float | None:
    """Return the mass of 0.01 mm × 0.01 mm of a sheet or board in kg, or None where it is not known."""
    width = stock.board_width if stock.width is None else stock.width
    if width is None or stock.thickness is None or stock.material is None:
        return None
    density = densities.get(stock.material)
    if density is None:
        from scantling.tables import materials

        known = materials().get(stock.material)
        density = None if known is None else known.density_kg_m3
    return None if density is None else density * (stock.thickness / 1e5) / 1e10
