"""What a caller may choose about the papers: sheet, tapes, stamp, label grid."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from scantling.drawing.dimension import Sizes
from scantling.measure import MeasureError, RequestError, RequestProblem, Tape, pointer

from .page import LETTER, PAPERS, Paper

DEFAULT_TAPE = "1/16 in"
Stamp = Literal["computed", "checked", "built"]
STAMPS: tuple[Stamp, ...] = ("computed", "checked", "built")


@dataclass(frozen=True, slots=True)
class LabelGrid:
    """A sheet of labels by its numbers: labels across and down, their size, the margins and the gaps, in mm."""

    across: int = 2
    down: int = 5
    width: float = 90.0
    height: float = 50.0
    left: float = 15.0
    top: float = 14.0
    gap_x: float = 5.0
    gap_y: float = 0.0

    def faults(self, paper: Paper) -> list[str]:
        """Return what does not fit the paper, in words."""
        wide = self.left + self.across * self.width + (self.across - 1) * self.gap_x
        high = self.top + self.down * self.height + (self.down - 1) * self.gap_y
        faults = []
        if wide > paper.width + 0.01:
            faults.append(f"the labels take {wide:.1f} mm across; {paper.name} paper is {paper.width:g} mm wide")
        if high > paper.height + 0.01:
            faults.append(f"the labels take {high:.1f} mm down; {paper.name} paper is {paper.height:g} mm high")
        if self.width < 30 or self.height < 15:
            faults.append(
                f"labels of {self.width:g} × {self.height:g} mm are too small to read; 30 × 15 mm is the least"
            )
        return faults


@dataclass(frozen=True, slots=True)
class Options:
    """How the papers are made. `stamp` is what the plan may claim; `built` needs an as-built record."""

    paper: Paper = LETTER
    sizes: Sizes = field(default_factory=lambda: Sizes(Tape.parse(DEFAULT_TAPE)))
    stamp: Stamp = "computed"
    version: str = ""
    date: str = ""
    author: str = ""
    licence: str = ""
    as_built: str = ""
    labels: LabelGrid = field(default_factory=LabelGrid)


_WORDS = ("version", "date", "author", "licence", "as_built")
_GRID = {"across": int, "down": int} | dict.fromkeys(("width", "height", "left", "top", "gap_x", "gap_y"), float)


def read_options(plain: Mapping[str, Any], tape: str = DEFAULT_TAPE) -> Options:
    """Read the options of a request: `paper`, `tape`, `also`, `stamp`, words for the cover, and `labels`.

    `tape` is taken where the options name none. Raises RequestError that points at every member at fault.
    """
    problems: list[RequestProblem] = []

    def refuse(member: str, detail: str, code: str) -> None:
        problems.append(RequestProblem(pointer("papers", member), detail, code))

    known = {"paper", "tape", "also", "stamp", "labels", *_WORDS}
    for member in plain:
        if member not in known:
            refuse(member, f"{member!r} is not known; accepted: {', '.join(sorted(known))}", "unknown-member")
    paper = PAPERS.get(str(plain.get("paper", "letter")).lower())
    if paper is None:
        refuse("paper", f"{plain['paper']!r} is not offered; accepted: letter, a4", "not-one-of")
    stamp = plain.get("stamp", "computed")
    if stamp not in STAMPS:
        refuse("stamp", f"{stamp!r} is not a stamp; accepted: {', '.join(STAMPS)}", "not-one-of")
    if stamp == "built" and not plain.get("as_built"):
        refuse("as_built", "the stamp 'built' needs a record of what was built, as text in as_built", "record-missing")
    sizes = _sizes(plain, tape, refuse)
    grid = _grid(plain.get("labels") or {}, paper or LETTER, refuse)
    if problems or paper is None:
        raise RequestError(problems)
    words = {name: str(plain.get(name) or "")[:500] for name in _WORDS}
    return Options(paper, sizes, stamp, labels=grid, **words)


def _sizes(plain: Mapping[str, Any], tape: str, refuse: Any) -> Sizes:  # noqa: ANN401 - a function of its caller
    tapes: list[Tape | None] = []
    for member, default in (("tape", tape), ("also", None)):
        text = plain.get(member) or default
        try:
            tapes.append(Tape.parse(text) if text else None)
        except MeasureError as error:
            refuse(member, str(error), "unknown-tape")
            tapes.append(None)
    return Sizes(tapes[0] or Tape.parse(DEFAULT_TAPE), tapes[1])


def _grid(plain: Mapping[str, Any], paper: Paper, refuse: Any) -> LabelGrid:  # noqa: ANN401 - a function of its caller
    values: dict[str, Any] = {}
    for name, value in plain.items():
        kind = _GRID.get(name)
        if kind is None:
            refuse(
                "labels", f"{name!r} is not a number of a label grid; accepted: {', '.join(_GRID)}", "unknown-member"
            )
        elif isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= 1000:
            refuse("labels", f"{name} {value!r} is not a number from 0 to 1000", "not-a-number")
        else:
            values[name] = kind(value)
    grid = LabelGrid(**values)
    if grid.across < 1 or grid.down < 1:
        refuse("labels", "a sheet has at least one label across and one down", "out-of-range")
    for fault in grid.faults(paper):
        refuse("labels", fault, "does-not-fit")
    return grid
