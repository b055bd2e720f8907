"""Where plugins are found: entry points of installed distributions, one folder, and a list of names.

Nothing is imported here; each candidate brings the function that will import it.
"""

import sys
from collections.abc import Sequence
from functools import partial
from importlib import import_module
from importlib.metadata import EntryPoint, entry_points
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

from scantling.plugin_check import MANIFEST, Fault, Manifest, manifest_of, read_manifest

from .candidate import Candidate

GROUP = "scantling"
OBJECT = "plugin"  # what a plugin of the folder calls the object that an entry point would name
FOLDER_PACKAGE = "scantling_plugin_folder_"  # before the name under which a plugin of the folder is imported


def found(folder: str = "", named: Sequence[str] = ()) -> list[Candidate]:
    """Return every plugin there is: installed, in the folder (none where it is empty), and in the list."""
    points = installed()
    known = {candidate.target for candidate in points}
    listed = [one for one in (from_name(name) for name in named) if one.target not in known]
    return [*points, *(in_folder(Path(folder)) if folder else ()), *listed]


def installed() -> list[Candidate]:
    """Return the plugins that the installed distributions offer."""
    return [_of_entry_point(point) for point in entry_points(group=GROUP)]


def _of_entry_point(point: EntryPoint) -> Candidate:
    distribution = point.dist
    name = "unknown" if distribution is None else distribution.name
    version = "" if distribution is None else distribution.version
    manifest, fault = _manifest(manifest_of(point.value, distribution))
    return Candidate(point.name, point.value, name, version, point.load, manifest=manifest, manifest_fault=fault)


def from_name(target: str) -> Candidate:
    """Return the plugin that `module:object` names; one whose manifest gives a name goes by that."""
    module, _, attribute = target.partition(":")
    manifest, fault = _manifest(manifest_of(target, None))
    name = manifest.name if manifest is not None else module.replace("_", "-")
    version = (manifest.version or "") if manifest is not None else ""

    def load() -> object:
        if not module or not attribute:
            raise Fault(f"{target!r} is no plugin; accepted: module:object, such as boot_rack:plugin")
        return getattr(import_module(module), attribute)

    return Candidate(name, target, "the list of plugins", version, load, "list", manifest, fault)


def in_folder(folder: Path) -> list[Candidate]:
    """Return the plugins of a folder: packages with a manifest in them, and modules with one of the same name beside.

    `boot_rack/scantling_plugin.toml` goes with `boot_rack/__init__.py`, and `boot_rack.toml` with `boot_rack.py`.
    A folder that cannot be read is told as a plugin that failed.
    """
    try:
        entries = sorted(folder.iterdir())
    except OSError as error:
        why = f"the folder of plugins cannot be read: {error.strerror}"
        return [Candidate("plugins-folder", folder.name, "the plugins folder", "", partial(_refuse, why), "folder")]
    candidates = []
    for entry in entries:
        if entry.is_dir() and (entry / MANIFEST).is_file():
            candidates.append(_of_folder(entry / MANIFEST, entry / "__init__.py", entry.name))
        elif entry.suffix == ".toml" and entry.with_suffix(".py").is_file():
            candidates.append(_of_folder(entry, entry.with_suffix(".py"), entry.stem))
    return candidates


def _of_folder(manifest_file: Path, code: Path, stem: str) -> Candidate:
    try:
        text = manifest_file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        text = "= not readable"
    manifest, fault = _manifest(text)
    name = stem.replace("_", "-") if manifest is None else manifest.name
    version = "" if manifest is None else manifest.version or ""
    module = FOLDER_PACKAGE + stem.replace("-", "_")
    load, forget = partial(_load_file, module, code), partial(_forget, module)
    target = f"{stem}:{OBJECT}"
    return Candidate(name, target, "the plugins folder", version, load, "folder", manifest, fault, forget)


def _load_file(module: str, code: Path) -> object:
    """Import a module from a file under a name of its own, and return the plugin object in it."""
    search = [str(code.parent)] if code.name == "__init__.py" else None
    spec = spec_from_file_location(module, code, submodule_search_locations=search)
    if spec is None or spec.loader is None or not code.is_file():
        raise Fault(f"there is no {code.name} beside its manifest")
    loaded = module_from_spec(spec)
    sys.modules[module] = loaded
    spec.loader.exec_module(loaded)
    return getattr(loaded, OBJECT)


def _forget(module: str) -> None:
    """Remove a module and what was imported below it."""
    for name in [name for name in sys.modules if name == module or name.startswith(module + ".")]:
        del sys.modules[name]


def _manifest(text: str | None) -> tuple[Manifest | None, str | None]:
    if text is None:
        return None, None
    try:
        return read_manifest(text), None
    except Fault as fault:
        return None, str(fault)


def _refuse(why: str) -> object:
    raise Fault(why)
