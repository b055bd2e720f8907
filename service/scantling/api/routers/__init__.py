"""The routes: each parses, calls the seam, and renders."""

from . import catalogues, costings, fasteners, figures, modules, nestings, projects, service

ROUTERS = (
    service.router,
    modules.router,
    nestings.router,
    fasteners.router,
    costings.router,
    projects.router,
    figures.router,
    catalogues.router,
)
