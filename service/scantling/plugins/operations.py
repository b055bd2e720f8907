"""The operations about plugins: what there is, what they offer, and plans in the forms that they write."""

from base64 import b64encode
from collections.abc import Callable, Mapping
from typing import Any

from scantling.kit import INTERFACE
from scantling.kit.exporters import PlanKind
from scantling.measure import RequestError, RequestProblem
from scantling.plugin_check import SPOKEN

from .host import PluginHost

Plain = Mapping[str, Any]
Progress = Callable[[float | None, float | None, float | None], None]


def plugins(plain: Plain, *, host: PluginHost) -> dict[str, Any]:
    """Answer GET /v1/plugins: the interfaces the host speaks, what became of every plugin, codes and forms they add."""
    exporters = [
        {
            "format": one.format,
            "media_type": one.media_type,
            "title": one.title,
            "kinds": list(one.kinds),
            "plugin": plugin,
        }
        for one, plugin in host.exporters().values()
    ]
    return {
        "interface": INTERFACE,
        "interfaces": list(SPOKEN),
        "plugins": host.describe(),
        "exporters": sorted(exporters, key=lambda row: str(row["format"])),
        "codes": sorted(host.codes(), key=lambda row: str(row["code"])),
    }


def stock_lists(plain: Plain, *, host: PluginHost) -> dict[str, Any]:
    """Answer GET /v1/stock-lists: what shops sell, as plugins say. Lengths in mm."""
    return {
        "stock_lists": [
            {
                **_told(one.id, one.title, one.says, plugin),
                "currency": one.currency,
                "stock": [*(s.to_plain() for s in one.sheets), *(b.to_plain() for b in one.boards)],
                "fasteners": [s.to_plain() for s in one.screws],
            }
            for _, (one, plugin) in sorted(host.stock().items())
        ]
    }


def price_lists(plain: Plain, *, host: PluginHost) -> dict[str, Any]:
    """Answer GET /v1/price-lists: named prices, as plugins say."""
    return {
        "price_lists": [
            {
                **_told(one.id, one.title, one.says, plugin),
                "currency": one.currency,
                "prices": [price.to_plain() for price in one.prices],
            }
            for _, (one, plugin) in sorted(host.price_lists().items())
        ]
    }


def finish_systems(plain: Plain, *, host: PluginHost) -> dict[str, Any]:
    """Answer GET /v1/finish-systems: finish systems, as plugins say."""
    return {
        "finish_systems": [
            {
                **_told(one.id, one.title, one.says, plugin),
                "kind": one.kind,
                "coats": one.coats,
                "least_m2_per_l": one.least,
                "most_m2_per_l": one.most,
                "recoat_h": one.recoat_hours,
                "ready_h": one.ready_hours,
                "care_months": one.care_months,
                "exposures": list(one.exposures),
                "source": one.source,
            }
            for _, (one, plugin) in sorted(host.finishes().items())
        ]
    }


def exports(
    request: Plain, *, host: PluginHost, progress: Progress | None = None, seconds: float | None = None
) -> dict[str, Any]:
    """Answer {kind, format, request} with {media_type, filename, base64}: a plan as a plugin writes it.

    Raises RequestError as the operation of that kind does, and for a format that no plugin writes of that kind.
    """
    # Here, not above: every idle worker loads this file, and the whole plan and its papers are half of its memory.
    from scantling.papers.bundle import file_name
    from scantling.plan.parts import parts
    from scantling.plan.projects import projects

    kind: PlanKind = request["kind"]
    form, body = request["format"], request["request"]
    known = host.exporters()
    if form not in known or kind not in known[form][0].kinds:
        offered = ", ".join(sorted(name for name, (one, _) in known.items() if kind in one.kinds)) or "none"
        detail = f"no plugin writes {form!r} of this; there are {offered}"
        raise RequestError([RequestProblem("/format", detail, "not-one-of")])
    modules = host.modules()
    if kind == "parts":
        answer = parts(body, modules=modules, extras=host)
    else:
        answer = projects(body, modules=modules, progress=progress, seconds=seconds, extras=host)
    name = file_name(str(body.get("name") or body.get("module") or kind))
    data = host.export(form, kind, name, answer, body)
    media_type = known[form][0].media_type
    return {"media_type": media_type, "filename": f"{name}.{form}", "base64": b64encode(data).decode("ascii")}


def _told(id: str, title: str, says: str, plugin: str) -> dict[str, Any]:
    return {"id": id, "title": title, "says": says, "plugin": plugin}
