"""The dry fit: everything that can be proven about an assembly before anything is cut."""

from typing import TYPE_CHECKING

from scantling.board import Assembly, alike
from scantling.findings import Finding, ranked

from .balance import balance, balance_findings
from .chain_findings import chain_findings
from .chains import place_chains
from .joints import adrift, joint_findings, meetings, near_misses, overlap_findings
from .loose import lying, lying_findings
from .order import Assembling
from .order_findings import order_findings
from .promises import promise_findings
from .replay import given_order_findings
from .result import DryFit
from .scene import MOST_OVERLAPS, Scene
from .screw_findings import screw_findings
from .screw_pairs import screws_that_meet
from .screws import screw_fits
from .settings import DryfitSettings
from .tape_rounding import on_tape, rounding_findings

if TYPE_CHECKING:
    from .moving import Moved

DEFAULT = DryfitSettings()


def verify(assembly: Assembly, settings: DryfitSettings = DEFAULT) -> DryFit:
    """Put a piece together without glue and answer what was noticed; pure and deterministic.

    Raises CutError when a cut leaves nothing of a part. An assembly without parts has nothing to find.
    """
    if not assembly.parts:
        return DryFit((), None, None, (), (), ())
    scene = Scene.of(assembly, settings)
    meets = meetings(scene)
    screws = screw_fits(scene)
    stands = balance(scene)
    chains = place_chains(assembly, settings.fit)
    found: list[Finding] = [
        *overlap_findings(scene),
        *joint_findings(scene, meets),
        *near_misses(scene),
        *adrift(scene),
        *promise_findings(scene),
        *chain_findings(scene, chains),
        *screw_findings(scene, screws),
        *screws_that_meet(scene),
        *balance_findings(scene, stands),
    ]
    taped = None if settings.tape is None else on_tape(scene, settings.tape)
    found += [] if taped is None else rounding_findings(scene, taped)
    order = None
    if (
        settings.seek_order and len(scene.colliding) <= MOST_OVERLAPS
    ):  # a heap of parts in one place has no order to look for
        assembling = Assembling(scene)
        order = assembling.order()
        found += [*order_findings(assembling), *given_order_findings(assembling)]
        found += lying_findings(assembling, lying(assembling))
    motions = _moved(assembly, settings, found)
    groups = tuple(alike(list(assembly.parts.values())))
    touching = {(scene.parts[i].id, scene.parts[j].id): tuple(patches) for (i, j), patches in scene.contacts.items()}
    return DryFit(
        tuple(ranked(found)),
        order,
        stands,
        tuple(meets),
        tuple(screws),
        groups,
        touching,
        motions,
        tuple(chains),
        taped,
    )


def _moved(assembly: Assembly, settings: DryfitSettings, found: list[Finding]) -> "tuple[Moved, ...]":
    """Return what came of everything that moves, and add what was noticed of it."""
    if not assembly.motions:
        return ()
    from .moving import motion_findings, moved  # here, since most pieces stand still

    motions = tuple(moved(assembly, motion, settings) for motion in assembly.motions)
    found += [f for m in motions for f in motion_findings(assembly, m)]
    return motions
