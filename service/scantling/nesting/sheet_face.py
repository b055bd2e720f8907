"""Which face of a sheet lies up for the saw that cuts it, and whether the person at the saw sees it mirrored."""

from collections.abc import Sequence
from dataclasses import dataclass

from .saws import Saws
from .sequence import Cut


@dataclass(frozen=True, slots=True)
class SheetFace:
    """How a sheet lies on the saw. `face_up` is "face" (the show side), "back", or None where no saw decides it.

    `mirrored`: turned over along its length, so that what is drawn at y is seen at the width less y. `saw` is the saw
    that decides, `tilts` the side to which its blade tilts; `against` are the numbers of the cuts made by saws that
    would have it the other way: score or tape those lines first.
    """

    face_up: str | None
    mirrored: bool
    saw: str | None
    tilts: str | None
    against: tuple[int, ...] = ()

    def to_plain(self) -> dict[str, object]:
        """Return it as JSON members."""
        return {
            "face_up": self.face_up,
            "mirrored": self.mirrored,
            "saw": self.saw,
            "tilts": self.tilts,
            "against": list(self.against),
        }


def sheet_face(cuts: Sequence[Cut], saws: Saws | None) -> SheetFace:
    """Return how a sheet lies: as the saws with the greatest length of cut that leaves a part want it.

    Teeth leave the wood torn where they come out: below on a table saw (good face up), above on a portable circular
    saw (good face down), APA Building Hints.
    """
    lengths = {"up": 0, "down": 0}
    longest: dict[str, dict[str, int]] = {"up": {}, "down": {}}
    for cut in cuts:
        if cut.good_face is not None and cut.saw is not None and not cut.allowance and _leaves_work(cut):
            lengths[cut.good_face] += cut.travel
            longest[cut.good_face][cut.saw] = longest[cut.good_face].get(cut.saw, 0) + cut.travel
    if not any(lengths.values()):
        return SheetFace(None, False, None, None)
    way = max(("up", "down"), key=lambda w: lengths[w])
    saw = max(sorted(longest[way]), key=lambda s: longest[way][s])
    tilts = next((s.tilts for s in saws.saws if s.id == saw), None) if saws is not None else None
    against = tuple(c.number for c in cuts if c.good_face not in (None, way) and not c.allowance)
    return SheetFace("face" if way == "up" else "back", way == "down", saw, tilts, against)


def mirrored_y(y: int, along_y: int, width: int) -> int:
    """Return where something at y, that far along the width, is seen on a sheet turned over along its length."""
    return width - y - along_y


def _leaves_work(cut: Cut) -> bool:
    return any(f is not None and f.kind in ("part", "piece") for f in (cut.falls, cut.rest))
