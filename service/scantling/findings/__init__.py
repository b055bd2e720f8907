"""What a computation may notice: the one Finding type and the catalogue of codes."""

from .catalogue import Entry, catalogue, entry
from .finding import Finding, Severity, count_errors, grouped, ranked

__all__ = ["Entry", "Finding", "Severity", "catalogue", "count_errors", "entry", "grouped", "ranked"]
