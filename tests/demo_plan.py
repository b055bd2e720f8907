"""The demonstration set planned once a test run, and a hostile copy of it whose words try to be more than words."""

from functools import cache

from scantling.api.schemas.lengths import plain
from scantling.api.schemas.projects import ProjectRequest
from scantling.demo import demo_project
from scantling.plan.projects import projects
from scantling_furniture import MODULES as SHIPPED

MODULES = {m.id: m for m in SHIPPED}
DESCRIBES = {id: m.parameters.schema()["properties"] for id, m in MODULES.items()}


@cache
def demo_request():
    return plain(ProjectRequest.model_validate(demo_project()))


@cache
def demo_plan():
    return projects(demo_request(), modules=MODULES)
