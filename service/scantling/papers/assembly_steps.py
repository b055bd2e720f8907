"""The steps of assembly: what comes first, how the work lies and is held, a picture, screws and tools, the proof."""

from collections.abc import Iterator, Mapping

from scantling.drawing.assembling import step_pictures
from scantling.drawing.screw_map import kind_of

from .dossier import Dossier, Piece, Plain
from .page import TABLE_MM, Flow, Paragraph

PICTURE_MM = (94.0, 56.0)  # four to a page
LEFT = ("It lies", "It stands")
TURNED = ("Turn it over, so that it lies", "Set it up, so that it stands")


def assembly_steps(flow: Flow, dossier: Dossier) -> None:
    """Write the steps of every piece, and before them the glue-ups where the glue and the clamps are known."""
    for piece in dossier.pieces:
        flow.new_page()
        flow.section(f"Assembly of {piece.title}", room=90)
        steps = piece.answer["steps"]
        if not steps:
            flow.text("No order of assembly was found; see the findings.")
        for stage in piece.answer.get("glue_ups") or ():
            flow.bullet(stage_words(stage))
        drawings = step_pictures(piece.assembly, piece.brings(), *PICTURE_MM)
        work = {row["number"]: row for row in piece.answer.get("work") or ()}
        for number, (step, drawing) in enumerate(zip(steps, drawings, strict=True), 1):
            seen = drawing.title.partition(", ")[2]
            row = work.get(number)
            doing = [*_lying(row), step["text"], *_screws(step, piece, dossier)]
            flow.beside(
                drawing,
                [
                    Paragraph(f"Step {number}", bold=True),
                    *(Paragraph(w, size=TABLE_MM) for w in _ahead(row)),
                    *(Paragraph(w) for w in doing),
                    *(Paragraph(w, size=TABLE_MM) for w in (*_proof(row), f"Drawn as seen {seen}.")),
                ],
            )


def stage_words(stage: Plain) -> str:
    """Return a glue-up in words: which steps, what presses it, how long it takes and waits."""
    first, last = stage["steps"][0], stage["steps"][-1]
    steps = f"step {first}" if first == last else f"steps {first} to {last}"
    tools = [_counted(stage["clamps"], "clamp"), _counted(stage["cauls"], "caul")]
    pressed = [word for word in stage["pressed_by"] if word != "clamps"]
    by = ", ".join([*(t for t in tools if t), *pressed]) or "its own weight"
    wait = f", then leave it {stage['wait_minutes']:g} minutes" if stage["wait_minutes"] else ""
    return f"Glue-up {stage['number']}, {steps}: pressed by {by}; about {stage['minutes']:g} minutes{wait}."


def _counted(number: int, word: str) -> str:
    return f"{number} {word}{'s' if number != 1 else ''}" if number else ""


def _ahead(row: Plain | None) -> Iterator[str]:
    """Yield what is done before the step."""
    if row is not None and row["before"]:
        yield " ".join(["First:", *row["before"]])


def _lying(row: Plain | None) -> Iterator[str]:
    """Yield how the work lies and what holds it."""
    if row is None:
        return
    if row["attitude"]:
        standing = row["attitude"].startswith("as ")
        yield f"{TURNED[standing] if row['turned'] else LEFT[standing]} {row['attitude']}."
    yield from row["held"]


def _proof(row: Plain | None) -> Iterator[str]:
    if row is not None and row["proof"]:
        yield f"Proof: {row['proof']}"


def _screws(step: Plain, piece: Piece, dossier: Dossier) -> Iterator[str]:
    """Yield the screws of a step by size, and the tool for each."""
    counts: dict[tuple[str, str], int] = {}
    for entry in step.get("fasteners", ()):
        id, tool = (entry["id"], entry.get("tool", "")) if isinstance(entry, Mapping) else (entry, "")
        f = piece.assembly.fasteners[id]
        size = f"{kind_of(f)} × {dossier.options.sizes.show(f.length)}"
        counts[size, tool] = counts.get((size, tool), 0) + 1
    for (size, tool), n in counts.items():
        yield f"{n} × {size}" + (f", with the {tool.replace('-', ' ')}" if tool else "")
