"""The bolt of a joint that comes apart: its size by the hole it passes, its length by what it goes through."""

from dataclasses import dataclass
from functools import cache

from scantling.findings import Finding
from scantling.tables import Status, load_table, look_up

from .notice import notice
from .validity import positive

HOLE_MM = 0.3  # how far a bored hole may be off the printed one and still be taken for it; practice
PROUD_MM = 1.0  # a bolt ends past its nut; practice
LONG_MM = 15.0  # more than this past its nut catches clothes and knees; practice


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt as sold: size, length under its head and how far it stands past its nut, mm."""

    size: str
    length_mm: float
    past_nut_mm: float

    @property
    def words(self) -> str:
        """Return it as a shop knows it."""
        return f"{self.size} x {self.length_mm:.0f} bolt with two washers and a nut"


@cache
def bolt_sizes() -> tuple[str, ...]:
    """Return the sizes of bolts whose holes, nuts and washers are known.

    Units: none, names such as M8. Valid: while the table keeps its rules. Raises: TableError for one that breaks them.
    Source: ISO 273, ISO 4032, ISO 7089 (from memory).
    """
    return tuple(row.text("size") for row in load_table("bolts").rows if row.text("item") == "hole")


def bolt_size(hole_mm: float) -> str | None:
    """Return the size of bolt a hole is bored for; None where it is no hole of the medium series.

    Units: mm. Valid: holes of M5 to M12. Raises: OutOfValidity. Source: ISO 273, medium series.
    """
    hole = positive("hole", hole_mm, "mm")
    for size in bolt_sizes():
        if abs(hole - look_up("bolts", "value", size=size, item="hole").value) <= HOLE_MM:
            return size
    return None


def bolt_play(size: str, hole_mm: float) -> float:
    """Return how far two holes may lie apart and still take one bolt: the play of the bolt in both of them.

    Units: mm. Valid: sizes of the table. Raises: OutOfValidity, ValueError for a name that is no size.
    Source: geometry: the bolt leans on one side of the one hole and on the other side of the other.
    """
    return positive("hole", hole_mm, "mm") - float(size.removeprefix("M"))


def bolt_through(size: str, stack_mm: float) -> Bolt | None:
    """Return the shortest bolt sold that goes through wood, two washers and its nut; None where all are too short.

    Units: mm. Valid: sizes of the table. Raises: OutOfValidity, UnknownRowError for another size.
    Source: ISO 4032 nut, ISO 7089 washer and preferred lengths (both from memory); 1 mm past the nut, practice.
    """
    nut, washer = (look_up("bolts", "value", size=size, item=item).value for item in ("nut", "washer"))
    through = positive("stack", stack_mm, "mm") + 2 * washer + nut
    lengths = sorted(row.number("value") for row in load_table("bolt_lengths").rows)
    length = next((n for n in lengths if n >= through + PROUD_MM), None)
    return None if length is None else Bolt(size, length, length - through)


def check_bolt(title: str, size: str, stack_mm: float, *, parts: tuple[str, ...] = ()) -> tuple[Finding, ...]:
    """Say where no bolt sold has the length of a stack, or the one that has stands far past its nut.

    Units: mm. Valid: sizes of the table. Raises: OutOfValidity, UnknownRowError for another size.
    Source: as `bolt_through`; from memory, so that it warns and never fails.
    """
    bolt = bolt_through(size, stack_mm)
    source = "ISO 4032; washers and lengths sold from memory"
    if bolt is None:
        text = f"{title}: no {size} bolt sold goes through {stack_mm:.0f} mm of wood, two washers and its nut."
        return (
            notice(
                "joint-without-bolt", text, status=Status.MEMORY, parts=parts, value=stack_mm, unit="mm", source=source
            ),
        )
    if bolt.past_nut_mm <= LONG_MM:
        return ()
    past = bolt.past_nut_mm
    text = f"{title}: the shortest {size} bolt for {stack_mm:.0f} mm of wood stands {past:.0f} mm past its nut."
    return (
        notice(
            "joint-without-bolt", text, status=Status.MEMORY, parts=parts, value=past, limit=LONG_MM,
            unit="mm", source=source,
        ),
    )  # fmt: skip
