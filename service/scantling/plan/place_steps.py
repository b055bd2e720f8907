"""The work at the place, in order: what is set down first, levelled, pushed together, bolted and not glued."""

from collections.abc import Sequence

from scantling.mechanics.figures import figure

from .arrangement import Arrangement
from .levelling import CORNERS, FELT_MM
from .neighbours import PlaceJoint
from .poses import Stood


def place_steps(
    arrangement: Arrangement, joints: Sequence[PlaceJoint], raised: Sequence[tuple[float, ...] | None]
) -> list[str]:
    """Return the steps of the work at the place: corners first, then outwards from each, then what stands free."""
    steps = []
    done: set[int] = set()
    for k in _order(arrangement):
        stood = arrangement.stood[k]
        steps.append(_set_down(stood, arrangement) + _levelled(raised[k]))
        done.add(k)
        for joint in joints:
            if k in joint.places and set(joint.places) <= done:
                steps.append(_bolted(joint))
    return steps


def _order(arrangement: Arrangement) -> list[int]:
    """Return the pieces in the order they are set down: each after a neighbour, corner pieces before all."""
    ties: dict[int, list[int]] = {k: [] for k in range(len(arrangement.stood))}
    for k, stood in enumerate(arrangement.stood):
        if stood.left is not None:
            ties[k].append(stood.left)
            ties[stood.left].append(k)
    first = sorted(
        ties, key=lambda k: (not arrangement.stood[k].stand.corner, arrangement.stood[k].stand.wall is None, k)
    )
    found: list[int] = []
    for start in first:
        queue = [start]
        while queue:
            k = queue.pop(0)
            if k not in found:
                found.append(k)
                queue += sorted(ties[k])
    return found


def _set_down(stood: Stood, arrangement: Arrangement) -> str:
    mass = stood.assembly.mass_and_centre()[0]
    hands = " (two carry it)" if mass > figure("lift-one-person").value else ""
    if stood.stand.wall is None:
        return f"Set {stood.name} where it stands free{hands}."
    wall = arrangement.lines[stood.stand.wall].wall.id
    if stood.stand.corner:
        after = arrangement.lines[stood.stand.wall + 1].wall.id
        return f"Set {stood.name} into the corner of {wall} and {after}{hands}."
    return f"Set {stood.name} against {wall}{hands}."


def _levelled(raised: tuple[float, ...] | None) -> str:
    if raised is None or max(raised) <= FELT_MM:
        return ""
    feet = ", ".join(f"{corner} {h:.0f} mm" for corner, h in zip(CORNERS, raised, strict=True) if h > FELT_MM)
    return f" Level it, feet up by: {feet}."


def _bolted(joint: PlaceJoint) -> str:
    left, right = joint.between
    with_what = joint.bolt.words if joint.bolt is not None else f"{joint.size} bolts"
    bore = f"bore {joint.bored} holes through from the ones there are; " if joint.bored else ""
    return (
        f"Push {left} and {right} together, fronts and tops flush, and clamp them; {bore}put {joint.count} × "
        f"{with_what} through the holes, a washer under head and nut. Do not glue: the set comes apart here."
    )
