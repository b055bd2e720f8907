"""The joint of seat and back when somebody leans back: what the hardest pressed fastener gets."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .figures import weakest
from .loads import Load
from .notice import LOCAL, notice
from .validity import not_negative, positive


@dataclass(frozen=True, slots=True)
class BackJoint:
    """The fasteners of one back post: how many posts share the load, where they stand and what each holds.

    `spots_mm` are the fasteners' places in the plane of bending. `pulled` says they are drawn out (the post stands
    against the rail) and the places are heights above the edge it turns on; else they are sheared (the post laps the
    side). `capacity_n` is one fastener's, on `basis` design or ultimate, as `code` says; `finding` is what a weak joint
    is reported as.
    """

    title: str
    spots_mm: tuple[tuple[float, float], ...]
    pulled: bool
    capacity_n: float
    basis: str
    code: str
    posts: int = 2
    status: Status = Status.READ
    parts: tuple[str, ...] = ()
    finding: str = "back-joint-weak"


@dataclass(frozen=True, slots=True)
class BackJointResult:
    """The joint under the lean-back moment: force on the worst fastener N, and what it holds N."""

    joint: BackJoint
    load: Load
    moment_nmm: float
    worst_n: float

    @property
    def ratio(self) -> float:
        """Return demand over capacity of the worst fastener."""
        return self.worst_n / self.joint.capacity_n

    def findings(self) -> tuple[Finding, ...]:
        """Return the joint too weak for leaning back, if it is."""
        if self.ratio <= 1:
            return ()
        j = self.joint
        bends = f"bends each post with {self.moment_nmm / 1000:.0f} N m and asks"
        text = (
            f"{j.title}: {self.load.label} {bends} "
            f"{self.worst_n:.0f} N of the worst fastener; it holds {j.capacity_n:.0f} N "
            f"({j.basis} value, {j.code}). {LOCAL}"
        )
        status = weakest((j.status, self.load.status))
        return (
            notice(
                j.finding,
                text,
                status=status,
                parts=j.parts,
                value=self.worst_n,
                limit=j.capacity_n,
                unit="N",
                source=f"statics of a fastener group; load: {self.load.source}",
            ),
        )


def sheared_group(spots_mm: tuple[tuple[float, float], ...], moment_nmm: float, force_n: float = 0.0) -> float:
    """Return the force on the worst fastener of a group that is turned about its middle and pushed sideways.

    Units: mm, N mm, N; answer in N. Valid: stiff parts, alike fasteners, two or more; the two forces add, on the safe
    side. Raises: ValueError for fewer than two or all on one spot, OutOfValidity. Source: statics, M r/sum r^2 + F/n.
    """
    if len(spots_mm) < 2:
        raise ValueError("one fastener holds no moment: give two or more")
    middle = tuple(sum(s[i] for s in spots_mm) / len(spots_mm) for i in (0, 1))
    radii = [math.dist(s, middle) for s in spots_mm]
    if max(radii) == 0:
        raise ValueError("fasteners on one spot hold no moment: spread them")
    turned = not_negative("moment", moment_nmm, "N mm") * max(radii) / sum(r**2 for r in radii)
    return turned + not_negative("force", force_n, "N") / len(spots_mm)


def pulled_group(heights_mm: tuple[float, ...], moment_nmm: float) -> float:
    """Return the pull on the furthest fastener of a post that turns on its edge.

    Units: heights above the edge in mm, N mm; answer in N. Valid: stiff parts, alike fasteners above the edge.
    Raises: ValueError for none, OutOfValidity for one at or below the edge. Source: statics, M h/sum h^2.
    """
    if not heights_mm:
        raise ValueError("a joint needs a fastener")
    heights = [positive("height above the edge", h, "mm") for h in heights_mm]
    return not_negative("moment", moment_nmm, "N mm") * max(heights) / sum(h**2 for h in heights)


def check_back_joint(joint: BackJoint, load: Load, lever_mm: float = 300.0) -> BackJointResult:
    """Check the back joint for leaning back; a test load meets an ultimate capacity, a person's load a design value.

    Units: mm, N. Valid: the load pushes level at `lever_mm` above the joint and the posts share it evenly.
    Raises: ValueError when basis of load and capacity differ, or for no post; OutOfValidity.
    Source: statics; lever of 300 mm from EN 1022:2018 6.2, point B.
    """
    wanted = "ultimate" if load.basis == "test" else "design"
    if joint.basis != wanted:
        raise ValueError(f"a {load.basis} load is compared with a {wanted} capacity, not with a {joint.basis} one")
    if joint.posts < 1:
        raise ValueError("a back stands on one post or more")
    positive("fastener capacity", joint.capacity_n, "N")
    moment = load.force_n * positive("lever", lever_mm, "mm") / joint.posts
    if joint.pulled:
        worst = pulled_group(tuple(s[1] for s in joint.spots_mm), moment)
    else:
        worst = sheared_group(joint.spots_mm, moment, load.force_n / joint.posts)
    return BackJointResult(joint, load, moment, worst)
