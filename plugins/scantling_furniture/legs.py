"""Underframes for tables and stools: legs of two boards glued to an angle, aprons screwed to their insides.

No screw enters end grain: each apron lies flat against two legs, and its screws are driven from inside.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from scantling.kit import Assembly, AssemblyError, Build, Part, snap

SLAT_GAP = 5.0  # drains, and stays out of the 7 to 12 mm finger band of EN 581-1
CLIP_PITCH = 350.0
CLIP_KERF = 3.0
CLIP_DOWN = 10.0  # from the apron's top edge to the kerf the clips sit in
BEARER_SPAN = 450.0
DADO = 6.0
SHOULDER = 12.0  # what stays of an apron under the housing of a bearer, so that the bearer rests on wood; practice
SLAT_SCREW = 50.8  # 2 in: six diameters of #8 in the apron, and short of the screws that hold the legs
ROUND = 3.0
ENDS = ("start", "end")  # of slats: rain goes in by the end grain


@dataclass(frozen=True, slots=True)
class Underframe:
    """Legs by corner ("front left") as (board seen from front or back, board at the side), and aprons by side."""

    legs: dict[str, tuple[Part, Part]]
    aprons: dict[str, Part]


class Frame:
    """The underframe while it is being built, `width` × `depth` outside its legs, from `foot` up to `height`."""

    def __init__(
        self, piece: Assembly, build: Build[Any], width: float, depth: float, height: float, foot: float = 0.0
    ) -> None:
        self.piece, self.width, self.depth, self.height, self.foot = piece, snap(width), snap(depth), snap(height), foot
        self.leg_t, self.leg_w = build.thickness("leg"), build.board_width("leg")
        self.apron_t, self.apron_w = build.thickness("apron"), build.board_width("apron")
        room = 2 * (self.leg_t + self.leg_w) + 40
        if min(width, depth) < room or height < self.apron_w + 100:
            raise AssemblyError(
                f"an underframe of {width:.0f} × {depth:.0f} × {height:.0f} mm leaves no room between its legs; "
                f"{room:.0f} mm each way and {self.apron_w + 100:.0f} mm of height are the least"
            )

    def built(self, clips: bool = False) -> Underframe:
        """Glue the legs, then screw the aprons to them; `clips` cuts the kerf that top fixings sit in."""
        self.legs = {f"{y} {x}": self._leg(x, y) for y in ("front", "back") for x in ("left", "right")}
        aprons = self.ring("apron", self.height, clips=clips)
        self.piece.buy("plastic glide", 4, "under the legs, so that their end grain stays dry")
        return Underframe(self.legs, aprons)

    def ring(
        self, name: str, top: float, sides: Sequence[str] = ("front", "back", "left", "right"), clips: bool = False
    ) -> dict[str, Part]:
        """Screw boards on edge to the insides of the legs, their upper edges at `top`."""
        boards = {side: self._board(f"{side} {name}", side, top, clips) for side in sides}
        for (y, x), pair in ((key.split(), pair) for key, pair in self.legs.items()):
            for side, leg in ((y, pair[0]), (x, pair[1])):
                if side in boards:
                    self._screwed(boards[side], leg, clips)
        return boards

    def _screwed(self, board: Part, leg: Part, clips: bool) -> None:
        """Screw a board to a leg in a column: low, so that screws from the top miss them, and below the kerf."""
        tall = self.apron_w - (CLIP_DOWN + CLIP_KERF if clips else 0.0)
        low, high = 15.0, self.apron_w - (24.0 if clips else 40.0)
        if board.z0 < self.foot + 1.0:  # at the feet of the legs, whose ends split: nothing comes down from above here
            low, high = 22.0, self.apron_w - 18.0
        n, span = (2, high - low) if high - low >= 18 else (1, 0.0)
        shift = low + span / 2 - tall / 2
        self.piece.screws(board, leg, n=n, inset=(tall - span) / 2, shift=shift, role="clamps", glued=True)

    def _leg(self, x: str, y: str) -> tuple[Part, Part]:
        wide = self.piece.part(
            f"{y} {x} leg", self.height - self.foot, self.leg_w, "leg", name="leg board", seal=("start",)
        )
        wide.ease("near/face", "far/face", size=ROUND).lay("z", "-x" if y == "front" else "x")
        wide.put(z0=self.foot, **({"x0": 0.0} if x == "left" else {"x1": self.width}))
        wide.put(**({"y0": 0.0} if y == "front" else {"y1": self.depth}))
        side = self.piece.part(
            f"{y} {x} leg side", self.height - self.foot, self.leg_w, "leg", name="leg board", seal=("start",)
        )
        side.ease("near/face", "far/face", size=ROUND).lay("z", "y" if x == "left" else "-y")
        side.put(z0=self.foot, **({"x0": 0.0} if x == "left" else {"x1": self.width}))
        side.put(**({"y0": self.leg_t} if y == "front" else {"y1": self.depth - self.leg_t}))
        self.piece.glue(wide, side)
        return wide, side

    def _board(self, id: str, side: str, top: float, clips: bool) -> Part:
        t, along_x = self.leg_t, side in ("front", "back")
        run = self.width - 2 * t if along_x else self.depth - 2 * (t + self.apron_t)
        apron = self.piece.part(id, run, self.apron_w, "apron", closing=along_x)
        apron.ease("near/face", size=ROUND)
        if clips:
            apron.groove(self.apron_w - CLIP_DOWN - CLIP_KERF, width=CLIP_KERF, depth=self.apron_t * 0.45)
        apron.lay({"front": "x", "back": "-x", "left": "-y", "right": "y"}[side], "z").put(z1=top)
        if along_x:
            return apron.put(x0=t, **({"y0": t} if side == "front" else {"y1": self.depth - t}))
        return apron.put(y0=t + self.apron_t, **({"x0": t} if side == "left" else {"x1": self.width - t}))

    def clipped(self, frame: Underframe, role: str, overhang: float, boards: bool = False) -> list[Part]:
        """Lay on a top that may swell and shrink: one sheet, or boards glued edge to edge; clips keep it down."""
        total, long = self.depth + 2 * overhang, self.width + 2 * overhang
        n = ceil(total / (self.piece.materials[role].width or total) - 1e-9) if boards else 1
        top: list[Part] = []
        for i in range(n):
            id = f"top board {i + 1}" if boards else "top"
            board = self.piece.part(id, long, total / n, role, name="top board" if boards else "top", wears=True)
            board.ease("start/face", "end/face", size=ROUND).lay("x", "y")
            board.put(x0=-overhang, y0=top[-1].y1 if top else -overhang, z0=self.height)
            for before in top[-1:]:
                self.piece.glue(before, board)
            top.append(board)
        top[0].ease("near/face", "near/back", size=ROUND)
        top[-1].ease("far/face", "far/back", size=ROUND)
        for apron in frame.aprons.values():
            self.piece.clipped(next(b for b in top if b.y1 > apron.y0 + 1), apron)
        count = sum(max(2, ceil(a.length / CLIP_PITCH)) for a in frame.aprons.values())
        self.piece.buy("table clip with screw", count, "in the kerf of the aprons, with room to move")
        return top

    def slatted(self, frame: Underframe, role: str, thickness: float, overhang: float) -> list[Part]:
        """Screw slats along x to the aprons and to bearers between them, all ripped to one width, with even gaps."""
        front, back = frame.aprons["front"], frame.aprons["back"]
        across = [*self.bearers(frame, BEARER_SPAN), frame.aprons["left"], frame.aprons["right"]]
        total, long = self.depth + 2 * overhang, self.width + 2 * overhang
        n, width = slat_rows(total, self.piece.materials[role].width or total)
        slats = []
        for i in range(n):
            slat = self.piece.part(f"top slat {i + 1}", long, width, role, name="top slat", wears=True, seal=ENDS)
            slat.ease("near/face", "far/face", "start/face", "end/face", size=ROUND)
            slat.lay("x", "y").put(x0=-overhang, y0=snap(i * (width + SLAT_GAP) - overhang), z0=self.height)
            if i in (0, n - 1):
                self.piece.screws(slat, back if i else front, pitch=300, inset=70, role="holds", length=SLAT_SCREW)
            else:
                for bearer in across:
                    self.piece.screws(slat, bearer, n=2, inset=18, role="holds", length=SLAT_SCREW)
            slats.append(slat)
        slats[-1].put(y1=self.depth + overhang)  # the last takes up what rounding left
        return slats

    def bearers(self, frame: Underframe, span: float) -> list[Part]:
        """House boards on edge between front and back apron, so that nothing on top spans more than `span`."""
        front, back = frame.aprons["front"], frame.aprons["back"]
        deep = max(DADO, float(int(self.apron_t / 3)))  # a third of the apron at most
        inner = front.length - 2 * self.apron_t
        count = ceil(inner / span) - 1
        found = []
        for i in range(count):
            bearer = self.piece.part(
                f"bearer {i + 1}",
                back.y0 - front.y1 + 2 * deep,
                self.apron_w - SHOULDER,
                "apron",
                name="bearer",
                shows="neither",
            )
            x = front.x0 + self.apron_t + inner * (i + 1) / (count + 1)
            bearer.lay("y", "z").put(xc=x, y0=front.y1 - deep, z1=self.height)
            for apron in (front, back):
                self.piece.housed(bearer, apron)
            found.append(bearer)
        return found


def slat_rows(total: float, board: float) -> tuple[int, float]:
    """Return how many slats, and of what one width, fill a total with even gaps; none wider than the board."""
    n = max(2, ceil((total + SLAT_GAP) / (board + SLAT_GAP) - 1e-9))
    return n, snap((total - (n - 1) * SLAT_GAP) / n)


def with_gaps(slats: Sequence[tuple[str, float]]) -> list[tuple[str, float]]:
    """Return slats as links of a chain with the gaps between them."""
    found = [link for slat in slats for link in (slat, ("gap", SLAT_GAP))]
    return found[:-1]


def slat_chain(piece: Assembly, slats: Sequence[Part]) -> None:
    """Record the chain of slats and gaps across a top; the last slat is planed to what is left."""
    links = with_gaps([(s.id, s.width) for s in slats])
    piece.chain("across the slats", snap(sum(size for _, size in links)), links, slats[-1].id)
