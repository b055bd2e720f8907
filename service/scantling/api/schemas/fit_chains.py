"""Dimension chains as a dry fit answers them: where each lies, what rules it, and what the tape makes of it."""

from pydantic import Field

from .marks import MM, RATIO
from .scalars import Open


class FitPlacedChain(Open):
    """Where a dimension chain begins and ends, and the chain it is derived from."""

    name: str = Field(description="What it measures.")
    axis: list[float] = Field(description="Unit direction it runs along.", json_schema_extra=RATIO)
    from_mm: float = Field(description="Where it begins along that direction.", json_schema_extra=MM)
    to_mm: float = Field(description="Where it ends.", json_schema_extra=MM)
    total_mm: float = Field(description="Its sum.", json_schema_extra=MM)
    closing: str = Field(description="Label of the link that takes up the rounding.")
    ruled_by: str | None = Field(
        description="The chain that rules it: the first stated over its span, or one whose links it runs along."
    )


class FitRoundedPart(Open):
    """A part cut to the nearest mark that meets others at both ends: a gap that comes from rounding alone."""

    part: str = Field(description="Id of the part.")
    error_mm: float = Field(description="How much longer it is cut than derived.", json_schema_extra=MM)
    joints: list[str] = Field(description="Ids of the joints at its ends.")


class FitTakenUp(Open):
    """What the closing part of a chain takes up."""

    chain: str = Field(description="Name of the chain.")
    closing: str = Field(description="Label of its closing link.")
    takes_up_mm: float = Field(description="How much longer it is fitted than derived.", json_schema_extra=MM)


class FitRounding(Open):
    """What comes of cutting to the marks of a tape, and of nothing else."""

    tape: str = Field(description="The step of the tape.")
    limit_mm: float = Field(description="Joints that are glued or seen are warned of above this.", json_schema_extra=MM)
    gaps: list[FitRoundedPart] = Field(description="Gaps wholly due to rounding.")
    closing: list[FitTakenUp] = Field(description="What the closing part of each chain takes up.")
