"""The documentation page, complete without a network: its script and style come with the service."""

from functools import cache
from importlib import resources

from fastapi import APIRouter, Request
from fastapi.openapi.docs import get_swagger_ui_html
from starlette.responses import HTMLResponse, Response

from .problems import Problem
from .respond import cached

ASSETS = "/docs/assets"
FILES = {"swagger-ui-bundle.js": "text/javascript", "swagger-ui.css": "text/css", "favicon.png": "image/png"}

router = APIRouter()


@router.get("/docs", include_in_schema=False)
async def docs(request: Request) -> HTMLResponse:
    """Return the page that shows the OpenAPI document."""
    root = request.scope.get("root_path", "")
    page = get_swagger_ui_html(
        openapi_url=f"{root}/openapi.json",
        title="scantling",
        swagger_js_url=f"{root}{ASSETS}/swagger-ui-bundle.js",
        swagger_css_url=f"{root}{ASSETS}/swagger-ui.css",
        swagger_favicon_url=f"{root}{ASSETS}/favicon.png",
    )
    page.headers["Cache-Control"] = "public, max-age=3600"
    return page


@router.get(ASSETS + "/{name}", include_in_schema=False)
async def asset(request: Request, name: str) -> Response:
    """Return one of the page's own files; it changes only with a release."""
    if name not in FILES:
        raise Problem("not-found", "The documentation page has no such file.")
    return cached(request, Response(_file(name), media_type=FILES[name]))


@cache
def _file(name: str) -> bytes:
    return (resources.files("fastapi_offline") / "static" / name).read_bytes()
