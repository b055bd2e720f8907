"""Forty furniture modules, each with one fault a real author makes; the rule that must catch it stands beside each.

All are made from one sound module, a low shelf on two sides. `BROKEN` holds (name, rule, module).
"""

from dataclasses import dataclass, replace
from random import random
from types import MappingProxyType

from scantling.board import Step
from scantling.kit import (
    Assembly,
    AssemblyError,
    Build,
    JointKind,
    Module,
    Parameters,
    Role,
    choice,
    count,
    length,
)


@dataclass(frozen=True)
class ShelfParameters(Parameters):
    width: float = length(500, least=300, most=900, says="Overall width.")
    height: float = length(300, least=200, most=600, says="Overall height.")
    shelves: int = count(1, least=1, most=3, says="How many shelves.")


class Shelf(Module[ShelfParameters]):
    """Two sides and the shelves between them: sound, and the stock the broken ones are cut from."""

    id = "test-shelf"
    title = "Shelf"
    sentence = "A low shelf."
    family = "test"
    when_not = "Not to stand on."
    parameters = ShelfParameters
    roles = MappingProxyType({"case": Role("All of it.", "birch-plywood", 18, 17.1, 18.5)})
    sources = ("practice",)
    grows = ("width", "height")

    def build(self, build: Build[ShelfParameters]) -> Assembly:
        """Return the shelf."""
        p, t, piece = build.parameters, build.thickness("case"), self.start(build)
        left = piece.part("left", p.height, 250, "case").lay("z", "y").put(x0=0, y0=0, z0=0)
        right = piece.part("right", p.height, 250, "case").lay("z", "y").put(x1=p.width, y0=0, z0=0)
        for i in range(p.shelves):
            name = f"shelf {i + 1}"
            shelf = piece.part(name, p.width - 2 * t, 250, "case").lay("x", "y").put(x0=t, y0=0, z0=40 + 60 * i)
            for side in (left, right):
                piece.screws(side, shelf, n=2, gauge=6, inset=50, role="clamps", glued=True)
        piece.size(p.width, 250, p.height)
        piece.caution("Not to stand on.")
        return piece


BROKEN: list[tuple[str, str, type[Module]]] = []


def variant(name, rule, **members):
    """Note a module that differs from the sound one in class members only."""
    BROKEN.append((name, rule, type(name, (Shelf,), members)))


def spoiled(rule):
    """Note a module whose build takes the sound piece and spoils it."""

    def note(spoil):
        def build(self, build):
            piece = Shelf.build(self, build)
            return spoil(piece, build) or piece

        BROKEN.append((spoil.__name__, rule, type(spoil.__name__, (Shelf,), {"build": build})))
        return spoil

    return note


# ---------------------------------------------------------------- what is declared

variant("IdWithCapitals", "id", id="TestShelf")
variant("IdMissing", "id", id=None)
variant("TitleEmpty", "words", title=" ")
variant("SentenceMissing", "words", sentence="")
variant("FamilyMissing", "words", family="")
variant("WhenNotMissing", "words", when_not="")
variant("SourcesMissing", "sources", sources=())
variant("RolesMissing", "roles", roles={})
variant("RoleNotARole", "roles", roles={"case": "plywood"})
variant("RoleOfUnknownMaterial", "roles", roles={"case": Role("x", "unobtainium", 18, 17, 19)})
variant("RoleOutsideItsBand", "roles", roles={"case": Role("x", "birch-plywood", 20, 17, 19)})
variant("BoardRoleWithoutWidth", "roles", roles={"case": Role("x", "douglas-fir", 18, 17, 19, "board")})
variant("ParametersNotAClass", "parameters", parameters={"width": 500})


@dataclass(frozen=True)
class Silent(Parameters):
    width: float = length(500, least=300, most=900, says=" ")
    height: float = length(300, least=200, most=600, says="Height.")
    shelves: int = count(1, least=1, most=3, says="Shelves.")


@dataclass(frozen=True)
class DefaultOutside(Parameters):
    width: float = length(200, least=300, most=900, says="Width.")
    height: float = length(300, least=200, most=600, says="Height.")
    shelves: int = count(1, least=1, most=3, says="Shelves.")


@dataclass(frozen=True)
class BadChoice(Parameters):
    width: float = length(500, least=300, most=900, says="Width.")
    height: float = length(300, least=200, most=600, says="Height.")
    shelves: int = count(1, least=1, most=3, says="Shelves.")
    style: str = choice("plain", "round", "square", says="Style.")


@dataclass(frozen=True)
class Undeclared(Parameters):
    width: float = 500.0


variant("ParameterWithoutSentence", "parameters", parameters=Silent)
variant("DefaultOutsideRange", "parameters", parameters=DefaultOutside)
variant("DefaultNotAChoice", "parameters", parameters=BadChoice)
variant("ParameterNotDeclared", "parameters", parameters=Undeclared)


# ---------------------------------------------------------------- building


@spoiled("builds")
def raises_a_bare_error(piece, build):
    raise ZeroDivisionError("division by zero")


@spoiled("builds")
def crashes_only_at_three_shelves(piece, build):
    if build.parameters.shelves == 3:
        raise KeyError("shelf 4")


@spoiled("builds")
def returns_a_dictionary(piece, build):
    return {"parts": []}


@spoiled("builds")
def builds_nothing(piece, build):
    return Assembly("test-shelf", "Shelf", build.materials)


@spoiled("builds")
def refuses_its_own_defaults(piece, build):
    raise AssemblyError("this shelf is never right, whatever you ask for")


@spoiled("refuses in words")
def refuses_without_words(piece, build):
    if build.parameters.width > 800:
        raise AssemblyError("bad width")


@spoiled("refuses in words")
def refuses_most_of_its_range(piece, build):
    if not 480 < build.parameters.width < 520:
        raise AssemblyError("the width must lie between 480 and 520 mm, or the shelf sags")


@spoiled("same again")
def throws_dice(piece, build):
    piece.parts["shelf 1"].put(z0=40 + random())


CALLS: list[int] = []


@spoiled("same again")
def remembers_how_often_it_was_built(piece, build):
    CALLS.append(1)
    piece.caution(f"built {len(CALLS)} times")


@spoiled("within budget")
def takes_for_ever(piece, build):
    if build.parameters.shelves == 3:
        piece.caution(f"counted to {sum(i % 7 for i in range(25_000_000))}")


# ---------------------------------------------------------------- what is built


@spoiled("dry fit")
def forgets_the_thickness_of_its_neighbours(piece, build):
    piece.add(replace_part(piece, "shelf 1", length=build.parameters.width))


@spoiled("dry fit")
def shelf_stands_off_the_side(piece, build):
    piece.parts["shelf 1"].shift((0.4, 0, 0))


@spoiled("dry fit")
def shelf_overlaps_the_side(piece, build):
    piece.parts["shelf 1"].shift((-2.0, 0, 0))


@spoiled("dry fit")
def promises_another_size(piece, build):
    piece.size(build.parameters.width + 10)


@spoiled("dry fit")
def a_part_adrift(piece, build):
    piece.part("spare", 100, 50, "case").lay("x", "y").put(x0=0, y0=0, z0=2000)


@spoiled("dry fit")
def screws_that_poke_out(piece, build):
    for key, screw in list(piece.fasteners.items()):
        piece.fasteners[key] = replace(screw, length=400.0)


@spoiled("dry fit")
def screws_that_miss(piece, build):
    for key, screw in list(piece.fasteners.items()):
        piece.fasteners[key] = replace(screw, head=(screw.head[0], screw.head[1], screw.head[2] + 80))


@spoiled("dry fit")
def screws_that_meet(piece, build):
    first = next(iter(piece.fasteners.values()))
    piece.fasteners["twin"] = replace(first, id="twin", head=(first.head[0], first.head[1] + 1.0, first.head[2]))


@spoiled("handed parts")
def three_lefts_and_one_right(piece, build):
    t = build.thickness("case")
    for i, edge in enumerate(("far", "far", "far", "near")):
        rail = piece.part(f"rail {i + 1}", 200, 60, "case").saw("end", mitre=20, long_edge=edge)
        rail.lay("x", "z").put(x0=t, y0=250 + i * t, z0=40)
        under = piece.parts[f"rail {i}"] if i else piece.parts["shelf 1"]
        piece.glue(rail, under)


@spoiled("cautions")
def says_no_caution(piece, build):
    piece.cautions.clear()


@spoiled("promises")
def promises_no_size(piece, build):
    piece.promises[:] = [p for p in piece.promises if p.kind != "size"]


@spoiled("joints")
def declares_no_joint(piece, build):
    piece.joints.clear()
    piece.fasteners.clear()


@spoiled("steps")
def a_step_names_a_ghost(piece, build):
    piece.steps.append(step_of("ghost"))


@spoiled("larger takes more")
def shrinks_as_it_grows(piece, build):
    extra = piece.part("filler", 800, 700 - build.parameters.height, "case").lay("x", "y").put(x0=20, y0=0, z1=40)
    piece.join(JointKind.GLUE, extra, piece.parts["shelf 1"], glued=True)


class InchesIgnored(ShelfParameters):
    """Parameters that read a bare number as mm whatever the caller's unit."""

    @classmethod
    def read(cls, plain, unit="mm", at="/parameters"):
        """Forget the unit."""
        return ShelfParameters.read(plain, "mm", at)


variant("ForgetsTheUnit", "units agree", parameters=InchesIgnored)


def replace_part(piece, id, **changes):
    """Return a part made again with other sizes; the old one leaves the piece."""
    old = piece.parts.pop(id)
    return replace(old, _local=None, _world=None, _bounds=None, **changes)


def step_of(part):
    """Return a step that names a part."""
    return Step("Bring the ghost.", (part,))


# ---------------------------------------------------------------- larger takes more

variant("NothingGrows", "grows", grows=())
variant("GrowsNamesNoParameter", "larger takes more", grows=("widht",))
variant("CountsWhatDoesNotGrow", "larger takes more", grows=("width", "shelves", "finish"))


@spoiled("larger takes more")
def thinner_in_the_middle(piece, build):
    """The default takes more wood than the most: a board is left out of wide ones."""
    if build.parameters.width > 800:
        gone = "shelf 1"
        for joint in [j for j in piece.joints.values() if gone in j.parts]:
            del piece.joints[joint.id]
            for screw in [f for f in piece.fasteners.values() if f.joint == joint.id]:
                del piece.fasteners[screw.id]
        del piece.parts[gone]
