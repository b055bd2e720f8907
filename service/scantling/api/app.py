"""The application: routers, what wraps them, and what starts and stops with them."""

import gc
import logging
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

from fastapi import FastAPI, Request
from starlette.middleware.body_limit import RequestBodyLimitMiddleware
from starlette.middleware.cors import CORSMiddleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.responses import Response

from scantling import __version__
from scantling.work import Limits, PoolSeam, Seam, default_workers

from . import faults
from .calls import Calls
from .door import Door, PlainTextProblems
from .respond import Form, cached, render
from .settings import Settings, load_settings, plugin_choice, unknown_variables

LOG = logging.getLogger("scantling")
EXPOSED = ["ETag", "Retry-After", "X-Request-ID", "Server-Timing", "Content-Disposition"]
GZIP_FROM = 1000  # bytes


def create_app(settings: Settings | None = None, seam: Seam | None = None) -> FastAPI:
    """Return the application. `settings` come from the environment and `seam` is a pool of workers by default."""
    from . import docs, openapi
    from .routers import ROUTERS  # some seventy models are built here: when an application is made, not on import

    settings = settings or load_settings()
    seam = seam or pool_for(settings)
    app = FastAPI(
        title="scantling",
        version=__version__,
        lifespan=_lifespan,
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        redirect_slashes=False,
    )
    app.state.settings = settings
    app.state.calls = Calls(seam, settings.jobs_per_client)
    faults.install(app)
    for router in (*ROUTERS, docs.router):
        app.include_router(router)
    app.add_api_route("/openapi.json", _openapi, include_in_schema=False)
    app.openapi = lambda: _document(app, openapi.build)  # type: ignore[method-assign]
    _wrap(app, settings)
    return app


def pool_for(settings: Settings) -> PoolSeam:
    """Return the worker pool that the settings ask for; the application starts and stops it."""
    limits = Limits(
        workers=settings.workers or default_workers(),
        queue=settings.queue,
        time_limit=settings.time_limit,
    )
    return PoolSeam(limits, plugin_choice(settings))


def _wrap(app: FastAPI, settings: Settings) -> None:
    """Put the layers around the application; the last one added is the outermost."""
    app.add_middleware(GZipMiddleware, minimum_size=GZIP_FROM, compresslevel=1)
    if settings.cors_origins:
        app.add_middleware(
            CORSMiddleware,
            allow_origins=list(settings.cors_origins),
            allow_methods=["GET", "HEAD", "POST"],
            allow_headers=["Content-Type", "X-Request-ID", "If-None-Match"],
            expose_headers=EXPOSED,
        )
    app.add_middleware(RequestBodyLimitMiddleware, max_body_size=settings.body_limit)
    app.add_middleware(PlainTextProblems)
    app.add_middleware(
        Door,
        root_path=settings.root_path,
        allowed_hosts=settings.allowed_hosts,
        body_limit=settings.body_limit,
        access_log=settings.access_log,
    )


@asynccontextmanager
async def _lifespan(app: FastAPI) -> AsyncIterator[None]:
    for name in unknown_variables():
        LOG.warning("%s is no setting and has no effect", name)
    seam = app.state.calls.seam
    await seam.start(warm=("modules",))
    if app.state.settings.plugins_strict:
        await _refuse_failed_plugins(seam)
    gc.collect()
    gc.freeze()  # what is loaded now stays; the collector need not look at it with every request
    try:
        yield
    finally:
        gc.unfreeze()
        await seam.stop()


class PluginsFailedError(RuntimeError):
    """A plugin failed to load, and the settings want all of them."""


async def _refuse_failed_plugins(seam: Seam) -> None:
    plugins = (await seam.run("plugins", {}))["plugins"]
    failed = [f"{one['name']}: {one['reason']}" for one in plugins if one["status"] == "failed"]
    if failed:
        await seam.stop()
        raise PluginsFailedError("; ".join(failed))


def _document(app: FastAPI, build: Callable[[FastAPI], dict[str, Any]]) -> dict[str, Any]:
    if app.openapi_schema is None:
        app.openapi_schema = build(app)
    return app.openapi_schema


async def _openapi(request: Request) -> Response:
    """Return the OpenAPI document."""
    return cached(request, render(request.app.openapi(), Form("json"), "openapi"))
