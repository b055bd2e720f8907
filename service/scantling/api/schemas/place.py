"""The place of a set, as it was measured: walls, corners, doors, floor, way in, and where each piece stands."""

from typing import Annotated, Literal

from pydantic import Field

from .lengths import Length, LengthOrZero
from .marks import DEG, unit
from .scalars import Bool, Closed, Id

MOST_WALLS, MOST_STANDS, MOST_WAYS, MOST_READINGS, MOST_OPENINGS = 12, 200, 20, 50, 20
Turn = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=360)]
Fall = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=100)]


class Skirting(Closed):
    """A skirting board along a wall."""

    height: Length = Field(description="Height above the floor.")
    depth: Length = Field(description="How far it stands out from the wall.")


class CornerMeasured(Closed):
    """The corner at the right end of a wall, measured with a tape: two legs and the diagonal between their ends."""

    first: Length = Field(description="Leg along this wall, back from the corner.")
    second: Length = Field(description="Leg along the next wall.")
    diagonal: Length = Field(description="From the end of one leg to the end of the other.")


class RoomDoor(Closed):
    """A door in a wall, by its hinge and its leaf."""

    id: Id = Field(description="The caller's name for it.")
    at: LengthOrZero = Field(description="Its hinge, from the left end of the wall.")
    width: Length = Field(description="Width of its leaf.")
    hinge: Literal["left", "right"] = Field("left", description="Side of the opening the hinge is on, facing the wall.")
    opens: Literal["in", "out"] = Field("in", description="Into this room, or out of it.")


class Window(Closed):
    """A window in a wall."""

    id: Id = Field(description="The caller's name for it.")
    at: LengthOrZero = Field(description="Its left edge, from the left end of the wall.")
    width: Length = Field(description="Its width.")
    sill: Length = Field(description="Height of its sill above the floor.")


class Socket(Closed):
    """A socket or a switch on a wall."""

    id: Id = Field(description="The caller's name for it.")
    at: LengthOrZero = Field(description="Its middle, from the left end of the wall.")
    height: LengthOrZero = Field(description="Its middle above the floor.")


class Wall(Closed):
    """A wall run, measured at three heights; the least rules. Walls go round the room from left to right."""

    id: Id = Field(description="The caller's name for it.")
    floor: Length | None = Field(None, description="Its length at the floor, above any skirting at its ends.")
    seat: Length | None = Field(None, description="Its length at seat height.")
    back: Length | None = Field(None, description="Its length at the height of a back.")
    skirting: Skirting | None = Field(None, description="Its skirting, where it has one.")
    corner: CornerMeasured | None = Field(
        None, description="The corner at its right end, to the next wall; taken as square where it was not measured."
    )
    doors: list[RoomDoor] | None = Field(None, description="Doors in it.", max_length=MOST_OPENINGS)
    windows: list[Window] | None = Field(None, description="Windows in it.", max_length=MOST_OPENINGS)
    sockets: list[Socket] | None = Field(None, description="Sockets and switches on it.", max_length=MOST_OPENINGS)


class Stand(Closed):
    """Where one piece stands: against a wall in the order of the list, in a corner, or free at x and y."""

    module: Id = Field(description="Id of a module of the request; once for each piece of its quantity.")
    wall: Id | None = Field(None, description="Id of the wall its back is against; the list goes from left to right.")
    corner: Bool = Field(
        False, description="It stands in the corner at the right end of that wall, its left side against the wall."
    )
    gap: LengthOrZero | None = Field(None, description="Left free between it and what is left of it; 0 without.")
    off: LengthOrZero | None = Field(None, description="How far its back stands off the wall; 0 without.")
    x: LengthOrZero | None = Field(
        None, description="Free in the room: its front left corner, along the first wall from that wall's left end."
    )
    y: LengthOrZero | None = Field(
        None, description="Free in the room: its front left corner, out from the first wall."
    )
    turn: Turn | None = Field(
        None,
        description="Free in the room: clockwise from above; 0 has its back to the first wall.",
        json_schema_extra=DEG,
    )


class FloorReading(Closed):
    """One reading of the floor below a level line."""

    x: LengthOrZero = Field(description="Along the first wall from its left end.")
    y: LengthOrZero = Field(description="Out from the first wall.")
    below: LengthOrZero = Field(description="From the level line down to the floor.")


class Floor(Closed):
    """How the floor falls: so much in a metre towards a side, or readings below one level line."""

    fall: Fall | None = Field(None, description="Fall of the floor.", json_schema_extra=unit("mm/m"))
    towards: Literal["back", "front", "left", "right"] | None = Field(
        None, description="Where it falls to, as one faces the first wall; `back` is that wall."
    )
    readings: list[FloorReading] | None = Field(
        None, description="Readings at three points or more.", min_length=3, max_length=MOST_READINGS
    )


class WayIn(Closed):
    """One narrow place on the way in, by its clear size."""

    id: Id = Field(description="The caller's name for it.")
    kind: Literal["door", "gate", "passage", "stairs", "hatch", "lift"] = Field("door", description="What it is.")
    width: Length = Field(description="Clear width.")
    height: Length = Field(description="Clear height; on stairs square to their slope.")
    turn: Length | None = Field(
        None, description="Clear width of the passage or landing behind it, where one turns a square corner at once."
    )
    length: Length | None = Field(None, description="Clear depth of a lift; what goes in must fit inside.")


class Place(Closed):
    """Where the furniture stands."""

    exposure: Literal["indoors", "damp", "covered outdoors", "outdoors"] = Field(
        "indoors", description="What the weather does to it."
    )
    use: Literal["home", "public"] = Field(
        "home", description="Who sits there: a household, or the public, for whom seats are checked with heavier loads."
    )
    width: Length | None = Field(None, description="Width of the place, along the back wall.")
    depth: Length | None = Field(None, description="Depth of the place.")
    ceiling: Length | None = Field(None, description="Clear height up to the ceiling or roof.")
    scribe: LengthOrZero | None = Field(None, description="Scribe gap wanted at the end of a run; 6 mm without.")
    walkway: Length | None = Field(
        None, description="Least width to keep free in front of the pieces; a published figure without."
    )
    walls: list[Wall] | None = Field(None, description="The walls, from left to right.", max_length=MOST_WALLS)
    stands: list[Stand] | None = Field(None, description="Where each piece stands.", max_length=MOST_STANDS)
    floor: Floor | None = Field(None, description="How the floor falls.")
    way_in: list[WayIn] | None = Field(None, description="The narrow places on the way in.", max_length=MOST_WAYS)
    door_width: Length | None = Field(None, description="Clear width of the narrowest door on the way in.")
    door_height: Length | None = Field(None, description="Clear height of that door.")
