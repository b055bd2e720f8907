"""What a module declares before anything is built."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from scantling.kit import Module, Parameters, Role
from scantling.tables import materials

KEBAB = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
WORDS = ("title", "sentence", "family", "when_not")


def declared(module: type[Module[Any]]) -> Iterator[tuple[str, str]]:
    """Yield (rule, what is wrong) for the class itself: names, words, roles and parameters."""
    id = getattr(module, "id", None)
    if not isinstance(id, str) or not KEBAB.fullmatch(id):
        yield "id", f"the id must be kebab-case such as low-table, not {id!r}"
    for word in WORDS:
        text = getattr(module, word, None)
        if not isinstance(text, str) or not text.strip():
            yield "words", f"{word} is missing: it is what a reader sees first"
    if not getattr(module, "sources", ()):
        yield "sources", "no source is named for the default sizes; say practice where it is that"
    yield from _roles(getattr(module, "roles", None))
    yield from _parameters(getattr(module, "parameters", None), getattr(module, "grows", ()))


def _roles(roles: object) -> Iterator[tuple[str, str]]:
    if not isinstance(roles, Mapping) or not roles:
        yield "roles", "no role is declared: parts are cut from a role's material"
        return
    for name, role in roles.items():
        if not isinstance(role, Role):
            yield "roles", f"{name} is not a Role"
        elif role.material not in materials():
            yield "roles", f"{name} takes {role.material!r} by default, which no table knows"
        elif not 0 < role.least <= role.thickness <= role.most:
            yield "roles", f"{name}: {role.thickness} mm does not lie in {role.least} to {role.most} mm"
        elif role.stock_kind == "board" and role.width is None:
            yield "roles", f"{name} is cut from boards, so it needs their width"


def _parameters(parameters: object, grows: object) -> Iterator[tuple[str, str]]:
    if not isinstance(parameters, type) or not issubclass(parameters, Parameters):
        yield "parameters", "parameters must be a class made from kit.Parameters"
        return
    try:
        kinds = parameters.kinds()
    except TypeError as error:
        yield "parameters", str(error)
        return
    if not grows and any(kind.quantity == "length" for kind, _ in kinds.values()):
        yield "grows", "no parameter is named in grows; name those that take more material the larger they are"
    for name, (kind, default) in kinds.items():
        if not kind.says.strip():
            yield "parameters", f"{name} has no sentence"
        if kind.choices and default not in kind.choices:
            yield "parameters", f"{name}: the default {default!r} is none of its choices"
        if kind.quantity in ("length", "angle", "count", "number") and not (
            kind.least is not None and kind.most is not None and kind.least <= default <= kind.most
        ):
            yield "parameters", f"{name}: the default {default} does not lie in {kind.least} to {kind.most}"
