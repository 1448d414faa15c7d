"""General-purpose packages asked the same question as a user would otherwise ask them.

The rectangle packer knows neither defects nor order of cuts: it gets racks without defects, and what it
returns  Both are thus asked something easier than the staged search.
"""

from __future__ import annotations

from itertools import product

from scantling.stock import Board, LayoutRequest

SCALE = 10
"""Units per millimeter in the peers' whole numbers."""


def _room(board: Board, request: LayoutRequest) -> tuple[int, int]:
    cutting = request.cutting
    length = board.length_mm - board.left_trim_mm - board.right_trim_mm + cutting.crosscut_kerf_mm
    width = board.width_mm - cutting.straight_edge_mm - cutting.far_edge_mm + cutting.rip_kerf_mm
    return int(length * SCALE), int(width * SCALE)


def _sizes(request: LayoutRequest) -> list[tuple[int, int]]:
    cutting = request.cutting
    return [
        (
            -int(-(b.length_mm + cutting.crosscut_kerf_mm) * SCALE // 1),
            -int(-(b.width_mm + cutting.rip_kerf_mm) * SCALE // 1),
        )
        for b in request.blanks
    ]


def packer_price(request: LayoutRequest) -> float | None:
    """Least price over every packing rule, sorting and three orders of the boards; None if none fits all."""
    import rectpack

    sizes = _sizes(request)
    rate = {b.name: (b.price_total or 0.0) / (b.length_mm * b.width_mm) for b in request.boards}
    orders = (
        sorted(request.boards, key=lambda b: rate[b.name]),
        sorted(request.boards, key=lambda b: b.length_mm * b.width_mm),
        sorted(request.boards, key=lambda b: -b.length_mm * b.width_mm),
    )
    rules = [
        rectpack.MaxRectsBl,
        rectpack.MaxRectsBssf,
        rectpack.MaxRectsBaf,
        rectpack.SkylineMwf,
        rectpack.GuillotineBssfSas,
    ]
    sorts = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE)
    bins = (rectpack.PackingBin.BBF,)
    best: float | None = None
    for rule, sort, order, choice in product(rules, sorts, orders, bins):
        packer = rectpack.newPacker(
            mode=rectpack.PackingMode.Offline,
            bin_algo=choice,
            pack_algo=rule,
            sort_algo=sort,
            rotation=False,
        )
        for number, size in enumerate(sizes):
            packer.add_rect(*size, rid=number)
        for board in order:
            packer.add_bin(*_room(board, request), bid=board.name)
        packer.pack()
        if len(packer.rect_list()) == len(sizes):
            used = {b.bid for b in packer}
            price = sum(b.price_total or 0.0 for b in request.boards if b.name in used)
            best = price if best is None else min(best, price)
    return best


def plain_model_price(request: LayoutRequest, *, seconds: float) -> tuple[float | None, float]:
    """Price and bound of a plain constraint model: which board, where, no overlap, off the defects."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    boards, sizes = request.boards, _sizes(request)
    used = [model.new_bool_var("") for _ in boards]
    boxes: list[list[tuple[object, object]]] = [[] for _ in boards]
    for blank, (length, width) in zip(request.blanks, sizes, strict=True):
        here = []
        for n, board in enumerate(boards):
            room = _room(board, request)
            if length > room[0] or width > room[1]:
                continue
            on = model.new_bool_var(f"{blank.name}@{board.name}")
            x = model.new_int_var(0, room[0] - length, "")
            y = model.new_int_var(0, room[1] - width, "")
            boxes[n].append(
                (
                    model.new_optional_fixed_size_interval_var(x, length, on, ""),
                    model.new_optional_fixed_size_interval_var(y, width, on, ""),
                )
            )
            model.add_implication(on, used[n])
            here.append(on)
        model.add_exactly_one(here)
    for n, board in enumerate(boards):
        for d in board.defects:
            x0 = int((d.x_mm - board.left_trim_mm + request.cutting.crosscut_kerf_mm) * SCALE)
            y0 = int((d.y_mm - request.cutting.straight_edge_mm + request.cutting.rip_kerf_mm) * SCALE)
            x1 = int((d.x_mm + d.length_mm - board.left_trim_mm) * SCALE) + 1
            y1 = int((d.y_mm + d.width_mm - request.cutting.straight_edge_mm) * SCALE) + 1
            if x1 > x0 and y1 > y0:
                boxes[n].append(
                    (
                        model.new_fixed_size_interval_var(x0, x1 - x0, ""),
                        model.new_fixed_size_interval_var(y0, y1 - y0, ""),
                    )
                )
        model.add_no_overlap_2d([b[0] for b in boxes[n]], [b[1] for b in boxes[n]])
    model.minimize(sum(round((b.price_total or 0.0) * 100) * u for b, u in zip(boards, used, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return (solver.objective_value / 100 if found else None), solver.best_objective_bound / 100
