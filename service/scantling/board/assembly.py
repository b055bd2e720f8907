"""The Assembly: parts placed in space, their joints and fasteners, steps, cushions, and what is promised of them."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from scantling.findings import Finding

from .chain import Chain, Link
from .cuts import Recess
from .joint import Fastener, Joint, JointKind, ScrewRole
from .load_case import LoadCase, LoadCaseError
from .material import RoleMaterial
from .motion import Motion, MotionError, slide, swing
from .part import Part, Promise
from .vector import Vector, add, scale

MOST_PARTS = 400


class AssemblyError(ValueError):
    """A piece that cannot be built as told; the message names the parts and the reason."""


@dataclass(frozen=True, slots=True)
class Cushion:
    """A bought cushion where it lies: a box from `origin`, in mm; `loaded` is its thickness sat on.

    `stopped_by` says in words what keeps it from sliding.
    """

    id: str
    kind: Literal["seat", "back"]
    origin: Vector
    width: float
    depth: float
    thickness: float
    loaded: float
    assumed: bool
    stopped_by: str


@dataclass(frozen=True, slots=True)
class Hardware:
    """Something bought by the piece: feet, hinges, straps. `what` is the id a price list knows it by."""

    what: str
    quantity: int
    says: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work in the author's words, with the parts and fasteners it adds."""

    text: str
    parts: tuple[str, ...] = ()
    fasteners: tuple[str, ...] = ()


@dataclass(slots=True, eq=False)
class Assembly:
    """What a module builds. Authors add to it; checks read it.

    World frame: x to the right as one faces the front, y away to the back, z up from the floor, in mm.
    """

    module: str
    title: str
    materials: Mapping[str, RoleMaterial]
    parts: dict[str, Part] = field(default_factory=dict)
    joints: dict[str, Joint] = field(default_factory=dict)
    fasteners: dict[str, Fastener] = field(default_factory=dict)
    cushions: list[Cushion] = field(default_factory=list)
    chains: list[Chain] = field(default_factory=list)
    promises: list[Promise] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    hardware: list[Hardware] = field(default_factory=list)
    loads: list[LoadCase] = field(default_factory=list)
    motions: list[Motion] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    hung_by: str = ""  # what holds it on a wall; empty for a piece that stands on the floor
    findings: list[Finding] = field(default_factory=list)
    sold: tuple[tuple[int, float], ...] = ()  # sizes of screws (gauge, mm) to pick from where one suits

    # ------------------------------------------------------------------ parts

    def part(
        self,
        id: str,
        length: float,
        width: float,
        role: str,
        *,
        name: str | None = None,
        shows: Literal["face", "both", "neither"] = "face",
        grain: Literal["along", "across", "any"] = "along",
        seal: Sequence[str] = (),
        closing: bool = False,
        wears: bool = False,
    ) -> Part:
        """Add a part cut from the material of a role: its long-point blank size in mm, lying at the origin.

        Raises AssemblyError for an id used twice, an unknown role, or more than 400 parts.
        """
        if role not in self.materials:
            raise AssemblyError(f"{id}: no role {role!r}; this module has {', '.join(self.materials)}")
        material = self.materials[role]
        part = Part(id, name or id, material, length, width, material.thickness, shows=shows, grain=grain)
        part.seal, part.closing, part.wears = tuple(seal), closing, wears
        return self.add(part)

    def add(self, part: Part) -> Part:
        """Add a part made elsewhere, for example by `mirrored`."""
        if part.id in self.parts:
            raise AssemblyError(f"the id {part.id!r} is used twice; ids are unique in a piece")
        if len(self.parts) >= MOST_PARTS:
            raise AssemblyError(f"more than {MOST_PARTS} parts; split the piece into modules")
        self.parts[part.id] = part
        return part

    def repeat(self, part: Part, times: int, step: Vector, id: str) -> list[Part]:
        """Return the part and `times` − 1 copies of it, each `step` mm further; ids are `id` with a number."""
        copies = (part.copied(f"{id} {i + 1}", scale(step, float(i))) for i in range(1, times))
        return [part, *(self.add(copy) for copy in copies)]

    # ------------------------------------------------------------------ joints

    def join(
        self,
        kind: JointKind | str,
        *parts: Part,
        glued: bool = False,
        clearance: float = 0.0,
        shows: bool = False,
    ) -> Joint:
        """Declare a joint between parts that touch (or stand `clearance` mm apart)."""
        for part in parts:
            if self.parts.get(part.id) is not part:
                raise AssemblyError(f"a joint names {part.id!r}, which is not a part of this piece")
        stem = " to ".join(p.id for p in parts)
        id = stem
        while id in self.joints:
            id = f"{stem} ({len([j for j in self.joints if j.startswith(stem)]) + 1})"
        joint = Joint(id, JointKind(kind), tuple(p.id for p in parts), glued, clearance, shows)
        self.joints[id] = joint
        return joint

    def glue(self, *parts: Part, shows: bool = False) -> Joint:
        """Declare a glued joint."""
        return self.join(JointKind.GLUE, *parts, glued=True, shows=shows)

    def fold(self, a: Part, b: Part) -> Joint:
        """Declare a folded mitre: two mitred edges glued and folded together with tape as the clamp."""
        return self.join(JointKind.FOLDED_MITRE, a, b, glued=True, shows=True)

    def loose(self, a: Part, b: Part, clearance: float = 0.0) -> Joint:
        """Declare that one part lies loose on or in another."""
        return self.join(JointKind.LOOSE, a, b, clearance=clearance)

    def clipped(self, a: Part, b: Part) -> Joint:
        """Declare that bought clips hold `a` down on `b` and let solid wood move across the grain; no glue."""
        return self.join(JointKind.CLIPPED, a, b)

    def screws(
        self,
        head: Part,
        into: Part,
        *,
        n: int | None = None,
        pitch: float | None = None,
        gauge: int = 8,
        role: ScrewRole | str = ScrewRole.HOLDS,
        inset: float | None = None,
        off: float = 0.0,
        shift: float = 0.0,
        through: Sequence[Part] = (),
        length: float | None = None,
        head_depth: float = 1.0,
        glued: bool = False,
        side: str | None = None,
    ) -> Joint:
        """Drive a row of screws through `head` (and `through`) into `into`, on the patch where they touch.

        Give `n` screws or a greatest `pitch`; `inset` from the patch's ends, `off` its centre line, `shift` along it,
        all in mm, positive to the right, back or up. `side` picks the side of `head` where several touch. The length
        is the stocked one that bites and stays inside, unless `length` says. Raises AssemblyError where the parts do
        not touch or no stocked screw fits.
        """
        from .screws import place_screws  # here: with it come tables that who only reads an assembly never asks

        try:
            placed = place_screws(
                head,
                into,
                tuple(through),
                n,
                pitch,
                gauge,
                ScrewRole(role),
                inset,
                off,
                shift,
                length,
                head_depth,
                side,
                self.sold,
            )
        except ValueError as error:
            raise AssemblyError(f"screws {head.id} into {into.id}: {error}") from None
        joint = self.join(JointKind.SCREWS, head, *through, into, glued=glued)
        names = (head.id, *(p.id for p in through), into.id)
        for spot in placed:
            id = f"S{len(self.fasteners) + 1}"
            self.fasteners[id] = Fastener(
                id, "wood screw", gauge, spot.diameter, spot.length, spot.head, spot.direction,
                names, ScrewRole(role), joint.id, head_depth,
            )  # fmt: skip
        return joint

    def housed(self, panel: Part, into: Part, *, slack: float = 0.0, glued: bool = True) -> Joint:
        """Cut the housing in `into` that a panel standing in it needs, and declare the joint.

        The panel is first placed where it shall sit, its edge inside the wood of `into`. `slack` mm widens the
        housing across the panel's thickness. Raises AssemblyError where the panel does not stand square in it.
        """
        corners = [into.frame.local(c) for cell in panel.cells() for f in cell.faces for c in f.corners]
        low = [max(-1.0, min(c[i] for c in corners)) for i in range(3)]
        high = [min(into.size[i] + 1.0, max(c[i] for c in corners)) for i in range(3)]
        if not all(low[i] < high[i] for i in range(3)):
            raise AssemblyError(f"{panel.id} does not reach into {into.id}; place it before it is housed")
        through = into.frame.local(add(panel.frame.through, into.frame.origin))
        thin = max(range(3), key=lambda i: abs(through[i]))
        if abs(through[thin]) < 1 - 1e-9 or thin == 2:
            raise AssemblyError(f"{panel.id} does not stand square in {into.id}")
        low[thin], high[thin] = low[thin] - slack / 2, high[thin] + slack / 2
        kind: Literal["dado", "groove"] = "dado" if thin == 0 else "groove"
        along = 1 - thin
        stopped = low[along] > 0.01 or high[along] < into.size[along] - 0.01
        into.cut(Recess(kind, low[0], high[0], low[1], high[1], low[2], high[2], stopped))
        return self.join(JointKind.HOUSED, panel, into, glued=glued, clearance=slack / 2)

    # ------------------------------------------------------------------ what moves in use

    def hinge(
        self,
        leaf: Part,
        on: Part,
        *,
        edge: tuple[str, str],
        towards: str | Vector,
        opens: float,
        clearance: float = 0.0,
        held_by: str = "",
        cushions: Sequence[str] = (),
        id: str | None = None,
    ) -> Joint:
        """Hang a lid, a door or a flap on another part; the dry fit swings it from shut to open.

        The hinges sit where two sides of the leaf meet; the second faces `on`, `clearance` mm away. It begins to move
        `towards` a direction and opens by so many degrees; `held_by` says what keeps it open. What is fixed to the
        leaf moves with it, and the `cushions` named. Raises AssemblyError where that is no motion.
        """
        joint = self.join(JointKind.HINGED, leaf, on, clearance=clearance)
        self._moves(lambda: swing(id or leaf.id, leaf, edge, clearance, towards, opens, held_by, cushions))
        return joint

    def slide(
        self,
        *pairs: tuple[Part, Part],
        towards: str | Vector,
        by: float,
        clearance: float = 0.0,
        held_by: str = "",
        id: str | None = None,
    ) -> list[Joint]:
        """Let parts slide along others, as a drawer's sides along a case's, `by` mm `towards` a direction.

        Each pair is a part that moves and the one it runs along, `clearance` mm apart. What is fixed to the moving
        parts moves with them. Raises AssemblyError where that is no motion.
        """
        joints = [self.join(JointKind.SLIDING, moving, on, clearance=clearance) for moving, on in pairs]
        self._moves(lambda: slide(id or pairs[0][0].id, [m for m, _ in pairs], towards, by, held_by))
        return joints

    def _moves(self, make: Callable[[], Motion]) -> None:
        try:
            motion = make()
        except (MotionError, ValueError) as error:
            raise AssemblyError(str(error)) from None
        if any(m.id == motion.id for m in self.motions):
            raise AssemblyError(f"two motions are called {motion.id!r}; give one of them an id of its own")
        self.motions.append(motion)

    # ------------------------------------------------------------------ promises and words

    def size(self, width: float | None = None, depth: float | None = None, height: float | None = None) -> None:
        """Promise the overall size along x, y and z in mm."""
        for axis, value in (("x", width), ("y", depth), ("z", height)):
            if value is not None:
                self.promises.append(Promise("size", (), (axis,), value))

    def clear(self, a: Part, b: Part, by: float) -> None:
        """Promise that two parts stay `by` mm apart: a drawer from its runner, a lid from its side."""
        self.promises.append(Promise("clear", (a.id, b.id), (), by))

    def chain(self, name: str, total: float, links: Sequence[tuple[str, float]], closing: str) -> None:
        """Record a dimension chain; `closing` is fitted to the work. Raises ChainError if it does not close."""
        self.chains.append(Chain(name, total, tuple(Link(label, size) for label, size in links), closing))

    def step(self, text: str, parts: Iterable[Part] = (), joints: Iterable[Joint] = ()) -> None:
        """Add a step of the work; the fasteners of its joints are driven in it."""
        ids = {j.id for j in joints}
        driven = tuple(f.id for f in self.fasteners.values() if f.joint in ids)
        self.steps.append(Step(text, tuple(p.id for p in parts), driven))

    def buy(self, what: str, quantity: int, says: str = "") -> None:
        """Add something bought by the piece, such as feet."""
        self.hardware.append(Hardware(what, quantity, says))

    def hangs_on_wall(self, by: str) -> None:
        """Say that the piece hangs on a wall, and `by` what; it is then not asked whether it stands or tips."""
        if not by.strip():
            raise AssemblyError("a piece that hangs on a wall says what it hangs by, such as 'wall screw 6 x 80 mm'")
        self.hung_by = by

    def carries(self, *parts: Part, kind: str, amount: float | None = None) -> None:
        """Say what some parts carry together, so that the checks need not guess.

        `kind` is sitter, leaning, arm (`amount` persons, one by default), books, library shelf, other shelf (`amount`
        kg per metre, the published preset by default) or mass (`amount` kg). A seat or back with cushions need not be
        told. Raises AssemblyError for another kind, or a part that is not of this piece.
        """
        for part in parts:
            if self.parts.get(part.id) is not part:
                raise AssemblyError(f"a load names {part.id!r}, which is not a part of this piece")
        try:
            self.loads.append(LoadCase(kind, tuple(p.id for p in parts), amount))
        except LoadCaseError as error:
            raise AssemblyError(str(error)) from None

    def caution(self, text: str) -> None:
        """Add a caution the reader must see."""
        if text not in self.cautions:
            self.cautions.append(text)

    def note(self, finding: Finding) -> None:
        """Add something the module itself noticed."""
        self.findings.append(finding)

    # ------------------------------------------------------------------ reading

    def bounds(self) -> tuple[Vector, Vector]:
        """Return the least and greatest corner of the box round all parts."""
        lows, highs = zip(*(p.bounds() for p in self.parts.values()), strict=True)
        low, high = (tuple(min(v) for v in zip(*lows, strict=True)), tuple(max(v) for v in zip(*highs, strict=True)))
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])

    def mass_and_centre(self) -> tuple[float, Vector]:
        """Return the mass of the wood in kg and its centre of gravity (fasteners and cushions left out)."""
        mass, moment = 0.0, (0.0, 0.0, 0.0)
        for part in self.parts.values():
            volume, centre = part.volume_and_centre()
            kg = volume * 1e-9 * part.material.density_kg_m3
            mass, moment = mass + kg, add(moment, scale(centre, kg))
        return mass, scale(moment, 1 / mass) if mass > 0 else moment


def all_promises(assembly: Assembly) -> list[Promise]:
    """Return what the assembly and its parts promise, in order."""
    return [*assembly.promises, *(p for part in assembly.parts.values() for p in part.promises)]
