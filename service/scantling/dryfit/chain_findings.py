"""Findings about dimension chains: sizes a part does not have, links that leave something out, chains at odds."""

from collections.abc import Iterator, Sequence

from scantling.board import Chain
from scantling.findings import Finding, Severity

from .chains import Placed, reach, ruling_size
from .scene import Scene


def chain_findings(scene: Scene, found: Sequence[Placed]) -> Iterator[Finding]:
    """Report every chain that its parts left behind, that does not close in space, or that another one contradicts."""
    chains = scene.assembly.chains
    placed = {p.index: p for p in found}
    told: set[int] = set()
    for i, chain in enumerate(chains):
        stale = list(_stale(scene, chain))
        if stale:
            told.add(i)
            yield from stale
        elif i not in placed and len(_named(scene, chain)) > 1:
            told.add(i)
            yield _scattered(scene, chain)
    for p in placed.values():
        if p.slip is not None and p.index not in told:
            told.add(p.index)
            yield _disagrees(p, chains) if p.ruled_by is not None else _open(p)
    yield from _by_name(scene, placed, told)


def _named(scene: Scene, chain: Chain) -> list[str]:
    return [link.label for link in chain.links if link.label in scene.assembly.parts]


def _stale(scene: Scene, chain: Chain) -> Iterator[Finding]:
    """A link that is named after a part must be one of that part's own sizes."""
    for link in chain.links:
        part = scene.assembly.parts.get(link.label)
        if part is None:
            continue
        frame = (part.frame.along, part.frame.across, part.frame.through)
        spans = [*part.size, *(h - l for l, h in zip(*part.bounds(), strict=True))]  # noqa: E741 - low and high
        spans += [high - low for low, high in (reach(part, axis) for axis in frame)]
        nearest = min(spans, key=lambda s: abs(s - link.size))
        if abs(nearest - link.size) > scene.settings.fit:
            yield Finding(
                "chain-stale", Severity.ERROR,
                f"The chain {chain.name!r} counts {part.id} as {link.size:.2f} mm; the part has no such size"
                f" (the nearest is {nearest:.2f} mm).",
                (part.id,), at_mm=part.bounds()[0], value=nearest, limit=link.size, unit="mm",
                remedy="Take the link's size from the part, so that both change together.",
            )  # fmt: skip


def _scattered(scene: Scene, chain: Chain) -> Finding:
    ids = tuple(dict.fromkeys(_named(scene, chain)))
    return Finding(
        "chain-open", Severity.ERROR,
        f"The chain {chain.name!r} adds up sizes that do not lie on one line: {', '.join(ids)}.",
        ids, at_mm=scene.assembly.parts[ids[0]].bounds()[0], value=chain.total, unit="mm",
        remedy="Count every part along the same line, or split the chain in two.",
    )  # fmt: skip


def _open(p: Placed) -> Finding:
    assert p.slip is not None  # noqa: S101 - said by the caller
    (a, b), off = p.slip.parts, p.slip.off
    what = f"leaves {off:.2f} mm between them out" if off > 0 else f"counts {-off:.2f} mm between them twice"
    return Finding(
        "chain-open", Severity.ERROR,
        f"The chain {p.chain.name!r} runs from {a} to {b} and {what}.",
        (a, b), at_mm=p.slip.at, value=p.end - p.start, limit=p.chain.total, unit="mm",
        remedy="Count everything on the line once: each part, and each gap between parts.",
    )  # fmt: skip


def _disagrees(p: Placed, chains: list[Chain]) -> Finding:
    assert p.slip is not None and p.ruled_by is not None  # noqa: S101 - said by the caller
    rules, size = chains[p.ruled_by], ruling_size(p, chains)
    over = "the same span" if p.run == (0, len(rules.links)) else "the same part of its length"
    return Finding(
        "chains-disagree", Severity.ERROR,
        f"The chain {p.chain.name!r} adds up to {p.chain.total:.2f} mm; {rules.name!r} covers {over} and rules:"
        f" {size:.2f} mm. They part between {p.slip.parts[0]} and {p.slip.parts[1]}.",
        p.slip.parts, at_mm=p.slip.at, value=p.chain.total, limit=size, unit="mm",
        remedy=f"Derive the closing part {p.chain.closing!r} from {rules.name!r}.",
    )  # fmt: skip


def _by_name(scene: Scene, placed: dict[int, Placed], told: set[int]) -> Iterator[Finding]:
    """Two chains of one name that have no place in space are taken to cover one span."""
    ruling: dict[str, float] = {}
    for i, chain in enumerate(scene.assembly.chains):
        first = ruling.setdefault(chain.name, chain.total)
        if i in placed or i in told or abs(first - chain.total) <= scene.settings.fit:
            continue
        yield Finding(
            "chains-disagree", Severity.ERROR,
            f"Two chains cover {chain.name!r}: one adds up to {first:.2f} mm, the other to {chain.total:.2f} mm.",
            value=chain.total, limit=first, unit="mm",
            remedy="Let one rule, and derive the closing part of the other from it.",
        )  # fmt: skip
