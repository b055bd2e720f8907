"""Fasteners no table of sizes holds: screws by diameter, staples, and kinds that have only their maker's values."""

from dataclasses import replace
from types import MappingProxyType

from scantling.tables import Status, bending_yield_psi, bite_diameters

from .connection import Capacity, FastenerJoint
from .fastener import LEAST_ROLLED_THREAD, THREAD_SHARE, FastenerSize, round_nail
from .inch_pound import N_MM2_PER_PSI
from .validity import positive, within

STAPLE_LEGS = 2
LEAST_YIELD_MM = 2.52  # 0.099 in: thinner wire has no bending yield strength in NDS 2018 Table 12N
MAKER = "the maker's design values, as the caller gives them"


def screw_by_diameter(diameter_mm: float, root_mm: float, length_mm: float) -> FastenerSize:
    """Return a wood screw by its own diameters, such as a metric one.

    Units: mm. Valid: diameters 2.5 to 9.5 mm with the maker's root below it; threads over two thirds of the length, a
    tip of two diameters, as rolled wood screws have them. Raises: OutOfValidity, ValueError for a diameter without a
    bending yield strength. Source: NDS 2018 Table 12L footnotes (bending yield by diameter), Appendix Table L3
    footnotes, 12.1.5.
    """
    d = within("screw diameter", diameter_mm, 2.5, 9.53, "mm", "NDS 2018 Table 12L footnotes")
    root = within("root diameter", root_mm, 0.4 * d, d, "mm", "the thread stands out from the root")
    length = positive("screw length", length_mm, "mm")
    least, full = bite_diameters("wood screw", "holds")
    return FastenerSize(
        kind="wood screw",
        label=f"{d:g} x {length:g} mm wood screw",
        gauge=None,
        diameter_mm=d,
        root_mm=root,
        head_mm=None,
        length_mm=length,
        thread_mm=min(length, max(THREAD_SHARE * length, LEAST_ROLLED_THREAD * d)),
        tip_mm=2 * d,
        shear_mm=root,
        bending_yield=bending_yield_psi(d) * N_MM2_PER_PSI,
        threads_per_inch=None,
        withdrawal_row="wood screw",
        bite_diameters=least,
        full_diameters=full,
        status=Status.READ,
        source="NDS 2018 Table 12L footnotes; root diameter of the maker",
    )


def staple(wire_mm: float, length_mm: float) -> FastenerSize:
    """Return one leg of a staple, reckoned as a smooth nail as thick as its wire.

    Units: mm. Valid: wires of 0.5 to 3 mm; below 2.5 mm no bending yield strength is published, so that it holds
    nothing sideways by the standard unless the maker's is given. Raises: OutOfValidity.
    Source: Wood Handbook, FPL-GTR-190, p. 8-10 (each leg as a nail of the wire's diameter).
    """
    d = within("diameter of the wire", wire_mm, 0.5, 3.0, "mm", "staples for wood")
    source = "Wood Handbook, FPL-GTR-190, p. 8-10: each leg as a nail of the wire's diameter"
    leg = round_nail(max(d, LEAST_YIELD_MM), length_mm, None)
    if d < LEAST_YIELD_MM:
        leg = replace(leg, diameter_mm=d, tip_mm=2 * d, shear_mm=d, bending_yield=None)
    return replace(leg, label=f"leg of a {d:g} x {length_mm:g} mm staple", source=source)


def other_fastener(
    name: str, diameter_mm: float, length_mm: float, withdrawal_n: float | None, lateral_n: float | None
) -> FastenerSize:
    """Return a fastener of a kind no standard reckons, with its maker's design values for one of them.

    Units: mm and N. Valid: at least one of the two values. Raises: ValueError for none, OutOfValidity.
    Source: the caller.
    """
    if withdrawal_n is None and lateral_n is None:
        raise ValueError(
            f"{name!r} has no published values: give its maker's design_withdrawal_n or design_lateral_n, or take a "
            "wood screw, lag screw, nail, staple, bolt or dowel"
        )
    for what, value in (("design withdrawal", withdrawal_n), ("design lateral value", lateral_n)):
        if value is not None:
            positive(what, value, "N")
    return FastenerSize(
        kind="other",
        label=f"{diameter_mm:g} x {length_mm:g} mm {name}",
        gauge=None,
        diameter_mm=positive("diameter", diameter_mm, "mm"),
        root_mm=None,
        head_mm=None,
        length_mm=positive("length", length_mm, "mm"),
        thread_mm=length_mm,
        tip_mm=0.0,
        shear_mm=None,
        bending_yield=None,
        threads_per_inch=None,
        withdrawal_row="",
        bite_diameters=0.0,
        full_diameters=0.0,
        status=Status.READ,
        source=MAKER,
        own_withdrawal_n=withdrawal_n,
        own_lateral_n=lateral_n,
    )


def own_capacity(joint: FastenerJoint) -> Capacity:
    """Return what the maker says one fastener holds, unadjusted: for what wood and how long is in his papers.

    Units: N. Valid: fasteners of `other_fastener`. Raises: nothing. Source: the caller.
    """
    size = joint.size
    missing = {
        name: "the maker gives no value for it"
        for name, value in (("withdrawal", size.own_withdrawal_n), ("lateral", size.own_lateral_n))
        if value is None
    }
    return Capacity(
        code=MAKER,
        withdrawal_n=size.own_withdrawal_n,
        pull_through_n=None,
        lateral_n=size.own_lateral_n,
        lateral_mode=None,
        modes=MappingProxyType({}),
        factors=MappingProxyType({}),
        missing=MappingProxyType(missing | {"pull-through": "within the maker's value"}),
        status=Status.READ,
        sources=(MAKER,),
    )
