"""The step of 0.01 mm that every size is set to before anything is placed."""

from math import floor


def snap(mm: float) -> float:
    """Return a length rounded to 0.01 mm, halves away from zero; the step every size is set to before placing."""
    return hundredths(mm) / 100


def hundredths(mm: float) -> int:
    """Return a length as a whole number of 0.01 mm, halves away from zero (a half within 1e-7 counts as one)."""
    steps = floor(abs(mm) * 100 + 0.5 + 1e-7)
    return -steps if mm < 0 else steps
