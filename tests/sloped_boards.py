"""Boards of a 2 × 4's size and pieces with sloped ends to cut from them."""

from hypothesis import strategies as st

from scantling.nesting.nouns import Piece, Stock

MM = 100
WIDTH, THICK, KERF = 89 * MM, 38 * MM, 320


def board(length: int, **kw: object) -> Stock:
    return Stock("b", length, price=1, board_width=WIDTH, thickness=THICK, **kw)  # type: ignore[arg-type]


SLOPES = st.sampled_from([0, 0, 1500, -1500, 3000, -3000])
BEVELS = st.sampled_from([0, 0, 0, 2000, -2000])


@st.composite
def sloped_pieces(draw, most=5):
    pieces, left = [], draw(st.integers(2, most))
    while left:
        quantity = draw(st.integers(1, left))
        left -= quantity
        pieces.append(
            Piece(
                f"p{len(pieces)}",
                draw(st.integers(150, 500)) * MM,
                quantity=quantity,
                start_slope=draw(SLOPES),
                end_slope=draw(SLOPES),
                start_bevel=draw(BEVELS),
                end_bevel=draw(BEVELS),
                one_face=draw(st.booleans()),
            )
        )
    return tuple(pieces)
