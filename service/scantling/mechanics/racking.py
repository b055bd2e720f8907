"""Does a frame or a case stay square: what braces it, how far it leans under a push, and what would hold it."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .figures import figure, weakest
from .notice import notice
from .plates import shear_buckling_stress
from .validity import not_negative, positive

# What keeps a frame square. A plain shelf or a dado alone does not: its corners turn.
BRACES = (
    "fixed back",
    "face frame",
    "apron",
    "stretcher",
    "diagonal",
    "corner blocks",
    "cleats",
    "glued panel",
    "wall",
)
NOT_A_BRACE = ("loose back", "shelf", "dado", "drawer", "door")


@dataclass(frozen=True, slots=True)
class FrameSide:
    """One plane of a frame or case: its name, width and height mm, and what stands in it against leaning.

    `back_thickness_mm`, `back_shear_mpa` (modulus G), `back_modulus_mpa` (the lesser E) and `back_fasteners_mm`
    (spacing) describe a fixed panel.
    """

    title: str
    width_mm: float
    height_mm: float
    held_by: tuple[str, ...]
    back_thickness_mm: float | None = None
    back_shear_mpa: float | None = None
    back_fasteners_mm: float | None = None
    back_modulus_mpa: float | None = None
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RackingResult:
    """One plane under a sideways push: held or not, lean in mm, force on each edge fastener of a panel in N.

    `shear_mpa` is the shear in a fixed panel, `waves_mpa` that at which it would wave; None where not known.
    """

    side: FrameSide
    push_n: float
    held: bool
    lean_mm: float | None
    fastener_n: float | None
    thin: bool
    status: Status
    shear_mpa: float | None = None
    waves_mpa: float | None = None

    def findings(self) -> tuple[Finding, ...]:
        """Return a warning for a plane nothing holds square, and a note for a panel that is very thin for its size."""
        s = self.side
        if not self.held:
            return (
                notice(
                    "frame-racks",
                    f"{s.title} ({s.width_mm:.0f} by {s.height_mm:.0f} mm) has nothing that keeps it square: "
                    f"it will lean under a push of {self.push_n:.0f} N at the top.",
                    parts=s.parts,
                    value=s.height_mm / s.width_mm,
                    source="statics of a hinged frame; practice: a fixed 6 mm back, a face frame or cleats cure it",
                ),
            )
        if self.thin:
            ratio = s.width_mm / (s.back_thickness_mm or math.inf)
            return (
                notice(
                    "back-panel-thin",
                    f"The panel in {s.title.lower()} is {ratio:.0f} times as wide as thick: it may belly out.",
                    status=self.status,
                    parts=s.parts,
                    value=ratio,
                    limit=figure("back-panel-slender").value,
                    source=figure("back-panel-slender").source,
                ),
            )
        return ()


def panel_lean(
    push_n: float, width_mm: float, height_mm: float, thickness_mm: float, shear_modulus_mpa: float
) -> float:
    """Return how far the top of a plane with a fixed panel moves sideways by the panel's own shear.

    Units: N, mm, N/mm2; answer in mm. Valid: a flat panel fixed all round, fasteners that do not slip.
    Raises: OutOfValidity. Source: statics of a shear panel, V h/(G t b).
    """
    v, h = not_negative("push", push_n, "N"), positive("height", height_mm, "mm")
    stiff = positive("shear modulus", shear_modulus_mpa, "N/mm2") * positive("thickness", thickness_mm, "mm")
    return v * h / (stiff * positive("width", width_mm, "mm"))


def edge_fastener_force(push_n: float, width_mm: float, spacing_mm: float) -> float:
    """Return the force on each fastener along the edge of a bracing panel.

    Units: N, mm; answer in N. Valid: fasteners evenly spaced all round. Raises: OutOfValidity.
    Source: statics, shear flow V/b times the spacing; EN 1995-1-1 9.2.4.2 method A.
    """
    flow = not_negative("push", push_n, "N") / positive("width", width_mm, "mm")
    return flow * positive("fastener spacing", spacing_mm, "mm")


def panel_resistance(fastener_n: float, width_mm: float, height_mm: float, spacing_mm: float) -> float:
    """Return the sideways push a panel's fasteners hold, F b c/s with c = 1 from half the height up, 2 b/h below.

    Units: N, mm; answer in N. Valid: one panel fixed all round. Raises: OutOfValidity.
    Source: EN 1995-1-1 9.2.4.2 (method A).
    """
    b, h = positive("width", width_mm, "mm"), positive("height", height_mm, "mm")
    c = 1.0 if b >= h / 2 else 2 * b / h
    return not_negative("fastener capacity", fastener_n, "N") * b * c / positive("fastener spacing", spacing_mm, "mm")


def open_frame_moment(push_n: float, height_mm: float, corners: int = 4) -> float:
    """Return the moment each corner must hold where corners alone keep a frame square.

    Units: N, mm; answer in N mm. Valid: stiff posts and rails, the push shared evenly. Raises: OutOfValidity,
    ValueError for fewer than 2 corners. Source: statics: push times height over the number of corners.
    """
    if corners < 2:
        raise ValueError(f"a frame has two corners or more, not {corners}")
    return not_negative("push", push_n, "N") * positive("height", height_mm, "mm") / corners


def check_racking(side: FrameSide, push_n: float = 250.0) -> RackingResult:
    """Check whether one plane of a frame or case is held square.

    Units: mm, N, N/mm2. Valid: the words of `BRACES` hold, those of `NOT_A_BRACE` do not; the push defaults to 250 N,
    a person leaning (practice). Raises: ValueError for another word, OutOfValidity.
    Source: statics of hinged frames; EN 1995-1-1 9.2.4.2 for panels; practice for face frames and cleats.
    """
    positive("width", side.width_mm, "mm")
    positive("height", side.height_mm, "mm")
    push = not_negative("push", push_n, "N")
    unknown = [w for w in side.held_by if w not in BRACES and w not in NOT_A_BRACE]
    if unknown:
        raise ValueError(f"{unknown[0]!r} is not known; say {', '.join(BRACES)}, or {', '.join(NOT_A_BRACE)}")
    held = any(word in BRACES for word in side.held_by)
    lean = force = shear = waves = None
    thin = False
    status = Status.DERIVED
    if side.back_thickness_mm is not None and "fixed back" in side.held_by:
        if side.back_shear_mpa is not None:
            lean = panel_lean(push, side.width_mm, side.height_mm, side.back_thickness_mm, side.back_shear_mpa)
        if side.back_fasteners_mm is not None:
            force = edge_fastener_force(push, side.width_mm, side.back_fasteners_mm)
        if side.back_modulus_mpa is not None:
            short, long = sorted((side.width_mm, side.height_mm))
            shear = push / (side.width_mm * side.back_thickness_mm)
            waves = shear_buckling_stress(side.back_modulus_mpa, side.back_thickness_mm, short, long)
        limit = figure("back-panel-slender")
        thin = side.width_mm / side.back_thickness_mm > limit.value
        status = weakest((limit.status, status))
    return RackingResult(side, push, held, lean, force, thin, status, shear, waves)
