"""The routes: each parses, calls the seam, and renders."""

from . import catalogues, modules, nestings, service

ROUTERS = (service.router, modules.router, nestings.router, catalogues.router)
