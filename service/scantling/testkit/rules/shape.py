"""What is built: it goes together, its handed parts pair up, and sizes, units and the JSON form agree."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from scantling.board import Assembly, alike, assembly_from_plain, assembly_to_plain
from scantling.dryfit import verify
from scantling.findings import Severity
from scantling.kit import Module

from ..points import Point
from .building import Trial, attempt
from .words import ghosts

Faults = Iterator[tuple[str, str, str]]
SAME_MM = 0.05


def dry_fits(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """The dry fit of every piece has no error: parts fit, joints touch, screws hold and can be driven in some order."""
    for trial in trials:
        if trial.assembly is None or not trial.assembly.parts or ghosts(trial.assembly):
            continue
        for finding in verify(trial.assembly).findings:
            if finding.severity is Severity.ERROR:
                yield "dry fit", trial.point.name, f"{finding.code}: {finding.message}"


def handed_in_pairs(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """Left and right hands come in equal numbers at the defaults, unless the module says it is one-sided."""
    first = trials[0].assembly
    if first is None or module.one_sided:
        return
    groups = {g.id: g for g in alike(list(first.parts.values()))}
    for group in groups.values():
        if group.hand == "left" and group.twin is not None:
            left, right = len(group.parts), len(groups[group.twin].parts)
            if left != right:
                yield "handed parts", "defaults", f"{left} × {group.id} but {right} of the other hand, {group.twin}"


def round_trips(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """The piece survives its JSON form unchanged."""
    for trial in trials[:1]:
        if trial.assembly is None or ghosts(trial.assembly):
            continue
        plain = assembly_to_plain(trial.assembly)
        if assembly_to_plain(assembly_from_plain(plain)) != plain:
            yield "round trip", trial.point.name, "written as JSON and read again, the piece differs"


def units_agree(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """Lengths given in inches give the piece that the same lengths in mm give, within the snap of sizes."""
    values = {name: default for name, (kind, default) in module.parameters.kinds().items() if kind.quantity == "length"}
    if not values or trials[0].assembly is None:
        return
    inches = attempt(module, Point("in inches", {n: v / 25.4 for n, v in values.items()}), unit="in")
    if inches.assembly is None:
        yield "units agree", "in inches", inches.refusal or inches.crash or "not built"
        return
    for id, part in trials[0].assembly.parts.items():
        other = inches.assembly.parts.get(id)
        if other is None or max(abs(a - b) for a, b in zip(part.size, other.size, strict=True)) > SAME_MM:
            yield "units agree", "in inches", f"{id} differs between mm and inches"
            return


def larger_takes_more(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """Every parameter named in the module's `grows` takes more area and more material the larger it is.

    Held between its least, its default and its most, each alone; a parameter that is no size, or that the module does
    not have, cannot grow.
    """
    by_name = {t.point.name: t.assembly for t in trials}
    kinds = module.parameters.kinds()
    for name in module.grows:
        if name not in kinds:
            yield "larger takes more", name, f"grows names {name}, which is no parameter of the module"
            continue
        steps = [("at its least", f"{name} at least"), ("by default", "defaults"), ("at its most", f"{name} at most")]
        built = [(words, piece) for words, point in steps if (piece := by_name.get(point)) is not None]
        for measure, unit in ((_area, "m²"), (_material, "dm³")):
            sizes = [(words, measure(piece)) for words, piece in built]
            for (before, less), (after, more) in pairwise(sizes):
                if more < less:
                    yield "larger takes more", name, f"{less:.3f} {unit} {before}, {more:.3f} {unit} {after}"
            if len(sizes) > 1 and sizes[-1][1] == sizes[0][1]:
                yield "larger takes more", name, f"{sizes[0][1]:.3f} {unit} whatever it is"


def _area(assembly: Assembly) -> float:
    """Return the area of all blanks in m²."""
    return sum(p.length * p.width for p in assembly.parts.values()) / 1e6


def _material(assembly: Assembly) -> float:
    """Return the volume of all blanks in dm³."""
    return sum(p.length * p.width * p.thickness for p in assembly.parts.values()) / 1e6
