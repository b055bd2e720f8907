"""A fastener as the checks see it: wood screw, lag, nail or bolt, by trade size or by the caller's own figures."""

from dataclasses import dataclass, replace

from scantling.tables import (
    Status,
    bending_yield_psi,
    bite_diameters,
    lag_screw,
    load_table,
    look_up,
    nail,
    screw_gauge,
    screw_stock,
)

from .inch_pound import N_MM2_PER_PSI
from .validity import positive, within

KINDS = ("wood screw", "lag screw", "nail", "staple", "bolt", "dowel", "other")
THREAD_SHARE = 2 / 3  # NDS 2018 Appendix Table L3, footnote 2
SAME_LENGTH_MM = 0.05
LEAST_ROLLED_THREAD = 4.0  # diameters, NDS 2018 Appendix Table L3, footnote 3


@dataclass(frozen=True, slots=True)
class FastenerSize:
    """A fastener: diameters and lengths in mm, bending yield strength in N/mm2; None where nothing is published.

    `shear_mm` is the diameter the yield equations take (the root of a screw, the shank of a nail or bolt).
    `bite_diameters` and `full_diameters` are the least and the full penetration in diameters; `tip_mm` is the taper.
    The last seven are a maker's: declared values for Eurocode 5 in N/mm2 and kg/m3, and design values in N for a kind
    of fastener no standard reckons.
    """

    kind: str
    label: str
    gauge: int | None
    diameter_mm: float
    root_mm: float | None
    head_mm: float | None
    length_mm: float
    thread_mm: float
    tip_mm: float
    shear_mm: float | None
    bending_yield: float | None
    threads_per_inch: float | None
    withdrawal_row: str
    bite_diameters: float
    full_diameters: float
    status: Status
    source: str
    tensile_strength: float | None = None
    withdrawal_parameter: float | None = None
    head_parameter: float | None = None
    declared_density: float = 350.0
    yield_moment: float | None = None
    own_withdrawal_n: float | None = None
    own_lateral_n: float | None = None

    @property
    def bite_mm(self) -> float:
        """Return the least penetration that counts, mm: lags exclude their tip, the others include it."""
        return self.bite_diameters * self.diameter_mm + (self.tip_mm if self.kind == "lag screw" else 0.0)


def wood_screw(gauge: int, length_mm: float) -> FastenerSize:
    """Return a wood screw by gauge and length.

    Units: mm. Valid: gauges of the table; lengths above zero. Raises: UnknownGauge, OutOfValidity.
    Source: NDS 2018 Appendix Table L3 (thread over two thirds, tip of 2 D), 12.1.5 (6 D least, 10 D full).
    """
    row = screw_gauge(gauge)
    positive("screw length", length_mm, "mm")
    thread = min(length_mm, max(THREAD_SHARE * length_mm, LEAST_ROLLED_THREAD * row.diameter_mm))
    threads = (r for r in load_table("screw_threads").rows if r.number("gauge") == gauge)
    pitch = next((r.number("threads_per_inch") for r in threads), None)
    least, full = bite_diameters("wood screw", "holds")
    return FastenerSize(
        kind="wood screw",
        label=_screw_label(gauge, length_mm),
        gauge=gauge,
        diameter_mm=row.diameter_mm,
        root_mm=row.root_mm,
        head_mm=row.head_mm,
        length_mm=length_mm,
        thread_mm=thread,
        tip_mm=2 * row.diameter_mm,
        shear_mm=row.root_mm,
        bending_yield=row.bending_yield_psi * N_MM2_PER_PSI,
        threads_per_inch=pitch,
        withdrawal_row="wood screw",
        bite_diameters=least,
        full_diameters=full,
        status=row.status,
        source=row.source,
    )


def _screw_label(gauge: int, length_mm: float) -> str:
    """Return how the screw is written on its box where shops sell that length, else its length in mm."""
    sold = (s.label for s in screw_stock() if s.gauge == gauge and abs(s.length_mm - length_mm) < SAME_LENGTH_MM)
    return f"{next(sold, f'#{gauge} x {length_mm:.1f} mm')} wood screw"


def lag(diameter: str, length_mm: float) -> FastenerSize:
    """Return a lag screw by diameter as written (`3/8`) and length.

    Units: mm. Valid: diameters of the table; lengths from 25.4 mm. Raises: UnknownRowError, OutOfValidity.
    Source: NDS 2018 Appendix Table L2 (thread the lesser of 6 in and L/2 + 1/2 in), 12.1.4 (4 D least, 8 D full).
    """
    row = lag_screw(diameter)
    within("lag length", length_mm, 25.4 - 1e-6, 500.0, "mm", row.source)
    thread = 0.75 * 25.4 if length_mm < 26.0 else min(6 * 25.4, length_mm / 2 + 12.7)
    least, full = bite_diameters("lag screw", "holds")
    return FastenerSize(
        kind="lag screw",
        label=f"{diameter} in x {length_mm:.1f} mm lag screw",
        gauge=None,
        diameter_mm=row.diameter_mm,
        root_mm=row.root_mm,
        head_mm=None,
        length_mm=length_mm,
        thread_mm=thread,
        tip_mm=row.tip_mm,
        shear_mm=row.root_mm,
        bending_yield=row.bending_yield_psi * N_MM2_PER_PSI,
        threads_per_inch=None,
        withdrawal_row="lag screw",
        bite_diameters=least,
        full_diameters=full,
        status=row.status,
        source=row.source,
    )


def driven_nail(kind: str, pennyweight: str, length_mm: float | None = None) -> FastenerSize:
    """Return a nail by kind (common, box, sinker) and pennyweight (`8d`); a length stated rules over the table's.

    Units: mm. Valid: nails of the table; a length from memory marks the nail. Raises: UnknownRowError, OutOfValidity.
    Source: NDS 2018 Appendix Table L4, 12.1.6 (6 D least, 10 D full).
    """
    row = nail(kind, pennyweight)
    stated = length_mm is not None
    length = positive(f"length of a {kind} {pennyweight} nail", length_mm or row.length_mm or 0.0, "mm", row.source)
    size = round_nail(row.diameter_mm, length, row.head_mm, f"{length:.1f} mm {pennyweight} {kind} nail")
    return replace(size, status=row.status if stated else row.length_status)


def round_nail(diameter_mm: float, length_mm: float, head_mm: float | None, label: str = "") -> FastenerSize:
    """Return a smooth round nail by its size.

    Units: mm. Valid: diameters 0.099 to 0.375 in (2.5 to 9.5 mm); lengths above zero. Raises: ValueError outside that.
    Source: NDS 2018 12.1.6, Table 12N footnotes.
    """
    positive("nail length", length_mm, "mm")
    least, full = bite_diameters("nail", "holds")
    return FastenerSize(
        kind="nail",
        label=label or f"{diameter_mm:.2f} x {length_mm:.1f} mm nail",
        gauge=None,
        diameter_mm=diameter_mm,
        root_mm=None,
        head_mm=head_mm,
        length_mm=length_mm,
        thread_mm=length_mm,
        tip_mm=2 * diameter_mm,
        shear_mm=diameter_mm,
        bending_yield=bending_yield_psi(diameter_mm) * N_MM2_PER_PSI,
        threads_per_inch=None,
        withdrawal_row="smooth nail",
        bite_diameters=least,
        full_diameters=full,
        status=Status.READ,
        source="NDS 2018 Table 12N footnotes",
    )


def bolt(diameter_mm: float, length_mm: float) -> FastenerSize:
    """Return a bolt by diameter and length.

    Units: mm. Valid: diameters 6.35 to 25.4 mm; lengths above zero. Raises: OutOfValidity.
    Source: NDS 2018 12.1.3 and Table 12A footnotes.
    """
    within("bolt diameter", diameter_mm, 6.0, 25.41, "mm", "NDS 2018 Table 12A")
    positive("bolt length", length_mm, "mm")
    steel = look_up("steel_strength", "value", what="bolt and large lag bending yield")
    return FastenerSize(
        kind="bolt",
        label=f"{diameter_mm:.1f} x {length_mm:.1f} mm bolt",
        gauge=None,
        diameter_mm=diameter_mm,
        root_mm=None,
        head_mm=None,
        length_mm=length_mm,
        thread_mm=0.0,
        tip_mm=0.0,
        shear_mm=diameter_mm,
        bending_yield=steel.value * N_MM2_PER_PSI,
        threads_per_inch=None,
        withdrawal_row="",
        bite_diameters=0.0,
        full_diameters=0.0,
        status=steel.status,
        source=steel.source,
    )


def dowel(diameter_mm: float, length_mm: float) -> FastenerSize:
    """Return a glued dowel by diameter and length.

    Units: mm. Valid: dowels of 3 to 26 mm; lengths above zero. Raises: OutOfValidity.
    Source: common practice (depths of the table fastener_bite).
    """
    within("dowel diameter", diameter_mm, 3.0, 26.0, "mm", "common dowels")
    positive("dowel length", length_mm, "mm")
    least, full = bite_diameters("dowel", "holds")
    return FastenerSize(
        kind="dowel",
        label=f"{diameter_mm:.1f} x {length_mm:.1f} mm dowel",
        gauge=None,
        diameter_mm=diameter_mm,
        root_mm=None,
        head_mm=None,
        length_mm=length_mm,
        thread_mm=0.0,
        tip_mm=0.0,
        shear_mm=None,
        bending_yield=None,
        threads_per_inch=None,
        withdrawal_row="",
        bite_diameters=least,
        full_diameters=full,
        status=Status.MEMORY,
        source="common practice",
    )


def with_own_figures(size: FastenerSize, own: dict[str, float]) -> FastenerSize:
    """Return the fastener with the caller's own figures in place of the table's: those of the maker are better.

    Units: mm and N/mm2, members of FastenerSize. Valid: values above zero.
    Raises: OutOfValidity otherwise, TypeError for a member that is not there. Source: the caller.
    """
    for name, value in own.items():
        positive(name.replace("_mm", "").replace("_", " "), value, "mm" if name.endswith("_mm") else "")
    changed = replace(size, **own)  # type: ignore[arg-type]
    if "root_mm" in own and size.kind in ("wood screw", "lag screw"):
        changed = replace(changed, shear_mm=own["root_mm"])
    if "thread_mm" in own:
        changed = replace(changed, thread_mm=min(own["thread_mm"], changed.length_mm))
    return changed
