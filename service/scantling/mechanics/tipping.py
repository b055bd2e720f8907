"""Will it fall over: seats pushed backward, forward and sideways, overhanging tops, slopes, uneven floors."""

import math
from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding
from scantling.tables import Status

from .figures import figure, weakest
from .notice import LOCAL, notice
from .validity import not_negative, positive, within


@dataclass(frozen=True, slots=True)
class SeatStance:
    """A seat on its feet, all mm along one direction measured from the foot line it would tip over.

    `mass_n` its weight in N, `centre_mm` the centre of gravity inside the foot line, `seat_mm` loaded seat height.
    Rear: `load_mm` how far inside the rear feet the sitter's weight acts, `push_mm` height of the push on the back.
    Front and sides: `edge_mm` how far the seat edge stands out beyond the feet (negative inside).
    """

    weight_n: float
    centre_mm: float
    seat_mm: float
    load_mm: float = 0.0
    push_mm: float = 0.0
    edge_mm: float = 0.0
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TipResult:
    """One direction: the push it stands and the push asked for (N, or N m), and how well both are known."""

    code: str
    title: str
    holds: float
    needed: float
    unit: str
    status: Status
    source: str
    parts: tuple[str, ...] = ()

    @property
    def stands(self) -> bool:
        """Return whether it stands what is asked for."""
        return self.holds >= self.needed

    @property
    def marginal(self) -> bool:
        """Return whether the two are within ten per cent: then the test decides, not the sum."""
        return self.needed > 0 and abs(self.holds - self.needed) <= 0.1 * self.needed

    def findings(self) -> tuple[Finding, ...]:
        """Return the tip-over finding, or a note where it only just stands."""
        said = f"{self.title}: it stands {self.holds:.0f} {self.unit}, {self.needed:.0f} {self.unit} is asked for"
        common: dict[str, Any] = {
            "parts": self.parts,
            "value": self.holds,
            "limit": self.needed,
            "unit": self.unit,
            "source": self.source,
        }
        if not self.stands:
            return (notice(self.code, f"{said}. {LOCAL}", status=self.status, **common),)
        if self.marginal:
            return (notice("stands-narrowly", f"{said}: only just; try it before you trust it.", **common),)
        return ()


def rear_push_needed(seat_mm: float) -> float:
    """Return the rearward push asked for: 0.2857 (1000 - H), 80 N from a loaded seat height of 720 mm up.

    Units: mm in, N out. Valid: loaded seat heights 150 to 900 mm. Raises: OutOfValidity.
    Source: EN 1022:2018, from memory (not read): a result on it warns and never decides.
    """
    h = within("loaded seat height", seat_mm, 150, 900, "mm", "adult seats")
    if h >= 720:
        return figure("rear-push-high-seat").value
    return figure("rear-push-slope").value * (figure("rear-push-zero").value - h)


def rear_push_needed_bifma(seat_mm: float) -> float:
    """Return the rearward push of the American office chair test, 1.1 (47 - H) lbf with H in inches.

    Units: mm in, N out. Valid: loaded seat heights 150 to 900 mm; 20.9 lbf from 28 in up. Raises: OutOfValidity.
    Source: ANSI/BIFMA X5.1, from memory (not read).
    """
    h = within("loaded seat height", seat_mm, 150, 900, "mm", "adult seats") / 25.4
    force = figure("bifma-rear-slope").value * (figure("bifma-rear-zero").value - h)
    return max(force, figure("bifma-rear-least").value) * 4.448222


def rear_points(seat_mm: float, junction_mm: float, back_top_mm: float) -> tuple[float, float]:
    """Return where a seat is loaded and pushed: how far inside the rear feet the load stands, and the push's height.

    Units: mm; `junction_mm` is how far the seat/back junction lies inside the rear feet (negative beyond them),
    `back_top_mm` the top of the back above the floor. Valid: backs above the loaded seat. Raises: OutOfValidity.
    Source: EN 1022:2018 6.2 and ISO 7174-1: 175 mm ahead of the junction, 300 mm above it or the top, the lower one.
    """
    top = within("top of the back", back_top_mm, seat_mm, 3000, "mm", "a back rises above its seat")
    height = min(top, positive("loaded seat height", seat_mm, "mm") + figure("rear-push-height").value)
    return junction_mm + figure("rear-load-ahead").value, height


def rear_capacity(load_n: float, load_mm: float, weight_n: float, centre_mm: float, push_mm: float) -> float:
    """Return the push on the back at which a seat tips backward: (V a + W b)/h.

    Units: N, mm; answer in N. Valid: rigid seat on a level floor, feet that do not slide; `load_mm` may be negative.
    Raises: OutOfValidity. Source: moments about the rear feet.
    """
    v, w = not_negative("load on the seat", load_n, "N"), not_negative("weight", weight_n, "N")
    return max(0.0, (v * load_mm + w * centre_mm) / positive("height of the push", push_mm, "mm"))


def edge_capacity(
    load_n: float, inside_mm: float, edge_mm: float, weight_n: float, centre_mm: float, seat_mm: float
) -> float:
    """Return the push at seat height at which a seat tips over its front or side: (V (e - s) + W b)/H.

    Units: N, mm; answer in N. Valid: rigid seat on a level floor; e = how far the load stands inside the edge, s = how
    far the edge stands out beyond the feet. Raises: OutOfValidity. Source: moments about the front or side feet.
    """
    v, w = not_negative("load on the seat", load_n, "N"), not_negative("weight", weight_n, "N")
    moment = v * (inside_mm - edge_mm) + w * centre_mm
    return max(0.0, moment / positive("seat height", seat_mm, "mm"))


def check_rear(stance: SeatStance) -> TipResult:
    """Check a seat against a push on its back with a sitter on it.

    Units: mm, N. Valid: seats for adults up to 110 kg, one place (several places share one push, on the safe side).
    Raises: OutOfValidity. Source: EN 1022:2018 6.2 and ISO 7174-1 (600 N at 175 mm ahead, push at 300 mm); the force
    itself from memory, so the outcome warns.
    """
    load = figure("seat-test-load")
    holds = rear_capacity(load.value, stance.load_mm, stance.weight_n, stance.centre_mm, stance.push_mm)
    needed = rear_push_needed(stance.seat_mm)
    status = weakest((load.status, figure("rear-push-slope").status))
    source = "EN 1022:2018 6.2 (screening), pushed back"
    return TipResult("tips-backward", "Pushed backward", holds, needed, "N", status, source, stance.parts)


def check_edge(stance: SeatStance, *, side: bool = False) -> TipResult:
    """Check a seat against tipping forward, or sideways with `side`, when someone sits on its edge.

    Units: mm, N. Valid: seats for adults up to 110 kg. Raises: OutOfValidity.
    Source: EN 1022:2018 clause 6, as a test laboratory describes it: 600 N 60 mm inside the edge and 20 N outward.
    """
    load, push, inside = figure("seat-test-load"), figure("forward-push"), figure("edge-distance")
    holds = edge_capacity(load.value, inside.value, stance.edge_mm, stance.weight_n, stance.centre_mm, stance.seat_mm)
    code, title = (
        ("tips-sideways", "Sitting on the side edge") if side else ("tips-forward", "Sitting on the front edge")
    )
    status = weakest((load.status, push.status, inside.status))
    source = "EN 1022:2018 clause 6 (screening): 600 N at 60 mm and 20 N"
    return TipResult(code, title, holds, push.value, "N", status, source, stance.parts)


def check_overhang(
    base_mm: float, overhang_mm: float, weight_n: float, person_n: float, *, parts: tuple[str, ...] = ()
) -> TipResult:
    """Check a bench or top whose ends stand out beyond its base when somebody sits on the very end.

    Units: mm, N; the moments in N m. Valid: an even bench, its weight in the middle of the base.
    Raises: OutOfValidity. Source: moments about the nearer support: the bench must weigh more than P overhang/(base/2).
    """
    base, over = positive("base", base_mm, "mm"), not_negative("overhang", overhang_mm, "mm")
    holds = not_negative("weight", weight_n, "N") * base / 2 / 1000
    needed = not_negative("person", person_n, "N") * over / 1000
    return TipResult(
        "tips-on-overhang",
        "Somebody sitting on the very end",
        holds,
        needed,
        "N m",
        Status.DERIVED,
        "moments about the nearer support",
        parts,
    )


def weight_against_overhang(base_mm: float, overhang_mm: float, person_n: float) -> float:
    """Return the weight a bench needs so that a person on its overhanging end does not lift it.

    Units: mm, N; answer in N. Valid: as `check_overhang`. Raises: OutOfValidity. Source: moments, P overhang/(base/2).
    """
    half = positive("base", base_mm, "mm") / 2
    return not_negative("person", person_n, "N") * not_negative("overhang", overhang_mm, "mm") / half


def lean_angle(block_mm: float, depth_mm: float) -> float:
    """Return how far a piece leans when one side stands on blocks or thick carpet.

    Units: mm; answer in degrees. Valid: blocks smaller than the depth. Raises: OutOfValidity. Source: geometry.
    """
    depth = positive("depth", depth_mm, "mm")
    return math.degrees(math.atan(within("block", block_mm, 0, depth, "mm", "geometry") / depth))


def tilt_stability(half_base_mm: float, centre_height_mm: float) -> float:
    """Return the angle to which a piece may be tilted before it falls over.

    Units: mm; answer in degrees. Valid: rigid piece, centre of gravity over the base. Raises: OutOfValidity.
    Source: geometry: the centre of gravity over the foot line.
    """
    b = not_negative("centre of gravity inside the foot line", half_base_mm, "mm")
    return math.degrees(math.atan2(b, positive("height of the centre of gravity", centre_height_mm, "mm")))


def check_tilt(half_base_mm: float, centre_height_mm: float, *, parts: tuple[str, ...] = ()) -> TipResult:
    """Check a piece on an incline of 10 degrees.

    Units: mm in, degrees out. Valid: rigid piece, as loaded as its centre of gravity says. Raises: OutOfValidity.
    Source: 10 degree incline as quoted for listed furniture; practice for everything else.
    """
    angle, holds = figure("tilt-angle"), tilt_stability(half_base_mm, centre_height_mm)
    source = angle.source + " (screening)"
    return TipResult("tips-on-slope", "On a slope", holds, angle.value, "degrees", angle.status, source, parts)


def wobble(leg_error_mm: float, diagonal_mm: float, span_mm: float) -> tuple[float, float]:
    """Return how far a four-legged piece rocks: gap under the short leg, and movement at a point of its top.

    Units: mm. Valid: stiff piece, one leg off by the error, diagonal between opposite feet; `span_mm` distance of the
    point from the rocking line. Raises: OutOfValidity. Source: geometry of a plane through three feet.
    """
    error = not_negative("leg error", leg_error_mm, "mm")
    half = positive("diagonal", diagonal_mm, "mm") / 2
    return error, error * positive("distance of the point", span_mm, "mm") / half


def check_level(
    leg_error_mm: float, floor_mm: float, *, feet: int = 4, levelled: bool = False, parts: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Check whether legs and floor leave a piece rocking.

    Units: mm. Valid: four feet or more, `levelled` where it has levelling feet. Raises: OutOfValidity.
    Source: geometry; 1 mm is felt, practice.
    """
    gap = not_negative("leg error", leg_error_mm, "mm") + not_negative("floor unevenness", floor_mm, "mm")
    if levelled or feet < 4 or gap <= 1.0:
        return ()
    text = f"Legs off by {leg_error_mm:.1f} mm on a floor uneven by {floor_mm:.1f} mm rock by up to {gap:.1f} mm."
    return (notice("rocks-on-floor", text, parts=parts, value=gap, limit=1.0, unit="mm", source="practice"),)
