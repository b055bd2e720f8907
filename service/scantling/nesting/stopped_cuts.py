"""Where to stop the blade in a cut that does not run through: a round blade cuts farther on one face than the other."""

from dataclasses import dataclass
from math import sqrt

from .nouns import UNITS_PER_MM
from .saw_profile import Saw, SawKind
from .saws import Saws
from .saws import usual_saw as _usual

CLEARS_MM = 3.0  # how far a blade stands through the wood; 1/8 in, owner's manuals and common practice
SHORT_MM = 150.0  # cuts up to this long are made where the blade is straight, if there is such a saw; practice
_STRAIGHT = (SawKind.BAND, SawKind.JIGSAW, SawKind.HAND)
_ROUND = (SawKind.TRACK, SawKind.CIRCULAR, SawKind.TABLE)


def chord_mm(diameter_mm: float, depth_mm: float) -> float:
    """Return the length of the slot in mm that a round blade cuts in the face it goes in at, `depth_mm` deep.

    The chord at the depth h of a circle of diameter d: 2·√(h·(d − h)), Euclid III.35. Valid for 0 ≤ h ≤ d / 2, which
    every saw keeps to, since its arbor stays clear of the wood. Raises ValueError outside.
    """
    if not 0 <= depth_mm <= diameter_mm / 2:
        raise ValueError(f"a blade of {diameter_mm:g} mm cuts 0 to {diameter_mm / 2:g} mm deep, not {depth_mm:g}")
    return 2 * sqrt(depth_mm * (diameter_mm - depth_mm))


def overrun_mm(diameter_mm: float, thickness_mm: float, clears_mm: float = CLEARS_MM) -> float:
    """Return how much farther a through cut reaches in the face against the table or base than in the other one, mm.

    Half the difference of the chords of the two faces, the blade standing `clears_mm` through.
    """
    near = chord_mm(diameter_mm, thickness_mm + clears_mm)
    return (near - chord_mm(diameter_mm, clears_mm)) / 2


@dataclass(frozen=True, slots=True)
class Stop:
    """How one stopped cut is made. Lengths in mm from where the blade comes in.

    `seen` is where the kerf that the person sees has to end, `overrun` how far the other face lags or leads, `against`
    the side on which the blade cuts farther: "below" on the table, "above" under the base of a saw that is moved, None
    for a straight blade.
    """

    saw: str
    length: float
    seen: float
    overrun: float
    against: str | None

    def in_words(self) -> str:
        """Return what to do, as a sentence without its end."""
        if self.against is None:
            return f"saw {self.length:.1f} mm in with the {self.saw}, to the line"
        rest = f"finish the last {self.overrun:.1f} mm of the other face with a hand saw"
        if self.against == "below":
            return (
                f"with the {self.saw} stop when the kerf you see is {self.seen:.1f} mm long: below it is "
                f"{self.length:.1f} mm; {rest}"
            )
        return f"with the {self.saw} stop when the kerf you see is {self.seen:.1f} mm long, at the line; {rest}"


def stop_of(length: float, thickness: float, saws: Saws | None) -> Stop:
    """Return where to stop a through cut that goes `length` mm into a piece, and with which saw of the shop.

    No face is ever cut beyond the line: the face in which the blade cuts farther ends at it, the other is sawn to it by
    hand. So a show side that lies away from table or base stays clean. Short cuts go to a saw with a straight blade.
    """
    for saw in _by_choice(length, saws):
        if saw.kind not in _ROUND:
            return Stop(saw.id, length, length, 0.0, None)
        diameter = (saw.diameter or 0) / UNITS_PER_MM
        deep_enough = saw.depth is None or saw.depth / UNITS_PER_MM >= thickness
        if not deep_enough or thickness + CLEARS_MM > diameter / 2:
            continue
        overrun = overrun_mm(diameter, thickness)
        if overrun >= length:
            continue
        if saw.kind is SawKind.TABLE:
            return Stop(saw.id, length, length - overrun, overrun, "below")
        return Stop(saw.id, length, length, overrun, "above")
    return Stop(_usual(SawKind.HAND).id, length, length, 0.0, None)


def run_out_mm(depth: float, saws: Saws | None) -> tuple[str, float] | None:
    """Return the round saw for a stopped channel and how far short of its end the full depth stays, mm.

    None where no saw with a round blade is in the shop; a router has no such run-out.
    """
    for saw in saws.saws if saws is not None else ():
        if saw.kind is SawKind.TABLE and saw.diameter is not None and depth <= saw.diameter / UNITS_PER_MM / 2:
            return saw.id, chord_mm(saw.diameter / UNITS_PER_MM, depth) / 2
    return None


def _by_choice(length: float, saws: Saws | None) -> list[Saw]:
    order = (*_STRAIGHT, *_ROUND) if length <= SHORT_MM else (*_ROUND, *_STRAIGHT)
    own = saws.saws if saws is not None else ()
    return sorted((s for s in own if s.kind in order), key=lambda s: order.index(s.kind))
