"""The service about itself: what it is, whether it lives, whether it can take work, which plugins it has."""

import hashlib
from functools import cache
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from starlette.responses import Response

from scantling import __version__
from scantling.tables import load_table, table_names

from ..calls import calls_of
from ..describe import form_of, operation
from ..problems import Problem
from ..respond import Form, Table, cached, dumps, member, render
from ..schemas.catalogues import About, Liveness, Readiness
from ..schemas.modules import Plugins

router = APIRouter()

LINKS = {
    "modules": ("/v1/modules", "Kinds of furniture"),
    "projects": ("/v1/projects", "The whole job in one request (POST)"),
    "nestings": ("/v1/nestings", "Parts on sheets and boards (POST)"),
    "fastener-checks": ("/v1/fastener-checks", "Screws in their stack (POST)"),
    "costings": ("/v1/costings", "What to buy and what it costs (POST)"),
    "figures": ("/v1/figures", "Single figures for spreadsheet cells"),
    "tables": ("/v1/tables", "Published tables"),
    "findings": ("/v1/findings", "Finding codes"),
    "problems": ("/v1/problems", "Kinds of problems"),
    "plugins": ("/v1/plugins", "Plugins, and the forms that they add"),
    "stock-lists": ("/v1/stock-lists", "What shops sell"),
    "price-lists": ("/v1/price-lists", "What things cost"),
    "finish-systems": ("/v1/finish-systems", "Finish systems"),
    "openapi": ("/openapi.json", "The interface, for programs"),
    "docs": ("/docs", "The interface, for people"),
}
PLUGINS = (
    Table("plugins", ("name", "status", "version", "interface", "modules", "reason", "warnings"), member("plugins")),
)


@cache
def tables_version() -> str:
    """Return a fingerprint of the published tables."""
    digest = hashlib.sha256()
    for name in table_names():
        digest.update(dumps([name, [row.to_plain() for row in load_table(name).rows]]))
    return digest.hexdigest()[:12]


@router.get(
    "/v1",
    **operation(
        "get_service",
        "What this service is",
        "Name, version of the service, of its interface and of its tables, and where everything is.",
        "service",
        About,
    ),
)
async def get_service(request: Request, form: Annotated[Form, Depends(form_of())]) -> Response:
    """Return what the service is."""
    root = request.scope.get("root_path", "")
    body = {
        "name": "scantling",
        "version": __version__,
        "interface_version": "1",
        "tables_version": tables_version(),
        "links": {name: {"href": root + path, "title": title} for name, (path, title) in LINKS.items()},
    }
    return cached(request, render(body, form, "scantling"))


@router.get(
    "/livez",
    **operation(
        "get_liveness", "Whether it runs", "Answers as long as the process does; no work.", "service", Liveness
    ),
)
async def get_liveness(form: Annotated[Form, Depends(form_of())]) -> Response:
    """Return that the service runs."""
    return render({"live": True}, form, "livez")


@router.get(
    "/readyz",
    **operation(
        "get_readiness",
        "Whether it takes work",
        "Answers 200 when the workers run and the tables are read, else 503.",
        "service",
        Readiness,
    ),
)
async def get_readiness(request: Request, form: Annotated[Form, Depends(form_of())]) -> Response:
    """Return whether the service can take work."""
    ready = calls_of(request).seam.ready
    tables = len(table_names())
    checks = [
        {"name": "workers", "ok": ready, "detail": "running" if ready else "starting or stopping"},
        {"name": "tables", "ok": tables > 0, "detail": f"{tables} tables"},
    ]
    failed = [f"{check['name']}: {check['detail']}" for check in checks if not check["ok"]]
    if failed:
        raise Problem("not-ready", f"Not ready: {'; '.join(failed)}.", checks=checks)
    return render({"ready": True, "checks": checks}, form, "readyz")


@router.get(
    "/v1/plugins",
    **operation(
        "list_plugins",
        "The plugins",
        "Every plugin that was found: those that are loaded, and those that are not with the reason.",
        "service",
        Plugins,
        tables=PLUGINS,
        worker=True,
    ),
)
async def list_plugins(request: Request, form: Annotated[Form, Depends(form_of(PLUGINS))]) -> Response:
    """Return the plugins."""
    return cached(request, await calls_of(request).answer(request, "plugins", {}, form, "plugins"))
