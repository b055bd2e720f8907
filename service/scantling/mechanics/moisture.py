"""Water in wood: what moisture content air leaves it at, how far wood moves across the grain, and what that does."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status, UnknownMaterial, movements, shrinkages

from .figures import figure, weakest
from .notice import notice
from .validity import OutOfValidity, not_negative, positive, within

EMC_SOURCE = "Wood Handbook, FPL-GTR-282 (2021), Eq 4-5, p. 4-3"


@dataclass(frozen=True, slots=True)
class Movement:
    """How far wood changes across the grain: mm (growing is positive), the way it was worked out, how well known."""

    change_mm: float
    way: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class FixedWidth:
    """A width of solid wood across the grain held fast, or with a way to move.

    `fixing` is rigid, slotted, clips or grooved; `room_mm` how far it may move there (a slot, a groove's free depth).
    """

    title: str
    wood: str
    width_mm: float
    moisture_made: float
    moisture_low: float
    moisture_high: float
    fixing: str = "rigid"
    room_mm: float = 0.0
    quartered: bool = False
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WidthResult:
    """A width through the year: shrinks and swells in mm, and whether its fixing lets it."""

    piece: FixedWidth
    shrinks_mm: float
    swells_mm: float
    status: Status
    source: str

    @property
    def travel_mm(self) -> float:
        """Return the whole travel between driest and wettest."""
        return self.shrinks_mm + self.swells_mm

    def findings(self) -> tuple[Finding, ...]:
        """Return a warning where the wood cannot move, with how far it wants to and how to let it."""
        p = self.piece
        wide = f"{p.width_mm:.0f} mm of {p.wood} across the grain"
        said = f"{p.title}, {wide}, moves {self.travel_mm:.1f} mm through the year"
        if p.fixing == "rigid" and p.width_mm > figure("rigid-width").value and self.travel_mm > 0.5:
            return (
                notice(
                    "cannot-move",
                    f"{said} and is held fast.",
                    parts=p.parts,
                    value=self.travel_mm,
                    limit=0.5,
                    unit="mm",
                    source=self.source,
                    remedy="Fix one edge or the middle fast and let the rest slide: slots or clips with "
                    f"{self.travel_mm / 2 + 1:.0f} mm each way.",
                ),
            )
        need = max(self.shrinks_mm, self.swells_mm)
        if p.fixing in ("slotted", "clips", "grooved") and p.room_mm < need:
            return (
                notice(
                    "room-to-move-small",
                    f"{said}; there is {p.room_mm:.1f} mm to move in and {need:.1f} mm is wanted.",
                    parts=p.parts,
                    value=p.room_mm,
                    limit=need,
                    unit="mm",
                    source=self.source,
                ),
            )
        return ()


def equilibrium_moisture(temperature_c: float, humidity: float) -> float:
    """Return the moisture content wood comes to in still air.

    Units: degrees C, relative humidity as a share 0 to 1; answer in %. Valid: -1 to 100 C, humidity up to 0.95; the
    alternative Eq 4-6 differs by up to half a per cent. Raises: OutOfValidity.
    Source: Wood Handbook, FPL-GTR-282 (2021), Eq 4-5, p. 4-3.
    """
    t = within("temperature", temperature_c, -1.2, 100, "degrees C", EMC_SOURCE)
    h = within("relative humidity", humidity, 0, 0.95, "", EMC_SOURCE)
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + bound)


def equilibrium_moisture_fahrenheit(temperature_f: float, humidity: float) -> float:
    """Return the moisture content wood comes to, by the book's constants for degrees Fahrenheit.

    Units: degrees F, relative humidity as a share 0 to 1; answer in %. Valid: 30 to 212 F, humidity up to 0.95.
    Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-190 (2010), Table 4-2 and its formula.
    """
    t = within("temperature", temperature_f, 30, 212, "degrees F", EMC_SOURCE)
    h = within("relative humidity", humidity, 0, 0.95, "", EMC_SOURCE)
    w = 330 + 0.452 * t + 0.00415 * t**2
    k = 0.791 + 0.000463 * t - 0.000000844 * t**2
    k1 = 6.34 + 0.000775 * t - 0.0000935 * t**2
    k2 = 1.09 + 0.0284 * t - 0.0000904 * t**2
    kh = k * h
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + bound)


def movement_by_coefficient(width_mm: float, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """Return the change of a width, D C (MF - MI).

    Units: mm, share per % of moisture content, moisture in %; answer in mm, growing positive. Valid: moisture within 6
    to 14 %, up to 16 % for a rough answer. Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-190, Eq 13-2.
    """
    for name, m in (("moisture before", moisture_from), ("moisture after", moisture_to)):
        within(name, m, 6, 14, "%", "Wood Handbook Table 13-5: coefficients hold from 6 to 14 %")
    c = within("change coefficient", coefficient, 0, 0.01, "per %", "Wood Handbook Table 13-5")
    return positive("width", width_mm, "mm") * c * (moisture_to - moisture_from)


def movement_by_shrinkage(width_mm: float, shrinkage: float, moisture_from: float, moisture_to: float) -> float:
    """Return the change of a width over a wider range of moisture, D (MF - MI)/(3000/S - 30 + MI).

    Units: mm, S and moisture in %; answer in mm, growing positive. Valid: 0 to 30 %, above it wood does not move.
    Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-190, Eq 13-3 (form from memory; agrees with Eq 4-9).
    """
    s = within("shrinkage", shrinkage, 0.1, 20, "%", "Wood Handbook Table 4-3")
    start, end = (min(30.0, not_negative("moisture", m, "%")) for m in (moisture_from, moisture_to))
    return positive("width", width_mm, "mm") * (end - start) / (30 * 100 / s - 30 + start)


def shrinkage_to(shrinkage_whole: float, moisture: float) -> float:
    """Return the shrinkage from green to a moisture content, S0 (30 - x)/30.

    Units: %. Valid: moisture 0 to 30 %. Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-282, Eq 4-9, p. 4-10.
    """
    within("moisture", moisture, 0, 30, "%", "Wood Handbook Eq 4-9: fibre saturation at 30 %")
    return not_negative("shrinkage", shrinkage_whole, "%") * (30 - moisture) / 30


def strength_at_moisture(p12: float, green: float, moisture: float, intersection: float = 25.0) -> float:
    """Return a strength at another moisture content, P12 (P12/Pg)^((12 - M)/(Mp - 12)).

    Units: N/mm2 (any, the same for both). Valid: moisture from 0 up to the intersection point Mp, 21 to 28 % by wood.
    Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-282, Eq 5-3, p. 5-34, Table 5-13.
    """
    mp = within("intersection moisture", intersection, 20, 30, "%", "Wood Handbook Table 5-13")
    m = within("moisture", moisture, 0, mp, "%", "Wood Handbook Eq 5-3")
    ratio = positive("value at 12 %", p12, "N/mm2") / positive("green value", green, "N/mm2")
    return p12 * math.pow(ratio, (12 - m) / (mp - 12))


def density_at(specific_gravity: float, moisture: float) -> float:
    """Return the density of wood from its specific gravity at that moisture content.

    Units: kg/m3, moisture in %. Valid: specific gravity as oven-dry weight over volume at the same moisture content.
    Raises: OutOfValidity. Source: Wood Handbook, FPL-GTR-282, chapter 4 (rho = 1000 G (1 + M/100)).
    """
    g = within("specific gravity", specific_gravity, 0.1, 1.4, "", "woods of the Wood Handbook")
    return 1000 * g * (1 + not_negative("moisture", moisture, "%") / 100)


def movement(
    wood: str, width_mm: float, moisture_from: float, moisture_to: float, *, quartered: bool = False
) -> Movement:
    """Return how far a width of a wood changes, by its change coefficient within 6 to 14 %, else by its shrinkage.

    Units: mm, moisture in %. Valid: solid wood across the grain, flat-sawn unless `quartered`; along the grain and in
    plywood nothing to speak of. Raises: UnknownMaterial with the nearest woods, OutOfValidity.
    Source: Wood Handbook, FPL-GTR-190, Eq 13-2 with Table 13-5, or Eq 13-3 with Table 4-3.
    """
    inside = all(6 <= m <= 14 for m in (moisture_from, moisture_to))
    by_coefficient, by_shrinkage = movements().get(wood), shrinkages().get(wood)
    if inside and by_coefficient is not None:
        c = by_coefficient.radial if quartered else by_coefficient.tangential
        if c is not None:
            change = movement_by_coefficient(width_mm, c, moisture_from, moisture_to)
            return Movement(change, "coefficient", by_coefficient.source, by_coefficient.status)
    if by_shrinkage is not None:
        s = by_shrinkage.radial if quartered else by_shrinkage.tangential
        change = movement_by_shrinkage(width_mm, s, moisture_from, moisture_to)
        return Movement(change, "shrinkage", by_shrinkage.source, by_shrinkage.status)
    if by_coefficient is None:
        raise UnknownMaterial(wood, sorted({*movements(), *shrinkages()}))
    limits = "Wood Handbook Table 13-5; no shrinkage is in the tables for this wood"
    outside = moisture_from if not 6 <= moisture_from <= 14 else moisture_to
    raise OutOfValidity("moisture", outside, 6, 14, "%", limits)


def check_width(piece: FixedWidth) -> WidthResult:
    """Check a width of solid wood against the seasons and the way it is fixed.

    Units: mm, moisture in %. Valid: solid wood; made at `moisture_made`, which is the moisture at cutting of boards
    bought wet. Raises: UnknownMaterial, OutOfValidity, ValueError for another fixing.
    Source: Wood Handbook, FPL-GTR-190, chapter 13; a rigid width up to 100 mm passes, practice.
    """
    if piece.fixing not in ("rigid", "slotted", "clips", "grooved"):
        raise ValueError(f"a fixing is rigid, slotted, clips or grooved, not {piece.fixing!r}")
    not_negative("room to move", piece.room_mm, "mm")
    dry = movement(piece.wood, piece.width_mm, piece.moisture_made, piece.moisture_low, quartered=piece.quartered)
    wet = movement(piece.wood, piece.width_mm, piece.moisture_made, piece.moisture_high, quartered=piece.quartered)
    changes = (dry.change_mm, wet.change_mm)
    shrinks, swells = max(0.0, -min(changes)), max(0.0, *changes)
    return WidthResult(piece, shrinks, swells, weakest((dry.status, wet.status)), dry.source)


def gap_at(gap_mm: float, board_mm: float, wood: str, moisture_from: float, moisture_to: float) -> float:
    """Return the gap between boards after their moisture content changes; below zero they press on each other.

    Units: mm, moisture in %. Valid: boards fixed at their middles. Raises: UnknownMaterial, OutOfValidity.
    Source: Wood Handbook, FPL-GTR-190, chapter 13.
    """
    return gap_mm - movement(wood, board_mm, moisture_from, moisture_to).change_mm


def groove_depth(
    panel_mm: float, wood: str, moisture_made: float, moisture_low: float, moisture_high: float, hold_mm: float = 5.0
) -> tuple[float, float]:
    """Return how deep the grooves of a frame must be and how far the panel goes in, each side, when made.

    Units: mm, moisture in %. Valid: a solid panel loose in two grooves; `hold_mm` stays held at the driest (practice).
    Raises: UnknownMaterial, OutOfValidity. Source: Wood Handbook, FPL-GTR-190, chapter 13; geometry.
    """
    low = movement(wood, panel_mm, moisture_made, moisture_low).change_mm
    high = movement(wood, panel_mm, moisture_made, moisture_high).change_mm
    shrinks, swells = max(0.0, -min(low, high)), max(0.0, low, high)
    enters = not_negative("hold", hold_mm, "mm") + shrinks / 2
    return enters + swells / 2, enters


def check_wet_boards(
    wood: str, width_mm: float, moisture_bought: float, moisture_use: float, *, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Say how far boards bought wet shrink after they are cut.

    Units: mm, moisture in %. Valid: boards cut at the moisture they were bought with, flat-sawn. Raises:
    UnknownMaterial, OutOfValidity. Source: Wood Handbook, FPL-GTR-190, chapter 13; half a millimetre is felt, practice.
    """
    shrinks = -movement(wood, width_mm, moisture_bought, moisture_use).change_mm
    if shrinks < 0.5:
        return ()
    text = (
        f"Cut at {moisture_bought:.0f} % moisture, a board of {width_mm:.0f} mm of {wood} is {shrinks:.1f} mm narrower "
        f"when it has dried to {moisture_use:.0f} %."
    )
    source = "Wood Handbook, FPL-GTR-190, chapter 13"
    return (notice("wood-too-wet", text, parts=parts, value=shrinks, limit=0.5, unit="mm", source=source),)


def check_gaps(
    gap_mm: float,
    board_mm: float,
    wood: str,
    moisture_made: float,
    moisture_low: float,
    moisture_high: float,
    *,
    most_mm: float | None = None,
    parts: tuple[str, ...] = (),
) -> tuple[Finding, ...]:
    """Check the gaps between boards or slats through the year: they must not close, nor open beyond `most_mm`.

    Units: mm, moisture in %. Valid: boards fixed at their middles. Raises: UnknownMaterial, OutOfValidity.
    Source: Wood Handbook, FPL-GTR-190, chapter 13.
    """
    gaps = [gap_at(gap_mm, board_mm, wood, moisture_made, m) for m in (moisture_low, moisture_high)]
    source = "Wood Handbook, FPL-GTR-190, chapter 13"
    if min(gaps) < 0:
        text = (
            f"Gaps of {gap_mm:.1f} mm close when the boards are wet: they press on each other by {-min(gaps):.1f} mm."
        )
        return (notice("gap-closes", text, parts=parts, value=min(gaps), limit=0, unit="mm", source=source),)
    if most_mm is not None and max(gaps) > most_mm:
        dry = f"open to {max(gaps):.1f} mm when the boards are dry"
        text = f"Gaps of {gap_mm:.1f} mm {dry}; {most_mm:.1f} mm is the most."
        return (notice("gap-opens", text, parts=parts, value=max(gaps), limit=most_mm, unit="mm", source=source),)
    return ()
