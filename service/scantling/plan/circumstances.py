"""What a request says about people, place and shop, as the checks of a piece read it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import inf
from types import MappingProxyType
from typing import Any

from scantling.dryfit import DryfitSettings, settings_from_plain
from scantling.dryfit.glueing import Clamp, Glue
from scantling.dryfit.verify import DEFAULT
from scantling.mechanics.seating import Sitter
from scantling.mechanics.way_in import Way
from scantling.nesting.plain import read_saws
from scantling.nesting.saws import Saws

from .room import ways_of

# The words of a request for where furniture stands, as the checks of weather know them.
EXPOSURES = MappingProxyType({"indoors": "dry", "damp": "damp", "covered outdoors": "sheltered", "outdoors": "weather"})
DEFAULT_TAPE = "1/16 in"
UNKNOWN_THROAT = inf  # a throat that nobody gave is not checked
# How damp wood becomes in use, service classes of EN 1995-1-1 2.3.1.3: above 20 % only where rain reaches it.
_SERVICE_CLASS = MappingProxyType({"dry": 1, "damp": 2, "sheltered": 2, "weather": 3})


@dataclass(frozen=True, slots=True)
class Circumstances:
    """Who uses a piece, where it stands, and with what it is made. What is not known is None or empty.

    `use` is home or public, `exposure` dry, damp, sheltered or weather; `children` whether small children are about;
    `tools` the kinds of the other tools, None where nobody listed them; `place` the sizes of the place in mm;
    `ways` are the narrow places on the way in; `sits` is how one sits on the piece, where the caller said it;
    `moisture` that of the boards when they are cut, %; `label` the times on the bottle of glue, where they are given;
    `fit` is how strictly it is put together, with which drivers, tape and people.
    """

    household: tuple[Sitter, ...] = ()
    use: str = "home"
    children: bool = False
    exposure: str = "dry"
    glue: str | None = None
    saws: Saws | None = None
    tools: tuple[str, ...] | None = None
    place: Mapping[str, float] = field(default_factory=dict)
    hands: int = 1
    finish: str | None = None
    moisture: float | None = None
    clamps: tuple[Clamp, ...] = ()
    label: Glue | None = None
    ways: tuple[Way, ...] = ()
    sits: str | None = None
    fit: DryfitSettings = DEFAULT

    @property
    def outdoor(self) -> bool:
        """Whether rain or dew reaches the piece."""
        return self.exposure in ("sheltered", "weather")

    @property
    def wet(self) -> bool:
        """Whether fasteners are reckoned wet in use."""
        return self.exposure != "dry"

    @property
    def service_class(self) -> int:
        """Return the service class of EN 1995-1-1: 3 is wet in use."""
        return _SERVICE_CLASS[self.exposure]

    @property
    def masses_kg(self) -> tuple[float, ...]:
        """Return the masses of the household where they are known, kg."""
        return tuple(s.mass_kg for s in self.household if s.mass_kg is not None)


def circumstances_of(request: Mapping[str, Any]) -> Circumstances:
    """Read the circumstances of a project request (lengths in mm). Raises RequestError for a saw that cannot be."""
    place = request.get("place") or {}
    people = request.get("people") or ()
    tools = request.get("tools")
    return Circumstances(
        household=sitters(p for p in people if not p.get("child")),
        use=place.get("use", "home"),
        children=any(p.get("child") for p in people),
        exposure=EXPOSURES[place.get("exposure", "indoors")],
        glue=(request.get("glue") or {}).get("kind"),
        saws=read_saws(request),
        tools=None if tools is None else tuple(t["kind"] for t in tools),
        place={k: float(place[k]) for k in _sizes(place) if place.get(k) is not None},
        ways=ways_of(place),
        hands=request.get("hands", 1),
        finish=(request.get("finish") or {}).get("kind"),
        moisture=request.get("moisture"),
        clamps=tuple(
            Clamp(c["id"], c["reach"], c.get("throat", UNKNOWN_THROAT), c.get("count", 1))
            for c in request.get("clamps") or ()
        ),
        label=_label(request.get("glue") or {}),
        fit=fit_of(request),
    )


def fit_of(request: Mapping[str, Any], loads: Sequence[Mapping[str, Any]] | None = None) -> DryfitSettings:
    """Return how strictly a request wants a piece put together; `loads` are those on this piece alone.

    The tape and the hands of the request stand where its `dry_fit` names none.
    """
    told = dict(request.get("dry_fit") or {})
    told.setdefault("tape", request.get("tape", DEFAULT_TAPE))
    told.setdefault("hands", request.get("hands", 1))
    if loads is not None:
        told["loads"] = loads
    return settings_from_plain(told, "/dry_fit")


def _sizes(place: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the sizes of a place a single piece is set against: the room only where no piece was given its stand."""
    doors = ("door_width", "door_height")
    return doors if place.get("stands") else ("width", "depth", *doors)


def _label(glue: Mapping[str, Any]) -> Glue | None:
    if glue.get("open_min") is None or glue.get("clamp_min") is None:
        return None
    return Glue(glue["kind"], glue["open_min"], glue["clamp_min"])


def sitters(people: Any) -> tuple[Sitter, ...]:  # noqa: ANN401 - JSON as it came
    """Return the household's own sitters from a request (sizes in mm, mass in kg)."""
    rows: Sequence[Mapping[str, Any]] = tuple(people)
    return tuple(
        Sitter(
            p["id"],
            p.get("knee_back_height"),
            p.get("seat_depth"),
            p.get("hip"),
            p.get("elbow"),
            p.get("mass"),
            p.get("knee"),
            p.get("thigh"),
        )
        for p in rows
    )
