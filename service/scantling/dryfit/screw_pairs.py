"""Screws against screws: how much wood is left between any two, from whatever side they come."""

from collections.abc import Iterator

import numpy as np

from scantling.findings import Finding, Severity

from .arrays import Floats, Ints
from .distance import segment_distances
from .rays import axes_of
from .scene import GUARD, Scene


def screws_that_meet(scene: Scene) -> Iterator[Finding]:
    """Report pairs of screws that hit each other, or leave less wood between them than the settings want."""
    fasteners = scene.fasteners
    if len(fasteners) < 2:
        return
    axes = axes_of(fasteners)
    ends = axes.heads + axes.points[:, None] * axes.directions
    radius = np.array([f.diameter / 2 for f in fasteners])
    want = scene.settings.screw_gap
    i, j = _near(axes.heads, ends, float(radius.max()) * 2 + want)
    gap, p, q = segment_distances(axes.heads[i], ends[i], axes.heads[j], ends[j])
    gap = gap - radius[i] - radius[j]
    for k in np.flatnonzero(gap < want - GUARD):
        a, b = fasteners[i[k]], fasteners[j[k]]
        left = float(gap[k])
        x, y, z = (float(v) for v in (p[k] + q[k]) / 2)
        parts = tuple(dict.fromkeys((*a.parts, *b.parts)))
        hits = left < -GUARD
        words = f"run {-left:.1f} mm into each other" if hits else f"leave {max(0.0, left):.1f} mm of wood between them"
        yield Finding(
            "screws-meet",
            Severity.ERROR if hits else Severity.WARNING,
            f"The screws {a.id} ({a.joint}) and {b.id} ({b.joint}) {words}.",
            parts,
            (a.id, b.id),
            at_mm=(x, y, z),
            value=left,
            limit=want,
            unit="mm",
            source="practice",
            remedy=f"Shift one of the rows by {want - left + 2:.0f} mm or more, or take shorter screws.",
        )


def _near(starts: Floats, ends: Floats, reach: float) -> tuple[Ints, Ints]:
    low, high = np.minimum(starts, ends) - reach / 2, np.maximum(starts, ends) + reach / 2
    meets = np.ones((len(starts), len(starts)), dtype=bool)
    for k in range(3):
        meets &= low[:, None, k] <= high[None, :, k]
    meets &= meets.T
    i, j = np.nonzero(np.triu(meets, 1))
    return i, j
