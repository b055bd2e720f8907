"""Writes a piece as STEP (ISO 10303-21, AP214): one product a part, a solid of flat faces, in mm."""

from collections.abc import Sequence
from itertools import pairwise

from scantling.board import Assembly, Cell, Part
from scantling.board.vector import Vector, norm, scale, sub, unit

from .shell import Skin, skin

HEAD = """ISO-10303-21;
HEADER;
FILE_DESCRIPTION(('{title}'),'2;1');
FILE_NAME('{title}','1970-01-01T00:00:00',(''),(''),'scantling','scantling','');
FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));
ENDSEC;
DATA;
"""
ACCURACY_MM = 1e-5


def to_step(assembly: Assembly) -> bytes:
    """Return the assembly as a STEP file; the same assembly gives the same bytes."""
    writer = _Writer()
    writer.preamble()
    for part in assembly.parts.values():
        writer.part(part)
    head = HEAD.format(title=_text(assembly.title or assembly.module))
    return (head + "\n".join(writer.lines) + "\nENDSEC;\nEND-ISO-10303-21;\n").encode("ascii")


def _text(text: str) -> str:
    """Return text as a STEP string holds it: quotes doubled, other alphabets in \\X2\\ code (ISO 10303-21, 6.4.3)."""
    found = []
    for c in text:
        if c == "'" or c == "\\":
            found.append(c * 2)
        elif " " <= c <= "~":
            found.append(c)
        elif ord(c) < 0x10000:
            found.append(f"\\X2\\{ord(c):04X}\\X0\\")
        else:
            found.append(f"\\X4\\{ord(c):08X}\\X0\\")
    return "".join(found)


def _number(value: float) -> str:
    text = f"{value:.9f}".rstrip("0")
    return "0." if text in ("-0.", "0.") else text


class _Writer:
    """Gathers the entities of the file, each with its number."""

    def __init__(self) -> None:
        self.lines: list[str] = []
        self.context = ""
        self.application = ""
        self.discipline = ""

    def add(self, entity: str) -> str:
        """Add an entity and return its reference."""
        self.lines.append(f"#{len(self.lines) + 1}={entity};")
        return f"#{len(self.lines)}"

    def preamble(self) -> None:
        """Write units and contexts, which all parts share."""
        self.application = self.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
        self.add(
            f"APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{self.application})"
        )
        self.discipline = self.add(f"PRODUCT_CONTEXT('',{self.application},'mechanical')")
        length = self.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
        angle = self.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
        solid = self.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
        accuracy = self.add(
            f"UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE({_number(ACCURACY_MM)}),{length},"
            "'distance_accuracy_value','confusion accuracy')"
        )
        self.context = self.add(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(3)"
            f"GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({accuracy}))"
            f"GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid}))"
            "REPRESENTATION_CONTEXT('Context #1','3D Context with UNIT and UNCERTAINTY'))"
        )

    def part(self, part: Part) -> None:
        """Write one part as a product with its shape where it stands."""
        id, name = _text(part.id), _text(part.name)
        product = self.add(f"PRODUCT('{id}','{id}','{name}',({self.discipline}))")
        self.add(f"PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))")
        formation = self.add(f"PRODUCT_DEFINITION_FORMATION('','',{product})")
        design = self.add(f"PRODUCT_DEFINITION_CONTEXT('part definition',{self.application},'design')")
        definition = self.add(f"PRODUCT_DEFINITION('design','',{formation},{design})")
        shape = self.add(f"PRODUCT_DEFINITION_SHAPE('','',{definition})")
        placing = self.placement((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
        solids = [self.solid(one, id) for one in _skins(part.cells())]
        items = ",".join([placing, *solids])
        represented = self.add(f"ADVANCED_BREP_SHAPE_REPRESENTATION('{id}',({items}),{self.context})")
        self.add(f"SHAPE_DEFINITION_REPRESENTATION({shape},{represented})")

    def point(self, p: Vector) -> str:
        """Write a point."""
        return self.add(f"CARTESIAN_POINT('',({_number(p[0])},{_number(p[1])},{_number(p[2])}))")

    def direction(self, v: Vector) -> str:
        """Write a direction of length 1."""
        return self.add(f"DIRECTION('',({_number(v[0])},{_number(v[1])},{_number(v[2])}))")

    def placement(self, at: Vector, axis: Vector, reference: Vector) -> str:
        """Write a place with its axis and a direction square to it."""
        return self.add(f"AXIS2_PLACEMENT_3D('',{self.point(at)},{self.direction(axis)},{self.direction(reference)})")

    def solid(self, skin: Skin, name: str) -> str:
        """Write a closed skin as a solid: corners and edges shared, faces with their outward normals."""
        corners = skin.corners
        vertices = [self.add(f"VERTEX_POINT('',{self.point(p)})") for p in corners]
        edges: dict[tuple[int, int], str] = {}
        faces = []
        for normal, title, ring in skin.faces:
            sides = [self.side(a, b, corners, vertices, edges) for a, b in pairwise((*ring, ring[0]))]
            loop = self.add(f"EDGE_LOOP('',({','.join(sides)}))")
            bound = self.add(f"FACE_OUTER_BOUND('',{loop},.T.)")
            reference = unit(sub(corners[ring[1]], corners[ring[0]]))
            plane = self.add(f"PLANE('',{self.placement(corners[ring[0]], normal, reference)})")
            faces.append(self.add(f"ADVANCED_FACE('{title}',({bound}),{plane},.T.)"))
        shell = self.add(f"CLOSED_SHELL('',({','.join(faces)}))")
        return self.add(f"MANIFOLD_SOLID_BREP('{name}',{shell})")

    def side(
        self, a: int, b: int, corners: Sequence[Vector], vertices: Sequence[str], edges: dict[tuple[int, int], str]
    ) -> str:
        """Write an edge once and return it as walked from a to b."""
        low, high = min(a, b), max(a, b)
        if (low, high) not in edges:
            way = sub(corners[high], corners[low])
            vector = self.add(f"VECTOR('',{self.direction(scale(way, 1 / norm(way)))},1.)")
            line = self.add(f"LINE('',{self.point(corners[low])},{vector})")
            edges[low, high] = self.add(f"EDGE_CURVE('',{vertices[low]},{vertices[high]},{line},.T.)")
        return self.add(f"ORIENTED_EDGE('',*,*,{edges[low, high]},{'.T.' if a < b else '.F.'})")


def _skins(cells: Sequence[Cell]) -> list[Skin]:
    """Return one skin round all cells, or one round each where they meet in a way that no single skin can follow."""
    whole = skin(cells)
    return [whole] if whole else [one for one in (skin([cell]) for cell in cells) if one]
