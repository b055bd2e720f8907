"""What the saw is set to for each sloped cut of a part: mitre, bevel, long and short point, rise over run."""

from dataclasses import dataclass
from itertools import product
from math import radians, tan

from .cuts import SawCut
from .part import Part
from .vector import norm, sub


@dataclass(frozen=True, slots=True)
class SawSetting:
    """One sloped cut: angles in degrees from square, where its long point lies, mitre as mm of run in the width.

    `at` is how far in from the blank's own end or edge the long point lies, mm.
    """

    side: str
    mitre: float
    bevel: float
    long_edge: str
    long_face: str
    rise: float
    run: float
    at: float = 0.0

    def text(self) -> str:
        """Return the setting in words."""
        words = []
        if self.mitre > 0:
            words.append(
                f"mitre {self.mitre:.2f}° ({self.rise:.1f} mm in {self.run:.1f} mm), long point at {self.long_edge}"
            )
        if self.bevel > 0:
            words.append(f"bevel {self.bevel:.2f}°, long point on the {self.long_face}")
        if self.at > 0:
            words.append(f"long point {self.at:.1f} mm in from the {self.side} of the blank")
        return f"{self.side}: " + "; ".join(words)


def saw_settings(part: Part) -> list[SawSetting]:
    """Return the settings of every cut of a part that is not square."""
    settings = []
    for cut in part.cuts:
        if isinstance(cut, SawCut) and (cut.mitre > 0 or cut.bevel > 0):
            run = part.width if cut.crosscut else part.length
            rise = run * tan(radians(cut.mitre))
            settings.append(SawSetting(cut.side, cut.mitre, cut.bevel, cut.long_edge, cut.long_face, rise, run, cut.at))
    return settings


def point_lengths(part: Part) -> tuple[float, float]:
    """Return the long-point and short-point length of a part in mm: along its four long edges, after saw cuts."""
    lengths = [
        norm(sub(part.pt("end", edge, face), part.pt("start", edge, face)))
        for edge, face in product(("near", "far"), ("back", "face"))
    ]
    return max(lengths), min(lengths)
