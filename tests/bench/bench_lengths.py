"""Our length parser against pint on the same strings, interleaved in one run; prints the ratio (bar: at most 1/12).

Run: python tests/bench/bench_lengths.py
"""

import timeit
from itertools import cycle, islice

import pint

from scantling.measure import parse_length

TEXTS = ("18.5 mm", "3/4 in", "0.75 in", "18 mm", "6 feet", "1.9 cm", "13.75 in", "0.5 m")  # pint reads these right
BAR = 1 / 12
ROUNDS = 5


def measure() -> tuple[float, float]:
    """Return the best time per string of ours and of pint, in microseconds."""
    units = pint.UnitRegistry()
    for text in TEXTS:  # both must agree before they are compared
        ours, theirs = parse_length(text), units.Quantity(text).to("mm").magnitude
        if abs(ours - theirs) > 1e-9:
            raise SystemExit(f"{text}: {ours} and {theirs} differ")
    strings = list(islice(cycle(TEXTS), 400))
    ours_best = theirs_best = float("inf")
    for _ in range(ROUNDS):
        ours_best = min(ours_best, timeit.timeit(lambda: [parse_length(t) for t in strings], number=1))
        theirs_best = min(
            theirs_best, timeit.timeit(lambda: [units.Quantity(t).to("mm").magnitude for t in strings], number=1)
        )
    return ours_best / len(strings) * 1e6, theirs_best / len(strings) * 1e6


def main() -> None:
    """Print the two times and their ratio; exit with 1 above the bar."""
    ours, theirs = measure()
    ratio = ours / theirs
    print(f"ours {ours:.2f} µs, pint {theirs:.1f} µs a string: 1/{theirs / ours:.0f} (bar 1/{1 / BAR:.0f})")
    raise SystemExit(0 if ratio <= BAR else 1)


if __name__ == "__main__":
    main()
