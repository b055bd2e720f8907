"""A plain bench: a seat on two standing ends, webs between them that keep it from racking and sagging."""

from dataclasses import dataclass
from math import sqrt

from scantling.kit import Assembly, AssemblyError, Build, Module, Parameters, Role, count, length, snap

FEET = 70.0  # width of each foot left by the cut-out in an end
CUT_OUT = 25.0  # four feet stand on uneven ground where a whole edge rocks
STIFF = {1: 5.3, 2: 4.0}  # web over √length in 18 mm plywood: one person of 110 kg in the middle, EN 1995-1-1
ONE_WEB = 1550.0
WEB_IN = 35.0  # webs stand back from the seat's edges, out of the way of heels


@dataclass(frozen=True)
class PlainBenchParameters(Parameters):
    """Overall sizes of the seat, and its webs."""

    width: float = length(1200, least=400, most=2000, says="Length of the seat.")
    depth: float = length(350, least=250, most=500, says="Depth of the seat.")
    height: float = length(440, least=250, most=520, says="Height of the seat.")
    web: float = length(140, least=120, most=250, says="Height of the webs at least; long benches get higher ones.")
    webs: int = count(2, least=1, most=2, says="Webs under the seat: two carry its edges, one its middle.")


class PlainBench(Module[PlainBenchParameters]):
    """Webs stand between the ends; the seat lies on both and is screwed, so that it can be renewed."""

    id = "plain-bench"
    title = "Plain bench"
    sentence = "A bench of plywood: two standing ends, one or two webs between them, a seat on top."
    family = "seating"
    when_not = "Not with one web where people sit on the front edge: it gives there; and not to stand on."
    parameters = PlainBenchParameters
    roles = {"board": Role("All parts, from plywood with a waterproof bond.", "birch-plywood", 18, 17.0, 25.0)}
    grows = ("width", "depth", "height", "web")
    sources = (
        "Seat height 16 to 18 in: WOOD magazine, Must-have measurements for comfortable seating",
        "Edges within 120 mm of the seat eased: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[PlainBenchParameters]) -> Assembly:
        """Return the bench."""
        p, t, piece = build.parameters, build.thickness("board"), self.start(build)
        tall = snap(p.height - t)
        high = snap(max(p.web, STIFF[p.webs] * sqrt(p.width * 18.0 / t)))
        if p.webs == 1 and p.width > ONE_WEB:
            raise AssemblyError(f"one web carries a bench of {ONE_WEB:.0f} mm, not {p.width:.0f} mm; take two webs")
        if tall < high + CUT_OUT + 60:
            raise AssemblyError(
                f"webs of {high:.0f} mm leave no room for feet under a seat at {p.height:.0f} mm; raise or shorten it"
            )
        ends = []
        for x, place in (("left", {"x0": 0.0}), ("right", {"x1": p.width})):
            end = piece.part(f"end {x}", tall, p.depth, "board", name="end", shows="both", seal=("start",))
            end.notch((-1, CUT_OUT), (FEET, p.depth - FEET)).ease("near/face", "near/back", "far/face", "far/back")
            ends.append(end.lay("z", "y" if x == "left" else "-y").put(y0=0, z0=0, **place))
        places = [("web", {"yc": p.depth / 2})] if p.webs == 1 else [("web front", {"y0": WEB_IN})]
        places += [("web back", {"y1": p.depth - WEB_IN})] if p.webs == 2 else []
        for id, across in places:
            web = piece.part(id, p.width - 2 * t, high, "board", name="web", closing=True, seal=("near",)).ease(
                "near/face"
            )
            web.lay("x", "z").put(x0=t, z1=tall, **across)
            for end in ends:
                piece.screws(end, web, n=3, inset=20, role="holds", glued=True)
        # the seat is named last, so that it goes on last and comes off first
        seat = piece.part("seat", p.width, p.depth, "board", wears=True, seal=("start", "end", "near", "far"))
        seat.ease(*(f"{side}/{face}" for side in ("start", "end", "near", "far") for face in ("face", "back")))
        seat.lay("x", "y").put(x0=0, y0=0, z0=tall)
        for id, _ in places:
            piece.screws(seat, piece.parts[id], pitch=250, inset=70, length=50.8, role="holds")
        for end in ends:
            piece.screws(seat, end, n=2 if p.depth < 400 else 4, inset=75, length=50.8, role="holds")  # none at a web
        piece.carries(seat, kind="sitter", amount=max(1.0, p.width // 600))
        piece.size(p.width, p.depth, p.height)
        web_id = places[0][0]
        piece.chain("width", p.width, [("end left", t), (web_id, p.width - 2 * t), ("end right", t)], web_id)
        piece.buy("plastic glide", 4, "under the feet, so that their end grain stays dry")
        piece.caution(
            "Sink the screws of the seat and plug their heads: water stands in them, and they get hot in the sun. "
            "Set the plugs in wax, not in glue, so that the seat still comes off."
        )
        piece.caution("To sit on, not to stand on; outdoors seal every edge of the plywood before it is put together.")
        return piece
