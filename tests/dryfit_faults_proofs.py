"""Deliberate faults that only a range shows: a saw a little off, a length a little short, a year of moisture."""

from dryfit_fault import fault
from dryfit_pieces import empty, tray
from pieces import build
from scantling.board import Recess
from scantling.dryfit import Ranges, prove
from scantling.tables import movement


def over(**ranges):
    """Ask what a piece does over these ranges and no others."""
    exact = {"saw_error_deg": 0.0, "square_error_deg": 0.0, "length_error_mm": 0.0, "wetter": 0.0, "drier": 0.0}

    def ask(piece, settings):
        return prove(lambda thickness: piece, Ranges({}, **{**exact, **ranges}), settings).findings

    return ask


@fault("saw-error-opens", ("one", "two"), value=0.448, ask=over(saw_error_deg=0.5))
def a_folded_mitre_half_a_degree_off():
    return tray()


@fault("saw-error-opens", ("wall 1", "wall 2", "wall 3", "wall 4"), value=0.448, ask=over(saw_error_deg=0.5))
def a_planter_with_all_its_mitres_half_a_degree_off():
    return build("planter-square")


@fault("saw-error-opens", ("left end", "right end", "front", "back"), ask=over(square_error_deg=0.1))
def a_chest_with_its_ends_a_tenth_of_a_degree_out_of_square():
    return build("chest-with-lid")


def _between(run=600.0):
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x0=18 + run, y0=0, z0=0)
    shelf = piece.part("shelf", run, 300, "ply").lay("x", "y").put(x0=18, y0=0, z0=200)
    for side in (left, right):
        piece.glue(shelf, side)
    return piece


@fault("length-error-opens", ("shelf",), value=0.6, ask=over(length_error_mm=0.6))
def a_shelf_between_two_sides_cut_by_eye():
    return _between()


@fault(
    "length-error-opens", ("bottom", "shelf 1", "shelf 2", "shelf 3", "top"), value=0.5, ask=over(length_error_mm=0.5)
)
def bookcase_shelves_that_nobody_fits_to_the_work():
    piece = build("bookcase")
    piece.parts["bottom"].closing = False
    return piece


def _slats(gap, width=89):
    piece = empty()
    beam = piece.part("beam", 400, 89, "pine").lay("y", "z").put(x0=0, y0=0, z0=0)
    for k in range(3):
        slat = piece.part(f"slat {k}", 500, width, "oak").lay("x", "y").put(x0=0, y0=k * (width + gap), z0=89)
        piece.screws(slat, beam, n=1, role="locates")
    return piece


GROWS = 89 * movement("white-oak").tangential


@fault("swells-shut", ("slat 0", "slat 1", "slat 2"), value=1.5 - 8 * GROWS, ask=over(wetter=8.0))
def slats_laid_too_close_together():
    return _slats(1.5)


@fault("swells-shut", ("door", "post"), value=2.0 - 4 * GROWS, ask=over(wetter=8.0))
def a_solid_door_fitted_too_tight_to_its_post():
    """The door is one board: it grows by half at the edge beside the post, 4 % × width × coefficient of 8 %."""
    piece = empty()
    post = piece.part("post", 600, 89, "ply", name="post").lay("z", "x").put(x1=0, y0=0, z0=0)
    door = piece.part("door", 500, 89, "oak").lay("z", "x").put(x0=2, y0=0, z0=50)
    piece.join("hinged", door, post, clearance=2.0)
    return piece


def _in_a_groove(deep, play=4.0):
    """A solid panel whose near edge stands in a groove of a stile, and its far edge in the open."""
    piece = empty()
    stile = piece.part("stile", 500, 89, "pine").lay("z", "x").put(x0=-89, y0=0, z0=0)
    panel = piece.part("panel", 400, 300, "oak").lay("z", "x").put(x0=-deep, yc=19, z0=50)
    corners = [stile.frame.local((x, y, z)) for x in (-deep - play, 1) for y in (5.5, 32.5) for z in (-1, 501)]
    low, high = zip(*((min(c), max(c)) for c in zip(*corners, strict=True)), strict=True)
    stile.cut(Recess("groove", low[0], high[0], low[1], high[1], low[2], high[2]))
    piece.join("housed", panel, stile, clearance=1.0)
    return piece


PANEL_HALF = 300 * movement("white-oak").tangential / 2


@fault("shrinks-out", ("panel", "stile"), value=4.0 - 6 * PANEL_HALF, ask=over(drier=6.0))
def a_wide_panel_in_a_shallow_groove():
    return _in_a_groove(4.0)


@fault("shrinks-out", ("panel", "stile"), value=6.0 - 16 * PANEL_HALF, ask=over(drier=16.0))
def a_wide_panel_of_wood_not_yet_dry():
    return _in_a_groove(6.0)
