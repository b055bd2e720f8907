"""Golden output: what a module gave last time, as text a person can read, and the difference when it changes.

A golden file is a regression test, never a validation: it shows that something changed, not that it was right.
"""

from collections import Counter
from difflib import unified_diff
from pathlib import Path
from typing import Any

from scantling.board import Assembly, cut_list
from scantling.kit import Module

from .points import Point
from .rules.building import attempt


def golden_text(module: type[Module[Any]], values: dict[str, Any] | None = None) -> str:
    """Return what a module builds from some parameters as text: sizes, cut list, screws, cautions.

    Raises AssertionError where it does not build.
    """
    trial = attempt(module, Point("golden", values or {}))
    if trial.assembly is None:
        raise AssertionError(f"{module.__name__} does not build: {trial.refusal or trial.crash}")
    return "\n".join(_lines(trial.assembly)) + "\n"


def _lines(piece: Assembly) -> list[str]:
    low, high = piece.bounds()
    size = " × ".join(f"{b - a:.2f}" for a, b in zip(low, high, strict=True))
    lines = [f"{piece.title}: {size} mm", ""]
    for row in cut_list(piece):
        hand = f" {row.hand}" if row.hand else ""
        blank = f"{row.length:.2f} × {row.width:.2f} × {row.thickness:.2f}"
        lines.append(f"{len(row.parts)} × {row.name}{hand}: {blank} {row.material}")
        lines += [f"    {s.text()}" for s in row.settings] + [f"    {o}" for o in row.operations]
        seal = piece.parts[row.parts[0]].seal
        lines += [f"    seal {', '.join(seal)}"] if seal else []
    screws = Counter((f.gauge, round(f.length, 1), f.role.value) for f in piece.fasteners.values())
    lines += ["", *(f"{n} × #{g} × {size} mm, {role}" for (g, size, role), n in sorted(screws.items()))]
    return [*lines, "", *piece.cautions]


def assert_golden(module: type[Module[Any]], file: Path, update: bool, values: dict[str, Any] | None = None) -> None:
    """Compare what a module builds with a golden file; `update` writes the file instead.

    Raises AssertionError with the lines that changed, or where the file is not there yet.
    """
    now = golden_text(module, values)
    if update:
        file.write_text(now, encoding="utf-8")
        return
    if not file.exists():
        raise AssertionError(f"{file.name} is not there yet: run pytest --update-golden and read what it wrote")
    before = file.read_text(encoding="utf-8")
    if before != now:
        changed = unified_diff(before.splitlines(), now.splitlines(), "before", "now", lineterm="", n=1)
        raise AssertionError(f"{module.__name__} builds something else than before:\n" + "\n".join(changed))
