"""Numbers and texts of a dry fit and how far each may go; lengths are millimetres."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .scalars import TEXT_PATTERN, Id, Whole

MOST_PARTS = 400
Side = Literal["start", "end", "near", "far", "back", "face"]
Edge = Literal["start", "end", "near", "far"]
Size = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=10_000)]
Bound = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-10_000, le=10_000)]
Signed = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-1_000_000, le=1_000_000)]
Tilt = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=75)]
Flag = Annotated[bool, Field(strict=True)]
Point = Annotated[list[Signed], Field(min_length=3, max_length=3)]
Direction = Annotated[
    list[Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-1.001, le=1.001)]],
    Field(min_length=3, max_length=3),
]
LongName = Annotated[str, StringConstraints(strict=True, min_length=1, max_length=400, pattern=TEXT_PATTERN)]
Sentence = Annotated[str, StringConstraints(strict=True, max_length=500, pattern=TEXT_PATTERN)]
Ids = Annotated[list[Id], Field(max_length=MOST_PARTS)]
RoleKey = Annotated[
    str, StringConstraints(strict=True, min_length=1, max_length=64, pattern=r"^[A-Za-z][A-Za-z0-9 _-]{0,63}$")
]


Density = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=3_000)]
Clearance = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1_000)]
FastenerDiameter = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.1, le=50)]
FastenerLength = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.1, le=1_000)]
HeadDepth = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-50, le=200)]
LoadAmount = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.001, le=10_000)]
OpenLimit = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=10)]
PointClear = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=20)]
PersonMass = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=500)]
CushionDensity = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=500)]
TipAngle = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=45)]
OpenMinutes = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.1, le=1_440)]
ClampMinutes = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=10_000)]
GaugeOrNone = Annotated[int, Field(strict=True, ge=0, le=30), Whole]
Pieces = Annotated[int, Field(strict=True, ge=0, le=100_000), Whole]
Hands = Annotated[int, Field(strict=True, ge=1, le=10), Whole]
Fit = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1)]
EdgeDiameters = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=20)]
ScrewGap = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=50)]
Behind = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1_000)]
BehindEnd = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=1_000)]
Radius = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=200)]
LoadMass = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=2_000)]
Travel = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-3_000, le=3_000)]
Clamps = Annotated[int, Field(strict=True, ge=1, le=500), Whole]
