"""A drawer box for bought slides: sides run through, the bottom slides into grooves under the back."""

from scantling.kit import Assembly, Part

GROOVE = 6.0
UNDER = 8.0  # wood below the bottom
PLAY = 0.4  # in the groove, so that the bottom slides in without a hammer


def drawer(
    piece: Assembly,
    id: str,
    width: float,
    run: float,
    height: float,
    at: tuple[float, float, float],
    wall: str,
    thin: str,
) -> dict[str, Part]:
    """Add a drawer, outside `width` × `run` × `height`, its front left lower corner at a point.

    Returns its parts by name: left, right, front, back, bottom. `wall` and `thin` are the roles they are cut from.
    """
    x, y, z = at
    t, b = piece.materials[wall].thickness, piece.materials[thin].thickness
    left = piece.part(f"{id} left", run, height, wall, name="drawer side").lay("y", "z").put(x0=x, y0=y, z0=z)
    right = piece.part(f"{id} right", run, height, wall, name="drawer side").lay("y", "z").put(x1=x + width, y0=y, z0=z)
    front = piece.part(f"{id} front", width - 2 * t, height, wall, name="drawer inner front").lay("x", "z")
    front.put(x0=x + t, y0=y, z0=z)
    over = UNDER + b
    back = piece.part(f"{id} back", width - 2 * t, height - over, wall, name="drawer back", closing=True).lay("x", "z")
    back.put(x0=x + t, y1=y + run, z0=z + over)
    front.ease("far/back", size=2)  # its face lies against what is screwed to it
    back.ease("far/face", "far/back", size=2)
    for side in (left, right):
        side.ease("far/face", "far/back", size=2)
        for end in (front, back):
            piece.screws(side, end, n=2, gauge=6, inset=18, role="clamps", glued=True)
    bottom = piece.part(f"{id} bottom", width - 2 * t + 2 * GROOVE, run - t + GROOVE, thin, name="drawer bottom")
    bottom.lay("x", "y").put(x0=x + t - GROOVE, y1=y + run, z0=z + UNDER)
    for wall_part in (left, right, front):
        piece.housed(bottom, wall_part, slack=PLAY, glued=False)
    piece.screws(bottom, back, n=3, gauge=6, inset=50, role="locates")
    return {"left": left, "right": right, "front": front, "back": back, "bottom": bottom}
