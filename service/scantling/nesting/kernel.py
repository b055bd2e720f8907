"""The compiled nesting kernel, seen from Python: make a search from plain lists, let it work, read its answer.

The library is plain C (folder kernel/), built by the project's build backend and loaded through ctypes. Lengths
already contain one kerf (see sheets.py); work is counted in raw steps, RAW_STEPS of them to one unit of effort.
"""

import ctypes
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

SHAPES = 4
RAW_STEPS = 50  # a unit of effort is about a microsecond of one core
UNLIMITED = -1
ANY_STAGES = 100

Table = np.ndarray[Any, np.dtype[np.int64]]

_SUFFIX = {"win32": ".dll", "darwin": ".dylib"}.get(sys.platform, ".so")
LIBRARY = Path(__file__).with_name("kernel") / f"libscantling_nesting{_SUFFIX}"


class KernelMissing(ImportError):
    """The compiled library is not there: the project was not built."""


@dataclass(frozen=True, slots=True)
class Problem:
    """What the kernel searches: kinds of pieces on stocks, all sizes with one kerf added.

    `shapes[kind]` holds up to four (x, y) sizes; `allowed[kind][stock]` has bit s set where shape s may lie on
    that stock. `first_axis` is 0 (split x first), 1 (split y first) or 2 (either). `target` is a cost nobody can
    beat: reaching it ends the search.
    """

    shapes: tuple[tuple[tuple[int, int], ...], ...]
    allowed: tuple[tuple[int, ...], ...]
    demand: tuple[int, ...]
    stock_sizes: tuple[tuple[int, int], ...]
    stock_costs: tuple[int, ...]
    stock_limits: tuple[int, ...]
    stages: int = ANY_STAGES
    first_axis: int = 2
    target: int = 0
    values: tuple[int, ...] | None = None  # what each kind is worth when not all can be placed; None: its area
    sheets: int | None = None  # the most sheets open at once; None: as many as there could be


@cache
def _library() -> ctypes.CDLL:
    if not LIBRARY.exists():
        raise KernelMissing(
            f"the nesting kernel {LIBRARY.name} is not built: install the project (pip install .), "
            "which compiles it with cc, gcc or clang, or with ziglang from the package registry"
        )
    library = ctypes.CDLL(str(LIBRARY))
    library.nest_new.restype = ctypes.c_void_p
    for name in ("nest_work", "nest_cost", "nest_missing"):
        getattr(library, name).restype = ctypes.c_int64
        getattr(library, name).argtypes = [ctypes.c_void_p]
    library.nest_run.argtypes = [ctypes.c_void_p, ctypes.c_int64]
    library.nest_run.restype = ctypes.c_int32
    library.nest_polish.argtypes = [ctypes.c_void_p, ctypes.c_int64, ctypes.c_int32, ctypes.c_int32]
    library.nest_polish.restype = ctypes.c_int32
    library.nest_aim.argtypes = [ctypes.c_void_p, ctypes.c_int64]
    library.nest_aim.restype = None
    library.nest_best.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_int32]
    library.nest_best.restype = ctypes.c_int32
    library.nest_best_pair.restype = ctypes.c_int64
    library.nest_offer.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_int32]
    library.nest_offer.restype = ctypes.c_int32
    library.nest_free.argtypes = [ctypes.c_void_p]
    return library


def _ints(values: Sequence[int]) -> ctypes.Array[ctypes.c_int32]:
    return (ctypes.c_int32 * max(1, len(values)))(*values)


def best_pair(f: Table, f_cap: Table, g: Table, g_cap: Table, count: Table) -> tuple[int, int, int]:
    """The most sheets over all pairs of rows of `f` and `g`, and the pair; see kernel/volume.c."""
    rows = (ctypes.c_int32 * 2)()
    arrays = [np.ascontiguousarray(a, dtype=np.int64) for a in (f, f_cap, g, g_cap, count)]
    sheets = _library().nest_best_pair(
        ctypes.c_int32(len(f)),
        ctypes.c_int32(len(g)),
        ctypes.c_int32(len(count)),
        *(a.ctypes.data_as(ctypes.c_void_p) for a in arrays),
        rows,
    )
    return int(sheets), int(rows[0]), int(rows[1])


class Search:
    """One search in the kernel. Deterministic: the same problem, seed and work give the same answer."""

    def __init__(self, problem: Problem, seed: int) -> None:
        library = _library()
        kinds, stocks = len(problem.demand), len(problem.stock_sizes)
        flat: list[int] = []
        for shapes in problem.shapes:
            padded = (*shapes, *((0, 0),) * (SHAPES - len(shapes)))
            flat.extend(side for shape in padded for side in shape)
        allowed = bytes(bits for row in problem.allowed for bits in row)
        self._library = library
        self._handle = library.nest_new(
            ctypes.c_int32(kinds),
            ctypes.c_int32(stocks),
            _ints(flat),
            (ctypes.c_uint8 * max(1, len(allowed)))(*allowed),
            _ints(problem.demand),
            _ints([side for size in problem.stock_sizes for side in size]),
            (ctypes.c_int64 * max(1, stocks))(*problem.stock_costs),
            _ints(problem.stock_limits),
            ctypes.c_int32(_most_sheets(problem)),
            ctypes.c_int32(problem.stages),
            ctypes.c_int32(problem.first_axis),
            ctypes.c_int64(problem.target),
            ctypes.c_uint64(seed & 0xFFFFFFFFFFFFFFFF),
            None if problem.values is None else (ctypes.c_int64 * max(1, kinds))(*problem.values),
        )
        if not self._handle:
            raise MemoryError("the nesting kernel could not get memory for its search")

    def run(self, raw_limit: int) -> bool:
        """Work until `raw_limit` raw steps are counted in all. True where the target is met."""
        result = self._library.nest_run(self._handle, raw_limit)
        if result < 0:
            raise MemoryError("the nesting kernel ran out of memory")
        return bool(result)

    def aim(self, target: int) -> None:
        """Set a higher cost that nobody can beat."""
        self._library.nest_aim(self._handle, target)

    def polish(self, raw_limit: int, worth: tuple[int, int]) -> None:
        """Move pieces at the same cost so that remainders of at least `worth` (either way round) grow."""
        if self._library.nest_polish(self._handle, raw_limit, min(worth), max(worth)) < 0:
            raise MemoryError("the nesting kernel ran out of memory")

    @property
    def work(self) -> int:
        """Raw steps counted so far."""
        return int(self._library.nest_work(self._handle))

    @property
    def cost(self) -> int:
        """Cost of the best solution."""
        return int(self._library.nest_cost(self._handle))

    @property
    def missing(self) -> int:
        """A measure of what the best solution leaves out; 0 where everything is placed."""
        return int(self._library.nest_missing(self._handle))

    def best(self) -> list[int]:
        """Return the best solution as numbers: see kernel/store.c."""
        length = self._library.nest_best(self._handle, None, 0)
        numbers = (ctypes.c_int32 * max(1, length))()
        self._library.nest_best(self._handle, numbers, length)
        return list(numbers)[:length]

    def offer(self, numbers: Sequence[int]) -> bool:
        """Hand over a solution of the same kinds and stocks; it is taken where it is better. True where taken."""
        return bool(self._library.nest_offer(self._handle, _ints(numbers), ctypes.c_int32(len(numbers))))

    def close(self) -> None:
        """Give the kernel's memory back."""
        if self._handle:
            self._library.nest_free(self._handle)
            self._handle = None

    def __del__(self) -> None:
        if getattr(self, "_handle", None):
            self.close()


def _most_sheets(problem: Problem) -> int:
    pieces = sum(problem.demand)
    if problem.sheets is not None:
        return problem.sheets
    if any(limit == UNLIMITED for limit in problem.stock_limits):
        return max(1, pieces)
    return max(1, min(pieces, sum(problem.stock_limits)))
