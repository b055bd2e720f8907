"""How many sheets we take, against the best known and against a packing library, in one run.

    SCANTLING_BENCH_DATA=<folder> python tests/bench/bench_nesting.py sample --seconds 0.5

Sets: tiny, sample (k = 5 and 10 of the 500), bins (all 500), shop, sizes, bulk, first (time to the first answer and
memory on large jobs of our own, no folder needed). Without the folder only tiny and first run, and that is said.
`--seconds` asks for the work that one quiet core does in so long: it is translated into units of effort once, so that
the load of the machine changes nothing but the time printed. `--every 10` takes every tenth of the several sizes.

The library is rectpack with its best single guillotine mode; it knows neither kerf nor the grain of a part, so where
parts are mixed it runs with turning off, the only setting that respects the grain.
"""

import argparse
import random
import resource
import sys
import time
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import rectpack

sys.path.insert(0, str(Path(__file__).parent.parent))

import nesting_sets as sets
from scantling.nesting import Cutting, Grain, Job, Piece, Stock, Trim, nest
from scantling.nesting.search import make_search
from scantling.nesting.sheets import build_problem

UNITS_PER_SECOND = 900_000  # of effort: measured 0.92 million by process time on one quiet core of a server of 2025


def library_sheets(job: Job) -> int | None:
    """Sheets that rectpack's best single guillotine mode takes; None where it leaves a piece out."""
    turning = all(p.grain is Grain.ANY for p in job.pieces)
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.BBF,
        pack_algo=rectpack.GuillotineBlsfLas if turning else rectpack.GuillotineBafMinas,
        sort_algo=rectpack.SORT_SSIDE if turning else rectpack.SORT_PERI,
        rotation=turning,
    )
    kerf, trim = job.cutting.kerf, job.cutting.trim
    for piece in job.pieces:
        for _ in range(piece.quantity):
            packer.add_rect(piece.length + kerf, piece.width + kerf)
    sheet = job.stock[0]
    x, y = sheet.length - trim.start - trim.end + kerf, sheet.width - trim.near - trim.far + kerf
    packer.add_bin(x, y, count=sum(p.quantity for p in job.pieces))
    packer.pack()
    return len(packer) if len(packer.rect_list()) == sum(p.quantity for p in job.pieces) else None


def run(title: str, instances: Iterable[sets.Instance], library: bool = True) -> int:
    """Run a set, print its line (and one by class), return our total of sheets."""
    ours = proved = known = most_over = count = compared = 0
    theirs: int | None = 0 if library else None
    used = 0.0
    by_class: Counter[str] = Counter()
    over: list[str] = []
    started = time.process_time()
    for instance in instances:
        found = nest(instance.job)
        sheets = sum(layout.count for layout in found.layouts)
        stock = {s.id: s for s in instance.job.stock}
        bought = sum(x.count * stock[x.stock].length * stock[x.stock].width for x in found.layouts)
        used += sum(p.length * p.width * p.quantity for p in instance.job.pieces) / bought
        ours += sheets
        proved += found.proven_minimal
        count += 1
        by_class[instance.name.split("_")[0]] += sheets
        if instance.best is not None:
            known += instance.best
            compared += 1
            most_over = max(most_over, sheets - instance.best)
            over += [instance.name] if sheets > instance.best else []
        if theirs is not None:
            theirs += library_sheets(instance.job) or 0
    seconds = time.process_time() - started
    best = "best known -"
    if compared:
        equal = 100 * (compared - len(over)) / compared
        best = f"best known {known}, over it {len(over)}x by {most_over} at most, {equal:.1f} % equal"
    packed = "-" if theirs is None else str(theirs)
    print(
        f"{title:28} {count:4} jobs  ours {ours:6}  {best}  library {packed}  proved {proved:3}  "
        f"mean use {100 * used / max(1, count):.2f} %  {seconds / max(1, count):.2f} s each",
        flush=True,
    )
    if len(by_class) > 1 and compared:
        print(f"{'':28} by class: {', '.join(f'{c} {n}' for c, n in sorted(by_class.items()))}")
        print(f"{'':28} over the best known: {', '.join(over) or 'none'}", flush=True)
    return ours


def large_job(kinds: int, pieces: int) -> Job:
    """A job of our own: so many kinds and pieces on full sheets of 2440 x 1220, kerf 3.2, trim 10, seed 1."""
    draw = random.Random(1)
    each = tuple(
        Piece(f"p{i:04}", draw.randrange(15_000, 90_000), draw.randrange(8_000, 50_000), pieces // kinds, grain)
        for i, grain in enumerate((Grain.ANY, Grain.ALONG) * (kinds // 2) or (Grain.ANY,))
    )
    return Job(each, (Stock("sheet", 244_000, 122_000, price=1),), Cutting(320, Trim(1000, 1000, 1000, 1000)), 1)


def first_answers() -> None:
    """Print what the first answer to large jobs took, and the most memory of the process so far."""
    for kinds, pieces in ((1, 1_000), (50, 5_000), (500, 5_000), (100, 400)):
        job = large_job(kinds, pieces)
        started = time.process_time()
        problem, _ = build_problem(job, job.pieces, job.stock, True)
        search = make_search(problem, job.seed)
        bounded = time.process_time()
        search.advance(1)
        ended = time.process_time()
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        print(
            f"first answer {kinds:4} kinds {pieces:5} pieces  sheets {search.cost:4}  bound {search.bound.sheets:4}  "
            f"bound {bounded - started:.3f} s  then {ended - bounded:.3f} s  memory {memory} MB",
            flush=True,
        )


def main() -> None:
    """Run the sets named on the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("sets", nargs="*", default=["tiny"])
    parser.add_argument("--effort", type=int, default=500_000, help="units of work for each job")
    parser.add_argument("--seconds", type=float, help="instead: the work of so many seconds of one quiet core")
    parser.add_argument("--every", type=int, default=1, help="every so many of the jobs of several sizes")
    asked = parser.parse_args()
    if asked.seconds is not None:
        asked.effort = round(asked.seconds * UNITS_PER_SECOND)
    if sets.folder() is None:
        print(f"*** {sets.MISSING} ***")
        asked.sets = [name for name in asked.sets if name == "first"] or ["tiny"]
    for name in asked.sets:
        if name == "tiny":
            run("tiny", sets.tiny(asked.effort))
        elif name in ("sample", "bins"):
            ks = (5, 10) if name == "sample" else tuple(range(1, 11))
            run(f"{name}, fixed", sets.bin_packing(False, asked.effort, ks))
            run(f"{name}, turning", sets.bin_packing(True, asked.effort, ks))
        elif name == "shop":
            for prefix in ("shop_12t_40p", "shop_25t_100p", "shop_60t_250p"):
                run(prefix, sets.shop_jobs(prefix, asked.effort))
        elif name == "first":
            first_answers()
        elif name == "sizes":
            run(f"several sizes, 1 in {asked.every}", sets.variable_sized(asked.effort, asked.every), library=False)
        elif name == "bulk":
            for instance in sets.bulk(asked.effort):
                run(instance.name, [instance], library=False)
        else:
            parser.error(f"unknown set {name}")


if __name__ == "__main__":
    main()
