"""The build backend: setuptools, and one plain C library compiled on the way.

The nesting kernel is C without Python.h, loaded through ctypes, so one wheel serves every Python 3 of a platform
(py3-none-<platform>). It is compiled with CC, cc, gcc or clang where one is there; where none is, the build asks the
package registry for `ziglang`, a C compiler in a wheel.
"""

import importlib.util
import os
import shlex
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import Mapping
from pathlib import Path

from setuptools import build_meta
from setuptools.build_meta import (
    build_sdist,
    get_requires_for_build_sdist,
    prepare_metadata_for_build_editable,
    prepare_metadata_for_build_wheel,
)

__all__ = [
    "build_editable",
    "build_sdist",
    "build_wheel",
    "get_requires_for_build_editable",
    "get_requires_for_build_sdist",
    "get_requires_for_build_wheel",
    "prepare_metadata_for_build_editable",
    "prepare_metadata_for_build_wheel",
]

KERNEL = Path(__file__).resolve().parent.parent / "service" / "scantling" / "nesting" / "kernel"
Settings = Mapping[str, str | list[str]] | None
SUFFIX = {"win32": ".dll", "darwin": ".dylib"}.get(sys.platform, ".so")


def find_compiler() -> list[str] | None:
    """Return the command of a C compiler on this machine, or None."""
    if os.environ.get("CC"):
        return shlex.split(os.environ["CC"], posix=os.name != "nt")
    for name in ("cc", "gcc", "clang"):
        path = shutil.which(name)
        if path:
            return [path]
    return None


def compile_kernel(into: Path = KERNEL) -> Path:
    """Compile kernel/*.c into one shared library and return its path. Raises CalledProcessError with the output."""
    command = find_compiler()
    if command is None:
        if importlib.util.find_spec("ziglang") is None:
            raise RuntimeError("no C compiler found: put cc, gcc or clang on PATH, set CC, or install ziglang")
        command = [sys.executable, "-m", "ziglang", "cc"]
    library = into / f"libscantling_nesting{SUFFIX}"
    fresh = into / f"fresh-{os.getpid()}{SUFFIX}"
    sources = sorted(str(p) for p in KERNEL.glob("*.c"))
    options = ["-O2", "-std=c99", "-shared", "-fvisibility=hidden", "-fwrapv", "-g0"]
    if os.name != "nt":
        options.append("-fPIC")
    subprocess.run([*command, *options, "-o", str(fresh), *sources], check=True)  # noqa: S603 - the compiler
    os.replace(fresh, library)  # a running service keeps the library it has loaded
    return library


def _requires(asked: list[str]) -> list[str]:
    return asked if find_compiler() else [*asked, "ziglang"]


def get_requires_for_build_wheel(config_settings: Settings = None) -> list[str]:
    """PEP 517: setuptools, and a compiler where the machine has none."""
    return _requires(build_meta.get_requires_for_build_wheel(config_settings))


def get_requires_for_build_editable(config_settings: Settings = None) -> list[str]:
    """PEP 660: the same for an editable install."""
    return _requires(build_meta.get_requires_for_build_editable(config_settings))


def _platform_settings(config_settings: Settings) -> dict[str, str | list[str]]:
    """Name the platform in the wheel's tag: the library is of this machine, whatever the Python."""
    settings = dict(config_settings or {})
    asked = settings.get("--build-option", [])
    asked = [asked] if isinstance(asked, str) else list(asked)
    settings["--build-option"] = [*asked, f"--plat-name={sysconfig.get_platform()}"]
    return settings


def build_wheel(wheel_directory: str, config_settings: Settings = None, metadata_directory: str | None = None) -> str:
    """PEP 517: compile the kernel, then let setuptools pack it."""
    compile_kernel()
    return build_meta.build_wheel(wheel_directory, _platform_settings(config_settings), metadata_directory)


def build_editable(
    wheel_directory: str, config_settings: Settings = None, metadata_directory: str | None = None
) -> str:
    """PEP 660: compile the kernel in place, then let setuptools link to it."""
    compile_kernel()
    return build_meta.build_editable(wheel_directory, config_settings, metadata_directory)


if __name__ == "__main__":
    print(compile_kernel())
