"""What stands in words beside the drawing of a part: saw settings, holes and housings from the datum, edges, faces."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import radians, tan
from typing import Literal

from scantling.board import Curve, Cut, Easing, Hole, Part, Recess, SawCut, point_lengths, saw_settings

from .dimension import Sizes

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"  # without those that read as a digit


@dataclass(frozen=True, slots=True)
class Feature:
    """A hole or a housing and the letter it bears on the drawing."""

    letter: str
    cut: Cut


def features(part: Part) -> list[Feature]:
    """Return holes and housings in the order they are cut, each with its letter."""
    cuts = [c for c in part.cuts if isinstance(c, Hole | Recess)]
    return [Feature(_letter(i), cut) for i, cut in enumerate(cuts)]


def _letter(i: int) -> str:
    n = len(LETTERS)
    return LETTERS[i] if i < n else LETTERS[i // n - 1] + LETTERS[i % n]


def working_face(part: Part) -> Literal["face", "back"]:
    """Return the face that lies up while a part is worked: the back where all that does not go through is cut there."""
    sides = set()
    for cut in part.cuts:
        if isinstance(cut, Recess) and not (cut.z0 <= 0 and cut.z1 >= part.thickness):
            sides.add("back" if cut.z0 <= 0 else "face")
        elif isinstance(cut, Hole) and cut.depth is not None:
            sides.add(cut.side)
    return "back" if sides == {"back"} else "face"


def notes(part: Part, sizes: Sizes, up: str) -> Iterator[str]:
    """Yield the notes of a part, one a line."""
    yield from _sawing(part, sizes)
    yield from (_feature(part, f, sizes) for f in features(part))
    yield from _edges(part, sizes)
    if up == "back":
        yield "Drawn turned over along its length, as it lies on the saw: near and far have traded places on the paper."
    if part.closing:
        yield "Fit to the work: cut it last, to what the piece measures there."
    if part.material.assumed and any(isinstance(c, Recess) for c in part.cuts):
        yield "Do not cut its joints before the sheet has met a caliper: the thickness is assumed."


def _sawing(part: Part, sizes: Sizes) -> Iterator[str]:
    settings = saw_settings(part)
    long, short = point_lengths(part)
    if any(isinstance(c, SawCut) and c.crosscut and (c.mitre or c.bevel) for c in part.cuts):
        if long - short < 0.05:
            yield f"{sizes.show(long)} along either edge, point to point."
        else:
            yield f"Long point {sizes.show(long)}, short point {sizes.show(short)}."
    for s in settings:
        words = []
        if s.mitre > 0:
            words.append(
                f"mitre {s.mitre:.1f}° ({sizes.show(s.rise)} in {sizes.show(s.run)}), long point at {s.long_edge}"
            )
        if s.bevel > 0:
            rise, run = part.thickness * tan(radians(s.bevel)), part.thickness
            words.append(f"tilt the blade {s.bevel:.1f}° ({rise:.1f} in {run:.1f} mm), wider on the {s.long_face}")
        yield f"Saw {s.side}: {'; '.join(words)}."


def _feature(part: Part, feature: Feature, sizes: Sizes) -> str:
    cut, show = feature.cut, sizes.show
    if isinstance(cut, Hole):
        deep = "through" if cut.depth is None else f"{cut.depth:g} mm deep from the {cut.side}"
        name = cut.purpose if cut.purpose == "hole" else f"{cut.purpose} hole"
        return (
            f"{feature.letter}: {name} {cut.diameter:g} mm, {deep}; {show(cut.x)} from start, {show(cut.y)} from near."
        )
    assert isinstance(cut, Recess)  # noqa: S101 - features() takes no other
    x0, x1 = max(0.0, cut.x0), min(part.length, cut.x1)
    y0, y1 = max(0.0, cut.y0), min(part.width, cut.y1)
    depth = min(part.thickness, cut.z1) - max(0.0, cut.z0)
    where = f"{show(x0)} to {show(x1)} from start, {show(y0)} to {show(y1)} from near"
    if depth > part.thickness - 0.05:
        return f"{feature.letter}: {cut.kind} through; {where}."
    side = "back" if cut.z0 <= 0 else "face"
    stopped = ", stopped" if cut.stopped else ""
    return f"{feature.letter}: {cut.kind} {depth:.1f} mm deep in the {side}{stopped}; {where}."


def _edges(part: Part, sizes: Sizes) -> Iterator[str]:
    eased: dict[tuple[str, float], list[str]] = {}
    for cut in part.cuts:
        if isinstance(cut, Easing):
            eased.setdefault((cut.kind, cut.size), []).append(cut.edge)
        elif isinstance(cut, Curve):
            yield f"Curve: the {cut.side} side bows in by {sizes.show(cut.rise)} at its middle."
    for (kind, size), edges in eased.items():
        yield f"Ease (thin line inside): {kind} {size:g} mm on {', '.join(edges)}."
    if part.seal:
        yield f"Seal (dashes outside): {', '.join(part.seal)}."
