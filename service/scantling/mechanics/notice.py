"""How a check becomes a finding: severity from the catalogue, held down where a figure is only remembered."""

from scantling.findings import Finding, Severity, entry
from scantling.tables import Status

_FROM_MEMORY = " (Partly from memory: it informs, it does not decide.)"
LOCAL = "Local codes and licensed practice decide."


def notice(
    code: str,
    message: str,
    *,
    status: Status = Status.READ,
    severity: Severity | None = None,
    parts: tuple[str, ...] = (),
    value: float | None = None,
    limit: float | None = None,
    unit: str | None = None,
    source: str | None = None,
    remedy: str | None = None,
    at_mm: tuple[float, float, float] | None = None,
) -> Finding:
    """Return a finding of a catalogued code; remedy and severity default to the catalogue's.

    Units: value and limit in `unit`, at_mm in mm. Valid: for codes of the catalogue. Raises: KeyError for another code.
    Source: rule of the house: with `status` memory an error is lowered to a warning and the message says why.
    """
    known = entry(code)
    level = severity or known.severity
    if status is Status.MEMORY:
        message = message + _FROM_MEMORY
        level = Severity.WARNING if level is Severity.ERROR else level
    return Finding(
        code,
        level,
        message,
        parts=parts,
        value=value,
        limit=limit,
        unit=unit,
        source=source,
        remedy=remedy or known.remedy,
        at_mm=at_mm,
    )
