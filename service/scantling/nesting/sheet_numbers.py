"""A kernel solution as numbers (kernel/store.c), sheet by sheet."""

from collections import Counter
from collections.abc import Mapping, Sequence

Sheet = tuple[int, ...]  # the kernel's numbers for one sheet: its stock, then its tree


def split_sheets(numbers: list[int]) -> list[Sheet]:
    """Split a kernel solution into sheets."""
    sheets, at = [], 0
    while at < len(numbers):
        end = _end_of_branch(numbers, at + 1)
        sheets.append(tuple(numbers[at:end]))
        at = end
    return sheets


def _end_of_branch(numbers: list[int], at: int) -> int:
    pending = 1
    while pending:
        if numbers[at] >= 0:
            at += 2
        else:
            pending += numbers[at + 2]
            at += 3
        pending -= 1
    return at


def pieces_of(sheet: Sheet) -> Counter[int]:
    """How many pieces of each kind lie on a sheet."""
    found: Counter[int] = Counter()
    at = 1
    while at < len(sheet):
        if sheet[at] >= 0:
            found[sheet[at]] += 1
            at += 2
        else:
            at += 3
    return found


def renamed(sheet: Sheet, names: Sequence[int] | Mapping[int, int]) -> Sheet:
    """Give every kind on a sheet the number that `names` has for it."""
    numbers, at = list(sheet), 1
    while at < len(numbers):
        if numbers[at] >= 0:
            numbers[at] = names[numbers[at]]
            at += 2
        else:
            at += 3
    return tuple(numbers)


def on_stock(numbers: list[int], stock: Sequence[int]) -> list[int]:
    """Give the stocks of a part of the problem their numbers in the whole."""
    return [n for sheet in split_sheets(numbers) for n in (stock[sheet[0]], *sheet[1:])]
