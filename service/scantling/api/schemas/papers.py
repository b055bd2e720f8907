"""What a caller may choose about drawings and papers."""

from typing import Annotated, Literal

from pydantic import Field

from .common import TapeStep
from .marks import COUNT, MM
from .scalars import Closed, Name, Whole

Across = Annotated[int, Field(strict=True, ge=1, le=20), Whole]
Down = Annotated[int, Field(strict=True, ge=1, le=40), Whole]
OnPaper = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=420)]


class LabelGrid(Closed):
    """A sheet of labels by its numbers, in millimetres of paper whatever `units` says."""

    across: Across = Field(2, description="Labels beside each other.", json_schema_extra=COUNT)
    down: Down = Field(5, description="Labels under each other.", json_schema_extra=COUNT)
    width: OnPaper = Field(90.0, description="Width of a label.", json_schema_extra=MM)
    height: OnPaper = Field(50.0, description="Height of a label.", json_schema_extra=MM)
    left: OnPaper = Field(15.0, description="From the left edge to the first label.", json_schema_extra=MM)
    top: OnPaper = Field(14.0, description="From the top edge to the first label.", json_schema_extra=MM)
    gap_x: OnPaper = Field(5.0, description="Between labels beside each other.", json_schema_extra=MM)
    gap_y: OnPaper = Field(0.0, description="Between labels under each other.", json_schema_extra=MM)


class Papers(Closed):
    """How drawings and papers are made; without effect on JSON and CSV."""

    paper: Literal["letter", "a4"] = Field("letter", description="Size of the paper.")
    tape: TapeStep | None = Field(None, description="The step sizes are written in; without it the request's `tape`.")
    also: TapeStep | None = Field(None, description="A second step, written in brackets behind the first.")
    stamp: Literal["computed", "checked", "built"] = Field(
        "computed", description="What the plan may claim; `built` needs a record in `as_built`."
    )
    version: Name | None = Field(None, description="Version of the plan, for its cover and the foot of every page.")
    date: Name | None = Field(None, description="Date of the plan; written as 2026-05-01 it also dates the care.")
    author: Name | None = Field(None, description="Who answers for the plan.")
    licence: Name | None = Field(None, description="On what terms others may use the plan.")
    as_built: Name | None = Field(None, description="What was built, and where it departs from the plan.")
    labels: LabelGrid | None = Field(None, description="The grid of the label sheet.")
