"""Where children are about: openings that hold heads or fingers, moving gaps, lids that drop, chests that need air."""

import math
from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding

from .figures import figure, weakest
from .loads import weight
from .notice import LOCAL, notice
from .validity import not_negative, positive, within


@dataclass(frozen=True, slots=True)
class Opening:
    """A rigid opening: its name, its smaller clear size mm, how deep it is mm, and whether small children are about."""

    title: str
    clear_mm: float
    depth_mm: float = math.inf
    children: bool = True
    outdoor: bool = False
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Chest:
    """A closed box: inside sizes mm, whether it can be closed, vents as (area mm2, clear of wall and floor), lid.

    `lid_kg` and `lid_depth_mm` from the hinge; `support_nm` the torque of a support that holds it everywhere, N m;
    `latch` whether it locks by itself.
    """

    length_mm: float
    width_mm: float
    height_mm: float
    vents_mm2: tuple[float, ...] = ()
    vents_apart_mm: float = 0.0
    lid_kg: float | None = None
    lid_depth_mm: float | None = None
    support_nm: float = 0.0
    latch: bool = False
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChestResult:
    """A chest checked: volume litres, whether the rules for closed chests bite, lid torque N m; `.findings()`."""

    chest: Chest
    volume_litres: float
    closes_in: bool
    vented: bool
    lid_nm: float | None

    def findings(self) -> tuple[Finding, ...]:
        """Return errors for a chest without air or a lid that can drop."""
        return tuple(f for f in (self._air(), self._lid()) if f is not None)

    def _air(self) -> Finding | None:
        if not self.closes_in or (self.vented and not self.chest.latch):
            return None
        limit, area = figure("chest-volume"), figure("vent-area")
        text = f"Inside {self.volume_litres:.0f} litres a child can hide. {LOCAL}"
        if self.chest.latch:
            text = f"Inside {self.volume_litres:.0f} litres a child can hide, and the lid latches by itself. {LOCAL}"
        return notice(
            "chest-needs-air",
            text,
            status=weakest((limit.status, area.status)),
            parts=self.chest.parts,
            value=self.volume_litres,
            limit=limit.si,
            unit="litres",
            source=f"{limit.source}; {area.source}",
        )

    def _lid(self) -> Finding | None:
        if self.lid_nm is None or not self.closes_in or self.chest.support_nm >= self.lid_nm:
            return None
        text = (
            f"The lid pulls with {self.lid_nm:.1f} N m at the hinge; "
            f"its support holds {self.chest.support_nm:.1f} N m. {LOCAL}"
        )
        return notice(
            "lid-can-drop",
            text,
            parts=self.chest.parts,
            value=self.chest.support_nm,
            limit=self.lid_nm,
            unit="N m",
            source="moments about the hinge; toy chest rules as CPSC published them in 1982",
        )


def check_opening(opening: Opening) -> tuple[Finding, ...]:
    """Check a rigid opening for heads and fingers.

    Units: mm. Valid: openings bounded on all sides, by their smaller clear size. Raises: OutOfValidity.
    Source: CPSC Public Playground Safety Handbook B.2.5 (3.5 to 9 in); Caring for Our Children 6.2.1.9 (10 to 25 mm);
    EN 581-1:2017 outdoors (7 to 12 mm unless less than 10 mm deep).
    """
    clear = not_negative("opening", opening.clear_mm, "mm")
    least, most = figure("head-trap-least"), figure("head-trap-most")
    common: dict[str, Any] = {"parts": opening.parts, "value": clear, "unit": "mm"}
    found = []
    if opening.children and least.si < clear < most.si:
        band = f"between {least.si:.0f} and {most.si:.0f} mm"
        text = f"{opening.title} is {clear:.0f} mm: {band} it can hold a child's head. {LOCAL}"
        found.append(notice("opening-traps-head", text, limit=least.si, source=least.source, **common))
    names = ("finger-hole-least", "finger-hole-most") if opening.outdoor else ("finger-trap-least", "finger-trap-most")
    low, high = (figure(n) for n in names)
    if (
        (opening.children or opening.outdoor)
        and low.value <= clear <= high.value
        and opening.depth_mm >= figure("finger-hole-depth").value
    ):
        text = (
            f"{opening.title} is {clear:.0f} mm: between {low.value:.0f} and {high.value:.0f} mm it can hold a finger."
        )
        found.append(notice("opening-traps-finger", text, limit=low.value, source=low.source, **common))
    return tuple(found)


def check_moving_gap(
    title: str, least_mm: float, most_mm: float, *, outdoor: bool = False, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Check a gap between moving parts over its whole travel.

    Units: mm. Valid: gaps that open and close in use. Raises: OutOfValidity.
    Source: EN 14749, EN 527-2, EN 1335-2 indoors (below 8 or above 25 mm); EN 581-1:2017 outdoors (7 to 18 mm).
    """
    names = (
        ("finger-hole-least", "squeeze-outdoor-most") if outdoor else ("squeeze-indoor-least", "squeeze-indoor-most")
    )
    low, high = (figure(n) for n in names)
    start, end = not_negative("least gap", least_mm, "mm"), not_negative("largest gap", most_mm, "mm")
    if end < low.value or start > high.value or end <= start:
        return ()
    band = f"from {low.value:.0f} to {high.value:.0f} mm"
    text = f"{title} moves between {start:.0f} and {end:.0f} mm: {band} it squeezes fingers."
    return (notice("moving-gap-squeezes", text, parts=parts, value=end, limit=low.value, unit="mm", source=low.source),)


def volume_litres(length_mm: float, width_mm: float, height_mm: float) -> float:
    """Return the inside volume of a box.

    Units: mm in, litres out. Valid: sizes above zero. Raises: OutOfValidity. Source: geometry.
    """
    sizes = (
        positive("length", length_mm, "mm"),
        positive("width", width_mm, "mm"),
        positive("height", height_mm, "mm"),
    )
    return sizes[0] * sizes[1] * sizes[2] / 1e6


def lid_torque(mass_kg: float, depth_mm: float, angle_deg: float = 0.0) -> float:
    """Return the torque of a lid about its hinge, its centre of gravity half way.

    Units: kg, mm, degrees up from closed; answer in N m. Valid: even lids, 0 to 90 degrees. Raises: OutOfValidity.
    Source: moments; the same as the shop rule depth times weight over two (18 in and 10 lb: 90 in lb).
    """
    within("lid angle", angle_deg, 0, 90, "degrees", "a lid opens from flat to upright")
    lever = positive("lid depth", depth_mm, "mm") / 2 * math.cos(math.radians(angle_deg))
    return weight(mass_kg) * lever / 1000


def check_chest(chest: Chest) -> ChestResult:
    """Check a chest a child could climb into: air, latch and lid.

    Units: mm, mm2, kg, N m. Valid: boxes that close; open boxes need no check. Raises: OutOfValidity.
    Source: Minnesota Rules 2630.3200 and ASTM F834 abstract (1.1 ft3); toy safety text after EN 71 (every side 150 mm,
    two vents of 650 mm2, 150 mm apart); CPSC 1982 (support at any position, no latch).
    """
    volume = volume_litres(chest.length_mm, chest.width_mm, chest.height_mm)
    side = min(chest.length_mm, chest.width_mm, chest.height_mm)
    inside = volume >= figure("chest-volume").si and side >= figure("chest-inner-side").value
    good = [a for a in chest.vents_mm2 if a >= figure("vent-area").value]
    vented = len(good) >= 2 and chest.vents_apart_mm >= figure("vent-apart").value
    torque = None
    if chest.lid_kg is not None and chest.lid_depth_mm is not None:
        torque = lid_torque(chest.lid_kg, chest.lid_depth_mm)
    return ChestResult(chest, volume, inside, vented, torque)


def check_bunk(
    foundation_mm: float, guard_above_mattress_mm: float, *, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Check the guard rail of a high bed.

    Units: mm. Valid: beds whose foundation is above 30 in (762 mm). Raises: OutOfValidity.
    Source: 16 CFR 1213 and 1513, CPSC summary.
    """
    high, guard = figure("bunk-foundation"), figure("bunk-guard")
    if not_negative("foundation height", foundation_mm, "mm") <= high.si or guard_above_mattress_mm >= guard.si:
        return ()
    rail = f"its rail stands {guard_above_mattress_mm:.0f} mm above the mattress"
    text = f"The bed is {foundation_mm:.0f} mm high and {rail}. {LOCAL}"
    return (
        notice(
            "guard-too-low",
            text,
            parts=parts,
            value=guard_above_mattress_mm,
            limit=guard.si,
            unit="mm",
            source=guard.source,
        ),
    )
