"""The rules a whole plugin keeps: its interface, its manifest, and everything that its hooks answer, tried."""

import contextlib
import io
from collections.abc import Iterator, Mapping
from importlib.metadata import entry_points
from pathlib import Path
from time import process_time
from typing import Any

from scantling.board import AssemblyError
from scantling.kit import INTERFACE, Board, Check, Exporter, Module, Sheet, Surroundings, hooks
from scantling.plugin_check import (
    ARGUMENT,
    Fault,
    Manifest,
    Offer,
    check_hooks,
    context_for,
    declared_interface,
    deprecated,
    hold_to,
    implemented_hooks,
    look,
    manifest_of,
    read_manifest,
    read_offer,
    write,
)

from .conform import MOST_SHOWN, faults
from .conform import Fault as Broken
from .points import Point
from .rules.building import BUDGET, attempt, box_seconds
from .sample import POINTS, Sample, sample_answers

Modules = Mapping[str, type[Module[Any]]]
PLACES = (Surroundings(), Surroundings("outdoors", "public", True, 2))
SAMPLE = "the sample"
Said = Manifest | str | Path | None


def assert_plugin_conforms(plugin: object, manifest: Said = None, random: int | None = None, seed: int = 1) -> None:
    """Raise AssertionError naming the faults of a plugin, the first dozen in full; see `plugin_faults`."""
    found = plugin_faults(plugin, manifest, random, seed)
    if found:
        lines = [f"the plugin breaks {len(found)} rules:", *map(str, found[:MOST_SHOWN])]
        if len(found) > MOST_SHOWN:
            lines.append(f"… and {len(found) - MOST_SHOWN} more")
        raise AssertionError("\n  ".join(lines))


def plugin_faults(plugin: object, manifest: Said = None, random: int | None = None, seed: int = 1) -> list[Broken]:
    """Return every fault of a plugin: the object itself, or the name of its entry point.

    `manifest` is its scantling_plugin.toml: the text, the file, or what was read of it; by an entry point's name it is
    found. `random` points besides the edges are tried of each module (25, or 500 in full depth).
    """
    name, said = "plugin", manifest.read_text(encoding="utf-8") if isinstance(manifest, Path) else manifest
    if isinstance(plugin, str):
        name = plugin
        points = [point for point in entry_points(group=hooks.PROJECT) if point.name == plugin]
        if not points:
            return [Broken("entry point", plugin, "no installed distribution has an entry point of this name")]
        try:
            plugin = points[0].load()
        except Exception as error:  # whatever a stranger's module raises is a fault to report, never to pass on
            return [Broken("import", name, f"{type(error).__name__}: {error}")]
        said = said if said is not None else manifest_of(points[0].value, points[0].dist)
    aside = io.StringIO()
    with contextlib.redirect_stdout(aside):
        found = list(_faults(plugin, name, said, random, seed))
    if aside.getvalue():
        said = aside.getvalue().strip().splitlines()[0][:60]
        found.append(Broken("quiet", name, f"it prints to standard output, first {said!r}"))
    return found


def _faults(plugin: object, name: str, said: Manifest | str | None, random: int | None, seed: int) -> Iterator[Broken]:
    try:
        interface = declared_interface(plugin)
        hooked = implemented_hooks(plugin)
        if not hooked:
            raise Fault("it implements no hook; mark one with `@hook`")
        check_hooks(plugin, hooked, interface)
    except Fault as fault:
        yield Broken("interface", name, str(fault))
        return
    for warned in deprecated(name, interface):
        yield Broken("interface", name, warned.message)
    try:
        offer, again = (_offer(plugin, hooked, name, interface) for _ in range(2))
    except Fault as fault:
        yield Broken("answers", name, str(fault))
        return
    except Exception as error:  # as above
        yield Broken("answers", name, f"a hook raised {type(error).__name__}: {error}")
        return
    if _comparable(offer) != _comparable(again):
        yield Broken("same again", name, "asked twice, its hooks answer differently")
    yield from _manifest(said, name, interface, hooked, offer)
    for module in offer.modules.values():
        yield from (Broken(f.rule, f"{module.id}, {f.point}", f.detail) for f in faults(module, random, seed))
    yield from _stock(offer)
    for check in offer.checks.values():
        yield from _check(check, {**offer.modules, Sample.id: Sample})
    if offer.exporters:
        yield from _exporters(offer)


def _offer(plugin: object, hooked: set[str], name: str, interface: int) -> Offer:
    answers = {}
    for hook in sorted(hooked):
        handed = {ARGUMENT: context_for(hook, name, interface)} if interface >= INTERFACE else {}
        answers[hook] = getattr(plugin, hook)(**handed)
    return read_offer(answers)


def _comparable(offer: Offer) -> tuple[object, ...]:
    return (offer.names(), dict(offer.stock), dict(offer.price_lists), dict(offer.finishes))


def _manifest(
    said: Manifest | str | None, name: str, interface: int, hooked: set[str], offer: Offer
) -> Iterator[Broken]:
    if said is None:
        yield Broken("manifest", name, "it has no scantling_plugin.toml, so nothing is known of it until it is loaded")
        return
    try:
        manifest = read_manifest(said) if isinstance(said, str) else said
        hold_to(manifest, manifest.name if name == "plugin" else name, "", interface, hooked, offer)
    except Fault as fault:
        yield Broken("manifest", name, str(fault))


def _stock(offer: Offer) -> Iterator[Broken]:
    """Stock is priced all or not at all: one sheet without a price, and no layout can be the cheapest."""
    for one in offer.stock.values():
        wood: list[Sheet | Board] = [*one.sheets, *one.boards]
        bare = [entry.id for entry in wood if entry.price is None]
        if bare and len(bare) < len(wood):
            yield Broken("stock", one.id, f"{', '.join(bare[:3])} has no price, and others have one")


def _check(check: Check, modules: Modules) -> Iterator[Broken]:
    """A check answers its own codes about any piece, the same twice, without changing it, in its time."""
    limit = BUDGET * box_seconds()
    for module in modules.values():
        for values in POINTS if module is Sample else ({},):
            assembly = attempt(module, Point("defaults", dict(values))).assembly
            if assembly is None:
                continue
            point = f"{check.id} on {SAMPLE if module is Sample else module.id}"
            parameters = module.parameters.read(dict(values), "mm").to_plain()
            for place in PLACES:
                handed = (module.id, module.family, assembly, parameters, place)
                try:
                    start = process_time()
                    found = look(check, *handed)
                    took = process_time() - start
                    again = found if took > limit else look(check, *handed)
                except Fault as fault:
                    yield Broken("check", point, str(fault))
                    return
                except Exception as error:  # as above
                    yield Broken("check", point, f"it raised {type(error).__name__}: {error}")
                    return
                if found != again:
                    yield Broken("same again", point, "looking twice at one piece, it finds different things")
                    return
                if took > limit:
                    yield Broken("within budget", point, f"{took:.2f} s of work; {limit:.2f} s are allowed")
                    return


def _exporters(offer: Offer) -> Iterator[Broken]:
    """An exporter writes the same bytes twice, some, of every kind that it names, in its time."""
    try:
        answers = sample_answers(offer.modules)
    except (AssemblyError, ValueError):
        answers = sample_answers({})
    for exporter in offer.exporters.values():
        for kind, answer, request in answers:
            if kind in exporter.kinds:
                yield from _export(exporter, kind, answer, request)


def _export(exporter: Exporter, kind: Any, answer: dict[str, Any], request: dict[str, Any]) -> Iterator[Broken]:  # noqa: ANN401 - whatever a plugin answers
    point, limit = f"{exporter.format} of {kind}", BUDGET * box_seconds()
    try:
        start = process_time()
        data = write(exporter, kind, "sample", answer, request)
        took = process_time() - start
        again = write(exporter, kind, "sample", answer, request)
    except Fault as fault:
        yield Broken("exporter", point, str(fault))
        return
    except Exception as error:  # as above
        yield Broken("exporter", point, f"it raised {type(error).__name__}: {error}")
        return
    if not data:
        yield Broken("exporter", point, "it wrote nothing")
    if data != again:
        yield Broken("same again", point, "written twice, the same plan gives different bytes")
    if took > limit:
        yield Broken("within budget", point, f"{took:.2f} s of work; {limit:.2f} s are allowed")
