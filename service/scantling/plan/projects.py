"""One project request, one plan: pieces, cut list, layouts, take-off, cost, findings, and a summary of seven lines."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from typing import Any

from scantling.costing import Costing, Faults, Kind, Price, Terms, cost, findings_of, read_prices, read_terms
from scantling.costing import to_plain as costing_to_plain
from scantling.findings import Finding, grouped
from scantling.measure import RequestError, RequestProblem, Tape, parse_money, pointer
from scantling.nesting.cutting_plan import CuttingPlan, cutting_plan
from scantling.nesting.nest import nest
from scantling.nesting.nest_for_saws import nest_for_saws
from scantling.nesting.nouns import Job, Nesting
from scantling.nesting.plain import nesting_to_plain, read_saws

from .building import Built, Modules, build_module
from .cautions import job_cautions
from .checks import Checked, check
from .circumstances import DEFAULT_TAPE, circumstances_of, fit_of
from .cutting import Wanted, nesting_job, wanted, with_wishes
from .extras import Extras, looked_at
from .finishing import finish_findings, finish_schedule
from .materials import Supplies
from .parts import piece_to_plain
from .placed import Placed, placed_set, placed_to_plain
from .saws import cutting_of, effort_of
from .sitting import seats_at_tables
from .summary import project_summary
from .take_off import TakeOff, boxes, surface_mm2, take_off

MOST_MODULES = 40
Progress = Callable[[float | None, float | None, float | None], None]


@dataclass(frozen=True, slots=True)
class Project:
    """A whole project worked out."""

    name: str
    tape: Tape
    pieces: tuple[Built, ...]
    checked: tuple[Checked, ...]
    rows: tuple[Wanted, ...]
    job: Job
    nesting: Nesting
    cuts: CuttingPlan
    take_off: TakeOff
    costing: Costing
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...] = ()
    finishing: Mapping[str, Any] | None = None
    placed: Placed | None = None


def projects(
    request: Mapping[str, Any],
    *,
    modules: Modules,
    progress: Progress | None = None,
    seconds: float | None = None,
    extras: Extras | None = None,
) -> dict[str, Any]:
    """Answer POST /v1/projects. Raises RequestError with pointers for what cannot be computed."""
    return project_to_plain(plan_project(request, modules, progress, seconds, extras))


def plan_project(
    request: Mapping[str, Any],
    modules: Modules,
    progress: Progress | None = None,
    seconds: float | None = None,
    extras: Extras | None = None,
) -> Project:
    """Work out a project (lengths in mm already, parameters as the caller wrote them)."""
    pieces = _build_all(request, modules)
    faults = Faults()
    prices = [*_screw_prices(request), *read_prices(request.get("prices", []), faults, "/prices")]
    terms = read_terms(request, faults)
    faults.check()
    cutting, saw_findings = cutting_of(request.get("saws", ()))
    saws = read_saws(request)
    rows = wanted(pieces, saws)
    job, stock_findings = nesting_job(
        rows, request.get("stock", ()), cutting, effort_of(request.get("effort", "normal")), request.get("seed", 1)
    )
    densities = {row.lot.label: row.lot.material.density_kg_m3 for row in rows}
    job = with_wishes(job, request)
    nesting = nest_for_saws(job, saws, partial(nest, seconds=seconds), densities, progress)
    cuts = cutting_plan(job, nesting, saws, densities)
    placed, place_findings = placed_set(request, pieces)
    listed = take_off(pieces, job, nesting, request, placed.bought() if placed is not None else ())
    costing = _costed(listed, prices, terms, pieces)
    who = circumstances_of(request)
    sat = [
        replace(who, sits=entry.get("sits"), fit=fit_of(request, entry.get("loads"))) for entry in request["modules"]
    ]
    checked = tuple(looked_at(p, check(p, w), extras, w) for p, w in zip(pieces, sat, strict=True))
    findings = grouped(
        [
            *saw_findings,
            *finish_findings(request.get("finish"), request.get("place")),
            *stock_findings,
            *nesting.findings,
            *cuts.findings,
            *findings_of(costing),
            *place_findings,
            *seats_at_tables(pieces, who),
            *(f for p, c in zip(pieces, checked, strict=True) for f in _of_piece(p, c)),
        ]
    )
    return Project(
        request.get("name", "project"), Tape.parse(request.get("tape", DEFAULT_TAPE)), tuple(pieces), checked,
        tuple(rows), job, nesting, cuts, listed, costing, tuple(findings), tuple(job_cautions(pieces, who)),
        finish_schedule(sum(surface_mm2(p.assembly) * p.quantity for p in pieces), request.get("finish")), placed,
    )  # fmt: skip


def _build_all(request: Mapping[str, Any], modules: Modules) -> list[Built]:
    """Build every module of the project. Raises RequestError with the faults of all of them."""
    entries = request["modules"]
    if not 1 <= len(entries) <= MOST_MODULES:
        detail = f"a project has 1 to {MOST_MODULES} modules, not {len(entries)}"
        raise RequestError([RequestProblem("/modules", detail, "module-count")])
    supplies = Supplies.of(request)
    pieces: list[Built] = []
    problems: list[RequestProblem] = []
    for i, entry in enumerate(entries):
        at = pointer("modules", i)
        try:
            pieces.append(build_module(modules, entry, supplies, at))
        except RequestError as error:
            problems.extend(error.errors)
    problems.extend(_repeated(pieces))
    if problems:
        raise RequestError(problems)
    return pieces


def _repeated(pieces: Sequence[Built]) -> list[RequestProblem]:
    ids = [p.id for p in pieces]
    return [
        RequestProblem(pointer("modules", i, "id"), f"the id {id!r} is used twice; ids are unique", "duplicate-id")
        for i, id in enumerate(ids)
        if id in ids[:i]
    ]


def _screw_prices(request: Mapping[str, Any]) -> list[Price]:
    """Return the prices of the screw boxes a caller listed, each for its line of the take-off."""
    return [
        Price(
            parse_money(f["price"]),
            f"screw {f['gauge']} x {round(f['length'], 3):g} mm",
            pack=Fraction(f.get("box", 1)),
            unit="piece",
            listed="list" in f,
        )
        for f in request.get("fasteners", ())
        if "price" in f
    ]


def _costed(listed: TakeOff, prices: Sequence[Price], terms: Terms, pieces: Sequence[Built]) -> Costing:
    """Cost the take-off; a price for screws as a kind is the price of the usual box of each size."""
    usual = boxes(listed.lines, pieces)
    own = {p.id for p in prices}
    spread: list[Price] = []
    kept = [*listed.prices]
    for price in prices:
        if price.kind == Kind.SCREW and price.pack == 1 and usual:
            spread = [replace(price, id=i, kind=None, pack=Fraction(n)) for i, n in usual.items() if i not in own]
        else:
            kept.append(price)
    return cost(listed.lines, [*kept, *spread], terms)


def _of_piece(piece: Built, checked: Checked) -> list[Finding]:
    """Return a piece's findings with its id before the message and its parts, so that a set can be told apart."""
    return [
        replace(f, message=f"{piece.id}: {f.message}", parts=tuple(f"{piece.id}: {p}" for p in f.parts))
        for f in (*piece.assembly.findings, *checked.findings)
    ]


def project_to_plain(project: Project) -> dict[str, Any]:
    """Return the plan as JSON members."""
    tape = project.tape
    mass = sum(p.assembly.mass_and_centre()[0] * p.quantity for p in project.pieces)
    return {
        "name": project.name,
        "summary": project_summary(project),
        "tape": tape.name,
        "mass_kg": round(mass, 2),
        "modules": [
            {"id": p.id, "quantity": p.quantity, **piece_to_plain(p, c, tape)}
            for p, c in zip(project.pieces, project.checked, strict=True)
        ],
        "cut_list": [
            {
                **w.row.to_plain(tape),
                "id": w.id,
                "module": w.module,
                "quantity": w.quantity,
                "lot": w.lot.label,
                "stop_marks": [stop.to_plain() for stop in w.stops],
            }
            for w in project.rows
        ],
        "nesting": nesting_to_plain(project.job, project.nesting, project.cuts, project.costing.currency),
        "costing": costing_to_plain(project.costing),
        "finishing": project.finishing,
        "place": None if project.placed is None else placed_to_plain(project.placed),
        "findings": [f.to_plain() for f in project.findings],
        "cautions": list(
            dict.fromkeys(
                [*(c for p in project.pieces for c in (*p.assembly.cautions, p.module.when_not)), *project.cautions]
            )
        ),
    }
