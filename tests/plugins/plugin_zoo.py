"""Plugins for the tests of the host: two that keep to the interface and every kind that does not."""

import time
from dataclasses import dataclass

from scantling.kit import INTERFACE, Module, Parameters, Role, hook, length


@dataclass(frozen=True)
class ShelfParameters(Parameters):
    length: float = length(600, least=200, most=1200, says="Length of the shelf.")


class Shelf(Module):
    id = "wall-shelf"
    title = "Wall shelf"
    sentence = "One board on the wall."
    family = "storage"
    when_not = "Not for aquaria."
    parameters = ShelfParameters
    roles = {"board": Role("The shelf.", "birch-plywood", 18, 17, 19)}

    def build(self, build):
        assembly = self.start(build)
        assembly.part("shelf", build.parameters.length, 200, "board")
        return assembly


def changed(name, **members):
    """Return a shelf class with other members."""
    return type(name, (Shelf,), members)


def plugin(*classes, interface=INTERFACE):
    """Return a plugin object that gives the classes, in the current interface or another."""

    class Plugin:
        @hook
        def furniture_modules(self, context):
            return classes

    Plugin.interface = interface
    return Plugin()


class Undeclared:
    @hook
    def furniture_modules(self, context):
        return [Shelf]


class WrongHook:
    interface = INTERFACE

    @hook
    def furniture_module(self, context):
        return [Shelf]


class WrongArgument:
    interface = INTERFACE

    @hook
    def furniture_modules(self, workshop):
        return [Shelf]


class NoHook:
    interface = INTERFACE

    def furniture_modules(self, context):
        return [Shelf]


class Answers:
    """A plugin whose hook answers what it is told to."""

    interface = INTERFACE

    def __init__(self, answer):
        self.answer = answer

    @hook
    def furniture_modules(self, context):
        return self.answer


class RaisesInHook:
    interface = INTERFACE

    @hook
    def furniture_modules(self, context):
        raise LookupError("no drawings in /home/somebody/drawings/shelf.txt")


class Unfinished(Module):
    id = "unfinished"
    title = "Unfinished"
    sentence = "It does not build."
    family = "storage"
    when_not = "Never."
    parameters = ShelfParameters
    roles = Shelf.roles


class PlainParameters:
    length = 600


class UndeclaredParameter(Parameters):
    pass


def raises_on_import():
    raise ImportError("No module named 'mortise'")


def leaves_on_import():
    raise SystemExit(1)


def hangs_on_import():
    while True:
        try:
            time.sleep(5)
        except Exception:  # noqa: S112 - this is the misbehaviour
            continue


def chatters_on_import():
    print("hello from the plugin")
    return plugin(Shelf)


def prints_in_build(self, build):
    print("building")
    return Shelf.build(self, build)


def raises_in_build(self, build):
    raise ZeroDivisionError("a shelf of no length")


def leaves_in_build(self, build):
    raise SystemExit(1)


def rubbish_from_build(self, build):
    return {"parts": 1}


def mutates_in_build(self, build):
    build.materials.clear()
    return Shelf.build(self, build)


def hangs_in_build(self, build):
    while True:
        time.sleep(0.01)


def kills_in_build(self, build):
    import os
    import signal

    os.kill(os.getpid(), signal.SIGKILL)


LOADED_IN_WORKERS = plugin(
    Shelf,
    changed("Hangs", id="hangs", build=hangs_in_build),
    changed("Kills", id="kills", build=kills_in_build),
    changed("Raises", id="raises", build=raises_in_build),
    changed("Rubbish", id="rubbish", build=rubbish_from_build),
    changed("Mutates", id="mutates", build=mutates_in_build),
)


def stubborn_in_build(self, build):
    """Hang, and swallow whatever tries to stop it."""
    while True:
        try:
            time.sleep(0.01)
        except BaseException:  # noqa: S112 - this is the misbehaviour
            continue
