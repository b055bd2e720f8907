"""The catalogue of finding codes: one TOML file a subject under codes/, read once when first asked for.

Each table of a file is a code (kebab-case) with `title`, `meaning`, `remedy` and `severity` (the usual one).
"""

from dataclasses import dataclass
from functools import cache

from .finding import Severity


@dataclass(frozen=True, slots=True)
class Entry:
    """One code of the catalogue: what it is called, what it means, what usually mends it."""

    code: str
    subject: str
    severity: Severity
    title: str
    meaning: str
    remedy: str


@cache
def catalogue() -> dict[str, Entry]:
    """Return every finding code, sorted by code. Raises ValueError when two subjects claim one code."""
    import tomllib  # here, since most who import findings never read their catalogue
    from importlib import resources

    entries: dict[str, Entry] = {}
    folder = resources.files(__package__) / "codes"
    for file in sorted(folder.iterdir(), key=lambda f: f.name):
        if not file.name.endswith(".toml"):
            continue
        subject = file.name.removesuffix(".toml")
        for code, row in tomllib.loads(file.read_text(encoding="utf-8")).items():
            if code in entries:
                raise ValueError(f"finding code {code!r} stands in {entries[code].subject} and in {subject}")
            entries[code] = Entry(code, subject, Severity(row["severity"]), row["title"], row["meaning"], row["remedy"])
    return dict(sorted(entries.items()))


def entry(code: str) -> Entry:
    """Return the catalogue's entry for a code. Raises KeyError for an unknown code."""
    return catalogue()[code]
