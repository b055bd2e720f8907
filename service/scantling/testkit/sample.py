"""A plain piece and plan for a plugin's checks and exporters to be tried on: a low shelf on two sides."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from scantling.kit import Assembly, Build, Module, Parameters, Role, length
from scantling.plan.parts import parts
from scantling.plan.projects import projects

DEPTH = 250.0


@dataclass(frozen=True)
class SampleParameters(Parameters):
    """The sizes of the sample."""

    width: float = length(600, least=300, most=2300, says="Overall width.")
    height: float = length(350, least=200, most=600, says="Overall height.")


class Sample(Module[SampleParameters]):
    """Two sides, a shelf between them and a top: what a check sees that has never seen furniture."""

    id = "sample-shelf"
    title = "Sample shelf"
    sentence = "A low shelf to try plugins on."
    family = "storage"
    when_not = "Not to be built: it is a sample."
    parameters = SampleParameters
    roles = MappingProxyType({"case": Role("All of it.", "birch-plywood", 18, 17, 19)})
    sources = ("practice",)

    def build(self, build: Build[SampleParameters]) -> Assembly:
        """Return the sample."""
        p, t, piece = build.parameters, build.thickness("case"), self.start(build)
        left = piece.part("left", p.height, DEPTH, "case").lay("z", "y").put(x0=0, y0=0, z0=0)
        right = piece.add(left.mirrored("x", p.width / 2, "right"))
        for name, z in (("shelf", 60.0), ("top", p.height - t)):
            board = piece.part(name, p.width - 2 * t, DEPTH, "case").lay("x", "y").put(x0=t, y0=0, z0=z)
            for side in (left, right):
                piece.screws(side, board, n=2, inset=50, role="clamps", glued=True)
        piece.size(p.width, DEPTH, p.height)
        piece.caution("A sample.")
        return piece


POINTS: tuple[Mapping[str, Any], ...] = (
    MappingProxyType({}),
    MappingProxyType({"width": 300, "height": 200}),
    MappingProxyType({"width": 2300, "height": 600}),
)


def sample_answers(modules: Mapping[str, type[Module[Any]]]) -> list[tuple[str, dict[str, Any], dict[str, Any]]]:
    """Return (kind, answer, request) of the first module as a piece and as a project, as an exporter is handed them."""
    module = next(iter(modules), Sample.id)
    offered = modules if modules else {Sample.id: Sample}
    piece = {"module": module, "parameters": {}}
    project = {"name": "sample", "modules": [{"id": "one", **piece}], "effort": "quick"}
    return [
        ("parts", parts(piece, modules=offered), piece),
        ("project", projects(project, modules=offered), project),
    ]
