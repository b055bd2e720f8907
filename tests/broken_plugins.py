"""Plugins that each break one rule of the test kit for whole plugins; the rule that must catch it stands beside each.

All are made from one sound plugin that implements every hook. `BROKEN` holds (name, rule, plugin, manifest).
"""

import itertools
from dataclasses import replace
from time import process_time

from broken_modules import Shelf
from plugins import hook_zoo as zoo
from scantling.kit import INTERFACE, Finding, Severity, hook

MANIFEST = """
name = "workshop"
interface = 2
licence = "Apache-2.0"
author = "A. Maker"
hooks = ["furniture_modules", "stock", "price_lists", "checks", "exporters", "finishes"]
modules = ["test-shelf"]
stock = ["yard"]
price_lists = ["yard"]
checks = ["weight"]
codes = ["heavier-than-liked"]
formats = ["txt"]
finishes = ["soap"]
"""
ANSWERS = {
    "furniture_modules": (Shelf,),
    "stock": (zoo.STOCK,),
    "price_lists": (zoo.PRICES,),
    "checks": (zoo.CHECK,),
    "exporters": (zoo.EXPORTER,),
    "finishes": (zoo.FINISH,),
}
BROKEN = []


def sound():
    """Return a plugin that implements every hook and keeps every rule."""
    return zoo.answering(**ANSWERS)


def broken(name, rule, manifest=MANIFEST, interface=INTERFACE, **answers):
    BROKEN.append((name, rule, zoo.answering(interface=interface, **{**ANSWERS, **answers}), manifest))


def broken_check(name, rule, look):
    broken(name, rule, checks=[replace(zoo.CHECK, look=look)])


def broken_writer(name, rule, write):
    broken(name, rule, exporters=[replace(zoo.EXPORTER, write=write)])


class TakesNothing:
    interface = INTERFACE

    @hook
    def stock(self):
        return [zoo.STOCK]


class OfOld:
    interface = 1

    @hook
    def furniture_modules(self):
        return [Shelf]


COUNTER = itertools.count()


def never_twice_the_same(inspection):
    yield Finding(zoo.CODE.code, Severity.NOTE, f"Looked at {next(COUNTER)} times.")


def only_shelves(inspection):
    """Fail on any piece but the one its author tried it on."""
    inspection.assembly.parts["shelf 1"].size  # noqa: B018 - the fault
    return ()


def toils(inspection):
    end = process_time() + 3.0
    while process_time() < end:
        pass
    return ()


def asked_twice():
    return lambda context: [replace(zoo.FINISH, recoat_hours=next(COUNTER))]


def chatty(context):
    print("asked for finishes")
    return [zoo.FINISH]


def raising(context):
    raise OSError("no catalogue")


BROKEN.append(("hook_takes_nothing", "interface", TakesNothing(), MANIFEST))
OLD = (
    'name = "old"\ninterface = 1\nlicence = "x"\nauthor = "y"\nhooks = ["furniture_modules"]\nmodules = ["test-shelf"]'
)
BROKEN.append(("interface_of_old", "interface", OfOld(), OLD))
BROKEN.append(("no_interface", "interface", object(), MANIFEST))
BROKEN.append(("not_installed", "entry point", "no-such-plugin", None))
broken("interface_of_the_future", "interface", interface=INTERFACE + 1)
broken("hook_raises", "answers", finishes=raising)
broken("hook_answers_rubbish", "answers", stock=7)
broken("unknown_material", "answers", stock=[replace(zoo.STOCK, sheets=(replace(zoo.SHEET, material="x"),))])
broken("answers_differ", "same again", finishes=asked_twice())
broken("prints", "quiet", finishes=chatty)
broken("no_manifest", "manifest", manifest=None)
broken("manifest_forgets_a_module", "manifest", manifest=MANIFEST.replace('"test-shelf"', ""))
broken("manifest_of_another_interface", "manifest", manifest=MANIFEST.replace("interface = 2", "interface = 1"))
broken("manifest_is_no_toml", "manifest", manifest="name: workshop")
broken("module_without_sources", "sources", furniture_modules=(type("Bare", (Shelf,), {"sources": ()}),))
broken("half_priced_stock", "stock", stock=[replace(zoo.STOCK, boards=(replace(zoo.BOARD, price=None),))])
broken_check("check_raises", "check", zoo.raises)
broken_check("check_raises_on_other_pieces", "check", only_shelves)
broken_check("check_changes_the_piece", "check", zoo.mutates)
broken_check("check_finds_what_is_not_its_own", "check", zoo.lies)
broken_check("check_answers_rubbish", "check", zoo.rubbish)
broken_check("check_floods", "check", zoo.floods)
broken_check("check_differs", "same again", never_twice_the_same)
broken_check("check_toils", "within budget", toils)
broken_writer("writer_raises", "exporter", lambda export: export.plan["no such member"])
broken_writer("writer_gives_text", "exporter", lambda export: "text")
broken_writer("writer_gives_nothing", "exporter", lambda export: b"")
broken_writer("writer_forgets_projects", "exporter", lambda export: export.plan["assembly"]["module"].encode())
broken_writer("writer_differs", "same again", lambda export: str(next(COUNTER)).encode())
