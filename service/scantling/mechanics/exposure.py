"""Where a piece stands decides panel bond, glue and metal, and what must be sealed, drained and kept off the ground."""

from dataclasses import dataclass
from types import MappingProxyType

from scantling.findings import Finding
from scantling.tables import Status

from .figures import figure
from .notice import notice

EXPOSURES = ("dry", "damp", "sheltered", "weather", "coast")
_RANK = MappingProxyType({name: i for i, name in enumerate(EXPOSURES)})
# Least bond of a panel (EN 636 class), glue class (EN 204) and fastener level each exposure asks for.
_BOND = MappingProxyType({"dry": 1, "damp": 2, "sheltered": 2, "weather": 3, "coast": 3})
_GLUE = MappingProxyType({"dry": 1, "damp": 2, "sheltered": 3, "weather": 4, "coast": 4})
_METAL = MappingProxyType({"dry": 0, "damp": 1, "sheltered": 2, "weather": 2, "coast": 3})
_METAL_LEVEL = MappingProxyType(
    {
        "plain steel": 0,
        "phosphated steel": 0,
        "electroplated zinc": 1,
        "brass": 1,
        "hot-dip galvanized": 2,
        "coated exterior": 2,
        "silicon bronze": 2,
        "stainless a2": 2,
        "stainless a4": 3,
    }
)
_METAL_WORDS = MappingProxyType(
    {
        0: "plain steel",
        1: "zinc plated steel or brass",
        2: "hot-dip galvanized or stainless steel (A2, 304)",
        3: "stainless steel A4 (316)",
    }
)
_BOND_CLASS = MappingProxyType({"interior": 1, "humid": 2, "exterior": 3, "exposure 1": 2, "marine": 3})
_GLUE_CLASS = MappingProxyType(
    {"d1": 1, "d2": 2, "d3": 3, "d4": 4, "type iii": 1, "type ii": 3, "type i": 4, "epoxy": 4, "resorcinol": 4}
)
# The glues a request may name, by the class of EN 204 they are sold in; cross-linking PVA comes as D3 and as D4.
GLUE_CLASSES = MappingProxyType(
    {"PVA": "d2", "cross-linking PVA": "d4", "polyurethane": "d4", "epoxy": "epoxy", "resorcinol": "resorcinol"}
)
_TANNIN = frozenset(
    {
        "white-oak",
        "red-oak",
        "northern-red-oak",
        "european-oak",
        "western-red-cedar",
        "redwood",
        "douglas-fir",
        "chestnut",
    }
)
_TREATED_OK = frozenset({"hot-dip galvanized", "stainless a2", "stainless a4", "silicon bronze", "coated exterior"})
_TREATED = "USDA Forest Service T&D 0677-2809; IRC R317.3; American Galvanizers Association"


@dataclass(frozen=True, slots=True)
class Outdoors:
    """What a piece is made of and how water meets it. Words not given (None) are not checked.

    `panel_bond`: interior, humid, exposure 1, exterior, marine. `glue`: D1 to D4, type I to III, epoxy, resorcinol.
    `metal`: as in METALS. `flat_tops` and `closed_boxes` name such parts; `pitched` where flat tops run off.
    """

    exposure: str
    panel_bond: str | None = None
    glue: str | None = None
    metal: str | None = None
    woods: tuple[str, ...] = ()
    treated: bool = False
    edges_sealed: bool = False
    feet_raised: bool = False
    flat_tops: tuple[str, ...] = ()
    pitched: bool = False
    closed_boxes: tuple[str, ...] = ()
    vented: bool = False
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ExposureResult:
    """What the exposure asks for, in words, and what of it is missing; `.findings()` lists it."""

    outdoors: Outdoors
    bond: str
    glue: str
    metal: str
    found: tuple[Finding, ...]

    def findings(self) -> tuple[Finding, ...]:
        """Return what is missing, errors first as they were found."""
        return self.found


def exposure_class(
    place: str, *, rain: bool = False, roof: bool = False, damp_room: bool = False, salt_miles: float | None = None
) -> str:
    """Return the exposure of a piece from plain words: dry, damp, sheltered, weather or coast.

    Units: distance from salt water in miles (1609 m), no other. Valid: place is `indoors` or `outdoors`.
    Raises: ValueError for another place. Source: EN 636 and EN 204 classes of use; treated wood producers for 5 miles.
    """
    if place not in ("indoors", "outdoors"):
        raise ValueError(f"a place is indoors or outdoors, not {place!r}")
    if place == "indoors":
        return "damp" if damp_room else "dry"
    if salt_miles is not None and salt_miles <= figure("coast-distance").value:
        return "coast"
    return "weather" if rain or not roof else "sheltered"


def asked_for(exposure: str) -> tuple[str, str, str]:
    """Return what an exposure asks for in words: panel bond, glue class, metal of fasteners.

    Units: no unit; classes. Valid: dry, damp, sheltered, weather, coast (mm of rain do not matter, shelter does).
    Raises: ValueError for another word. Source: EN 636 classes 1 to 3 and EN 204 classes D1 to D4 (uses read); metals
    after USDA Forest Service T&D 0677-2809 and treated wood producers.
    """
    if exposure not in EXPOSURES:
        raise ValueError(f"an exposure is {', '.join(EXPOSURES)}, not {exposure!r}")
    bond = {1: "any panel", 2: "Exposure 1 or EN 636-2 panels", 3: "exterior or marine panels (EN 636-3)"}[
        _BOND[exposure]
    ]
    return bond, f"D{_GLUE[exposure]} glue (EN 204)", _METAL_WORDS[_METAL[exposure]]


def check_exposure(piece: Outdoors) -> ExposureResult:
    """Check panel bond, glue, metal, edges and water traps against where a piece stands.

    Units: no unit; gaps and holes in the advice are mm. Valid: for the words listed in `Outdoors`.
    Raises: ValueError for an unknown word. Source: EN 636 and EN 204 (uses read, strengths from memory); USDA Forest
    Service T&D 0677-2809, IRC R317.3 (treated wood); Wood Handbook, FPL-GTR-190, p. 16-18 and APA B360 (edges).
    """
    bond, glue, metal = asked_for(piece.exposure)
    found = [*_classes(piece), *_metals(piece)]
    if _RANK[piece.exposure] >= _RANK["sheltered"]:
        found += _water(piece)
    return ExposureResult(piece, bond, glue, metal, tuple(found))


def glue_suits(glue: str | None, exposure: str) -> bool:
    """Return whether a glue is made for a place; one that nobody named is taken to be.

    Units: no unit, words; no mm. Valid: `exposure` of EXPOSURES; classes D1 to D4, type I to III, epoxy, resorcinol.
    Raises: ValueError for another word. Source: EN 204:2016 classes of use.
    """
    exposure_class_of = _level(_GLUE, exposure, "exposure")
    return glue is None or _level(_GLUE_CLASS, glue, "glue") >= exposure_class_of


def wood_decays(moisture: float) -> bool:
    """Return whether wood this wet for long may rot.

    Units: moisture in %; no mm. Valid: any moisture content. Raises: nothing.
    Source: practice: below 20 per cent it does not (from memory).
    """
    return moisture > figure("decay-moisture").value


def metal_corrodes(moisture: float) -> bool:
    """Return whether steel in wood this wet rusts noticeably.

    Units: moisture in %; no mm. Valid: untreated wood. Raises: nothing.
    Source: S. Zelinka, doi 10.5772/57296, threshold from memory (15 to 18 %).
    """
    return moisture > figure("corrosion-moisture").value


def _level(table: MappingProxyType[str, int], word: str, what: str) -> int:
    try:
        return table[word.casefold()]
    except KeyError:
        raise ValueError(f"{what} {word!r} is not known; say one of {', '.join(table)}") from None


def _classes(piece: Outdoors) -> list[Finding]:
    found = []
    bond, glue, _ = asked_for(piece.exposure)
    if piece.panel_bond is not None and _level(_BOND_CLASS, piece.panel_bond, "panel bond") < _BOND[piece.exposure]:
        text = f"The panels are for {piece.panel_bond} use; this place ({piece.exposure}) asks for {bond}."
        found.append(
            notice("bond-too-weak", text, status=Status.MEMORY, parts=piece.parts, source="EN 636 classes of use")
        )
    if piece.glue is not None and _level(_GLUE_CLASS, piece.glue, "glue") < _GLUE[piece.exposure]:
        text = f"The glue is {piece.glue.upper()}; this place ({piece.exposure}) asks for {glue}."
        found.append(notice("glue-too-weak", text, parts=piece.parts, source="EN 204:2016 classes of use"))
    return found


def _metals(piece: Outdoors) -> list[Finding]:
    if piece.metal is None:
        return []
    level = _level(_METAL_LEVEL, piece.metal, "metal")
    metal = piece.metal.casefold()
    if piece.treated and metal not in _TREATED_OK:
        text = (
            f"{metal.capitalize()} in treated wood: the copper in it eats the metal. "
            "Use hot-dip galvanized or stainless steel."
        )
        return [notice("fastener-rusts", text, parts=piece.parts, source=_TREATED)]
    if level < _METAL[piece.exposure]:
        text = (
            f"{metal.capitalize()} does not last here ({piece.exposure}): use {_METAL_WORDS[_METAL[piece.exposure]]}."
        )
        status = Status.READ if piece.exposure == "coast" else Status.MEMORY
        return [notice("fastener-rusts", text, status=status, parts=piece.parts, source=f"{_TREATED}; practice")]
    stained = sorted(_TANNIN.intersection(piece.woods))
    if stained and piece.exposure != "dry" and metal not in ("stainless a2", "stainless a4", "brass", "silicon bronze"):
        text = f"{metal.capitalize()} leaves black stains in {', '.join(stained)}: use stainless steel or brass."
        return [notice("fastener-rusts", text, status=Status.MEMORY, parts=piece.parts, source="practice")]
    return []


def _water(piece: Outdoors) -> list[Finding]:
    found = []
    if not piece.edges_sealed:
        text = "Ends and plywood edges stand outdoors unsealed."
        found.append(
            notice("seal-edges", text, parts=piece.parts, source="Wood Handbook, FPL-GTR-190, p. 16-18; APA B360")
        )
    if piece.flat_tops and not piece.pitched and piece.exposure != "sheltered":
        text = f"Water stands on {', '.join(piece.flat_tops)}."
        found.append(notice("water-stands", text, parts=piece.flat_tops, source="practice (pitch of 1 to 2 in 100)"))
    if not piece.feet_raised:
        found.append(
            notice("off-the-ground", "The feet stand on their end grain.", parts=piece.parts, source="practice")
        )
    if piece.closed_boxes and not piece.vented:
        text = f"Closed boxes outdoors: {', '.join(piece.closed_boxes)}."
        found.append(notice("box-needs-vent", text, parts=piece.closed_boxes, source="practice"))
    return found
