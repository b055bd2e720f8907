"""The nesting operation on a plain request: lengths in millimetres, money as decimal text (POST /v1/nestings)."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import ceil, floor
from typing import Any

from scantling.findings import ranked
from scantling.measure import parse_money, parse_thickness, plain_money

from .boards_plain import plain_defects
from .cutting_plan import CuttingPlan, cutting_plan
from .nest import nest
from .nest_for_saws import nest_for_saws
from .nouns import UNITS_PER_MM, Cutting, Grain, Job, Nesting, Piece, Stacking, Stock, Trim
from .pins import with_plain_pins
from .plans_plain import layout_to_plain, plan_to_plain, read_aims, to_mm
from .refuse import refuse_impossible
from .saws import CARRY_KG, Saws, parse_saws
from .stacks import runs_of

EFFORTS = {"quick": 100_000, "normal": 1_000_000, "thorough": 10_000_000}
_EXACT = 1e-5  # of a hundredth of a millimetre: what binary fractions lose
DEFAULT_KERF_MM = 3.2  # a full-kerf blade, 1/8 in; practice: measure yours

Report = Callable[[float | None, float | None, float | None], None]
Plain = Mapping[str, Any]


def nestings(request: Plain, progress: Report | None = None, seconds: float | None = None) -> dict[str, Any]:
    """Answer POST /v1/nestings. Raises RequestError for a request that cannot be computed."""
    job = read_job(request)
    saws = read_saws(request)
    nesting = nest_for_saws(job, saws, partial(nest, seconds=seconds), progress=progress)
    return nesting_to_plain(job, nesting, cutting_plan(job, nesting, saws), request.get("currency", "USD"))


def read_saws(request: Plain) -> Saws | None:
    """Return the saws of a request with what one person lifts and how many people there are; None without saws."""
    if not request.get("saws"):
        return None
    return parse_saws(request["saws"], request.get("carry_kg", CARRY_KG), request.get("hands", 1))


def read_job(request: Plain) -> Job:
    """Return the job a plain request asks for. Raises RequestError with a pointer to each fault."""
    refuse_impossible(request)
    saw = request.get("saw") or {}
    effort = request.get("effort", "normal")
    stages = saw.get("stages")
    offers: Sequence[Plain] = request["stock"]
    priced = all("price" in s for s in offers if not s.get("offcut"))
    job = Job(
        pieces=tuple(_piece(part) for part in request["parts"]),
        stock=tuple(_stock(s, priced) for s in offers),
        cutting=Cutting(
            kerf=to_units(saw["kerf"] if "kerf" in saw else _widest_kerf(request.get("saws") or ())),
            trim=read_trim(saw.get("trim", 0.0)),
            stages=None if stages is None else int(stages),
            first_cut=saw.get("first_cut", "either"),
            cutting_error=to_units(saw.get("cutting_error", 0.5)),
        ),
        effort=effort if isinstance(effort, int) else EFFORTS[effort],
        seed=request.get("seed", 1),
        least_offcut=read_least_offcut(request.get("objective") or {}),
        aims=read_aims(request.get("objective") or {}),
        stacking=read_stacking(request.get("stack")),
    )
    return with_plain_pins(job, request["layouts"]) if request.get("layouts") else job


def _widest_kerf(saws: Sequence[Plain]) -> float:
    """Return the kerf of the widest saw, so that no layout is too tight for any; a common one where none is given."""
    return max((float(s["kerf"]) for s in saws if s.get("kerf") is not None), default=DEFAULT_KERF_MM)


def read_stacking(stack: Plain | None) -> Stacking | None:
    """Return how high sheets may be stacked, from the `stack` of a request; None where it asks for none."""
    if stack is None:
        return None
    thickness = stack.get("thickness")
    return Stacking(stack.get("sheets"), None if thickness is None else room_units(thickness))


def read_least_offcut(objective: Plain) -> tuple[int, int]:
    """Return the least length and width that are worth keeping, from the `objective` of a request."""
    least = objective.get("least_offcut")
    if least is None:
        return 30_000, 10_000
    return to_units(least["length"]), to_units(least["width"])


def to_units(mm: float) -> int:
    """Return the size of something cut in whole hundredths of a millimetre, rounded down.

    Sizes in inches are no whole hundredths; rounding what is cut down and what it is cut from up keeps a row that
    fits exactly in inches an exact fit. The difference is below 0.01 mm a size.
    """
    return floor(float(mm) * UNITS_PER_MM + _EXACT)


def room_units(mm: float) -> int:
    """Return the size of stock in whole hundredths of a millimetre, rounded up; see `to_units`."""
    return ceil(float(mm) * UNITS_PER_MM - _EXACT)


def to_hundredths(degrees: float | None) -> int:
    """Return an angle in whole hundredths of a degree, the nearest."""
    return round(float(degrees or 0.0) * 100)


def read_trim(trim: float | Mapping[str, float] | None) -> Trim:
    """Return the trim of each edge from one length or from `{start, end, near, far}`."""
    if trim is None:
        return Trim()
    if isinstance(trim, Mapping):
        return Trim(*(to_units(trim.get(side) or 0.0) for side in ("start", "end", "near", "far")))
    return Trim(*(to_units(trim),) * 4)


def _thickness(entry: Plain) -> int | None:
    value = entry.get("thickness")
    return None if value is None else round(parse_thickness(value).typical * UNITS_PER_MM)


def _piece(part: Plain) -> Piece:
    width = part.get("width")
    return Piece(
        id=part["id"],
        length=to_units(part["length"]),
        width=None if width is None else to_units(width),
        quantity=part.get("quantity", 1),
        grain=Grain(part.get("grain", "along")),
        material=part.get("material"),
        thickness=_thickness(part),
        group=part.get("group"),
        oversize=to_units(part.get("oversize", 0.0)),
        stock=part.get("stock"),
        start_slope=to_hundredths(part.get("start_slope")),
        end_slope=to_hundredths(part.get("end_slope")),
        start_bevel=to_hundredths(part.get("start_bevel")),
        end_bevel=to_hundredths(part.get("end_bevel")),
        near_bevel=to_hundredths(part.get("near_bevel")),
        far_bevel=to_hundredths(part.get("far_bevel")),
        one_face=part.get("one_face", False),
    )


def _stock(entry: Plain, priced: bool) -> Stock:
    """Return one stock; an offcut without a price costs nothing where what is bought has prices."""
    width, price = entry.get("width"), entry.get("price")
    offcut = entry.get("offcut", False)
    free = 0 if priced and offcut else None
    return Stock(
        id=entry["id"],
        length=room_units(entry["length"]),
        width=None if width is None else room_units(width),
        material=entry.get("material"),
        thickness=_thickness(entry),
        price=free if price is None else parse_money(price),
        quantity=entry.get("quantity"),
        offcut=offcut,
        board_width=None if entry.get("board_width") is None else room_units(entry["board_width"]),
        defects=plain_defects(entry.get("defects")),
    )


def nesting_to_plain(job: Job, nesting: Nesting, cutting: CuttingPlan, currency: str) -> dict[str, Any]:
    """Return a nesting as the members of the answer of POST /v1/nestings; lengths in mm, money in `currency`."""
    layouts = [
        layout_to_plain(job, layout)
        | {
            "cuts": [cut.to_plain() for cut in cuts],
            **face.to_plain(),
            "stack": stack,
            "runs": runs_of(layout, stack),
        }
        for layout, cuts, face, stack in zip(
            nesting.layouts, cutting.sequences, cutting.faces, cutting.stacks, strict=True
        )
    ]
    gap = nesting.objective - nesting.objective_bound
    return {
        "layouts": layouts,
        "unplaced": [
            {
                "part": u.part,
                "quantity": u.quantity,
                "reason": u.reason,
                "nearest_stock": u.nearest_stock,
                "excess_mm": None if u.excess is None else [to_mm(e) for e in u.excess],
            }
            for u in nesting.unplaced
        ],
        "cost": None if nesting.cost is None else plain_money(nesting.cost),
        "bound": None if nesting.bound is None else plain_money(nesting.bound),
        "two_stage_bound": None if nesting.two_stage_bound is None else plain_money(nesting.two_stage_bound),
        "currency": currency,
        "proven_minimal": nesting.proven_minimal,
        "gap": round(gap / nesting.objective, 6) if nesting.objective else 0.0,
        "offcuts": [
            {"layout": number, "stock": layout["stock"], "count": layout["count"], **offcut}
            for number, layout in enumerate(layouts, 1)
            for offcut in layout["offcuts"]
        ],
        "cuts": cutting.passes(nesting),
        "settings": [setup.to_plain() for setup in cutting.setups],
        "plans": [plan_to_plain(job, plan) for plan in nesting.plans],
        "seed": nesting.seed,
        "work": nesting.work,
        "stopped_by": nesting.stopped_by.value,
        "findings": [f.to_plain() for f in ranked([*nesting.findings, *cutting.findings])],
    }
