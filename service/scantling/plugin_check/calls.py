"""One call of a plugin's check or exporter: what it is handed, what it may answer, and that it changed nothing.

Time is for the caller to bound; see `scantling.plugins.guard`.
"""

import copy
import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from scantling.board import Assembly, assembly_to_plain
from scantling.findings import Finding, Severity
from scantling.kit import Check, Export, Exporter, Inspection, Surroundings
from scantling.kit.exporters import PlanKind

from .fault import Fault, called
from .reading import listed

MOST_FINDINGS = 100
LONGEST_MESSAGE = 1_000
MOST_EXPORT_BYTES = 16 * 1024 * 1024
MOST_STEPS, MOST_SCREWS, MOST_WORDS = 2_000, 10_000, 1_000


def look(
    check: Check,
    module: str,
    family: str,
    assembly: Assembly,
    parameters: Mapping[str, Any],
    place: Surroundings,
) -> list[Finding]:
    """Let a check look at a copy of a piece and return its findings.

    Raises Fault where it answers what it may not, or changes the piece.
    """
    handed = copy.deepcopy(replace(assembly, materials=dict(assembly.materials)))  # a view cannot be copied
    before = assembly_to_plain(handed)
    answer = check.look(Inspection(module, family, handed, copy.deepcopy(dict(parameters)), place))
    found = listed(answer, Finding, f"check {check.id!r}", MOST_FINDINGS)
    if assembly_to_plain(handed) != before:
        raise Fault(f"check {check.id!r} changed the piece it was handed; a check only looks")
    known = {code.code for code in check.codes}
    for finding in found:
        _finding(finding, check.id, known)
    return found


def _finding(finding: Finding, check: str, known: set[str]) -> None:
    if finding.code not in known:
        raise Fault(f"check {check!r} found {finding.code!r}; its codes are {', '.join(sorted(known))}")
    if not isinstance(finding.severity, Severity):
        raise Fault(f"check {check!r} gave a finding without a Severity")
    if not isinstance(finding.message, str) or not 0 < len(finding.message) <= LONGEST_MESSAGE:
        raise Fault(f"check {check!r} gave a message that is no text of at most {LONGEST_MESSAGE} characters")
    try:
        json.dumps(finding.to_plain(), allow_nan=False)
    except (TypeError, ValueError) as error:
        raise Fault(f"check {check!r} gave a finding that is not plain data: {error}") from error


def write(exporter: Exporter, kind: PlanKind, name: str, plan: Mapping[str, Any], request: Mapping[str, Any]) -> bytes:
    """Return what an exporter writes of a copy of a plan. Raises Fault for what is not bytes, or too many of them."""
    copied = json.loads(json.dumps([plan, request]))
    data: object = exporter.write(Export(kind, name, copied[0], copied[1]))
    if not isinstance(data, bytes):
        raise Fault(f"exporter {exporter.format!r} wrote {called(data)}, not bytes")
    if len(data) > MOST_EXPORT_BYTES:
        raise Fault(f"exporter {exporter.format!r} wrote {len(data)} bytes; at most {MOST_EXPORT_BYTES} are sent")
    return data


def whole_piece(assembly: object, module: str, most_parts: int) -> Assembly:
    """Return what a module built if it is a piece of a size that can be worked on. Raises Fault."""
    if not isinstance(assembly, Assembly):
        raise Fault(f"{module} built {type(assembly).__name__}, not an Assembly")
    counted = {
        "parts": (len(assembly.parts), most_parts),
        "fasteners": (len(assembly.fasteners), MOST_SCREWS),
        "joints": (len(assembly.joints), MOST_SCREWS),
        "steps": (len(assembly.steps), MOST_STEPS),
        "cautions": (len(assembly.cautions), MOST_WORDS),
        "findings": (len(assembly.findings), MOST_WORDS),
        "promises": (len(assembly.promises), MOST_SCREWS),
    }
    for what, (count, most) in counted.items():
        if count > most:
            raise Fault(f"{module} built a piece with {count} {what}; at most {most} are taken")
    return assembly
