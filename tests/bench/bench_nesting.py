"""How many sheets we take, against the best known and against a packing library, in one run.

    SCANTLING_BENCH_DATA=<folder> python tests/bench/bench_nesting.py sample --effort 500000

Sets: tiny, sample (k = 5 and 10 of the 500), bins (all 500), shop, sizes, bulk. Without the folder only the tiny set
runs, and that is said. The library is rectpack with its best single guillotine mode; it knows neither kerf nor the
grain of a part, so where parts are mixed it runs with turning off, the only setting that respects the grain.
"""

import argparse
import sys
import time
from collections.abc import Iterable
from pathlib import Path

import rectpack

sys.path.insert(0, str(Path(__file__).parent.parent))

import nesting_sets as sets
from scantling.nesting import Grain, Job, nest


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
    """Run a set, print one line, return our total of sheets."""
    ours = proved = known = over = count = 0
    theirs: int | None = 0 if library else None
    used = 0.0
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
        if instance.best is not None:
            known += instance.best
            over += sheets > instance.best
        if theirs is not None:
            theirs += library_sheets(instance.job) or 0
    seconds = time.process_time() - started
    best = f"best known {known}, over it {over}x" if known else "best known -"
    packed = "-" if theirs is None else str(theirs)
    print(
        f"{title:28} {count:4} jobs  ours {ours:6}  {best}  library {packed}  proved {proved:3}  "
        f"mean use {100 * used / max(1, count):.2f} %  {seconds / max(1, count):.2f} s each",
        flush=True,
    )
    return ours


def main() -> None:
    """Run the sets named on the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("sets", nargs="*", default=["tiny"])
    parser.add_argument("--effort", type=int, default=500_000)
    asked = parser.parse_args()
    if sets.folder() is None:
        print(f"*** {sets.MISSING} ***")
        asked.sets = ["tiny"]
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
        elif name == "sizes":
            run("several sizes (every 10th)", sets.variable_sized(asked.effort, 10), library=False)
        elif name == "bulk":
            for instance in sets.bulk(asked.effort):
                run(instance.name, [instance], library=False)
        else:
            parser.error(f"unknown set {name}")


if __name__ == "__main__":
    main()
