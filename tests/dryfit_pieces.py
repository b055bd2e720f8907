"""Small sound pieces to make mistakes in: a bench, a box with a loose lid, a folded tray, a post on a foot."""

from scantling.board import Assembly, Fastener, Part, RoleMaterial

ROLES = {
    "ply": RoleMaterial("ply", "birch-plywood", 18.0, 17.1, 18.5, False, 680.0),
    "thin": RoleMaterial("thin", "birch-plywood", 9.0, 8.5, 9.5, False, 680.0),
    "mdf": RoleMaterial("mdf", "mdf", 18.0, 18.0, 18.0, False, 750.0),
    "pine": RoleMaterial("pine", "spruce-pine-fir", 38.0, 37.0, 39.0, False, 450.0, "board", True, 89.0),
    "oak": RoleMaterial("oak", "white-oak", 25.0, 24.0, 26.0, False, 750.0, "board", True, 89.0),
}


def empty(title="piece"):
    return Assembly("trial", title, dict(ROLES))


def bench(sheet="ply", rail_of=None):
    """Two standing sides, a seat on them and a rail between them: 900 wide, 300 deep, 418 high."""
    piece = empty("bench")
    left = piece.part("left", 400, 300, sheet, name="side").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = piece.part("right", 400, 300, sheet, name="side").lay("z", "y").put(x1=900, y0=0, z0=0)
    rail = piece.part("rail", 864, 89, rail_of or sheet, name="rail").lay("x", "z").put(x0=18, yc=150, z0=150)
    seat = piece.part("seat", 900, 300, sheet, name="seat").lay("x", "y").put(x0=0, y0=0, z0=400)
    for side in (left, right):
        piece.screws(seat, side, n=3, inset=50)
        piece.screws(side, rail, n=2, inset=25)
    piece.size(width=900, depth=300, height=418)
    piece.chain("width", 900, [("left", 18), ("rail", 864), ("right", 18)], "rail")
    return piece


def box(sheet="ply"):
    """Four sides round a bottom, a cleat inside, and a loose lid: 436 × 300 × 300."""
    piece = empty("box")
    front = piece.part("front", 436, 282, sheet).lay("x", "z").put(x0=0, y0=0, z0=0)
    back = piece.part("back", 436, 282, sheet).lay("x", "z").put(x0=0, y1=300, z0=0)
    left = piece.part("left", 264, 282, sheet).lay("y", "z").put(x0=0, y0=18, z0=0)
    right = piece.part("right", 264, 282, sheet).lay("y", "z").put(x1=436, y0=18, z0=0)
    for long in (front, back):
        for short in (left, right):
            piece.screws(long, short, n=3, inset=40)
    bottom = piece.part("bottom", 400, 264, sheet).lay("x", "y").put(x0=18, y0=18, z0=0)
    for side in (front, back):
        piece.screws(side, bottom, n=3, inset=60, glued=True)
    cleat = piece.part("cleat", 200, 89, "pine").lay("x", "z").put(xc=218, y0=18, z0=100)
    piece.screws(cleat, front, n=2, inset=30, role="clamps", glued=True)
    lid = piece.part("lid", 436, 300, sheet).lay("x", "y").put(x0=0, y0=0, z0=282)
    for side in (front, back, left, right):
        piece.loose(lid, side)
    piece.size(width=436, depth=300, height=300)
    return piece


def tray(off=0.0):
    """Two strips on a board, folded to a corner; `off` degrees more bevel on one of them open the mitre inside."""
    piece = empty("tray")
    base = piece.part("base", 300, 300, "ply").put(x0=0, y0=0, z0=0)
    one = (
        piece.part("one", 300, 80, "ply").saw("start", bevel=45, long_face="face").lay("x", "z").put(x0=0, y0=0, z0=18)
    )
    two = piece.part("two", 300, 80, "ply").saw("end", bevel=45 + off, long_face="face").lay("-y", "z")
    two.put(x0=0, y0=0, z0=18)
    piece.fold(one, two)
    piece.glue(base, one)
    piece.glue(base, two)
    return piece


def post():
    """A post of solid wood screwed to the side of a foot, both glued to a base."""
    piece = empty("post")
    base = piece.part("base", 300, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=0)
    foot = piece.part("foot", 300, 89, "pine").lay("x", "y").put(x0=0, y0=50, z0=18)
    upright = piece.part("upright", 400, 89, "pine").lay("z", "x").put(xc=150, y0=139, z0=18)
    piece.glue(base, foot)
    piece.glue(base, upright)
    piece.screws(upright, foot, n=2, inset=20, length=76.2, glued=True)
    return piece


def corner():
    """A post in the corner of two panels, screwed from both outsides at different heights."""
    piece = empty("corner")
    stud = piece.part("stud", 300, 89, "pine").lay("z", "x").put(x0=0, y0=0, z0=0)
    front = piece.part("front", 400, 300, "ply").lay("x", "z").put(x0=0, y1=0, z0=0)
    side = piece.part("side", 400, 300, "ply").lay("y", "z").put(x1=0, y0=0, z0=0)
    piece.screws(front, stud, n=3, inset=40, length=44.45)
    piece.screws(side, stud, n=2, inset=80, length=44.45)
    return piece


def change(piece, fastener, **members):
    """Replace members of one fastener."""
    from dataclasses import replace

    piece.fasteners[fastener] = replace(piece.fasteners[fastener], **members)


def moved(piece, fastener, by):
    """Shift one fastener by a vector."""
    head = piece.fasteners[fastener].head
    change(piece, fastener, head=tuple(a + b for a, b in zip(head, by, strict=True)))


def of_joint(piece, *parts):
    """Return the ids of the fasteners that pass these parts, in order."""
    return [f.id for f in piece.fasteners.values() if f.parts == parts]


def block(piece, id, size, at, role="ply"):
    """Add a block lying along x with its least corner at a point."""
    return piece.part(id, size[0], size[1], role, name=id).lay("x", "y").put(x0=at[0], y0=at[1], z0=at[2])


def codes(fit, but=()):
    """Return the codes of a dry fit's findings, without some, each once and sorted."""
    return sorted({f.code for f in fit.findings} - set(but))


__all__ = [
    "ROLES", "Fastener", "Part", "bench", "block", "box", "change", "codes", "corner", "empty", "moved", "of_joint",
    "post", "tray",
]  # fmt: skip
