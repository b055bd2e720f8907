"""Shelves: what stands on them, how far they sag at once and after years, and what would keep them straight."""

from dataclasses import dataclass
from types import MappingProxyType

from scantling.findings import Finding
from scantling.tables import Status

from .basis import WoodValues, row_of
from .beams import BuiltUp, Piece, allowed_span, built_up, deflection
from .figures import figure, weakest
from .notice import notice
from .validity import positive, within

_POUND_FOOT = 4.448222 / 304.8
_POUND_SQUARE_FOOT = 4.448222 / 304.8**2
_POUND_CUBIC_FOOT = 4.448222 / 304.8**3
_FIGURES = MappingProxyType(
    {
        "books": "books-per-foot",
        "library shelf": "aws-library-load",
        "other shelf": "aws-other-load",
        "book stack": "stack-load",
    }
)
_CREEP_ROWS = MappingProxyType(
    {
        "plywood": "plywood",
        "osb": "OSB/3 and OSB/4",
        "particleboard": "particleboard P4",
        "fibreboard": "MDF",
        "softwood": "solid timber",
        "hardwood": "solid timber",
    }
)


@dataclass(frozen=True, slots=True)
class ShelfLoad:
    """What stands on a shelf, as a line load in N per mm of shelf length; the name says what it was in."""

    label: str
    line_n_per_mm: float
    kind: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Shelf:
    """A shelf: clear span, depth (front to back), thickness mm, wood, family for creep, strips mm, how it is held.

    `strips` are edging strips as (count, width, height) glued to the long edges, top edges flush; their modulus is the
    shelf's own where none is given.
    `held` is a line-load case: uniform-simple, uniform-clamped or uniform-two-spans.
    """

    span_mm: float
    depth_mm: float
    thickness_mm: float
    wood: WoodValues
    family: str
    strips: tuple[tuple[int, float, float], ...] = ()
    strip_modulus_mpa: float | None = None
    held: str = "uniform-simple"
    service_class: int = 1
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ShelfResult:
    """A shelf loaded: sag at once and after years, limit, longest span that keeps the limit; all mm."""

    shelf: Shelf
    load: ShelfLoad
    sag_mm: float
    lasting_sag_mm: float
    limit_mm: float
    limit_name: str
    longest_span_mm: float
    stiffness_nmm2: float
    status: Status

    def findings(self) -> tuple[Finding, ...]:
        """Return a warning when the shelf sags beyond the limit at once, a note when it will in the long run."""
        s = self.shelf
        said = f"{self.load.label} ({self.load.line_n_per_mm / 9.80665 * 1000:.0f} kg a metre)"
        if self.sag_mm > self.limit_mm:
            text = (
                f"A shelf of {s.span_mm:.0f} mm sags {self.sag_mm:.1f} mm under {said}; {self.limit_name} is "
                f"{self.limit_mm:.1f} mm. {s.thickness_mm:.0f} mm of this material stays straight to about "
                f"{self.longest_span_mm:.0f} mm."
            )
            value, code = self.sag_mm, "shelf-sags"
        elif self.lasting_sag_mm > self.limit_mm:
            text = (
                f"A shelf of {s.span_mm:.0f} mm sags {self.sag_mm:.1f} mm at first and about "
                f"{self.lasting_sag_mm:.1f} mm after years under {said}; {self.limit_name} is {self.limit_mm:.1f} mm."
            )
            value, code = self.lasting_sag_mm, "shelf-creeps"
        else:
            return ()
        return (
            notice(
                code,
                text,
                status=self.status,
                parts=s.parts,
                value=value,
                limit=self.limit_mm,
                unit="mm",
                source=f"Wood Handbook, FPL-GTR-282, Eq 9-2; load: {self.load.source}; wood: {s.wood.source}",
            ),
        )


def shelf_load(
    kind: str, depth_mm: float, *, height_mm: float | None = None, mass_kg_per_m: float | None = None
) -> ShelfLoad:
    """Return a load by its name: books (line load), library shelf and other shelf (area), book stack (volume), own.

    Units: depth and height mm, own mass kg per metre of shelf; answer N per mm. Valid: books 20 to 25 lb per foot
    whatever the depth; area loads times the depth; a stack needs the clear height above the shelf.
    Raises: ValueError for another name or a missing height or mass, OutOfValidity.
    Source: shelf design guidelines (25 lb/ft); AWI Architectural Woodwork Standards 2009 pp. 253, 279 (50 and 40 psf);
    IBC stack rooms (65 lb/ft3).
    """
    depth = positive("shelf depth", depth_mm, "mm")
    if kind == "own":
        if mass_kg_per_m is None:
            raise ValueError("the load 'own' needs a mass in kg per metre of shelf")
        line = positive("mass per metre", mass_kg_per_m, "kg/m") * 9.80665 / 1000
        return ShelfLoad(
            f"your own load of {mass_kg_per_m:g} kg per metre", line, kind, "stated by the user", Status.READ
        )
    if kind not in _FIGURES:
        raise ValueError(f"a shelf load must be one of {', '.join(_FIGURES)} or own, not {kind!r}")
    f = figure(_FIGURES[kind])
    if kind == "books":
        return ShelfLoad(
            f"books, a line load of {f.value:g} lb per foot", f.value * _POUND_FOOT, kind, f.source, f.status
        )
    if kind == "book stack":
        if height_mm is None:
            raise ValueError("a book stack needs the clear height above the shelf in mm")
        line = f.value * _POUND_CUBIC_FOOT * depth * positive("height", height_mm, "mm")
        return ShelfLoad(f"a full stack of books, {f.value:g} lb per cubic foot", line, kind, f.source, f.status)
    line = f.value * _POUND_SQUARE_FOOT * depth
    return ShelfLoad(f"an area load of {f.value:g} lb per square foot over the depth", line, kind, f.source, f.status)


def creep_factor(family: str, service_class: int = 1, method: str = "ec5") -> tuple[float, str, Status]:
    """Return by how much a lasting load's sag grows over years, the rule it comes from and how well it is known.

    Units: no unit, a ratio of mm to mm. Valid: ec5 by service class 1, 2, 3; nds: 1.5 dry lumber, 2.0 panels and wet.
    Raises: ValueError for a method or family, UnknownRowError, TableError where the class has no factor.
    Source: EN 1995-1-1 Table 3.2 (1 + kdef); NDS 2018 3.5.2 (Kcr). Sources differ widely for MDF and particleboard.
    """
    if family not in _CREEP_ROWS:
        raise ValueError(f"creep is known for {', '.join(_CREEP_ROWS)}, not {family!r}")
    if method == "nds":
        solid = family in ("softwood", "hardwood") and service_class == 1
        return (1.5 if solid else 2.0), "NDS 2018 3.5.2", Status.READ
    if method != "ec5":
        raise ValueError(f"the method is ec5 or nds, not {method!r}")
    row = row_of("kdef", material=_CREEP_ROWS[family])
    return 1 + row.number(f"class_{service_class}"), row.source, row.status


def sag_limit(name: str, span_mm: float) -> tuple[float, str, Status]:
    """Return a sag limit in mm for a span, its words and how well it is known.

    Units: mm. Valid: visible (1/32 in a foot), strict (0.02 in a foot), aws (span/144), or a number as in 'span/240'.
    Raises: ValueError for another word, OutOfValidity. Source: shelf design guidelines (visible); practice (strict);
    AWI Architectural Woodwork Standards 2009 pp. 253, 279 (aws).
    """
    span = positive("span", span_mm, "mm")
    if name in ("visible", "strict"):
        f = figure(f"{name}-sag-per-foot")
        words = "what the eye notices (1/32 in a foot)" if name == "visible" else f"a strict {f.value:g} in a foot"
        return span * f.value / 12, words, f.status
    if name == "aws":
        f = figure("aws-sag-ratio")
        return span / f.value, f"span/{f.value:g}", f.status
    if name.startswith("span/") and name[5:].replace(".", "", 1).isdigit():
        ratio = within("sag limit", float(name[5:]), 50, 2000, "(span over)", "ratios of span to sag in use")
        return span / ratio, f"the limit of span/{ratio:g} asked for", Status.READ
    raise ValueError(f"a sag limit is visible, strict, aws or span/<number>, not {name!r}")


def shelf_section(shelf: Shelf) -> BuiltUp:
    """Return the stiffness of a shelf with its edging strips glued on, top edges flush.

    Units: mm, N/mm2; answer N mm2. Valid: strips glued along their whole length.
    Raises: OutOfValidity. Source: statics (transformed section).
    """
    tall = max([shelf.thickness_mm, *(height for _, _, height in shelf.strips)])
    e = shelf.wood.modulus
    pieces = [Piece(shelf.depth_mm, shelf.thickness_mm, tall - shelf.thickness_mm, e)]
    own = shelf.strip_modulus_mpa or e
    pieces += [Piece(count * width, height, tall - height, own) for count, width, height in shelf.strips]
    return built_up(tuple(pieces), glued=True)


def check_shelf(
    shelf: Shelf, load: ShelfLoad, *, limit: str = "visible", lasting: float = 1.0, method: str = "ec5"
) -> ShelfResult:
    """Check how far a shelf sags, at once and after years.

    Units: mm, N/mm. Valid: one load spread along the shelf, elastic; `lasting` is the share of the load that stays;
    the area loads of the AWS stop at 200 lb a shelf.
    Raises: OutOfValidity, ValueError for a limit, method or family, UnknownRowError.
    Source: Wood Handbook, FPL-GTR-282, Eq 9-2; creep EN 1995-1-1 Table 3.2 or NDS 2018 3.5.2.
    """
    section = shelf_section(shelf)
    force = load.line_n_per_mm * positive("span", shelf.span_mm, "mm")
    if load.kind in ("library shelf", "other shelf"):
        force = min(force, figure("aws-shelf-most").si)
    sag = deflection(shelf.held, force, shelf.span_mm, section.stiffness_nmm2)
    grows, _, creep_status = creep_factor(shelf.family, shelf.service_class, method)
    stays = within("lasting share", lasting, 0, 1, "", "a share of the load")
    limit_mm, words, limit_status = sag_limit(limit, shelf.span_mm)
    longest = allowed_span(shelf.held, load.line_n_per_mm, section.stiffness_nmm2, shelf.span_mm / limit_mm)
    status = weakest((load.status, limit_status, creep_status, shelf.wood.status))
    after = sag * (1 - stays) + sag * stays * grows
    return ShelfResult(shelf, load, sag, after, limit_mm, words, longest, section.stiffness_nmm2, status)


def shelf_deflection_metric(
    mass_kg: float, span_mm: float, modulus_mpa: float, depth_mm: float, thickness_mm: float
) -> float:
    """Return the sag of a shelf by the metric shop formula, 5 W L^3 9.81/(32 E b t^3).

    Units: kg, mm, N/mm2; answer in mm. Valid: one spread load, resting ends, rectangles. Raises: OutOfValidity.
    Source: MDF shelf page of mdf-info.eu; the same as 5 q L^4/384 E I.
    """
    w, length = positive("mass", mass_kg, "kg"), positive("span", span_mm, "mm")
    e, b = positive("modulus of elasticity", modulus_mpa, "N/mm2"), positive("depth", depth_mm, "mm")
    return 5 * w * length**3 * 9.81 / (32 * e * b * positive("thickness", thickness_mm, "mm") ** 3)
