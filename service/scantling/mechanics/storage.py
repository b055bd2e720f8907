"""Storage that tips: chests with drawers open and filled, lids and doors open, a push at the top, carpet, the wall."""

import math
from collections.abc import Sequence

from scantling.findings import Finding
from scantling.tables import Status

from .figures import figure, weakest
from .notice import notice
from .tipping import TipResult, lean_angle
from .validity import not_negative, positive


def check_drawers(
    weight_n: float,
    centre_mm: float,
    drawers: tuple[tuple[float, float], ...],
    *,
    lean_mm: float = 0.0,
    parts: tuple[str, ...] = (),
) -> TipResult:
    """Check a chest with drawers open: each drawer as (load N, how far its load stands out beyond the front feet mm).

    Units: N, mm; moments in N m. Valid: rigid chest on a level floor, empty drawers in `weight_n`; `lean_mm` moves the
    centre of gravity forward for carpet. Raises: OutOfValidity.
    Source: moments about the front feet; the load of the caller (older ASTM F2057: 50 lb on one open drawer).
    """
    inside = not_negative("centre of gravity behind the front feet", centre_mm, "mm") - not_negative(
        "lean", lean_mm, "mm"
    )
    holds = not_negative("weight", weight_n, "N") * max(0.0, inside) / 1000
    needed = sum(not_negative("drawer load", p, "N") * out for p, out in drawers) / 1000
    return TipResult(
        "tips-with-drawers",
        "With the drawers open and loaded",
        holds,
        needed,
        "N m",
        Status.DERIVED,
        "moments about the front feet; ASTM F2057 before 2023: 50 lb on one open drawer (screening)",
        parts,
    )


def check_one_drawer(
    weight_n: float, centre_mm: float, drawer_out_mm: float, *, parts: tuple[str, ...] = ()
) -> TipResult:
    """Check a chest with one drawer pulled out and 50 lb on its front.

    Units: N, mm; moments in N m. Valid: `drawer_out_mm` from the front feet to the drawer's front, the other drawers
    shut and empty. Raises: OutOfValidity. Source: ASTM F2057 before 2023 (50 lb on one open drawer); screening.
    """
    return check_drawers(weight_n, centre_mm, ((figure("open-drawer-load").si, drawer_out_mm),), parts=parts)


def check_filled_drawers(
    weight_n: float,
    centre_mm: float,
    centre_height_mm: float,
    depth_mm: float,
    drawers: tuple[tuple[float, float], ...],
    *,
    parts: tuple[str, ...] = (),
) -> TipResult:
    """Check a chest on carpet with all drawers pulled out and filled: each as (litres, load beyond the front feet mm).

    Units: N, mm, litres; moments in N m. Valid: rigid chest; the carpet tilts it forward about its front feet.
    Raises: OutOfValidity. Source: ASTM F2057-23, 8.5 lb/ft3 and 0.43 in blocks, both from memory: it warns.
    """
    fill, block = figure("drawer-fill"), figure("carpet-block")
    per_litre = fill.value * 4.448222 / 28.316847
    loads = tuple((not_negative("drawer volume", litres, "litres") * per_litre, out) for litres, out in drawers)
    tilt = math.radians(lean_angle(block.si, depth_mm))
    lean = positive("height of the centre of gravity", centre_height_mm, "mm") * math.tan(tilt)
    result = check_drawers(weight_n, centre_mm, loads, lean_mm=min(lean, centre_mm), parts=parts)
    status = weakest((fill.status, block.status))
    source = f"{fill.source}; {block.source}"
    return TipResult(
        result.code, "With all drawers open and filled", result.holds, result.needed, "N m", status, source, parts
    )


def check_opened(what: str, inside_mm: float, centre_height_mm: float, *, parts: tuple[str, ...] = ()) -> TipResult:
    """Check how a piece stands on an incline of 10 degrees when its lid, doors or drawers are open and empty.

    Units: mm in, degrees out. Valid: `what` is open ("its lid open"), the centre of gravity as it lies then;
    `inside_mm` is how far inside the feet that is, negative where it falls over by itself. Raises: OutOfValidity.
    Source: geometry; 10 degree incline as quoted for listed furniture, on a level floor it must stand at all.
    """
    angle = figure("tilt-angle")
    height = positive("height of the centre of gravity", centre_height_mm, "mm")
    holds = math.degrees(math.atan2(inside_mm, height))
    code = "tips-on-slope" if holds > 0 else "tips-when-open"
    source = angle.source + " (screening)"
    return TipResult(code, f"With {what}, on a slope", holds, angle.value, "degrees", angle.status, source, parts)


def check_top_push(weight_n: float, centre_mm: float, height_mm: float, *, parts: tuple[str, ...] = ()) -> TipResult:
    """Check a chest against a pull at its top, or at 56 in where it is taller.

    Units: N, mm; answer in N. Valid: rigid case, drawers shut. Raises: OutOfValidity.
    Source: ASTM F2057-23, 10 lbf, from memory: it warns.
    """
    force, most = figure("top-push"), figure("top-push-height")
    height = min(positive("height", height_mm, "mm"), most.si)
    holds = not_negative("weight", weight_n, "N") * not_negative("centre of gravity", centre_mm, "mm") / height
    return TipResult("tips-when-pulled", "Pulled at the top", holds, force.si, "N", force.status, force.source, parts)


def check_fixed_to_wall(tips: Sequence[TipResult], fixing: str) -> tuple[Finding, ...]:
    """Say that a piece which tips by itself stands only when it is fixed to the wall as its list of hardware says.

    Units: as each result says, N, N m or degrees. Valid: one result or more that does not stand; `fixing` are the words
    of the list. Raises: ValueError where everything stands. Source: that of the worst result.
    """
    falls = [tip for tip in tips if not tip.stands]
    if not falls:
        raise ValueError("it stands by itself: nothing asks for the wall")
    worst = min(falls, key=lambda tip: (tip.status is Status.MEMORY, tip.holds / tip.needed if tip.needed else 0.0))
    what = worst.title[:1].lower() + worst.title[1:]
    return (
        notice(
            "stands-only-fixed",
            f"It stands only when it is fixed to the wall: {what} it stands {worst.holds:.0f} {worst.unit} by itself, "
            f"{worst.needed:.0f} {worst.unit} is asked for. For that the list has {fixing}.",
            status=worst.status,
            parts=worst.parts,
            value=worst.holds,
            limit=worst.needed,
            unit=worst.unit,
            source=worst.source,
        ),
    )


def check_tall_storage(
    height_mm: float,
    mass_kg: float,
    volume_litres: float,
    *,
    has_drawers: bool,
    parts: tuple[str, ...] = (),
    fixing: str | None = None,
) -> tuple[Finding, ...]:
    """Say when a piece must be fixed to the wall: chests within the law, and anything tall, bookcases too.

    Units: mm, kg, litres. Valid: free-standing storage; `fixing` are the words of its list of hardware where it has
    something to fix it with. Raises: OutOfValidity.
    Source: 16 CFR 1261 and ASTM F2057-23 (27 in, 30 lb, 3.2 ft3); below that and for bookcases practice.
    """
    tall, heavy, large = figure("storage-anchor-height"), figure("storage-scope-mass"), figure("storage-scope-volume")
    height = not_negative("height", height_mm, "mm")
    if height < tall.si:
        return ()
    inside = has_drawers and mass_kg >= heavy.value * 0.45359237 and volume_litres >= large.si
    law = "16 CFR 1261 and ASTM F2057-23 apply to a chest for clothes of this size" if inside else "practice"
    means = f" with the {fixing} of its list" if fixing else ""
    return (
        notice(
            "fix-to-wall",
            f"The piece is {height:.0f} mm tall: a child climbing it can pull it over. Fix it to the wall{means}.",
            parts=parts,
            value=height,
            limit=tall.si,
            unit="mm",
            source=law,
        ),
    )
