"""What the search for an order found in its way: screws no driver reaches, and parts that cannot slide into place."""

from collections.abc import Iterator

from scantling.findings import Finding, Severity

from .disassembly import bits
from .order import Assembling


def order_findings(assembling: Assembling) -> Iterator[Finding]:
    """Report screws no tool ever reaches, with what blocks them, and parts that cannot slide into place."""
    puzzle, scene = assembling.puzzle, assembling.scene
    for (group, _), guilty in zip(puzzle.stuck, puzzle.guilty(), strict=True):
        rows: dict[str, list[int]] = {}
        for q in guilty:
            rows.setdefault(puzzle.screws[q].row, []).append(q)
        for row, screws in rows.items():
            yield _unreachable(assembling, group, row, screws)
    for pieces in puzzle.trapped:
        smallest = min(pieces, key=lambda p: (p.bit_count(), sum(scene.parts[i].mass_kg() for i in bits(p)), p))
        ids = scene.ids(*bits(smallest))
        others = [scene.ids(*bits(p))[0] for p in pieces if p != smallest]
        yield Finding(
            "part-trapped", Severity.WARNING,
            f"{', '.join(ids)} cannot be slid straight into place between {', '.join(others[:3])}.",
            ids, remedy="Tilt it in if there is room, leave a gap, or fasten one of its neighbours after it.",
        )  # fmt: skip


def _unreachable(assembling: Assembling, group: int, row: str, screws: list[int]) -> Finding:
    scene, reach = assembling.scene, assembling.reach
    last = len(reach.tools) - 1
    # the tool with the fewest blockers speaks: that is the one nearest to working
    tool = min(range(last + 1), key=lambda t: (sum((reach.blocked_by(q, t) & group).bit_count() for q in screws), t))
    blocking = 0
    for q in screws:
        blocking |= reach.blocked_by(q, tool) & group
    ids, first = scene.ids(*bits(blocking)), assembling.fasteners[screws[0]]
    return Finding(
        "screw-unreachable", Severity.ERROR,
        f"No driver reaches {first.id}{_more(len(screws) - 1)} of {row}: in any order {', '.join(ids[:4])}"
        f" stands behind the head, even for the {reach.tools[tool].title}.",
        ids, tuple(assembling.fasteners[q].id for q in screws), at_mm=first.head,
        source="tool sizes are assumptions unless set" if reach.tools[tool].assumed else None,
        remedy="Drive the screw from the other side, move it, or fasten what stands behind it later with glue or"
        " screws from elsewhere.",
    )  # fmt: skip


def _more(n: int) -> str:
    return f" and {n} more" if n else ""
