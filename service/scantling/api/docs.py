"""The documentation page, complete without a network: its script and style come with the package."""

from importlib import resources

from fastapi import APIRouter, Request
from fastapi.openapi.docs import get_swagger_ui_html
from starlette.responses import HTMLResponse
from starlette.staticfiles import StaticFiles

ASSETS = "/docs/assets"
FILES = ("swagger-ui-bundle.js", "swagger-ui.css", "favicon.png")


class Assets(StaticFiles):
    """The page's own files and no others of their folder; they change only with a release."""

    def __init__(self) -> None:
        # A package of files only: importing it would build an application of its own.
        super().__init__(directory=str(resources.files("fastapi_offline") / "static"))

    def lookup_path(self, path: str) -> tuple[str, object]:  # type: ignore[override]
        """Return the file, or nothing for a name that is not the page's."""
        return super().lookup_path(path) if path in FILES else ("", None)


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
