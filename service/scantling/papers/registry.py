"""One registry: what is drawn or written of parts, nestings and projects, by media type and view.

Everything is made from the plain answers of the operations, so what is on paper is what the JSON says.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from scantling.drawing.dxf import Copies, layouts_dxf, parts_dxf
from scantling.drawing.glb import to_glb
from scantling.drawing.pdf import Page, to_pdf
from scantling.drawing.shapes import Drawing, shifted, stacked
from scantling.drawing.step import to_step
from scantling.drawing.svg import to_svg
from scantling.measure import RequestError, RequestProblem

from .bundle import bundle
from .dossier import Describes, Dossier, Plain, piece_dossier, project_dossier
from .forms import DXF, GLB, PACKET, PDF, STEP, SVG, XLSX, ZIP, Kind, offered, views
from .labels import label_pages
from .options import Options, read_options
from .packet import packet
from .page import MARGIN_MM, Paper, scaled_to
from .pictures import NESTING_VIEWS, PARTS_VIEWS, PROJECT_VIEWS, Views
from .workbook import workbook

VIEWS: Mapping[Kind, Mapping[str, Views]] = MappingProxyType(
    {"parts": PARTS_VIEWS, "nesting": NESTING_VIEWS, "project": PROJECT_VIEWS}
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked for: the whole plan, a view's name, and which item of it ("" for all)."""

    dossier: Dossier
    view: str
    item: str


Writer = Callable[[Kind, Wanted], bytes]


def render(
    kind: Kind,
    answer: Plain,
    media_type: str,
    view: str | None = None,
    *,
    request: Plain | None = None,
    papers: Plain | None = None,
    describes: Describes | None = None,
) -> bytes:
    """Return an answer as a file of a media type.

    `view` is one of `views()`, with an item behind a colon where one of many is wanted ("steps:3", "drawings:lid").
    `request` is what was posted (attached to a packet), `papers` are options (see `read_options`), `describes` gives
    the JSON Schema properties of each module's parameters. Raises RequestError with pointers to /format, /view and
    /papers.
    """
    if media_type not in offered(kind):
        raise _refusal("/format", media_type, offered(kind))
    name, _, item = (view or "").partition(":")
    known = views(kind, media_type)
    if name and name not in known:
        raise _refusal("/view", name, known)
    dossier = dossier_of(kind, answer, request=request, papers=papers, describes=describes)
    return _WRITERS[media_type](kind, Wanted(dossier, name or (known[0] if known else ""), item))


def dossier_of(
    kind: Kind, answer: Plain, *, request: Plain | None, papers: Plain | None, describes: Describes | None
) -> Dossier:
    """Return the plan as the papers need it. Raises RequestError for options that cannot be."""
    tape = answer.get("tape") or (request or {}).get("tape")
    options = read_options(papers or {}, tape) if tape else read_options(papers or {})
    if kind == "project":
        return project_dossier(answer, options, request, describes)
    if kind == "parts":
        return piece_dossier(answer, options, request, describes)
    return _nesting_dossier(answer, options, request)


def _nesting_dossier(answer: Plain, options: Options, request: Plain | None) -> Dossier:
    plan = {"nesting": answer, "findings": answer["findings"], "cautions": [], "summary": []}
    return Dossier("Layouts", plan, (), (), options, request or {}, {})


def _refusal(at: str, asked: str, accepted: tuple[str, ...]) -> RequestError:
    shown = "".join(c for c in asked[:64] if c.isprintable())
    what = ", ".join(accepted) if accepted else "nothing, this form has no views"
    detail = f"{shown!r} is not offered here; accepted: {what}"
    return RequestError([RequestProblem(at, detail, "values-do-not-go-together")])


def _drawings(kind: Kind, wanted: Wanted) -> list[Drawing]:
    found = VIEWS[kind][wanted.view](wanted.dossier)
    if not wanted.item:
        return [drawing for _, drawing in found]
    chosen = [drawing for name, drawing in found if name == wanted.item]
    if not chosen:
        names = tuple(dict.fromkeys(name for name, _ in found))
        raise _refusal("/view", f"{wanted.view}:{wanted.item}", tuple(f"{wanted.view}:{n}" for n in names[:40]))
    return chosen


def _svg(kind: Kind, wanted: Wanted) -> bytes:
    drawings = _drawings(kind, wanted)
    if not drawings:
        raise _refusal("/view", wanted.view, ())
    return to_svg(stacked(wanted.dossier.name, drawings)).encode("utf-8")


def _pdf(kind: Kind, wanted: Wanted) -> bytes:
    if wanted.view == PACKET:
        return packet(wanted.dossier)
    paper = wanted.dossier.options.paper
    if wanted.view == "labels" and not wanted.item:
        pages = label_pages(wanted.dossier)
    else:
        pages = [_on_paper(drawing, paper) for drawing in _drawings(kind, wanted)]
    return to_pdf(pages, wanted.dossier.name, author=wanted.dossier.options.author)


def _on_paper(drawing: Drawing, paper: Paper) -> Page:
    """Return a drawing on a page of its own; one as large as the page already is one."""
    if (drawing.width, drawing.height) == (paper.width, paper.height):
        return Page(drawing, ((drawing.title, 0),))
    fitted = scaled_to(drawing, paper.width - 2 * MARGIN_MM, paper.height - 2 * MARGIN_MM)
    shapes = tuple(shifted(s, (paper.width - fitted.width) / 2, MARGIN_MM) for s in fitted.shapes)
    return Page(Drawing(paper.width, paper.height, drawing.title, shapes), ((drawing.title, 0),))


def _dxf(kind: Kind, wanted: Wanted) -> bytes:
    dossier = wanted.dossier
    if kind == "nesting" and dossier.nesting is not None:
        return layouts_dxf(dossier.nesting["layouts"])
    return parts_dxf([Copies(r.part, r.plain["id"], r.plain["quantity"]) for r in dossier.rows])


def _xlsx(kind: Kind, wanted: Wanted) -> bytes:
    return workbook(wanted.dossier)


def _glb(kind: Kind, wanted: Wanted) -> bytes:
    return to_glb(wanted.dossier.pieces[0].assembly)


def _step(kind: Kind, wanted: Wanted) -> bytes:
    return to_step(wanted.dossier.pieces[0].assembly)


def _zip(kind: Kind, wanted: Wanted) -> bytes:
    return bundle(kind, wanted.dossier)


_WRITERS: Mapping[str, Writer] = MappingProxyType(
    {SVG: _svg, PDF: _pdf, DXF: _dxf, XLSX: _xlsx, GLB: _glb, STEP: _step, ZIP: _zip}
)
