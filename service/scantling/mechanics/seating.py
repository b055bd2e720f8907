"""Does the seat fit the sitters: height under the cushion, depth, width each, lean, arms, and room under a table."""

from dataclasses import dataclass, field
from types import MappingProxyType

from scantling.findings import Finding
from scantling.tables import Status, body, look_up

from .figures import figure, weakest
from .notice import notice
from .upholstery import effective_depth, loaded_height
from .validity import positive

POPULATION = "ANSUR II (2012), US Army: fitter and slimmer than the public"
_KINDS = ("dining", "sofa", "lounge", "easy to rise from")


@dataclass(frozen=True, slots=True)
class Sitter:
    """A member of the household: name and body sizes in mm and kg, barefoot; None where not measured.

    `knee_mm` is the top of the knee above the floor, sitting; `thigh_mm` the thickness of the thigh above the seat.
    """

    name: str
    knee_back_mm: float | None = None
    seat_depth_mm: float | None = None
    hip_mm: float | None = None
    elbow_mm: float | None = None
    mass_kg: float | None = None
    knee_mm: float | None = None
    thigh_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Seat:
    """A seat as built: kind, hard height at the front, cushion thickness and how much of it sinks (0 to 1), all mm.

    `depth_mm` from the front edge to the back or back cushion, `width_mm` clear, `places`; `tilt_deg` of the seat to
    the rear, `seat_to_back_deg`; `arm_mm` height above the loaded seat; `between_arms` whether arms bound the width;
    without a back (`has_back`) the depth is nobody's affair.
    """

    kind: str
    hard_height_mm: float
    depth_mm: float
    width_mm: float
    places: int = 1
    cushion_mm: float = 0.0
    sink: float = 0.5
    back_cushion_mm: float = 0.0
    tilt_deg: float | None = None
    seat_to_back_deg: float | None = None
    arm_mm: float | None = None
    between_arms: bool = False
    parts: tuple[str, ...] = ()
    has_back: bool = True


@dataclass(frozen=True, slots=True)
class Band:
    """One size of a seat against the band that suits: what, value, from, to, unit, how well known, from where.

    `whose` names the household's sitters that set it.
    """

    what: str
    value: float
    low: float
    high: float
    unit: str
    status: Status
    source: str
    whose: str = ""

    @property
    def suits(self) -> bool:
        """Return whether the value lies in the band."""
        return self.low <= self.value <= self.high

    def said(self) -> str:
        """Return the band in words."""
        whose = f" ({self.whose})" if self.whose else ""
        if self.value < self.low:
            return f"{self.what} {self.value:.0f} {self.unit}, better {self.low:.0f} or more{whose}"
        return f"{self.what} {self.value:.0f} {self.unit}, better {self.high:.0f} or less{whose}"


@dataclass(frozen=True, slots=True)
class SeatResult:
    """A seat against its sitters: every band, and one grouped note of those it misses."""

    seat: Seat
    loaded_mm: float
    bands: tuple[Band, ...]
    assumed: tuple[str, ...] = field(default=())

    def findings(self) -> tuple[Finding, ...]:
        """Return one grouped note for the piece, a warning where a household's own sitters do not fit."""
        missed = [b for b in self.bands if not b.suits]
        if not missed:
            return ()
        own = [b for b in missed if b.source.startswith("the household")]
        text = "; ".join(b.said() for b in missed)
        whose = "the people who sit here" if own else f"most people ({POPULATION})"
        first = (own or missed)[0]
        return (
            notice(
                "seat-misses-sitter" if own else "seat-unusual",
                f"For {whose}: {text}.",
                status=weakest(b.status for b in missed) if own else Status.READ,
                parts=self.seat.parts,
                value=first.value,
                limit=first.low if first.value < first.low else first.high,
                unit=first.unit,
                source="; ".join(dict.fromkeys(b.source for b in missed)),
            ),
        )


# Which bands a kind asks for: height share of knee-back (low, high of popliteal height with shoes), depth, angles.
_PRESET = MappingProxyType(
    {
        "dining": (("dining", "seat tilt, trade"), ("dining", "seat to back, trade")),
        "sofa": (("sofa", "seat tilt, trade"), ("sofa", "seat to back, trade")),
        "lounge": (("lounge", "seat tilt, trade"), ("lounge", "seat to back, trade")),
        "easy to rise from": (("dining", "seat tilt, trade"), ("dining", "seat to back, trade")),
    }
)


def seat_preset(kind: str) -> dict[str, tuple[float, float]]:
    """Return the bands of a kind of seat: seat tilt and seat to back in degrees.

    Units: degrees. Valid: dining, sofa, lounge, easy to rise from. Raises: ValueError for another kind.
    Source: outdoor and lounge chair makers' tables (trade); easy to rise from uses dining angles, practice.
    """
    if kind not in _PRESET:
        raise ValueError(f"a seat is {', '.join(_KINDS)}, not {kind!r}")
    tilt, back = _PRESET[kind]
    return {"seat tilt": _range(*tilt), "seat to back": _range(*back)}


def check_seat(seat: Seat, sitters: tuple[Sitter, ...] = ()) -> SeatResult:
    """Check a seat against the household's sitters, or against the stated population where none are given.

    Units: mm, degrees. Valid: adult seats. Raises: ValueError for a kind, OutOfValidity.
    Source: ANSUR II (2012) percentiles with 25 mm of shoes and 50 mm behind the knee (practice); Pheasant for rows and
    arms; trade tables for angles.
    """
    preset = seat_preset(seat.kind)
    loaded = loaded_height(seat.hard_height_mm, seat.cushion_mm, seat.sink)
    bands = [_height(seat.kind, loaded, sitters)]
    if seat.has_back:
        bands.append(_depth(seat.kind, effective_depth(seat.depth_mm, seat.back_cushion_mm), sitters))
    if seat.has_back or seat.places > 1:  # nothing bounds the hips on a stool
        bands.append(_width(seat, sitters))
    for what, value in (("seat tilt", seat.tilt_deg), ("seat to back", seat.seat_to_back_deg)):
        if value is not None:
            low, high = preset[what]
            bands.append(Band(what, value, low, high, "degrees", Status.READ, "lounge and dining chair makers' tables"))
    if seat.arm_mm is not None:
        bands.append(_arm(seat.arm_mm, sitters))
    assumed = () if sitters else (f"no sitters given: percentiles of {POPULATION}",)
    return SeatResult(seat, loaded, tuple(bands), assumed)


def check_table(
    apron_mm: float, seat_loaded_mm: float, sitters: tuple[Sitter, ...] = (), *, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Check the room for thighs between a seat and the apron or top of a table.

    Units: mm. Valid: adults at a table; the thickest thigh of the household rules where it was measured.
    Raises: OutOfValidity.
    Source: ANSUR II thigh clearance: men 50th percentile 180 mm, 95th 207 mm, without clothing.
    """
    room = positive("underside of the table", apron_mm, "mm") - positive("loaded seat height", seat_loaded_mm, "mm")
    thick = max((s for s in sitters if s.thigh_mm is not None), key=lambda s: s.thigh_mm or 0.0, default=None)
    if thick is not None:
        need = (thick.thigh_mm or 0.0) + look_up("body_allowances", "value", allowance="clothing on a width").value
        if room >= need:
            return ()
        text = f"Between seat and table {room:.0f} mm are left for thighs; {thick.name} needs {need:.0f} mm."
        source = "the household's own sizes and clothing (practice)"
        return (notice("thigh-room-tight", text, parts=parts, value=room, limit=need, unit="mm", source=source),)
    least, good = figure("thigh-room-warn"), figure("thigh-room-good")
    if room >= good.value:
        return ()
    tight = room < least.value
    text = f"Between seat and table {room:.0f} mm are left for thighs; {good.value:.0f} mm suits nearly everybody."
    code = "thigh-room-tight" if tight else "thigh-room-small"
    limit = least if tight else good
    return (notice(code, text, parts=parts, value=room, limit=limit.value, unit="mm", source=limit.source),)


def knee_room(sitters: tuple[Sitter, ...] = ()) -> tuple[float, str]:
    """Return the height knees need under a table and whose they are.

    Units: mm above the floor. Valid: adults sitting with feet flat. Raises: UnknownRowError if a figure is missing.
    Source: the household's tallest knee where measured, else ANSUR II knee height of men, 95th percentile, 602 mm;
    25 mm of shoes (practice).
    """
    shoes = look_up("body_allowances", "value", allowance="shoes").value
    tall = max((s for s in sitters if s.knee_mm is not None), key=lambda s: s.knee_mm or 0.0, default=None)
    if tall is not None:
        return (tall.knee_mm or 0.0) + shoes, f"{tall.name}'s knees"
    return body("knee height, sitting", "men", "p95").value + shoes, "nearly everybody's knees"


def check_knees(
    clear_mm: float, sitters: tuple[Sitter, ...] = (), *, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Check the height left for knees under a table, desk or bench top.

    Units: mm above the floor. Valid: adults sitting with feet flat. Raises: OutOfValidity.
    Source: as `knee_room`: a note.
    """
    wanted, whose = knee_room(sitters)
    clear = positive("clear height", clear_mm, "mm")
    if clear >= wanted:
        return ()
    text = f"Under the top {clear:.0f} mm are clear; {wanted:.0f} mm suit {whose}."
    own = any(s.knee_mm is not None for s in sitters)
    source = "the household's own sizes" if own else "ANSUR II knee height, men, 95th percentile"
    return (notice("knee-room-small", text, parts=parts, value=clear, limit=wanted, unit="mm", source=source),)


def _height(kind: str, loaded: float, sitters: tuple[Sitter, ...]) -> Band:
    shoes = look_up("body_allowances", "value", allowance="shoes").value
    measured = [s.knee_back_mm for s in sitters if s.knee_back_mm is not None]
    low_share = {"lounge": 0.80, "sofa": 0.90}.get(kind, 1.0)
    if measured:
        # A seat up to 50 mm below the hollow of the knee is still easy for its sitter; sitters of very different size
        # leave a band between what suits the one and the other.
        ends = (min(measured) + shoes, max(measured) + shoes - 50)
        source = "the household's own sizes and 25 mm of shoes (practice)"
    else:
        trade = look_up("seating", "value", kind="chair", item="seat height", bound="most").value * 25.4
        ends = (trade, body("popliteal height", "women", "p5").value + shoes)
        source = "ANSUR II popliteal height and 25 mm of shoes (practice); WOOD magazine, 18 in"
    top, bottom = max(ends), min(ends)
    whose = ", ".join(s.name for s in sitters if s.knee_back_mm in (min(measured), max(measured))) if measured else ""
    if kind == "easy to rise from":
        return Band("loaded seat height", loaded, top, top + 50, "mm", Status.MEMORY, source, whose)
    return Band("loaded seat height", loaded, bottom * low_share, top, "mm", Status.MEMORY, source, whose)


def _depth(kind: str, depth: float, sitters: tuple[Sitter, ...]) -> Band:
    gap = look_up("body_allowances", "value", allowance="gap behind the knee").value
    measured = [s.seat_depth_mm for s in sitters if s.seat_depth_mm is not None]
    if measured:
        source = "the household's own sizes and 50 mm behind the knee (practice)"
        least = min(measured)
        whose = next(s.name for s in sitters if s.seat_depth_mm == least)
        return Band("depth to sit on", depth, least * 0.7, least - gap, "mm", Status.MEMORY, source, whose)
    size = "p50" if kind in ("dining", "easy to rise from") else "p95"
    high = body("buttock-popliteal length", "men", size).value - gap
    low = look_up("seating", "value", kind="chair", item="seat depth", bound="least").value * 25.4
    source = "ANSUR II buttock to knee-back less 50 mm (practice); WOOD magazine"
    return Band("depth to sit on", depth, low, high, "mm", Status.MEMORY, source)


def _width(seat: Seat, sitters: tuple[Sitter, ...]) -> Band:
    each = positive("seat width", seat.width_mm, "mm") / max(1, seat.places)
    clothing = look_up("body_allowances", "value", allowance="clothing on a width").value
    measured = [s.hip_mm for s in sitters if s.hip_mm is not None]
    hip = max(measured) if measured else body("hip breadth, sitting", "women", "p95").value
    low, source = (
        hip + clothing,
        "the household's own sizes" if measured else "ANSUR II hip breadth, women, 95th percentile",
    )
    if seat.between_arms:
        arms = look_up("seating", "value", kind="row of seats", item="between fixed arms", bound="least")
        if seat.places == 1 and arms.value > low:
            low, source = arms.value, arms.source
    whose = next((s.name for s in sitters if measured and s.hip_mm == hip), "")
    return Band("width for each", each, low, 10_000, "mm", Status.READ, source, whose)


def _arm(arm_mm: float, sitters: tuple[Sitter, ...]) -> Band:
    measured = [s.elbow_mm for s in sitters if s.elbow_mm is not None]
    if measured:
        return Band(
            "arm above the loaded seat",
            arm_mm,
            min(measured) - 30,
            max(measured) + 30,
            "mm",
            Status.READ,
            "the household's own sizes",
        )
    low, high = (body("elbow rest height", sex, p).value for sex, p in (("women", "p5"), ("men", "p95")))
    return Band("arm above the loaded seat", arm_mm, low, high, "mm", Status.READ, "ANSUR II elbow rest height")


def _range(kind: str, item: str) -> tuple[float, float]:
    low, high = (look_up("seating", "value", kind=kind, item=item, bound=b).value for b in ("least", "most"))
    return low, high
