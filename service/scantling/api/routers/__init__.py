"""The routes: each parses, calls the seam, and renders."""

from . import catalogues, costings, dryfits, fasteners, figures, lists, modules, nestings, projects, service

ROUTERS = (
    service.router,
    modules.router,
    dryfits.router,
    nestings.router,
    fasteners.router,
    costings.router,
    projects.router,
    figures.router,
    catalogues.router,
    lists.router,
)
