"""Tables as CSV (RFC 4180): CRLF, a header row, and no cell that a spreadsheet would run as a formula."""

from collections.abc import Iterable, Sequence

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\x00", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def guarded(text: str) -> str:
    """Return text as a cell may hold it: one that would start a formula gets an apostrophe in front.

    The rule is that of the OWASP Application Security Verification Standard, 1.2.10; numbers stay numbers.
    """
    return "'" + text if text.startswith(FORMULA) else text


def cell(value: object, separator: str = ",", decimal: str = ".") -> str:
    """Return one cell: numbers bare, nothing for None, words for true and false, guarded text, lists with "; "."""
    return _quoted(_text(value, decimal), separator)


def _text(value: object, decimal: str) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(value).replace(".", decimal)
    if isinstance(value, list | tuple):
        return "; ".join(_text(one, decimal) for one in value)
    return guarded(str(value))


def _number(value: int | float) -> str:
    if isinstance(value, int) or not value.is_integer():
        return repr(value)
    return repr(int(value)) if abs(value) < 1e15 else repr(value)


def _quoted(text: str, separator: str) -> str:
    if any(c in text for c in (separator, '"', "\r", "\n")) or text != text.strip():
        return '"' + text.replace('"', '""') + '"'
    return text


def write(
    columns: Sequence[str], rows: Iterable[Sequence[object]], *, separator: str = ",", decimal: str = "."
) -> bytes:
    """Return the table as UTF-8 bytes."""
    lines = [separator.join(_quoted(column, separator) for column in columns)]
    lines += [separator.join(cell(value, separator, decimal) for value in row) for row in rows]
    return ("\r\n".join(lines) + "\r\n").encode("utf-8", "backslashreplace")
