"""Rectangles on sheets and lengths on boards: the fewest, proved where possible, in cuts a saw can make."""

from .nest import nest
from .nouns import Cutting, Grain, Job, Layout, Nesting, Piece, Placement, Stock, StockGrain, StoppedBy, Trim, Unplaced
from .plain import nesting_to_plain, nestings, read_job

__all__ = [
    "Cutting",
    "Grain",
    "Job",
    "Layout",
    "Nesting",
    "Piece",
    "Placement",
    "Stock",
    "StockGrain",
    "StoppedBy",
    "Trim",
    "Unplaced",
    "nest",
    "nesting_to_plain",
    "nestings",
    "read_job",
]
