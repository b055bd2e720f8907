"""Tables as CSV (RFC 4180): CRLF, a header row, and no cell that a spreadsheet would run as a formula."""

from collections.abc import Iterable, Sequence

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\x00", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def guarded(text: str) -> str:
    """Return text as a cell may hold it: one that would start a formula gets an apostrophe in front.

    The rule is that of the OWASP Application Security Verification Standard, 1.2.10; numbers stay numbers.
    """
    return "'" + text if text.startswith(FORMULA) else text


def cell(value: object) -> str:
    """Return one cell: numbers bare with a decimal point, nothing for None, words for true and false."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(value)
    if isinstance(value, list | tuple):
        value = "; ".join(cell(one) for one in value)
    return _quoted(guarded(str(value)))


def _number(value: int | float) -> str:
    if isinstance(value, int) or not value.is_integer():
        return repr(value)
    return repr(int(value)) if abs(value) < 1e15 else repr(value)


def _quoted(text: str) -> str:
    if any(c in text for c in ',;"\r\n') or text != text.strip():
        return '"' + text.replace('"', '""') + '"'
    return text


def write(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Return the table as UTF-8 bytes."""
    lines = [",".join(columns)]
    lines += [",".join(cell(value) for value in row) for row in rows]
    return ("\r\n".join(lines) + "\r\n").encode("utf-8", "backslashreplace")
