"""The operation behind `?format=` and `?view=`: plans, then renders, in one trip to a worker."""

from base64 import b64encode
from collections.abc import Callable, Mapping
from typing import Any

from scantling.measure import RequestError, RequestProblem
from scantling.nesting import nestings
from scantling.plan.building import Modules
from scantling.plan.extras import Extras
from scantling.plan.parts import parts
from scantling.plan.projects import projects

from .bundle import file_name
from .forms import KINDS, SUFFIXES, Kind
from .registry import render

Progress = Callable[[float | None, float | None, float | None], None]
STEMS: Mapping[Kind, str] = {"parts": "parts", "nesting": "layouts", "project": "project"}


def papers(
    request: Mapping[str, Any],
    *,
    modules: Modules,
    progress: Progress | None = None,
    seconds: float | None = None,
    extras: Extras | None = None,
) -> dict[str, Any]:
    """Answer {kind, media_type, view, papers, request} with {media_type, filename, base64}.

    `request` is the body of the operation of that kind, lengths in mm. Raises RequestError as that operation does;
    pointers of the body stay what they are, and /format, /view and /papers name the members round it.
    """
    kind: Kind = request["kind"]
    if kind not in KINDS:
        raise RequestError([RequestProblem("/kind", f"{kind!r} is not one of {', '.join(KINDS)}", "not-one-of")])
    body = request["request"]
    answer = _answer(kind, body, modules, progress, seconds, extras)
    data = render(
        kind,
        answer,
        request["media_type"],
        request.get("view"),
        request=body,
        papers=request.get("papers"),
        describes={id: module.parameters.schema()["properties"] for id, module in modules.items()},
    )
    stem = file_name(str(body.get("name") or body.get("module") or STEMS[kind]))
    name = f"{stem}.{SUFFIXES[request['media_type']]}"
    return {"media_type": request["media_type"], "filename": name, "base64": b64encode(data).decode("ascii")}


def _answer(
    kind: Kind,
    body: Mapping[str, Any],
    modules: Modules,
    progress: Progress | None,
    seconds: float | None,
    extras: Extras | None,
) -> dict[str, Any]:
    if kind == "parts":
        return parts(body, modules=modules, extras=extras)
    if kind == "nesting":
        return nestings(body, progress, seconds)
    return projects(body, modules=modules, progress=progress, seconds=seconds, extras=extras)
