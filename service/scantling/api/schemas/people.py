"""Who will use the furniture: the household's own sizes, small children."""

from typing import Annotated

from pydantic import Field
from typing_extensions import TypeAliasType

from .lengths import LengthRule, Reading
from .marks import KG
from .scalars import Bool, Closed, Id

Kilograms = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=300)]
BodySize = TypeAliasType("BodySize", Annotated[Reading, LengthRule(least=50, most=2000)])


class Person(Closed):
    """Somebody who will use the furniture."""

    id: Id = Field(description="The caller's name for them.")
    child: Bool = Field(
        False, description="A small child: openings, lids and boxes are checked for it, seats are not fitted to it."
    )
    mass: Kilograms | None = Field(None, description="Mass.", json_schema_extra=KG)
    knee_back_height: BodySize | None = Field(None, description="Back of the knee above the floor, barefoot.")
    seat_depth: BodySize | None = Field(None, description="Back of the knee to the back of the seat, sitting.")
    hip: BodySize | None = Field(None, description="Width across the hips, sitting.")
    elbow: BodySize | None = Field(None, description="Elbow above the seat, sitting.")
    knee: BodySize | None = Field(None, description="Top of the knee above the floor, sitting, barefoot.")
    thigh: BodySize | None = Field(None, description="Thickness of the thigh above the seat, sitting.")
