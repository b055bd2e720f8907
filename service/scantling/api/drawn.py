"""Answers as drawings, papers and files: what is offered, how it is asked of a worker, how it is sent."""

from base64 import b64decode
from collections.abc import Mapping
from typing import Any

from starlette.responses import Response

from scantling.papers.forms import FORMATS, KINDS, SUFFIXES, SVG, Kind, offered, views

from .faults import invalid
from .problems import Fault, Problem

OPERATION = "papers"
LONGEST_VIEW = 120
_SAFE_SVG = "default-src 'none'; style-src 'unsafe-inline'"  # an SVG opened by itself runs nothing and fetches nothing


def names(kind: Kind) -> tuple[str, ...]:
    """Return the names of the forms besides JSON and CSV, as `?format=` takes them."""
    return tuple(SUFFIXES[media] for media in offered(kind))


def view_pattern(kind: Kind) -> str:
    """Return what `?view=` takes: a view of any form, with an item of it behind a colon or without."""
    known = dict.fromkeys(view for media in offered(kind) for view in views(kind, media))
    return rf"^({'|'.join(known)})(:[ -~]{{1,100}})?$"


def settled_view(kind: Kind, form: str, view: str | None) -> str | None:
    """Return the view to draw, None for the usual one. Raises Problem (422) for one that the form does not have."""
    known = views(kind, FORMATS[form])
    if view is None or view.partition(":")[0] in known:
        return view
    has = f"accepted: {', '.join(known)}" if known else "it has no views"
    detail = f"{form} does not show the view {view[:LONGEST_VIEW]!r}; {has}"
    fault = Fault(detail, "values-do-not-go-together", where="query", name="view")
    raise Problem("invalid-request", f"query view: {detail}", errors=[fault])


def job(kind: Kind, form: str, view: str | None, body: Mapping[str, Any]) -> dict[str, Any]:
    """Return the job for a worker: the body of the operation, and how its answer is to be drawn."""
    asked = {name: value for name, value in body.items() if name != "papers"}
    papers = {name: value for name, value in (body.get("papers") or {}).items() if value is not None}
    return {"kind": kind, "media_type": FORMATS[form], "view": view, "papers": papers, "request": asked}


def sent(form: str, answer: Mapping[str, Any]) -> Response:
    """Return the response with the file a worker made."""
    media = FORMATS[form]
    headers = {"Content-Disposition": f'attachment; filename="{answer["filename"]}"', "Vary": "Accept"}
    if media == SVG:
        headers["Content-Security-Policy"] = _SAFE_SVG
    return Response(b64decode(answer["base64"]), headers=headers, media_type=media)


def about_the_query(problem: Problem) -> Problem:
    """Return a problem of a worker that points at the view as one that points at the query it came in."""
    if not any(fault.pointer == "/view" for fault in problem.errors):
        return problem
    return invalid([Fault(f.detail, f.code, where="query", name="view") for f in problem.errors])


__all__ = ["KINDS", "OPERATION", "Kind", "about_the_query", "job", "names", "sent", "settled_view", "view_pattern"]
