"""The hooks a plugin may implement (interface 2). Host and plugins share the pluggy project name "scantling".

Each takes one context object and returns plain typed data. In interface 1 there was one hook, `furniture_modules`,
and it took nothing.
"""

from collections.abc import Sequence

import pluggy

from .checks import Check
from .contexts import (
    ChecksContext,
    ExportersContext,
    FinishesContext,
    FurnitureContext,
    PricesContext,
    StockContext,
)
from .exporters import Exporter
from .finishes import FinishSystem
from .module import Module
from .shop import PriceList, StockList

PROJECT = "scantling"
hookspec = pluggy.HookspecMarker(PROJECT)
hook = pluggy.HookimplMarker(PROJECT)


@hookspec
def furniture_modules(context: FurnitureContext) -> Sequence[type[Module[object]]]:  # type: ignore[type-var,empty-body]
    """Return the furniture module classes this plugin adds."""


@hookspec
def stock(context: StockContext) -> Sequence[StockList]:  # type: ignore[empty-body]
    """Return the lists of sheets, boards and screws that shops sell."""


@hookspec
def price_lists(context: PricesContext) -> Sequence[PriceList]:  # type: ignore[empty-body]
    """Return named price lists."""


@hookspec
def checks(context: ChecksContext) -> Sequence[Check]:  # type: ignore[empty-body]
    """Return checks that look at every piece and add what they notice to its findings."""


@hookspec
def exporters(context: ExportersContext) -> Sequence[Exporter]:  # type: ignore[empty-body]
    """Return further forms in which pieces and plans can be had."""


@hookspec
def finishes(context: FinishesContext) -> Sequence[FinishSystem]:  # type: ignore[empty-body]
    """Return finish systems."""
