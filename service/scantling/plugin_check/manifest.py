"""The manifest of a plugin, `scantling_plugin.toml`: what it is and gives, readable without importing anything.

    name = "boot-rack"
    version = "0.1.0"
    interface = 2
    title = "Boot rack"
    licence = "Apache-2.0"
    author = "A. Maker"
    hooks = ["furniture_modules"]
    modules = ["boot-rack"]

It stands in the plugin's package. `stock`, `price_lists`, `checks`, `codes`, `formats` and `finishes` list the ids of
the other things a plugin gives, and `schemas` may hold the JSON Schemas of modules' parameters by module.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.metadata import Distribution
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from .fault import Fault
from .offer import Offer

FILE = "scantling_plugin.toml"
LARGEST = 256 * 1024  # bytes
LISTS = ("hooks", "modules", "stock", "price_lists", "checks", "codes", "formats", "finishes")
TEXTS = ("name", "version", "title", "licence", "author")
REQUIRED = ("name", "interface", "hooks", "licence", "author")
_MOST_ENTRIES, _LONGEST = 1_000, 500


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a plugin says of itself. `version` and `title` may be None; `lists` holds ids by sort of thing."""

    name: str
    interface: int
    licence: str
    author: str
    version: str | None = None
    title: str | None = None
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    schemas: Mapping[str, Any] = field(default_factory=dict)

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        texts = {name: getattr(self, name) for name in TEXTS}
        return {**texts, "interface": self.interface, **{name: list(self.lists.get(name, ())) for name in LISTS}}


def read_manifest(text: str) -> Manifest:
    """Return a manifest. Raises Fault saying where it is wrong."""
    try:
        plain = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Fault(f"its manifest is not TOML: {error}") from error
    for name in plain:
        if name not in (*TEXTS, *LISTS, "interface", "schemas"):
            accepted = ", ".join((*TEXTS, "interface", *LISTS, "schemas"))
            raise Fault(f"its manifest has a member {name!r}; accepted: {accepted}")
    missing = [name for name in REQUIRED if name not in plain]
    if missing:
        raise Fault(f"its manifest does not say {', '.join(missing)}")
    for name in TEXTS:
        if name in plain and not (isinstance(plain[name], str) and 0 < len(plain[name]) <= _LONGEST):
            raise Fault(f"its manifest: {name} is no text of at most {_LONGEST} characters")
    if isinstance(plain["interface"], bool) or not isinstance(plain["interface"], int):
        raise Fault(f"its manifest: interface is {plain['interface']!r}, not a whole number")
    if not isinstance(plain.get("schemas", {}), dict):
        raise Fault("its manifest: schemas is no table of JSON Schemas by module")
    lists = {name: _ids(name, plain[name]) for name in LISTS if name in plain}
    return Manifest(
        plain["name"],
        plain["interface"],
        plain["licence"],
        plain["author"],
        plain.get("version"),
        plain.get("title"),
        lists,
        plain.get("schemas", {}),
    )


def _ids(name: str, value: object) -> tuple[str, ...]:
    if not isinstance(value, list) or len(value) > _MOST_ENTRIES or not all(isinstance(one, str) for one in value):
        raise Fault(f"its manifest: {name} is no list of at most {_MOST_ENTRIES} ids")
    return tuple(value)


def hold_to(manifest: Manifest, name: str, version: str, interface: int, hooks: set[str], offer: Offer) -> None:
    """Hold a manifest against what was loaded. Raises Fault naming the first thing in which the two differ."""
    said: dict[str, object] = {
        "name": manifest.name,
        "interface": manifest.interface,
        "hooks": set(manifest.lists["hooks"]),
    }
    found: dict[str, object] = {"name": name, "interface": interface, "hooks": hooks}
    if manifest.version is not None and version:
        said["version"], found["version"] = manifest.version, version
    for what, ids in offer.names().items():
        if what in LISTS:
            said[what], found[what] = set(manifest.lists.get(what, ())), set(ids)
    for what, given in found.items():
        if said[what] != given:
            raise Fault(f"its manifest says {what} {_shown(said[what])}, and what is loaded has {_shown(given)}")
    for module, schema in manifest.schemas.items():
        if module not in offer.modules or offer.modules[module].parameters.schema() != schema:
            raise Fault(f"its manifest's schema of the module {module!r} is not that of the module loaded")


def _shown(value: object) -> str:
    return (", ".join(sorted(value)) or "none") if isinstance(value, set) else repr(value)


def manifest_of(target: str, distribution: Distribution | None) -> str | None:
    """Return the text of the manifest beside what an entry point names; None where there is none.

    Looked up in the files of the distribution, and, for one that is installed in place, beside the top-level package,
    which is found but not imported.
    """
    module = target.partition(":")[0].strip().split(".")
    wanted = ["/".join([*module[: i + 1], FILE]) for i in reversed(range(len(module)))]
    by_name = {str(path): path for path in (distribution.files or ()) if path.name == FILE} if distribution else {}
    for name in wanted:
        if name in by_name:
            return _text(Path(str(by_name[name].locate())))
    return next((text for folder in _folders(module) if (text := _text(folder / FILE)) is not None), None)


def _folders(module: list[str]) -> list[Path]:
    """Return the folders of a package, innermost first, as far as they can be told without importing."""
    try:
        spec = find_spec(module[0])
    except (ImportError, ValueError, AttributeError):
        return []
    roots = [] if spec is None else list(spec.submodule_search_locations or ())
    return [Path(root, *module[1 : i + 1]) for root in roots for i in reversed(range(len(module)))]


def _text(path: Path) -> str | None:
    try:
        if path.stat().st_size > LARGEST:
            return "# larger than a manifest may be"
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None
