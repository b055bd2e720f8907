"""An independent check of a finished nesting. It shares no code with the search and trusts nothing it says.

Every layout that leaves the service goes through `check_nesting`; one disagreement stops the answer.
"""

from collections import Counter
from math import ceil, cos, radians

from .checker_boards import check_board
from .checker_cuts import Rectangle, find_crowded, find_locked, find_wrong_stages, walk_tree
from .checker_groups import check_groups
from .nouns import Grain, Job, Layout, Nesting, Piece, Placement, Stock, StockGrain


def check_nesting(job: Job, nesting: Nesting) -> tuple[str, ...]:
    """Return every disagreement between a nesting and the job it answers, in plain words; empty means sound.

    Checked: pieces inside the trim, a kerf apart, clear of defects; through-cuts in the stated order and, from the
    placements alone, that the pieces can be sawn apart; grain, groups, sizes, material and thickness; quantities
    placed and left out; stock used; cost and objective added up again; offcuts; bounds not above the objective.
    """
    faults: list[str] = []
    for number, layout in enumerate(nesting.layouts, start=1):
        faults += [f"layout {number} ({layout.stock}): {f}" for f in check_layout(job, layout)]
    faults += _check_quantities(job, nesting)
    faults += check_groups(job, nesting.layouts)
    faults += _check_pinned(job, nesting)
    faults += _check_stock(job, nesting)
    faults += _check_money(job, nesting)
    return tuple(faults)


def check_layout(job: Job, layout: Layout) -> list[str]:
    """Return what is wrong with one layout by itself; quantities are not looked at."""
    stock = next((s for s in job.stock if s.id == layout.stock), None)
    if stock is None:
        return [f"unknown stock {layout.stock}"]
    found = [] if layout.count >= 1 else [f"is made {layout.count} times"]
    found += _check_parts(layout, stock, {p.id: p for p in job.pieces}, job.cutting.kerf)
    found += check_board(job, layout, stock) if stock.width is None else _check_sheet(job, layout, stock)
    return found


def _check_parts(layout: Layout, stock: Stock, pieces: dict[str, Piece], kerf: int) -> list[str]:
    """Check each placement against its piece: size, material, thickness, grain."""
    faults: list[str] = []
    for p in layout.placements:
        piece = pieces.get(p.part)
        if piece is None:
            faults.append(f"{p.part} was never asked for")
            continue
        faults += [f"{p.part}: {f}" for f in _faults_of_part(p, piece, stock, kerf)]
    return faults


def _faults_of_part(p: Placement, piece: Piece, stock: Stock, kerf: int) -> list[str]:
    faults = []
    length, width = _asked(piece, stock, kerf)
    if p.length != length:
        faults.append(f"is cut {_mm(p.length)} long, asked {_mm(length)}")
    if stock.width is None:
        if p.width is not None or p.turned or p.y != 0:
            faults.append("is placed on a board as if it were a sheet")
    elif piece.width is None:
        faults.append("is a piece of board placed on a sheet")
    elif p.end_for_end or p.face_down:
        faults.append("is placed on a sheet as if it were a board")
    elif p.width != width:
        wrong = "no width" if p.width is None else _mm(p.width)
        faults.append(f"is cut {wrong} wide, asked {_mm(width)}")
    if None not in (piece.material, stock.material) and piece.material != stock.material:
        faults.append(f"is of {piece.material}, the stock of {stock.material}")
    if None not in (piece.thickness, stock.thickness) and piece.thickness != stock.thickness:
        faults.append("has another thickness than the stock")
    if piece.stock is not None and piece.stock != stock.id:
        faults.append(f"was to come from {piece.stock}")
    if stock.grain is StockGrain.ALONG and piece.grain is not Grain.ANY and p.turned != (piece.grain is Grain.ACROSS):
        faults.append(f"has its grain the wrong way, asked {piece.grain.value} its length")
    return faults


def _asked(piece: Piece, stock: Stock, kerf: int) -> tuple[int, int]:
    """Return what a piece is cut to: size and allowance, and on a sheet what a tilted blade takes more of a side."""
    length, width = piece.length + piece.oversize, (piece.width or 0) + piece.oversize
    if stock.width is None:
        return length, width
    for bevel in (piece.start_bevel, piece.end_bevel):
        length += ceil(kerf / cos(radians(abs(bevel) / 100)) - 1e-6) - kerf
    for bevel in (piece.near_bevel, piece.far_bevel):
        width += ceil(kerf / cos(radians(abs(bevel) / 100)) - 1e-6) - kerf
    return length, width


def _check_sheet(job: Job, layout: Layout, stock: Stock) -> list[str]:
    """Check one sheet: inside the trim, a kerf apart, cuttable, and the stated cuts give exactly these pieces."""
    assert stock.width is not None  # noqa: S101 - for the type checker; the caller has looked
    trim = job.cutting.trim
    faults: list[str] = []
    rectangles: list[Rectangle] = []
    for p in layout.placements:
        x, y, dx, dy = p.x, p.y, p.along_x, p.along_y
        rectangles.append((x, y, dx, dy, p.part))
        inside_x = trim.start <= x and x + dx <= stock.length - trim.end
        inside_y = trim.near <= y and y + dy <= stock.width - trim.far
        if not (inside_x and inside_y):
            faults.append(f"{p.part} at ({_mm(x)}, {_mm(y)}) lies outside the trimmed sheet")
    for o in layout.offcuts:
        rectangles.append((o.x, o.y, o.along_x, o.along_y, "an offcut"))
        if o.x < 0 or o.y < 0 or o.x + o.along_x > stock.length or o.y + o.along_y > stock.width:
            faults.append("an offcut lies outside the sheet")
        if min(o.along_x, o.along_y) < min(job.least_offcut) or max(o.along_x, o.along_y) < max(job.least_offcut):
            faults.append(f"an offcut of {_mm(o.along_x)} × {_mm(o.along_y)} is smaller than is worth keeping")
    crowded = find_crowded(rectangles, job.cutting.kerf)
    locked = find_locked(rectangles, job.cutting.kerf)
    faults += [f for f in (crowded, locked) if f is not None]
    return faults + _check_tree(job, layout, stock)


def _check_tree(job: Job, layout: Layout, stock: Stock) -> list[str]:
    """Check that the stated cuts can be made and leave exactly the placed pieces and the stated offcuts."""
    root = layout.tree
    if root is None:
        return ["has no tree of cuts"]
    if (root.x, root.y, root.along_x, root.along_y) != (0, 0, stock.length, stock.width):
        return ["its cuts do not start from the whole sheet"]
    leaves, faults = walk_tree(root, job.cutting.kerf)
    if not faults:
        faults = find_wrong_stages(root, job.cutting)
    cut = Counter((n.part, n.x, n.y, n.along_x, n.along_y, n.turned) for n in leaves if n.part is not None)
    placed = Counter((p.part, p.x, p.y, p.along_x, p.along_y, p.turned) for p in layout.placements)
    faults += [f"{key[0]} at ({_mm(key[1])}, {_mm(key[2])}) is placed but not cut" for key in placed - cut]
    faults += [f"{key[0]} at ({_mm(key[1])}, {_mm(key[2])}) is cut but not placed" for key in cut - placed]
    kept = Counter((n.x, n.y, n.along_x, n.along_y) for n in leaves if n.kept)
    if kept != Counter((o.x, o.y, o.along_x, o.along_y) for o in layout.offcuts):
        faults.append("the offcuts listed are not the ones the cuts leave")
    if any(n.kept and n.part is not None for n in leaves):
        faults.append("a part is also kept as an offcut")
    return faults


def _check_quantities(job: Job, nesting: Nesting) -> list[str]:
    """Check that each part is placed or listed as left out exactly as many times as it was asked for."""
    asked: Counter[str] = Counter()
    for piece in job.pieces:
        asked[piece.id] += piece.quantity
    found: Counter[str] = Counter()
    for layout in nesting.layouts:
        for p in layout.placements:
            found[p.part] += layout.count
    faults = []
    for u in nesting.unplaced:
        found[u.part] += u.quantity
        if u.quantity < 1 or not u.reason:
            faults.append(f"{u.part} is left out {u.quantity} times with the reason “{u.reason}”")
    faults += [
        f"{part}: {found[part]} placed or listed as left out, {asked[part]} asked for"
        for part in sorted({*asked, *found})
        if found[part] != asked[part]
    ]
    return faults


def _check_pinned(job: Job, nesting: Nesting) -> list[str]:
    """Check that every layout the caller pinned is there as it was, at least as often."""

    def face(layout: Layout) -> tuple[str, tuple[Placement, ...]]:
        return layout.stock, tuple(sorted(layout.placements, key=lambda p: (p.x, p.y, p.part)))

    there: Counter[tuple[str, tuple[Placement, ...]]] = Counter()
    for layout in nesting.layouts:
        there[face(layout)] += layout.count
    asked: Counter[tuple[str, tuple[Placement, ...]]] = Counter()
    for layout in job.pinned:
        asked[face(layout)] += layout.count
    return [f"a pinned layout of {key[0]} is not kept" for key in asked if there[key] < asked[key]]


def _check_stock(job: Job, nesting: Nesting) -> list[str]:
    """Check that no more stock is used than there is."""
    used: Counter[str] = Counter()
    for layout in nesting.layouts:
        used[layout.stock] += layout.count
    return [
        f"{used[s.id]} of stock {s.id} used, {s.quantity} there"
        for s in job.stock
        if s.quantity is not None and used[s.id] > s.quantity
    ]


def _check_money(job: Job, nesting: Nesting) -> list[str]:
    """Add cost and objective up again and compare them with what is stated and with the bounds."""
    stocks = {s.id: s for s in job.stock}
    used = [(stocks[layout.stock], layout.count) for layout in nesting.layouts if layout.stock in stocks]
    priced = all(s.price is not None for s in job.stock)
    faults = []
    if priced:
        objective = sum((s.price or 0) * n for s, n in used)
        if nesting.cost != objective:
            faults.append(f"cost is stated as {nesting.cost}, the stock used adds up to {objective}")
    else:
        objective = sum(_size(s) * n for s, n in used if not s.offcut)
        if nesting.cost is not None:
            faults.append("a cost is stated though not every stock has a price")
    if nesting.objective != objective:
        faults.append(f"the objective is stated as {nesting.objective}, it adds up to {objective}")
    if nesting.objective_bound > nesting.objective:
        faults.append("the bound lies above the objective")
    if nesting.cost is not None and nesting.bound is not None and nesting.bound > nesting.cost:
        faults.append("the bound of the cost lies above the cost")
    if nesting.proven_minimal and nesting.objective_bound != nesting.objective:
        faults.append("proven minimal is claimed though bound and objective differ")
    if nesting.proven_minimal and nesting.cost is not None and nesting.bound != nesting.cost:
        faults.append("proven minimal is claimed though the bound of the cost and the cost differ")
    if nesting.proven_minimal and nesting.unplaced:
        faults.append("proven minimal is claimed though parts are left out")
    return faults


def _size(stock: Stock) -> int:
    """Return what one bought sheet (its area) or board (its length) adds to the objective when prices are missing."""
    return stock.length * (1 if stock.width is None else stock.width)


def _mm(units: int) -> str:
    return f"{units / 100:.2f} mm"
