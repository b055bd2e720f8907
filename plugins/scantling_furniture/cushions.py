"""What every seat answers about the cushions it is built around."""

from scantling.kit import Assembly, CushionSize, Finding, Severity

SQUEEZE_MM = 13.0  # half an inch less a cushion side by side in a tight row: a cushion maker's advice, practice


def row_slack(piece: Assembly, clear: float, n: int, cushion: CushionSize, where: str = "") -> None:
    """Answer the slack of a row of cushions at both extremes of their size; it is never simply said to fit."""
    loosest, tightest = clear - n * cushion.width.least, clear - n * cushion.width.most
    squeezed = -tightest / n
    severity = Severity.WARNING if squeezed > SQUEEZE_MM else Severity.NOTE
    piece.note(
        Finding(
            "cushion-row-slack",
            severity,
            f"{where or f'The row of {n}'} has {clear:.0f} mm clear: slack from {tightest:.0f} mm with the widest "
            f"cushions to {loosest:.0f} mm with the narrowest (less than nothing means they are squeezed).",
            value=tightest,
            limit=-SQUEEZE_MM * n,
            unit="mm",
            source="a cushion maker's advice of 1/2 in a cushion in a tight row, practice",
            remedy="Raise the gap between cushions, or measure them as they lie side by side.",
        )
    )


def not_measured(piece: Assembly, cushion: CushionSize, which: str) -> None:
    """Say which sizes of a cushion are assumed, and the band the seat height moves in because of it."""
    if not cushion.assumed:
        return
    loaded = cushion.loaded
    piece.note(
        Finding(
            "cushion-not-measured",
            Severity.WARNING,
            f"The {which} cushion is assumed, not measured: sat on, it may be {loaded.least:.0f} to "
            f"{loaded.most:.0f} mm thick, so the height moves by {loaded.most - loaded.least:.0f} mm.",
            value=loaded.most - loaded.least,
            unit="mm",
            source="practice",
            remedy="Measure width, depth and thickness; put it on a hard floor, sit, and measure again. Then cut.",
        )
    )


def sitting_depth(piece: Assembly, depth: float, back: CushionSize) -> None:
    """Answer the depth left to sit on when the back cushion leans in front of the back."""
    most, least = depth - back.loaded.least, depth - back.loaded.most
    piece.note(
        Finding(
            "seat-depth-left",
            Severity.NOTE,
            f"With the back cushion in place {least:.0f} to {most:.0f} mm are left to sit on.",
            value=(least + most) / 2,
            unit="mm",
            source="seat cushion depth less the back cushion, plain geometry",
            remedy="A thinner back cushion gives a deeper seat.",
        )
    )


def stopped_and_drained(piece: Assembly, stopped: str, water: str) -> None:
    """Say what stops the cushion sliding, and how water and air leave from under it."""
    piece.note(
        Finding(
            "cushion-stop", Severity.NOTE, stopped, source="practice", remedy="A non-slip mat holds what nothing stops."
        )
    )
    piece.note(
        Finding("water-and-air", Severity.NOTE, water, source="practice", remedy="Stand cushions on edge after rain.")
    )
