"""Blocks of wood for tests of places: pieces whose every size is told, and rooms to stand them in."""

from pieces import ply
from scantling.board import Assembly
from scantling.plan.arrangement import arrange
from scantling.plan.room import room_of


def block(wide, deep, high, *, id="block", lean=0.0):
    """A solid block; `lean` mm more at the back from half its height up, as a leaning back has."""
    piece = Assembly(id, id, {"board": ply(deep, "board"), "top": ply(deep + lean, "top")})
    half = high / 2 if lean else high
    piece.part("block", wide, half, "board").lay("x", "z").put(x0=0, y0=0, z0=0)
    if lean:
        piece.part("leaning", wide, half, "top").lay("x", "z").put(x0=0, y0=0, z0=half)
    return piece


def walls(*lengths, corner=None, **more):
    """Walls of the same length at all three heights; `corner` (first, second, diagonal) at the end of the first."""
    found = [{"id": chr(97 + i), "floor": n, "seat": n, "back": n, **more} for i, n in enumerate(lengths)]
    if corner:
        found[0]["corner"] = dict(zip(("first", "second", "diagonal"), corner, strict=True))
    return found


def arranged(place, pieces):
    """The room and the arrangement of named pieces, each made as often as it stands."""
    counts = {name: max(1, sum(s["module"] == name for s in place["stands"])) for name in pieces}
    room = room_of(place, counts)
    return room, arrange(room, pieces)
