"""A drinks trolley: two trays with rims on angle legs, castors under a base."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, length

from .legs import Frame

RIM = 40.0
CASTOR = 75.0  # overall height of a castor of 60 mm


@dataclass(frozen=True)
class DrinksTrolleyParameters(Parameters):
    """Overall sizes, castors included."""

    width: float = length(700, least=450, most=900, says="Length of the trays.")
    depth: float = length(420, least=360, most=550, says="Depth of the trays.")
    height: float = length(820, least=600, most=900, says="Height to the upper tray, castors included.")


class DrinksTrolley(Module[DrinksTrolleyParameters]):
    """Legs stand on a base that carries the castors; the upper tray has a rim, the base is the lower tray."""

    id = "drinks-trolley"
    title = "Drinks trolley"
    sentence = "A trolley on castors with an upper tray that has a rim, and a shelf below for bottles."
    family = "tables"
    when_not = "Not over thresholds or on slopes, and not left in the rain: plywood trays hold water."
    parameters = DrinksTrolleyParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 19, 18.0, 25.0, "board", 64),
        "apron": Role(
            "Rails under the tray and round the shelf, and the rim.", "douglas-fir", 19, 18.0, 25.0, "board", 64
        ),
        "sheet": Role("Trays.", "birch-plywood", 18, 17.1, 18.5),
    }
    grows = ("width", "depth", "height")
    sources = ("Height near a kitchen worktop, 750 to 900 mm: common practice",)

    def build(self, build: Build[DrinksTrolleyParameters]) -> Assembly:
        """Return the trolley, its base on the castors at z = 0."""
        p, sheet, piece = build.parameters, build.thickness("sheet"), self.start(build)
        under_tray = p.height - CASTOR - sheet
        frame = Frame(piece, build, p.width, p.depth, under_tray, foot=sheet)
        under = frame.built()
        rails = frame.ring("shelf rail", sheet + frame.apron_w)
        base = piece.part("base", p.width, p.depth, "sheet", shows="both", seal=("start", "end", "near", "far"))
        base.ease(*(f"{side}/{face}" for side in ("start", "end", "near", "far") for face in ("face", "back")))
        base.lay("x", "y").put(x0=0, y0=0, z0=0)
        tray = piece.part("tray", p.width, p.depth, "sheet", wears=True, seal=("start", "end", "near", "far"))
        tray.ease(*(f"{side}/back" for side in ("start", "end", "near", "far")))
        tray.lay("x", "y").put(x0=0, y0=0, z0=under_tray)
        for side in ("front", "back"):
            piece.screws(base, rails[side], pitch=250, inset=110, length=50.8, role="holds")
            piece.screws(tray, under.aprons[side], pitch=250, inset=110, length=50.8, role="holds")
        self._rim(piece, p, tray.z1, frame.apron_t)
        piece.carries(tray, kind="mass", amount=20.0)
        piece.buy("swivel castor 60 mm with plate", 2, "under the base, screws shorter than base and rail together")
        piece.buy("swivel castor 60 mm with plate and brake", 2, "at the end one stands at")
        piece.size(p.width, p.depth, p.height - CASTOR + RIM)
        piece.chain(
            "height to the tray",
            p.height - CASTOR,
            [("base", sheet), ("front left leg", under_tray - sheet), ("tray", sheet)],
            "front left leg",
        )
        piece.caution("Bottles below, glasses above: loaded at the top it tips over a threshold or a cable.")
        piece.caution("Brakes on before anybody reaches over it; children ride on trolleys.")
        return piece

    def _rim(self, piece: Assembly, p: DrinksTrolleyParameters, z: float, t: float) -> None:
        """Stand a rim round the upper tray, screwed from below, so that nothing slides off."""
        tray = piece.parts["tray"]
        for side in ("front", "back", "left", "right"):
            along_x = side in ("front", "back")
            run = p.width if along_x else p.depth - 2 * t
            rim = piece.part(f"{side} rim", run, RIM, "apron", closing=not along_x).ease("far/face", "far/back")
            if along_x:
                rim.ease("start/face", "end/face")  # the corners that hips meet
            rim.lay({"front": "x", "back": "-x", "left": "-y", "right": "y"}[side], "z").put(z0=z)
            if along_x:
                rim.put(x0=0, **({"y0": 0.0} if side == "front" else {"y1": p.depth}))
            else:
                rim.put(y0=t, **({"x0": 0.0} if side == "left" else {"x1": p.width}))
            piece.screws(tray, rim, pitch=200, inset=80, gauge=6, role="clamps", glued=True)
