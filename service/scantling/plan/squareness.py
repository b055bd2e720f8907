"""What keeps a piece square: the panels, aprons and braces in each upright plane, read from the placed parts."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.board import Part
from scantling.findings import Finding
from scantling.mechanics.racking import FrameSide, RackingResult, check_racking

from .check_row import CheckRow
from .part_woods import wood_of_part
from .structure import Structure

APRON_MM = 45.0  # a rail less deep than this, or than a twelfth of the height, does not hold corners square; practice
APRON_SHARE = 1 / 12
PLATE_MM = 120.0  # a standing panel this wide keeps itself square in its plane; practice
MOST_OF = 0.6
PLANES = (("Seen from the front", 0, 1), ("Seen from the side", 1, 0))


@dataclass(frozen=True, slots=True)
class Brace:
    """A part that keeps a plane square, and the word for it."""

    part: Part
    word: str


def squareness_checks(structure: Structure) -> tuple[list[CheckRow], list[Finding]]:
    """Check both upright planes of a piece that stands on more than one part."""
    if len(structure.floor) < 2:
        return [], []
    results = [check_racking(_side(structure, title, along, square)) for title, along, square in PLANES]
    return [_row(r) for r in results], [f for r in results for f in r.findings()]


def _side(structure: Structure, title: str, along: int, square: int) -> FrameSide:
    low, high = structure.assembly.bounds()
    width, height = high[along] - low[along], high[2] - low[2]
    braces = list(braces_of(structure, along, square, width, height))
    back = next((b.part for b in braces if b.word == "fixed back"), None)
    words = tuple(dict.fromkeys(b.word for b in braces))
    parts = tuple(b.part.id for b in braces) or tuple(sorted(structure.floor))
    if back is None:
        return FrameSide(title, width, height, words, parts=parts)
    return FrameSide(title, width, height, words, back.thickness, back_modulus_mpa=_modulus(back), parts=parts)


def _modulus(back: Part) -> float | None:
    """Return the lesser of a panel's two moduli, N/mm2; None where no table covers its thickness."""
    try:
        return min(wood_of_part(back, axis, "flat").modulus for axis in ("length", "width"))
    except (ValueError, LookupError):
        return None


def braces_of(structure: Structure, along: int, square: int, width: float, height: float) -> Iterator[Brace]:
    """Yield what keeps one plane square: its axis `along`, the axis `square` to it, its width and height in mm."""
    for part in structure.assembly.parts.values():
        frame, (low, high) = part.frame, part.bounds()
        run, rise = high[along] - low[along], high[2] - low[2]
        if abs(frame.along[along]) > 0.3 and abs(frame.along[2]) > 0.3 and _ties(structure, part, along):
            yield Brace(part, "diagonal")
        elif abs(frame.through[square]) < 0.7:
            continue
        elif part.id in structure.floor and rise >= PLATE_MM and run >= max(PLATE_MM, rise / 8):
            yield Brace(part, "glued panel")
        elif rise >= max(APRON_MM, APRON_SHARE * height) and _ties(structure, part, along):
            large = run >= MOST_OF * width and rise >= MOST_OF * height
            yield Brace(part, "fixed back" if large else "apron")


def _ties(structure: Structure, part: Part, along: int) -> bool:
    """Whether a part is joined fast at both its ends to parts the floor holds up without it."""
    reached = structure.reached_without(part.id)
    places = [
        patch.centre[along]
        for other, patch in structure.contacts.get(part.id, ())
        if other in reached and structure.rigid(part.id, other)
    ]
    low, high = part.bounds()
    return bool(places) and max(places) - min(places) >= 0.5 * (high[along] - low[along])


def _row(result: RackingResult) -> CheckRow:
    side = result.side
    held = ", ".join(side.held_by) or "nothing"
    if result.shear_mpa is not None and result.waves_mpa is not None:
        return replace(_plain_row(result, held), demand=result.shear_mpa, capacity=result.waves_mpa, unit="N/mm2",
                       ratio=result.shear_mpa / result.waves_mpa, code="shear buckling of plates, EN 1993-1-5 A.3",
                       governing=f"held by {held}; the shear at which its panel waves")  # fmt: skip
    return _plain_row(result, held)


def _plain_row(result: RackingResult, held: str) -> CheckRow:
    side = result.side
    return CheckRow(
        "keeps square",
        side.title,
        side.parts,
        result.push_n,
        unit="N",
        load=f"pushed sideways at the top with {result.push_n:.0f} N",
        duration="short",
        basis="practice",
        code="statics of a hinged frame; what braces it decides",
        governing=f"held by {held}",
        status=result.status.value,
        note=f"held by {held}" if result.held else "nothing keeps it square",
    )
