"""Glue and finish: how far they go and how long they take. Glue rows are generic: the label rules."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownRowError
from .table import Row, Status, load_table

M2_PER_L_PER_FT2_PER_GAL = 0.024542


@dataclass(frozen=True, slots=True)
class Coverage:
    """A finish on a surface: area one litre covers in one coat, least and most, m2/L; usual number of coats."""

    finish: str
    surface: str
    least_m2_per_l: float
    most_m2_per_l: float
    coats: int
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class GlueProperty:
    """One property of a glue: its least and most, in `unit`."""

    glue: str
    name: str
    least: float
    most: float
    unit: str
    source: str
    status: Status


@cache
def coverages() -> Mapping[tuple[str, str], Coverage]:
    """Return coverage by finish and surface, m2/L (Wood Handbook FPL-GTR-190 chapter 16; others from memory)."""
    rows = (
        Coverage(
            row.text("finish"),
            row.text("surface"),
            row.number("least") * M2_PER_L_PER_FT2_PER_GAL,
            row.number("most") * M2_PER_L_PER_FT2_PER_GAL,
            int(row.number("coats")),
            row.source,
            row.status,
        )
        for row in load_table("finish_coverage").rows
    )
    return MappingProxyType({(row.finish, row.surface): row for row in rows})


@cache
def glues() -> Mapping[tuple[str, str], GlueProperty]:
    """Return glue properties by glue and property, in the unit of each (generic values, from memory)."""
    found: dict[tuple[str, str], dict[str, Row]] = {}
    for row in load_table("glue_working").rows:
        found.setdefault((row.text("glue"), row.text("property")), {})[row.text("bound")] = row
    properties = {}
    for (glue, name), bounds in found.items():
        least = bounds["least"]
        most = bounds.get("most", least)
        properties[glue, name] = GlueProperty(
            glue, name, least.number("value"), most.number("value"), least.unit, least.source, least.status
        )
    return MappingProxyType(properties)


def coverage(finish: str, surface: str = "smooth") -> Coverage:
    """Return how far a finish goes, m2/L. Raises UnknownRowError naming the finishes there are."""
    try:
        return coverages()[finish, surface]
    except KeyError:
        known = [f"{one}, {on}" for one, on in coverages()]
        raise UnknownRowError("finish and surface", f"{finish}, {surface}", known) from None


def glue_property(glue: str, name: str) -> GlueProperty:
    """Return one property of a glue, in its own unit. Raises UnknownRowError naming the ones there are."""
    try:
        return glues()[glue, name]
    except KeyError:
        known = [f"{one}, {of}" for one, of in glues()]
        raise UnknownRowError("glue and property", f"{glue}, {name}", known) from None
