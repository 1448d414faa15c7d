"""Checking a layout from nothing: knows the boards, the blanks and the rules, and no solver."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.piece.matching import Looks
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import Board, DefectKind, Face, FirstCut
from scantling.stock.checking.verify_wishes import check_wishes
from scantling.stock.checking.violation import TOLERANCE_MM, Violation
from scantling.stock.layouts.layout import BoardLayout, CutKind, Layout, Placed

__all__ = ["Violation", "verify_board", "verify_layout"]


def _violation(code: str, where: str, message: str) -> Violation:
    return Violation(code=code, where=where, message=message)


def _overlaps(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    """Whether two rectangles (x0, y0, x1, y1) share an area."""
    return (
        a[0] < b[2] - TOLERANCE_MM
        and a[2] > b[0] + TOLERANCE_MM
        and a[1] < b[3] - TOLERANCE_MM
        and a[3] > b[1] + TOLERANCE_MM
    )


def _box(p: Placed) -> tuple[float, float, float, float]:
    return (p.x_mm, p.y_mm, p.x_mm + p.length_mm, p.y_mm + p.width_mm)


def _inside(p: Placed, board: Board, cutting: Cutting) -> Iterator[Violation]:
    where = f"{board.name}/{p.blank.name}"
    x0, y0, x1, y1 = _box(p)
    if x0 < board.left_trim_mm - TOLERANCE_MM or x1 > board.length_mm - board.right_trim_mm + TOLERANCE_MM:
        yield _violation("outside_length", where, f"x {x0:.3f}..{x1:.3f} mm runs into the ends of the board")
    far = min(board.width_at_mm(x0), board.width_at_mm(x1)) - cutting.far_edge_mm
    if y0 < cutting.straight_edge_mm - TOLERANCE_MM or y1 > far + TOLERANCE_MM:
        yield _violation(
            "outside_width", where, f"y {y0:.3f}..{y1:.3f} mm, the board allows up to {far:.3f} mm"
        )
    yield from _looks(p, board, where)


def _looks(p: Placed, board: Board, where: str) -> Iterator[Violation]:
    """Defects under a blank: none that harms it, and one face to show where it must have one."""
    under = [
        d
        for d in board.defects
        if _overlaps(_box(p), (d.x_mm, d.y_mm, d.x_mm + d.length_mm, d.y_mm + d.width_mm))
    ]
    allowed = {
        Looks.CLEAR: (),
        Looks.SAP_INSIDE: (DefectKind.SAPWOOD,),
        Looks.SHOW_CLEAR: (DefectKind.SAPWOOD, DefectKind.STAIN, DefectKind.KNOT),
        Looks.SOUND: (DefectKind.SAPWOOD, DefectKind.STAIN, DefectKind.KNOT),
    }[p.blank.looks]
    for d in under:
        if d.kind not in allowed:
            yield _violation("on_defect", where, f"lies on the {d.kind.value} at {d.x_mm:g} mm")
    if p.blank.looks in (Looks.SAP_INSIDE, Looks.SHOW_CLEAR):
        marked = {face for d in under for face in (Face.FACE, Face.BACK) if d.face in (face, Face.THROUGH)}
        if len(marked) == 2 or p.shows in marked:
            said = "neither face is" if len(marked) == 2 else f"the {p.shows} is not"
            yield _violation("no_show_face", where, f"{said} clear")
        if marked and p.shows is None:
            yield _violation("no_show_face", where, "does not say which face shows")


def _right_size(p: Placed, board: Board) -> Iterator[Violation]:
    where = f"{board.name}/{p.blank.name}"
    along = (p.length_mm, p.width_mm)
    wanted = (p.blank.length_mm, p.blank.width_mm)
    turned = (wanted[1], wanted[0])

    def same(size: tuple[float, float]) -> bool:
        return all(abs(a - b) <= TOLERANCE_MM for a, b in zip(along, size, strict=True))

    if not same(wanted) and (p.blank.grain_fixed or not same(turned)):
        yield _violation("wrong_size", where, f"is {along} mm, wanted {wanted} mm")
    if not accepts_board(p.blank, board):
        yield _violation("wrong_board", where, f"wants {p.blank.species}, the board is {board.species}")
    yield from _rings(p, board, where)


def _rings(p: Placed, board: Board, where: str) -> Iterator[Violation]:
    """Rings as every part of a blank asks for them: 30 and 60 degrees part the three ways."""
    if board.rings is None:
        return
    angle = board.rings.ring_angle_deg
    way = "flat" if angle < 30.0 else "rift" if angle < 60.0 else "quarter"
    for one in (p.blank, *p.blank.members):
        if one.sawn and f"{way}-sawn" not in one.sawn:
            asked = " or ".join(one.sawn)
            yield _violation("wrong_rings", where, f"is to be {asked}, the board is {way}-sawn ({angle:g}°)")
            return


def _apart(layout: BoardLayout, cutting: Cutting) -> Iterator[Violation]:
    for number, a in enumerate(layout.placed):
        for b in layout.placed[number + 1 :]:
            where = f"{layout.board.name}/{a.blank.name}+{b.blank.name}"
            if _overlaps(_box(a), _box(b)):
                yield _violation("overlap", where, "the blanks overlap")
                continue
            ax0, ay0, ax1, ay1 = _box(a)
            bx0, by0, bx1, by1 = _box(b)
            along = max(bx0 - ax1, ax0 - bx1)
            across = max(by0 - ay1, ay0 - by1)
            if (
                along < cutting.crosscut_kerf_mm - TOLERANCE_MM
                and across < cutting.rip_kerf_mm - TOLERANCE_MM
            ):
                yield _violation("no_kerf", where, f"only {max(along, across):.3f} mm apart")


def _cut_up(layout: BoardLayout, cutting: Cutting) -> tuple[dict[str, list[float]], list[Violation]]:
    """Carry out the list of cuts on the bare board, and return the pieces left by name (x0, y0, x1, y1)."""
    board = layout.board
    width = max(board.width_mm, board.far_width_mm or 0.0)
    pieces: dict[str, list[float]] = {board.name: [0.0, 0.0, board.length_mm, width]}
    wrong: list[Violation] = []
    for number, cut in enumerate(layout.cuts, start=1):
        where = f"{board.name}/cut {number}"
        piece = pieces.pop(cut.piece, None)
        if piece is None or cut.order != number:
            wrong.append(_violation("cut_order", where, f"there is no piece {cut.piece!r} to cut"))
            return pieces, wrong
        axis = 0 if cut.kind is CutKind.CROSSCUT else 1
        low = cut.x_mm if axis == 0 else cut.y_mm
        high = low + (cut.length_mm if axis == 0 else cut.width_mm)
        kerf = {
            CutKind.CROSSCUT: cutting.crosscut_kerf_mm,
            CutKind.RIP: cutting.rip_kerf_mm,
            CutKind.STRAIGHTEN: cutting.straight_edge_mm,
        }[cut.kind]
        over_edge = high >= piece[axis + 2] - TOLERANCE_MM or low <= piece[axis] + TOLERANCE_MM
        if not over_edge and high - low < kerf - TOLERANCE_MM:
            wrong.append(_violation("kerf", where, f"takes {high - low:.3f} mm, the saw takes {kerf:.3f} mm"))
        near, far = list(piece), list(piece)
        near[axis + 2], far[axis] = low, high
        for name, rest in zip(cut.yields, (near, far), strict=True):
            size = min(rest[2] - rest[0], rest[3] - rest[1])
            if name and size > 0 and name not in pieces:
                pieces[name] = rest
            elif name or size > TOLERANCE_MM:
                wrong.append(_violation("cut_yield", where, f"leaves {size:.3f} mm for {name!r}"))
    return pieces, wrong


def _stages(layout: BoardLayout) -> Iterator[Violation]:
    """Crosscuts in odd stages and rips in even ones, or the other way round where the rip comes first."""
    rip_first = layout.board.first_cut is FirstCut.RIP
    for cut in layout.cuts:
        crosscut_turn = (cut.stage % 2 == 0) if rip_first else (cut.stage % 2 == 1)
        if crosscut_turn is not (cut.kind is CutKind.CROSSCUT):
            yield _violation(
                "stage", f"{layout.board.name}/cut {cut.order}", f"{cut.kind} in stage {cut.stage}"
            )
        if cut.stage > (3 if rip_first else 4):
            yield _violation("too_many_stages", f"{layout.board.name}/cut {cut.order}", f"stage {cut.stage}")


def _sawn(layout: BoardLayout, cutting: Cutting) -> Iterator[Violation]:
    """The cuts in order must leave exactly the blanks and the offcuts."""
    pieces, wrong = _cut_up(layout, cutting)
    yield from wrong
    wanted = {p.blank.name: list(_box(p)) for p in layout.placed}
    wanted |= {o.name: [o.x_mm, o.y_mm, o.x_mm + o.length_mm, o.y_mm + o.width_mm] for o in layout.offcuts}
    for name in sorted(wanted.keys() ^ pieces.keys()):
        yield _violation("not_freed", f"{layout.board.name}/{name}", "is not what the cuts leave")
    for name in sorted(wanted.keys() & pieces.keys()):
        off = max(abs(a - b) for a, b in zip(wanted[name], pieces[name], strict=True))
        if off > TOLERANCE_MM:
            yield _violation("wrong_place", f"{layout.board.name}/{name}", f"lies {off:.3f} mm off its place")


def _all_there(
    layout: Layout, blanks: tuple[Blank, ...], panels: tuple[FreeWidthPanel, ...]
) -> Iterator[Violation]:
    given = [p.blank for b in layout.boards for p in b.placed] + list(layout.unplaced)
    seen = [m.name for blank in given for m in (blank.members or (blank,))]
    asked = {m.name for blank in blanks for m in (blank.members or (blank,))}
    strips = {f"{s.panel} strip {n}" for s in layout.strips for n in range(1, len(s.widths_mm) + 1)}
    for name in sorted({n for n in seen if seen.count(n) > 1}):
        yield _violation("twice", name, "is laid out more than once")
    for name in sorted(asked | strips - set(seen)):
        if name not in seen:
            yield _violation("missing", name, "is neither placed nor reported as unplaced")
    for name in sorted(set(seen) - asked - strips):
        yield _violation("unasked", name, "was not asked for")
    for panel in panels:
        yield from _panel_whole(layout, panel)


def _panel_whole(layout: Layout, panel: FreeWidthPanel) -> Iterator[Violation]:
    strips = next((s for s in layout.strips if s.panel == panel.name), None)
    if strips is None:
        yield _violation("missing", panel.name, "has no strips and no missing width")
        return
    placed = {
        p.blank.name: p.width_mm - panel.edge_loss_mm
        for b in layout.boards
        for p in b.placed
        if p.blank.name.startswith(f"{panel.name} strip ")
    }
    widths = [placed.get(f"{panel.name} strip {n}", 0.0) for n in range(1, len(strips.widths_mm) + 1)]
    slack = TOLERANCE_MM * (len(widths) + 1)
    if sum(widths) + strips.missing_mm < panel.total_width_mm - slack:
        yield _violation("panel_width", panel.name, f"strips add up to {sum(widths):.3f} mm")
    for width in widths:
        if not panel.least_strip_mm - TOLERANCE_MM <= width <= panel.greatest_strip_mm + TOLERANCE_MM:
            yield _violation("strip_width", panel.name, f"a strip is {width:.3f} mm wide")
    whole = strips.missing_mm <= TOLERANCE_MM
    if len(widths) > panel.greatest_count or (whole and len(widths) < panel.least_count):
        yield _violation("strip_count", panel.name, f"{len(widths)} strips")


def _together(layout: Layout) -> Iterator[Violation]:
    """Blanks that must share a board do, or none of them is placed."""
    groups: dict[str, set[str]] = {}
    for board in layout.boards:
        for p in board.placed:
            if p.blank.same_board:
                groups.setdefault(p.blank.same_board, set()).add(board.board.name)
    for group, names in sorted(groups.items()):
        if len(names) > 1:
            yield _violation("not_together", group, f"lies on the boards {', '.join(sorted(names))}")


def _priced(layout: Layout) -> Iterator[Violation]:
    prices = [b.board.price_total for b in layout.boards]
    total = None if any(p is None for p in prices) else sum(p for p in prices if p is not None)
    if (total is None) != (layout.price is None) or (
        total is not None and layout.price is not None and abs(total - layout.price) > 1e-6
    ):
        yield _violation("price", "layout", f"says {layout.price}, the boards cost {total}")
    whole = sum(b.board.mean_width_mm * b.board.length_mm for b in layout.boards)
    net = sum(p.length_mm * p.width_mm for b in layout.boards for p in b.placed)
    waste = 100.0 * (1.0 - net / whole) if whole > 0 else 0.0
    if abs(waste - layout.waste_pct) > 1e-6:
        yield _violation("waste", "layout", f"says {layout.waste_pct:.3f} %, it is {waste:.3f} %")
    if layout.complete and layout.short_proven:
        yield _violation("short", "layout", "says the wood is not there, and holds every blank")
    comparable = layout.complete and layout.price is not None and layout.bound_price is not None
    if comparable and (layout.bound_price or 0.0) > (layout.price or 0.0) + 1e-6:
        yield _violation("bound", "layout", f"bound {layout.bound_price} above price {layout.price}")


def verify_board(laid: BoardLayout, *, cutting: Cutting) -> list[Violation]:
    """Check one board from nothing: every blank in its place, and the cuts that free it.

    Parameters
    ----------
    laid
        What is claimed.
    cutting
        Kerfs and edges.
    """
    found: list[Violation] = []
    for placed in laid.placed:
        found += _inside(placed, laid.board, cutting)
        found += _right_size(placed, laid.board)
    found += _apart(laid, cutting)
    found += _sawn(laid, cutting)
    found += _stages(laid)
    return found


def verify_layout(
    layout: Layout,
    *,
    boards: tuple[Board, ...],
    blanks: tuple[Blank, ...],
    panels: tuple[FreeWidthPanel, ...] = (),
    cutting: Cutting,
    wishes: tuple[Wish, ...] = (),
) -> tuple[Violation, ...]:
    """Check a layout from nothing.

    Parameters
    ----------
    layout
        What is claimed.
    boards, blanks, panels
        What there is, and what was asked for.
    cutting
        Kerfs and edges.
    wishes
        What was wished.

    Returns
    -------
    tuple of Violation
        Every rule broken; empty for a sound layout.
    """
    found: list[Violation] = []
    rack = {b.name: b for b in boards}
    used = [b.board.name for b in layout.boards]
    if sorted(used + [b.name for b in layout.unused]) != sorted(rack):
        found.append(_violation("boards", "layout", "boards cut and unused are not those of the rack"))
    for board_layout in layout.boards:
        if rack.get(board_layout.board.name) != board_layout.board:
            found.append(_violation("boards", board_layout.board.name, "is not the board of the rack"))
        found += verify_board(board_layout, cutting=cutting)
    found += _all_there(layout, blanks, panels)
    found += _together(layout)
    found += check_wishes(layout, blanks=blanks, wishes=wishes, cutting=cutting)
    found += _priced(layout)
    return tuple(found)
