"""Building at every point: it builds or refuses in words, gives the same again, and does not take for ever."""

from collections.abc import Iterator
from dataclasses import dataclass
from time import process_time
from typing import Any

from scantling.board import Assembly, AssemblyError, ChainError, CutError, PlacingError, RoleMaterial, assembly_to_plain
from scantling.kit import Build, Module
from scantling.measure import RequestError
from scantling.tables import material

from ..points import Point

Faults = Iterator[tuple[str, str, str]]
REFUSALS = (AssemblyError, CutError, PlacingError, ChainError)
MOST_REFUSED = 0.5  # of the random points; a module that refuses more has ranges it does not mean
BUDGET = 400.0  # times what a plain box of six boards takes in the same run


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of one point: the piece, or the words of a refusal, or the fault that stopped it."""

    point: Point
    assembly: Assembly | None
    refusal: str | None
    crash: str | None
    seconds: float


def attempt(module: type[Module[Any]], point: Point, unit: str = "mm") -> Trial:
    """Build a module at a point; nothing it raises gets out."""
    start = process_time()
    try:
        built = module().build(Build(module.parameters.read(point.values, unit), default_materials(module)))
    except (*REFUSALS, RequestError) as refusal:
        return Trial(point, None, str(refusal), None, process_time() - start)
    except Exception as error:  # whatever a stranger's module raises is a fault to report, never to pass on
        return Trial(point, None, None, f"{type(error).__name__}: {error}", process_time() - start)
    if not isinstance(built, Assembly):
        return Trial(point, None, None, f"build returned {type(built).__name__}, not an Assembly", 0.0)
    return Trial(point, built, None, None, process_time() - start)


def default_materials(module: type[Module[Any]]) -> dict[str, RoleMaterial]:
    """Return the roles of a module at their defaults, as if measured."""
    found = {}
    for name, role in module.roles.items():
        row = material(role.material)
        found[name] = RoleMaterial(
            name, role.material, role.thickness, role.thickness, role.thickness, False, row.density_kg_m3,
            role.stock_kind, row.grain, role.width,
        )  # fmt: skip
    return found


def builds(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """The defaults and every edge build; a crash is a fault anywhere; an empty piece is none."""
    for trial in trials:
        if trial.crash is not None:
            yield "builds", trial.point.name, trial.crash
        elif trial.assembly is not None and not trial.assembly.parts:
            yield "builds", trial.point.name, "the piece has no parts"
        elif trial.refusal is not None and trial.point.name == "defaults":
            yield "builds", trial.point.name, f"the defaults are refused: {trial.refusal}"


def refuses_in_words(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """A refusal says what would be accepted; less than half of the random points are refused."""
    for trial in trials:
        if trial.refusal is not None and len(trial.refusal.split()) < 5:
            yield "refuses in words", trial.point.name, f"{trial.refusal!r} does not tell a maker what to change"
    random = [t for t in trials if t.point.name.startswith("random")]
    refused = [t for t in random if t.refusal is not None]
    if random and len(refused) > MOST_REFUSED * len(random):
        detail = f"{len(refused)} of {len(random)} random points are refused, first: {refused[0].refusal}"
        yield "refuses in words", refused[0].point.name, detail


def same_again(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """The same parameters give the same piece, byte for byte."""
    for trial in trials[:1] + trials[-2:]:
        if trial.assembly is None:
            continue
        again = attempt(module, trial.point)
        if again.assembly is None or assembly_to_plain(again.assembly) != assembly_to_plain(trial.assembly):
            yield "same again", trial.point.name, "built twice from the same parameters, the piece differs"


def within_budget(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """No build takes more than 400 times what a plain box of six boards takes in the same run.

    A build over it is timed twice more: what was slow only once was the machine or the collector of garbage.
    """
    limit = BUDGET * box_seconds()
    for trial in trials:
        if trial.seconds <= limit:
            continue
        least = min(trial.seconds, *(attempt(module, trial.point).seconds for _ in range(2)))
        if least > limit:
            detail = f"{least / limit * BUDGET:.0f} times a plain box, {BUDGET:.0f} are allowed"
            yield "within budget", trial.point.name, detail


def box_seconds() -> float:
    """Return the time of building a plain box of six boards, the least of a few runs."""
    ply = RoleMaterial("ply", "birch-plywood", 18.0, 18.0, 18.0, False, 680.0)
    best = float("inf")
    for _ in range(5):
        start = process_time()
        box = Assembly("box", "box", {"ply": ply})
        for i in range(6):
            box.part(f"side {i}", 400, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=i * 18.0)
        for i in range(5):
            box.screws(box.parts[f"side {i}"], box.parts[f"side {i + 1}"], n=2, role="locates")
        best = min(best, process_time() - start)
    return max(best, 1e-4)
