"""The part of a project's answer about its place: where each piece stands, what fits, and the joints made there."""

from pydantic import Field

from .marks import COUNT, DEG, KG, MM
from .scalars import Open

_POINT = "x along the first wall from its left end, y out from it."


class FitAtHeight(Open):
    """A wall run at one height against what stands along it."""

    height: str = Field(description="floor, seat or back.")
    run_mm: float = Field(description="The run as measured there.", json_schema_extra=MM)
    measured: bool = Field(description="False where the least of the other heights stands for one not measured.")
    set_mm: float = Field(description="What the set takes there, its gaps included.", json_schema_extra=MM)
    slack_least_mm: float = Field(description="Left over with the thickest stock sold.", json_schema_extra=MM)
    slack_most_mm: float = Field(description="Left over with the thinnest stock sold.", json_schema_extra=MM)


class PlacedDoor(Open):
    """A door of the room and the quarter its leaf sweeps."""

    id: str = Field(description="The caller's name for it.")
    swept_mm: list[list[float]] = Field(description=f"Hinge, leaf shut, leaf open. {_POINT}", json_schema_extra=MM)
    opens: str = Field(description="in or out.")


class PlacedWall(Open):
    """A wall on the floor plan."""

    id: str = Field(description="The caller's name for it.")
    from_mm: list[float] = Field(description=f"Its left end as one faces it. {_POINT}", json_schema_extra=MM)
    to_mm: list[float] = Field(description="Its right end.", json_schema_extra=MM)
    turn_deg: float = Field(description="Clockwise from the first wall.", json_schema_extra=DEG)
    corner_deg: float | None = Field(description="The corner at its right end.", json_schema_extra=DEG)
    fits: list[FitAtHeight] = Field(description="The set along it, at each height that was measured.")
    doors: list[PlacedDoor] = Field(description="The doors in it.")


class PlacedPiece(Open):
    """A piece where it stands."""

    module: str = Field(description="The caller's name for the module.")
    copy_number: int = Field(description="Which of its copies, from 1.", json_schema_extra=COUNT)
    wall: str | None = Field(description="The wall its back is against.")
    corner: bool = Field(description="Whether it stands in the corner at the left end of that wall.")
    x_mm: float = Field(description="Its front left corner, along the first wall.", json_schema_extra=MM)
    y_mm: float = Field(description="Its front left corner, out from the first wall.", json_schema_extra=MM)
    turn_deg: float = Field(
        description="Clockwise from above; 0 has its back to the first wall.", json_schema_extra=DEG
    )
    outline_mm: list[list[float]] = Field(description="Its outline from above, with its lean.", json_schema_extra=MM)
    opened_mm: list[list[float]] | None = Field(
        description="What its open lid, doors and drawers cover besides.", json_schema_extra=MM
    )
    off_wall_mm: float | None = Field(description="Largest distance of its back from the wall.", json_schema_extra=MM)
    clear_in_front_mm: float | None = Field(
        description="To what stands in front of it; null where nothing known does.", json_schema_extra=MM
    )
    raise_feet_mm: list[float] | None = Field(
        description="How far its feet come up to be level: front left, front right, back right, back left.",
        json_schema_extra=MM,
    )
    mass_kg: float = Field(description="What is carried in, without cushions.", json_schema_extra=KG)


class LargestGap(Open):
    """The widest gap behind the set."""

    gap_mm: float = Field(description="How wide, square to the wall.", json_schema_extra=MM)
    module: str = Field(description="Behind which piece.")
    wall: str = Field(description="At which wall.")
    along_mm: float = Field(description="How far along the wall from its left end.", json_schema_extra=MM)


class PlaceJoint(Open):
    """A joint between two neighbours, made where they stand."""

    between: list[str] = Field(description="The two modules, left one first.")
    parts: list[str] = Field(description="The parts the bolts go through.")
    bolts: int = Field(description="How many.", json_schema_extra=COUNT)
    bolt: str | None = Field(description="What to buy for each, as on the list.")
    stack_mm: float = Field(description="Wood the bolts go through.", json_schema_extra=MM)
    heights_mm: list[float] = Field(description="Heights of the holes above the floor.", json_schema_extra=MM)
    apart_mm: float = Field(description="How far the holes of a pair lie apart at most.", json_schema_extra=MM)


class PlaceAnswer(Open):
    """The set in its place."""

    walls: list[PlacedWall] = Field(description="The walls.")
    pieces: list[PlacedPiece] = Field(description="The pieces that were given a place.")
    largest_gap: LargestGap | None = Field(description="The widest gap behind the set.")
    joints: list[PlaceJoint] = Field(description="The joints between neighbours.")
    steps: list[str] = Field(description="The work at the place, in order.")
