"""What a caller may fix or wish of a nesting: layouts that stay, the order of aims, sheets cut in a stack."""

from typing import Annotated, Any, Literal

from pydantic import Field

from .lengths import Broken, Checked, Length
from .marks import COUNT, MM, PERCENT
from .scalars import Closed, Id, Whole

MOST_LAYOUTS = 200
MOST_PLACEMENTS = 2_000
Place = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=20_000)]
CarryKg = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=100)]
AimWord = Literal["money", "remainder", "settings", "cuts", "layouts"]
_READ_NOT = "As an answer gives it; not read."


class PinnedPlacement(Closed):
    """Where one piece of a pinned layout lies, as an answer gives it; always in mm."""

    part: Id = Field(description="Id of the part.")
    x_mm: Place = Field(description="Along the stock's length, from the untrimmed corner.", json_schema_extra=MM)
    y_mm: Place = Field(0.0, description="Along the stock's width; 0 on boards.", json_schema_extra=MM)
    length_mm: Place | None = Field(None, description="If given, it must be the part's own.", json_schema_extra=MM)
    width_mm: Place | None = Field(None, description="If given, it must be the part's own.", json_schema_extra=MM)
    turned: Annotated[bool, Field(strict=True)] | None = Field(
        None, description="True where the part's length lies along y."
    )
    end_for_end: Annotated[bool, Field(strict=True)] | None = Field(
        None, description="Of a board: turned half round on its face."
    )
    face_down: Annotated[bool, Field(strict=True)] | None = Field(None, description="Of a board: its show side down.")
    start_slope: Any = Field(None, description=_READ_NOT)
    end_slope: Any = Field(None, description=_READ_NOT)
    start_bevel: Any = Field(None, description=_READ_NOT)
    end_bevel: Any = Field(None, description=_READ_NOT)
    near_mm: Any = Field(None, description=_READ_NOT, json_schema_extra=MM)
    far_mm: Any = Field(None, description=_READ_NOT, json_schema_extra=MM)


class PinnedLayout(Closed):
    """A layout that is kept as it is: an entry of `layouts` of an earlier answer, or its first three members."""

    stock: Id = Field(description="Id of the stock.")
    count: Annotated[int, Field(strict=True, ge=1, le=20_000), Whole] = Field(
        1, description="How many sheets or boards are cut so.", json_schema_extra=COUNT
    )
    placements: list[PinnedPlacement] = Field(description="The pieces.", min_length=1, max_length=MOST_PLACEMENTS)
    length_mm: Any = Field(None, description=_READ_NOT, json_schema_extra=MM)
    width_mm: Any = Field(None, description=_READ_NOT, json_schema_extra=MM)
    cuts: Any = Field(None, description=_READ_NOT)
    offcuts: Any = Field(None, description=_READ_NOT)
    face_up: Any = Field(None, description=_READ_NOT)
    mirrored: Any = Field(None, description=_READ_NOT)
    saw: Any = Field(None, description=_READ_NOT)
    tilts: Any = Field(None, description=_READ_NOT)
    against: Any = Field(None, description=_READ_NOT)
    stack: Any = Field(None, description=_READ_NOT)
    runs: Any = Field(None, description=_READ_NOT)


class LeastOffcut(Closed):
    """What is worth keeping."""

    length: Length = Field(description="Least length.")
    width: Length = Field(description="Least width.")


class NestingObjective(Checked):
    """What a plan is chosen by, once nothing more can be placed."""

    least_offcut: LeastOffcut | None = Field(
        None, description="Least size of a remainder worth keeping; 300 by 100 mm where it is left out."
    )
    order: list[AimWord] | None = Field(
        None,
        description="The aims, first one first: `money`, the largest `remainder`, the fewest saw `settings`, the "
        "fewest `cuts`, the fewest different `layouts`. That is the order where it is left out; an aim that does not "
        "stand here does not count.",
        min_length=1,
        max_length=5,
    )
    worth: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=50)] | None = Field(
        None,
        description="Costs within so many percent of the cheapest found count as equal; 2 where it is left out, an "
        "assumption. 0 asks for the cheapest.",
        json_schema_extra=PERCENT,
    )

    def faults(self) -> list[Broken]:
        """Return a fault where an aim stands twice."""
        order = self.order or []
        return [
            (["order", i], f"{aim!r} stands twice; each aim once", "contradiction")
            for i, aim in enumerate(order)
            if aim in order[:i]
        ]


class Stack(Checked):
    """Sheets of one layout cut on top of each other, as many as both members and the saws allow."""

    sheets: Annotated[int, Field(strict=True, ge=2, le=50), Whole] | None = Field(
        None, description="Most sheets in one stack.", json_schema_extra=COUNT
    )
    thickness: Length | None = Field(None, description="Most thickness in all.")

    def faults(self) -> list[Broken]:
        """Return a fault where nothing limits the stack."""
        if self.sheets is None and self.thickness is None:
            return [([], "how many sheets or how thick a stack is missing; one of them is needed", "needed-here")]
        return []
