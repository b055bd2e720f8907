"""What drawings cost: best of several runs in ms, beside the bars set for them. Prints, asserts nothing in seconds.

python tests/bench/bench_drawing.py
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from demo_plan import DESCRIBES, demo_plan, demo_request
from pieces import build
from scantling.board import cut_list
from scantling.drawing.assembling import step_pictures
from scantling.drawing.dimension import Sizes
from scantling.drawing.flat import part_drawing
from scantling.drawing.glb import to_glb
from scantling.drawing.isometric import bodies_of, picture
from scantling.drawing.step import to_step
from scantling.drawing.svg import to_svg
from scantling.measure import Tape
from scantling.papers import layout_drawing, render
from scantling.papers.dossier import Piece
from scantling.papers.forms import DXF, PDF, XLSX, ZIP

TAPE = Tape.parse("1/16 in")


def best(work: Callable[[], object], runs: int) -> float:
    """Return the best time of some runs in ms."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times) * 1000


def rows() -> list[tuple[str, float, float | None]]:
    """Return what was measured: name, ms, and the bar in ms where there is one."""
    seat, plan, request = build("leaning-seat"), demo_plan(), demo_request()
    sizes, module = Sizes(TAPE), plan["modules"][0]
    cut = [seat.parts[r.parts[0]] for r in cut_list(seat)]
    sheet = max(plan["nesting"]["layouts"], key=lambda layout: len(layout["placements"]))
    brings = Piece("seat", 1, module, seat).brings()
    for part in seat.parts.values():
        part.cells()
    return [
        (f"isometric, {len(seat.parts)} parts, SVG", best(lambda: to_svg(picture(bodies_of(seat), 180, 140)), 40), 15),
        (f"all {len(cut)} flat drawings", best(lambda: [part_drawing(p, sizes) for p in cut], 20), 15),
        (f"{len(brings)} step pictures", best(lambda: step_pictures(seat, brings, 112, 72), 5), None),
        (
            f"layout, {len(sheet['placements'])} parts, drawn and SVG",
            best(lambda: to_svg(layout_drawing(sheet, 1, 1, TAPE)), 20),
            None,
        ),
        ("the same layout, SVG alone", best(_written(sheet), 40), 1),
        ("GLB", best(lambda: to_glb(seat), 10), None),
        ("STEP", best(lambda: to_step(seat), 10), None),
        ("demo packet, PDF", best(lambda: render("project", plan, PDF, request=request, describes=DESCRIBES), 3), 1000),
        ("demo DXF", best(lambda: render("project", plan, DXF), 3), None),
        ("demo workbook", best(lambda: render("project", plan, XLSX), 3), None),
        ("demo ZIP of everything", best(lambda: render("project", plan, ZIP, request=request), 2), None),
    ]


def _written(sheet: dict) -> Callable[[], object]:
    drawing = layout_drawing(sheet, 1, 1, TAPE)
    return lambda: to_svg(drawing)


def main() -> None:
    """Print a line for each."""
    for name, ms, bar in rows():
        print(f"{name:40} {ms:9.2f} ms" + (f"   (bar {bar} ms)" if bar else ""))


if __name__ == "__main__":
    main()
