"""What one plugin offers, read from what its hooks answered and checked as a whole."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from scantling.kit import (
    Check,
    ChecksContext,
    Context,
    Exporter,
    ExportersContext,
    FinishesContext,
    FinishSystem,
    FurnitureContext,
    Module,
    PriceList,
    PricesContext,
    StockContext,
    StockList,
)

from .modules import check_module_classes
from .others import read_checks, read_exporters, read_finishes
from .shop import read_price_lists, read_stock

CONTEXTS: Mapping[str, type[Context]] = MappingProxyType(
    {
        "furniture_modules": FurnitureContext,
        "stock": StockContext,
        "price_lists": PricesContext,
        "checks": ChecksContext,
        "exporters": ExportersContext,
        "finishes": FinishesContext,
    }
)
HOOKS = tuple(CONTEXTS)


@dataclass(frozen=True, slots=True)
class Offer:
    """The things of one plugin, by id; exporters by their format word."""

    modules: Mapping[str, type[Module[Any]]] = field(default_factory=dict)
    stock: Mapping[str, StockList] = field(default_factory=dict)
    price_lists: Mapping[str, PriceList] = field(default_factory=dict)
    checks: Mapping[str, Check] = field(default_factory=dict)
    exporters: Mapping[str, Exporter] = field(default_factory=dict)
    finishes: Mapping[str, FinishSystem] = field(default_factory=dict)

    def names(self) -> dict[str, list[str]]:
        """Return the ids of every sort of thing; no two plugins may have one in common."""
        codes = [code.code for check in self.checks.values() for code in check.codes]
        return {
            "modules": sorted(self.modules),
            "stock": sorted(self.stock),
            "price_lists": sorted(self.price_lists),
            "checks": sorted(self.checks),
            "codes": sorted(codes),
            "formats": sorted(self.exporters),
            "media_types": sorted(e.media_type for e in self.exporters.values()),
            "finishes": sorted(self.finishes),
        }


SORTS: Mapping[str, str] = MappingProxyType(
    {
        "modules": "module",
        "stock": "stock list",
        "price_lists": "price list",
        "checks": "check",
        "codes": "finding code",
        "formats": "format",
        "media_types": "media type",
        "finishes": "finish",
    }
)
_READERS: Mapping[str, tuple[str, Callable[[object], Mapping[str, Any]]]] = MappingProxyType(
    {
        "furniture_modules": ("modules", check_module_classes),
        "stock": ("stock", read_stock),
        "price_lists": ("price_lists", read_price_lists),
        "checks": ("checks", read_checks),
        "exporters": ("exporters", read_exporters),
        "finishes": ("finishes", read_finishes),
    }
)


def read_offer(answers: Mapping[str, object]) -> Offer:
    """Return what a plugin offers from what its hooks answered, by hook. Raises Fault naming the first thing wrong."""
    found: dict[str, Mapping[str, Any]] = {}
    for hook, answer in answers.items():
        member, read = _READERS[hook]
        found[member] = MappingProxyType(dict(read(answer)))
    return Offer(**found)
