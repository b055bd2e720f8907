"""Where the blade stops in the notches, slots and stopped channels of a part, so that no cut runs past its line."""

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.board.cuts import Recess
from scantling.board.part import Part
from scantling.nesting.saws import Saws
from scantling.nesting.stopped_cuts import Stop, run_out_mm, stop_of

_SAME_MM = 0.01


@dataclass(frozen=True, slots=True)
class StopMark:
    """One stopped cut of a part: the side it starts from, where its line lies, and how it is made. Sizes in mm.

    `line_from` is the side the line is measured from and `line_at` how far; `stop` is None where there is nothing to
    saw from an edge, and `words` says what is done instead.
    """

    starts_at: str
    line_from: str
    line_at: float
    length: float
    stop: Stop | None
    words: str

    def to_plain(self) -> dict[str, object]:
        """Return the mark as JSON members."""
        return {
            "starts_at": self.starts_at,
            "line_from": self.line_from,
            "line_at_mm": round(self.line_at, 2),
            "length_mm": round(self.length, 2),
            "saw": None if self.stop is None else self.stop.saw,
            "seen_mm": None if self.stop is None else round(self.stop.seen, 2),
            "overrun_mm": None if self.stop is None else round(self.stop.overrun, 2),
            "text": self.words,
        }


def stop_marks(part: Part, saws: Saws | None) -> tuple[StopMark, ...]:
    """Return the stop marks of a part's notches, slots and stopped channels, in the order of its cuts."""
    marks: list[StopMark] = []
    for cut in part.cuts:
        if not isinstance(cut, Recess):
            continue
        through = cut.z0 <= _SAME_MM and cut.z1 >= part.thickness - _SAME_MM
        if through:
            marks.extend(_through(cut, part, saws))
        elif cut.stopped:
            marks.extend(_channel(cut, part, saws))
    return tuple(marks)


def _through(cut: Recess, part: Part, saws: Saws | None) -> Iterator[StopMark]:
    """Yield the sides of a notch, each sawn in from the edge it opens at; a slot inside is begun in bored holes."""
    length, width, _ = part.size
    opens = {
        "start": cut.x0 <= _SAME_MM,
        "end": cut.x1 >= length - _SAME_MM,
        "near": cut.y0 <= _SAME_MM,
        "far": cut.y1 >= width - _SAME_MM,
    }
    sides = {  # a side of the notch: (where its line is measured from, how far)
        "start": ("start", cut.x0),
        "end": ("start", cut.x1),
        "near": ("near", cut.y0),
        "far": ("near", cut.y1),
    }
    if not any(opens.values()):
        what = f"bore a hole in each corner inside the lines of the {cut.kind} and saw from hole to hole with a jigsaw"
        yield StopMark("inside", "start", cut.x0, cut.x1 - cut.x0, None, what)
        return
    for side, (line_from, at) in sides.items():
        if opens[side]:
            continue
        across = side in ("start", "end")
        enters = next((s for s in (("near", "far") if across else ("start", "end")) if opens[s]), None)
        if enters is None:
            what = (
                f"the line {at:.1f} mm from {line_from} joins two cuts: a jigsaw, a coping saw, or a chisel to the line"
            )
            yield StopMark("inside", line_from, at, (cut.y1 - cut.y0) if across else (cut.x1 - cut.x0), None, what)
            continue
        opposite = {"near": "far", "far": "near", "start": "end", "end": "start"}[enters]
        if opens[opposite]:
            continue  # it runs through: no cut to stop
        deep = _depth(cut, enters, part)
        stop = stop_of(deep, part.thickness, saws)
        words = f"from the {enters}, on the line {at:.1f} mm from {line_from}: {stop.in_words()}"
        yield StopMark(enters, line_from, at, deep, stop, words)


def _depth(cut: Recess, enters: str, part: Part) -> float:
    length, width, _ = part.size
    return {"near": cut.y1, "far": width - cut.y0, "start": cut.x1, "end": length - cut.x0}[enters]


def _channel(cut: Recess, part: Part, saws: Saws | None) -> Iterator[StopMark]:
    """Yield each end at which a groove, dado or rabbet stops inside the part."""
    length, width, thickness = part.size
    along_x = cut.x1 - cut.x0 >= cut.y1 - cut.y0
    ends = [("start", cut.x0), ("end", cut.x1)] if along_x else [("near", cut.y0), ("far", cut.y1)]
    whole = length if along_x else width
    depth = min(thickness, cut.z1) - max(0.0, cut.z0)
    saw = run_out_mm(depth, saws)
    for side, at in ends:
        if _SAME_MM < at < whole - _SAME_MM:
            words = f"the {cut.kind} stops {at:.1f} mm from {ends[0][0]}: with a router stop at the line"
            if saw is not None:
                words += f"; with the {saw[0]} stop there too, and chisel the last {saw[1]:.1f} mm to full depth"
            yield StopMark(side, ends[0][0], at, cut.x1 - cut.x0 if along_x else cut.y1 - cut.y0, None, words)
