"""One-dimensional cutting against the classes of Falkenauer and of Scholl, Klein and Jürgens, whose optima are proved.

Data: bpp1d_falkenauer_scholl.json in the folder named by SCANTLING_BENCH_DATA (E. Falkenauer, Journal of Heuristics 2,
1996; A. Scholl, R. Klein, C. Jürgens, Computers & Operations Research 24, 1997; optima as collected in BPPLIB by
Delorme, Iori and Martello). Without it a handful of instances made here, with known optima, keeps the bench running.

Run: python tests/bench/bench_boards.py [--every 20] [--seconds 10] [--hard]
"""

import argparse
import json
import os
import time
from collections import Counter, defaultdict
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from random import Random

from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Piece, Stock

FILE = "bpp1d_falkenauer_scholl.json"
BAR = 1355 / 1360
SETS = ("falkenauer", "scholl_bin1data", "scholl_bin2data")
HARD = "scholl_bin3data"


@dataclass(frozen=True)
class Instance:
    name: str
    group: str
    capacity: int
    items: tuple[tuple[int, int], ...]  # (length, how many)
    least: int  # boards of the proved optimum


@dataclass
class Tally:
    instances: int = 0
    proved: int = 0
    boards: int = 0
    least: int = 0
    seconds: float = 0.0
    longest: float = 0.0


def published(hard: bool = False) -> list[Instance] | None:
    """Return the published instances, or None where their folder is not named or the file is not in it."""
    folder = os.environ.get("SCANTLING_BENCH_DATA")
    if not folder or not (path := Path(folder) / FILE).exists():
        return None
    wanted = (*SETS, HARD) if hard else SETS
    return [
        Instance(d["name"], d["set"], d["cap"], tuple((int(w), int(n)) for w, n in d["items"]), d["ub"])
        for d in json.loads(path.read_text(encoding="utf-8"))
        if d["set"] in wanted and d["lb"] == d["ub"]
    ]


def made_here() -> list[Instance]:
    """Boards cut up without any waste at random: as many boards as were cut up are the optimum."""
    instances = []
    for number in range(6):
        random = Random(number)
        capacity, boards = 1000, 8 + 4 * number
        lengths: Counter[int] = Counter()
        for _ in range(boards):
            marks = sorted(random.sample(range(60, capacity - 60), 2))
            edges = [0, *marks, capacity]
            lengths.update(b - a for a, b in pairwise(edges))
        instances.append(Instance(f"made {number}", "made here", capacity, tuple(sorted(lengths.items())), boards))
    return instances


def measure(instances: list[Instance], seconds: float) -> dict[str, Tally]:
    """Cut every instance with at most so many seconds of one core; raise where an answer is wrong or impossible."""
    tallies: dict[str, Tally] = defaultdict(Tally)
    for instance in instances:
        pieces = tuple(Piece(f"p{w}", w, quantity=n) for w, n in instance.items)
        stock = (Stock("board", instance.capacity, price=1),)
        job = Job(pieces, stock, Cutting(cutting_error=0), effort=10**12, least_offcut=(1, 1))
        began = time.process_time()
        nesting = nest_boards(job, out_of_time=lambda began=began: time.process_time() - began > seconds)
        spent = time.process_time() - began
        if faults := check_nesting(job, nesting):
            raise SystemExit(f"{instance.name}: {faults[0]}")
        assert nesting.cost is not None
        assert nesting.bound is not None
        if nesting.bound > instance.least or nesting.cost < instance.least:
            raise SystemExit(f"{instance.name}: {nesting.bound}..{nesting.cost} against the proved {instance.least}")
        tally = tallies[instance.group]
        tally.instances += 1
        tally.proved += nesting.proven_minimal
        tally.boards += nesting.cost
        tally.least += instance.least
        tally.seconds += spent
        tally.longest = max(tally.longest, spent)
    return dict(tallies)


def main() -> None:
    """Print a line per class; exit with 1 where fewer are proved than the bar asks for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--every", type=int, default=1, help="take every n-th instance")
    parser.add_argument("--seconds", type=float, default=10.0, help="of one core, for each instance")
    parser.add_argument("--hard", action="store_true", help="also the hard ten of Scholl's third class")
    options = parser.parse_args()
    instances = published(options.hard)
    if instances is None:
        print(f"SCANTLING_BENCH_DATA does not lead to {FILE}: only the instances made here are run")
        instances = made_here()
    tallies = measure(instances[:: options.every], options.seconds)
    for group, t in tallies.items():
        print(
            f"{group}: {t.proved}/{t.instances} proved, {t.boards} boards (optimum {t.least}), "
            f"mean {t.seconds / t.instances:.3f} s, longest {t.longest:.2f} s"
        )
    counted = [t for group, t in tallies.items() if group != HARD]
    share = sum(t.proved for t in counted) / sum(t.instances for t in counted)
    print(f"proved {share:.4f} (bar {BAR:.4f})")
    raise SystemExit(0 if share >= BAR else 1)


if __name__ == "__main__":
    main()
