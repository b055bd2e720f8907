"""A plan as the papers need it: read from a plain answer once, then shared by every sheet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scantling.board import Assembly, Part, assembly_from_plain
from scantling.drawing.explode import Bring

from .layouts import marks_of
from .options import Options

Plain = Mapping[str, Any]
Describes = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Piece:
    """One module of the plan: its id, how many are made, its plain answer, the piece in space, its steps."""

    id: str
    quantity: int
    answer: Plain
    assembly: Assembly

    @property
    def title(self) -> str:
        """What it is, as a heading."""
        times = f"{self.quantity} × " if self.quantity > 1 else ""
        return f"{times}{self.id}" if self.id != self.assembly.module else f"{times}{self.assembly.title}"

    def brings(self) -> list[Bring]:
        """Return the steps of assembly as movements, computed ones with their direction."""
        return [_bring(step) for step in self.answer["steps"]]


def _bring(step: Plain) -> Bring:
    along = step.get("comes_along")
    off = None if along is None else (-along[0], -along[1], -along[2])
    return Bring(tuple(step.get("brings", step.get("parts", ()))), tuple(step.get("to", ())), off)


@dataclass(frozen=True, slots=True)
class CutRow:
    """One row of the cut list with the part it is cut as, its mark in the layouts, and the piece it belongs to."""

    plain: Plain
    piece: Piece
    part: Part
    mark: str

    @property
    def heading(self) -> str:
        """Mark, id and how many, as the head of a drawing."""
        names = self.plain["ids"]
        shown = names[0] if len(names) == 1 else f"{names[0]} … {names[-1]}"
        mark = f"{self.mark}  " if self.mark else ""
        return f"{mark}{self.piece.id}: {shown} — {self.plain['quantity']} off"


@dataclass(frozen=True, slots=True)
class Dossier:
    """The whole plan. `request` is what was posted, `describes` says what each parameter of a module is."""

    name: str
    plan: Plain
    pieces: tuple[Piece, ...]
    rows: tuple[CutRow, ...]
    options: Options
    request: Plain
    describes: Mapping[str, Mapping[str, Any]]

    @property
    def nesting(self) -> Plain | None:
        """The layouts, where the plan has them."""
        found: Plain | None = self.plan.get("nesting")
        return found

    @property
    def costing(self) -> Plain | None:
        """The costs, where the plan has them."""
        found: Plain | None = self.plan.get("costing")
        return found


def project_dossier(
    plan: Plain,
    options: Options,
    request: Plain | None = None,
    describes: Mapping[str, Mapping[str, Any]] | None = None,
) -> Dossier:
    """Return the dossier of a whole project from its plain answer."""
    pieces = tuple(Piece(m["id"], m["quantity"], m, assembly_from_plain(m["assembly"])) for m in plan["modules"])
    marks = marks_of(plan["nesting"])
    return Dossier(
        plan["name"], plan, pieces, _rows(plan["cut_list"], pieces, marks), options, request or {}, describes or {}
    )


def piece_dossier(
    answer: Plain,
    options: Options,
    request: Plain | None = None,
    describes: Mapping[str, Mapping[str, Any]] | None = None,
) -> Dossier:
    """Return the dossier of one piece from the plain answer about it; it has no layouts and no costs."""
    assembly = assembly_from_plain(answer["assembly"])
    piece = Piece(answer["module"], 1, answer, assembly)
    plan = {
        "name": assembly.title,
        "summary": answer["summary"],
        "modules": [{"id": answer["module"], "quantity": 1, **answer}],
        "findings": answer["findings"],
        "cautions": answer["cautions"],
        "mass_kg": answer["mass_kg"],
    }
    rows = [{**row, "module": answer["module"], "lot": _lot(row)} for row in answer["parts"]]
    marks = {row["id"]: str(i) for i, row in enumerate(rows, 1)}
    return Dossier(
        assembly.title, plan, (piece,), _rows(rows, (piece,), marks), options, request or {}, describes or {}
    )


def _lot(row: Plain) -> str:
    return f"{row['material']} {row['thickness_mm']:g} mm"


def _rows(rows: Sequence[Plain], pieces: Sequence[Piece], marks: Mapping[str, str]) -> tuple[CutRow, ...]:
    by_id = {p.id: p for p in pieces}
    found = []
    for row in rows:
        piece = by_id[row["module"]]
        found.append(CutRow(row, piece, piece.assembly.parts[row["ids"][0]], marks.get(row["id"], "")))
    return tuple(found)
