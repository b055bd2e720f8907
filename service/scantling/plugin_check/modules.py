"""What a furniture module class must be, checked when its plugin is loaded."""

import json
import re
from collections.abc import Mapping
from inspect import isabstract
from typing import Any

from scantling.kit import Module, Parameters, Role

from .fault import Fault, called

MOST_MODULES = 200
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_ID = 64
_TEXTS = ("title", "sentence", "family", "when_not")


def check_module_classes(classes: object) -> dict[str, type[Module[Any]]]:
    """Return the module classes by id. Raises Fault for anything that is not a sequence of complete module classes."""
    if isinstance(classes, str | bytes | Mapping) or not hasattr(classes, "__iter__"):
        raise Fault(f"furniture_modules answered {called(classes)}, not a list of module classes")
    found: dict[str, type[Module[Any]]] = {}
    for number, cls in enumerate(classes):
        if number >= MOST_MODULES:
            raise Fault(f"furniture_modules answered more than {MOST_MODULES} modules")
        checked = check_module_class(cls)
        if checked.id in found:
            raise Fault(f"it gives two modules with the id {checked.id!r}")
        found[checked.id] = checked
    return found


def check_module_class(cls: object) -> type[Module[Any]]:
    """Return the class if it is a complete furniture module. Raises Fault."""
    if not isinstance(cls, type) or not issubclass(cls, Module):
        raise Fault(f"furniture_modules gave {called(cls)}, which is no subclass of Module")
    name = cls.__name__
    if isabstract(cls):
        raise Fault(f"{name} does not implement {', '.join(sorted(cls.__abstractmethods__))}")
    module_id = getattr(cls, "id", None)
    if not isinstance(module_id, str) or len(module_id) > _LONGEST_ID or not _ID.fullmatch(module_id):
        raise Fault(f"{name}.id is {module_id!r}; it is small letters, digits and single hyphens, such as 'wall-shelf'")
    for member in _TEXTS:
        text = getattr(cls, member, None)
        if not isinstance(text, str) or not text.strip():
            raise Fault(f"{name}.{member} is {text!r}; it is a text for people")
    _check_parameters(cls, name)
    _check_roles(cls, name)
    return cls


def _check_parameters(cls: type[Module[Any]], name: str) -> None:
    parameters = getattr(cls, "parameters", None)
    if not isinstance(parameters, type) or not issubclass(parameters, Parameters):
        raise Fault(f"{name}.parameters is {called(parameters)}, which is no subclass of Parameters")
    try:
        schema = parameters.schema()
        json.dumps(schema, allow_nan=False)
        defaults = parameters.read({})
        json.dumps(defaults.to_plain(), allow_nan=False)
    except (TypeError, ValueError) as error:
        raise Fault(f"{parameters.__name__} is not a dataclass of declared parameters: {error}") from error


def _check_roles(cls: type[Module[Any]], name: str) -> None:
    roles = getattr(cls, "roles", None)
    if not isinstance(roles, Mapping) or not roles:
        raise Fault(f"{name}.roles is {called(roles)}; it maps each of the module's own words to a Role")
    for word, role in roles.items():
        if not isinstance(word, str) or not isinstance(role, Role):
            raise Fault(f"{name}.roles[{word!r}] is {called(role)}, not a Role")
        if not 0 < role.least <= role.thickness <= role.most:
            raise Fault(f"{name}.roles[{word!r}]: the thickness {role.thickness:g} is not within its least and most")
