"""Does it still go together through a range? Every thickness a shop may sell, the saw's error, a year of moisture.

The piece is built and verified anew at sampled corners of the range; what only shows there is answered with the place
where it shows. Sampling proves nothing between the samples, and the answer says how many were tried.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from scantling.board import Assembly, AssemblyError, CutError, PlacingError
from scantling.findings import Finding, Severity, ranked

from .cut_errors import LengthError, length_errors, length_findings, square_openings
from .saw_errors import Opening, opening_findings, openings
from .scene import Scene
from .settings import DryfitSettings
from .swelling import Seasonal, seasonal_findings, seasons
from .verify import DEFAULT, verify

MOST_VARIANTS = 81
REFUSALS = (AssemblyError, CutError, PlacingError)
Builder = Callable[[Mapping[str, float]], Assembly]


@dataclass(frozen=True, slots=True)
class Ranges:
    """What varies: thickness in mm by role (least, most), the saw's errors, moisture in per cent each way.

    `saw_error_deg` is that of an angle that is set, `square_error_deg` that of a cut meant to be square, and
    `length_error_mm` that of a length. Defaults are practice: a scale, a try square, a stop.
    """

    thickness: Mapping[str, tuple[float, float]]
    saw_error_deg: float = 0.5
    wetter: float = 4.0
    drier: float = 4.0
    square_error_deg: float = 0.1
    length_error_mm: float = 0.3


@dataclass(frozen=True, slots=True)
class Proof:
    """What came of a range: variants tried, what each found that the piece as asked for does not, and what moves."""

    variants: int
    failed: tuple[tuple[tuple[tuple[str, float], ...], str], ...]
    findings: tuple[Finding, ...]
    openings: tuple[Opening, ...]
    seasons: tuple[Seasonal, ...]
    lengths: tuple[LengthError, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether no variant had an error and none was refused."""
        return not self.failed

    def to_plain(self) -> dict[str, Any]:
        """Return the proof as JSON members."""
        return {
            "summary": self.summary(),
            "variants": self.variants,
            "failed": [{"thickness_mm": dict(at), "why": why} for at, why in self.failed],
            "findings": [f.to_plain() for f in self.findings],
            "saw_errors": [o.to_plain() for o in self.openings],
            "length_errors": [e.to_plain() for e in self.lengths],
            "seasons": [s.to_plain() for s in self.seasons],
        }

    def summary(self) -> list[str]:
        """Return a few lines: over how many sheets it fits, what opens most, what closes."""
        if self.holds:
            lines = [f"It fits at all {self.variants} combinations of thickness tried."]
        else:
            lines = [
                f"It fails at {len(self.failed)} of {self.variants} combinations of thickness: {self.failed[0][1]}"
            ]
        sloped, square = (next((o for o in self.openings if o.square is s), None) for s in (False, True))
        lines += [o.text() for o in (sloped, square) if o is not None]
        if self.lengths:
            lines.append(self.lengths[0].text())
        lines += [f.message for f in self.findings if f.code in ("swells-shut", "shrinks-out")]
        return lines


def prove(build: Builder, ranges: Ranges, settings: DryfitSettings = DEFAULT) -> Proof:
    """Build and verify a piece over a range. `build` answers the piece at thicknesses in mm by role, {} as asked.

    An order is sought at the thicknesses asked for and at both ends only. Raises what `build` raises at the
    thicknesses asked for; at others a refusal counts as a failure of that variant.
    """
    asked = build({})
    usual = {(f.code, f.parts, f.fasteners) for f in verify(asked, settings).findings}
    failed: list[tuple[tuple[tuple[str, float], ...], str]] = []
    seen: dict[tuple[str, ...], Finding] = {}
    tried = variants(ranges.thickness)
    for at in tried:
        ends = at in (tried[0], tried[-1])
        try:
            found = verify(build(dict(at)), replace(settings, seek_order=settings.seek_order and ends)).findings
        except REFUSALS as refusal:
            failed.append((at, f"it cannot be built: {refusal}"))
            continue
        fresh = [f for f in found if (f.code, f.parts, f.fasteners) not in usual and f.severity is not Severity.NOTE]
        for f in fresh:
            names = sorted({asked.parts[p].name if p in asked.parts else p for p in f.parts})
            seen.setdefault((f.code, *names), replace(f, message=f"{f.message[:-1]}, with {_words(at)}."))
        errors = [f for f in fresh if f.severity is Severity.ERROR]
        if errors:
            failed.append((at, errors[0].message))
    scene = Scene.of(asked, settings)
    opened = openings(asked, ranges.saw_error_deg) if ranges.saw_error_deg > 0 else []
    opened += square_openings(scene, ranges.square_error_deg) if ranges.square_error_deg > 0 else []
    lengths = length_errors(scene, ranges.length_error_mm) if ranges.length_error_mm > 0 else []
    moved = seasons(asked, ranges.wetter, ranges.drier)
    findings = ranked(
        [
            *seen.values(),
            *opening_findings(asked, opened, settings),
            *length_findings(asked, lengths, settings),
            *seasonal_findings(moved),
        ]
    )
    return Proof(len(tried), tuple(failed), tuple(findings), tuple(opened), tuple(moved), tuple(lengths))


def variants(thickness: Mapping[str, tuple[float, float]]) -> list[tuple[tuple[str, float], ...]]:
    """Return the thicknesses to try: least, middle and most of every role in all combinations, if at most 81.

    Else only the ends of all, and of each role alone with the others in the middle.
    """
    moving = {role: (least, (least + most) / 2, most) for role, (least, most) in sorted(thickness.items())}
    if 3 ** len(moving) <= MOST_VARIANTS:
        return [tuple(zip(moving, at, strict=True)) for at in product(*moving.values())]
    middle = tuple((role, values[1]) for role, values in moving.items())
    found = [middle, *(tuple((role, v[end]) for role, v in moving.items()) for end in (0, 2))]
    for role, values in moving.items():
        found += [tuple((r, values[end] if r == role else v) for r, v in middle) for end in (0, 2)]
    return list(dict.fromkeys(found))


def _words(at: tuple[tuple[str, float], ...]) -> str:
    return ", ".join(f"{role} {value:.2f} mm" for role, value in at) or "nothing changed"
