"""What the checks of strength, standing, people, weather and hands add to a piece, beside its dry fit in the same run.

Run it by itself; it prints the best of many runs in milliseconds of processor time and asserts nothing in seconds.
"""

import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from checked_pieces import checked
from pieces import MODULES, build
from scantling.dryfit import verify
from scantling.dryfit.verify import DEFAULT
from scantling.nesting.saws import parse_saws
from scantling.plan import checks
from scantling.plan.circumstances import Circumstances
from scantling.plan.working_order import order_of_work

RUNS = 15
SAWS = [{"id": "bench saw", "kind": "table saw"}, {"id": "chop saw", "kind": "mitre saw"}]
WHO = Circumstances(exposure="weather", children=True, saws=parse_saws(SAWS), tools=("drill", "router"))


def best(work) -> float:
    """Return the least processor time of many runs, ms."""
    times = []
    for _ in range(RUNS):
        start = process_time()
        work()
        times.append(process_time() - start)
    return min(times) * 1000


def main() -> None:
    """Print, for every shipped module, its parts, what its dry fit takes and what the checks add."""
    print(f"{'module':20} {'parts':>5} {'screws':>6} {'dry fit':>8} {'checks':>7} {'a 30-part piece':>15}")
    for id, module in MODULES.items():
        print(line(id, module))


def line(id: str, module: type) -> str:
    """Return the times of one module; the dry fit and the order of work are done beforehand where checks are timed."""
    piece = build(id)
    fit, parts = verify(piece), len(piece.parts)
    order = order_of_work(piece, fit, WHO, DEFAULT)
    fitting = best(lambda: verify(piece))
    checks.verify, checks.order_of_work = (lambda *_: fit), (lambda *_: order)
    adding = best(lambda: checked(piece, WHO, module.family))
    checks.verify, checks.order_of_work = verify, order_of_work
    screws = len(piece.fasteners)
    return f"{id:20} {parts:5} {screws:6} {fitting:8.1f} {adding:7.1f} {adding * 30 / parts:15.1f}"


if __name__ == "__main__":
    main()
