"""Planning a project without a service: the same parsing and the same operations, in this process.

For the command line, and for people who use the engine as a library.
"""

import json
from base64 import b64decode
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

from pydantic import ValidationError

from scantling.measure import RequestError
from scantling.work import InlineSeam, Plain, PluginChoice

from .drawn import OPERATION, job
from .faults import faults_of, from_request_error
from .problems import Fault, Problem
from .routers.projects import TABLES
from .schemas.lengths import plain
from .schemas.projects import ProjectRequest


class OfflineProblem(Exception):
    """The project cannot be computed; `lines` say where and why, one a fault."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        self.lines = [f"#{fault.pointer or ''}: {fault.detail}" for fault in faults]
        super().__init__("; ".join(self.lines))


@dataclass(frozen=True, slots=True)
class Written:
    """What came of a plan: its summary for people and the files it was written to."""

    summary: tuple[str, ...]
    files: tuple[Path, ...]


def plan_project(body: object, out: Path, plugins: PluginChoice | None = None) -> Written:
    """Plan a project and write the plan, its papers and drawings, and every table as CSV to `out`.

    `body` is what would be posted to /v1/projects. Raises OfflineProblem when it cannot be computed, OSError when
    `out` cannot be written.
    """
    everything = ZipFile(BytesIO(b64decode(_called(body, plugins)["base64"])))
    answer = json.loads(everything.read("plan.json"))
    out.mkdir(parents=True, exist_ok=True)
    everything.extractall(out)
    files = [out / name for name in everything.namelist()]
    for table in TABLES:
        files.append(out / f"{table.name}.csv")
        files[-1].write_bytes(table.csv(answer))
    return Written(tuple(answer["summary"]), tuple(files))


def checked(body: object) -> Plain:
    """Return a project request as the seam takes it. Raises OfflineProblem."""
    try:
        return plain(ProjectRequest.model_validate(body))
    except ValidationError as error:
        raise OfflineProblem(faults_of([{**one, "loc": ("body", *one["loc"])} for one in error.errors()])) from error
    except Problem as problem:
        raise OfflineProblem(problem.errors) from problem


def _called(body: object, plugins: PluginChoice | None) -> Plain:
    """Return the plan with everything drawn from it, as one ZIP file. Raises OfflineProblem."""
    try:
        return InlineSeam(plugins=plugins).call(OPERATION, job("project", "zip", None, checked(body)))
    except RequestError as error:
        raise OfflineProblem(from_request_error(error).errors) from error
