"""Steps from the agreed drawing to milled parts."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.model import PartKind
from scantling.plan.making.pace import rate
from scantling.plan.steps.edge_steps import ripped_whole
from scantling.plan.steps.step import Step, Steps, Work
from scantling.plan.timber.drying import Drying
from scantling.shop.milling.ganging import pieces_milled
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.operations.cautions import cautions_at
from scantling.shop.operations.routing import Machine, Operation
from scantling.shop.sizes.gang import Gang
from scantling.units.boardmeasure import MM3_PER_BOARD_FOOT

__all__ = [
    "ACCLIMATE_MIN",
    "CUT_SHEETS",
    "DRY_BOARDS",
    "MILL_TO_SIZE",
    "REST_MIN",
    "milling_steps",
    "sheet_steps",
    "solid_ledgers",
    "timber_steps",
]

ACCLIMATE_MIN = 7 * 1440
"""A week stickered in the shop before milling: 7 to 14 days (a PVA maker's guide). [min]"""
REST_MIN = 48 * 60
"""Rest between first and last milling: 1 to 7 days (common practice). [min]"""
DRY_BOARDS = "Let the boards dry that are too wet"
CUT_SHEETS = "Cut the sheet parts"
MILL_TO_SIZE = "Mill the parts to size"
"""Title of the last milling, after which glue faces begin to age."""

_THICK_MM = 40.0
_SOONER = "Thick boards are dry sooner where they are cut to blanks well over size first (common practice)."

_CUTTING = frozenset({Operation.CROSSCUT_ROUGH, Operation.RIP})
_MILLING = frozenset({Operation.FACE, Operation.EDGE, Operation.PLANE, Operation.SETTLE})


def solid_ledgers(work: Work) -> list[MillingLedger]:
    """Ledgers of the parts that are milled from boards."""
    return [ledger for ledger in work.ledgers if work.piece.parts[ledger.part].kind is not PartKind.SHEET]


def timber_steps(work: Work, steps: Steps) -> None:
    """Agreeing the piece, boards, and their rest in the shop."""
    names = tuple(work.piece.parts)
    feet = sum(ledger.rough_volume_mm3 for ledger in solid_ledgers(work)) / MM3_PER_BOARD_FOOT
    steps.add(
        Step(
            title="Agree the piece with the client and draw it",
            phase="design",
            hands_on_min=rate("design").minutes(count=len(work.piece.alike())),
            parts=names,
        )
    )
    fetch = "Choose the boards and bring them in"
    if work.buys_timber:
        steps.add(
            Step(
                title=fetch,
                phase="timber",
                hands_on_min=rate("fetch_timber").minutes(count=feet),
                needs=steps.before(names),
                parts=names,
            )
        )
    steps.add(
        Step(
            title="Stack the boards on stickers in the shop",
            phase="timber",
            hands_on_min=rate("stack_timber").minutes(count=feet),
            wait_min=ACCLIMATE_MIN if work.buys_timber else 0.0,
            needs=steps.before(names),
            parts=names,
            details=("Measure the moisture of each board at a fresh cut; two points apart is too much.",),
        )
    )
    if work.drying is not None:
        steps.add(_drying_step(work.drying, names, needs=steps.before(names)))


def _drying_step(drying: Drying, names: tuple[str, ...], *, needs: tuple[str, ...]) -> Step:
    """The wait of boards that are too wet, weighed down to what they weigh when they are ready."""
    return Step(
        title=DRY_BOARDS,
        phase="timber",
        hands_on_min=rate("weigh_boards").minutes(count=sum(len(one.boards) for one in drying.boards)),
        wait_min=drying.days * 1440.0,
        needs=needs,
        parts=names,
        details=(
            f"On stickers {drying.where}, until they read {drying.wanted_pct:.1f} %.",
            "Weigh each board today, chalk weight and date on it, and weigh it again every week.",
            *(
                f"{', '.join(one.boards)}: {one.mc_pct:.1f} % now; {one.wait}; ready at "
                f"{one.mass_share_pct:.1f} % of today's weight."
                for one in drying.boards
            ),
            *((_SOONER,) if any(one.thickness_mm >= _THICK_MM for one in drying.boards) else ()),
        ),
    )


def milling_steps(work: Work, steps: Steps) -> None:
    """From rough boards to parts milled to size."""
    ledgers = solid_ledgers(work)
    parts = tuple(ledger.part for ledger in ledgers)
    gangs = tuple({ledger.gang.name: ledger.gang for ledger in ledgers if ledger.gang}.values())
    short = ("short parts",) if gangs else ()
    leaves = [x for x in ledgers if any(one.operation is Operation.RESAW for one in x.passes)]
    pieces = pieces_milled(ledgers)
    meters = sum(ledger.rough.length_mm * ledger.pieces for ledger in ledgers) * 1e-3
    steps.add(
        Step(
            title="Cut the blanks out of the boards",
            phase="milling",
            hands_on_min=rate("rough_cut").minutes(count=pieces),
            needs=steps.before(parts),
            parts=parts,
            details=(
                "Chalk every blank first; crosscut, then rip, in the order of the chalk list.",
                *(f"Leave in one length: {_listed(gang)}." for gang in gangs),
            ),
            cautions=cautions_at(_machines(ledgers, _CUTTING), "crosscutting", "ripping"),
            once=True,
        )
    )
    steps.add(
        Step(
            title="Mill the blanks over size",
            phase="milling",
            hands_on_min=rate("mill_first").minutes(count=pieces, meters=meters),
            wait_min=REST_MIN,
            needs=steps.before(parts),
            parts=parts,
            details=(
                "Flatten one face, plane the other, joint an edge; leave what the milling sheet says.",
                *(f"Mill whole: {_listed(gang)}; {gang.reason}." for gang in gangs),
                *_resaw(leaves),
            ),
            cautions=(
                *cautions_at(_machines(ledgers, _MILLING), "jointing", "planing", *short),
                *cautions_at(_machines(leaves, frozenset({Operation.RESAW})), "bandsawing"),
            ),
        )
    )
    steps.add(
        Step(
            title=MILL_TO_SIZE,
            phase="milling",
            hands_on_min=rate("mill_final").minutes(count=pieces, meters=meters),
            needs=steps.before(parts),
            parts=parts,
            details=(
                "Take the same off both faces; glue panels and laminations on the same day.",
                *(_apart(gang, ripped=ripped_whole(work, gang)) for gang in gangs),
            ),
            cautions=cautions_at(_machines(ledgers, _MILLING), "jointing", "planing", *short),
        )
    )


def _resaw(leaves: list[MillingLedger]) -> tuple[str, ...]:
    """What is resawn before it is milled."""
    if not leaves:
        return ()
    parts = ", ".join(ledger.part for ledger in leaves)
    return (f"Resaw {parts} out of their thickness in pairs; sticker the leaves before they are planed.",)


def sheet_steps(work: Work, steps: Steps) -> None:
    """Parts from sheet material, cut out and cut to size."""
    ledgers = [x for x in work.ledgers if work.piece.parts[x.part].kind is PartKind.SHEET]
    if not ledgers:
        return
    parts = tuple(ledger.part for ledger in ledgers)
    cutting = frozenset({Operation.CUT_SHEET, Operation.SHEET_TO_LINE})
    steps.add(
        Step(
            title=CUT_SHEETS,
            phase="milling",
            hands_on_min=rate("sheet_cut").minutes(count=len(parts)),
            needs=steps.before(parts),
            parts=parts,
            details=(
                "Trim the factory edges, cut out over size with the sheet held up on both sides of the cut, "
                "then to the line; good face down under a hand-held saw, up on a table saw.",
            ),
            cautions=cautions_at(_machines(ledgers, cutting), "ripping"),
        )
    )


def _listed(gang: Gang) -> str:
    tail = f" and a tail of {gang.tail_mm:.0f} mm" if gang.tail_mm > 0.05 else ""
    return f"{', '.join(gang.parts)}{tail}, {gang.length_mm:.0f} mm"


def _apart(gang: Gang, *, ripped: bool) -> str:
    """What is done to a length once it is milled, and ripped where its edges are out of square."""
    keep = ", and keep it so until the edges are ripped" if ripped else ""
    if len(gang.blanks) == 1:
        return f"Mill {gang.parts[0]} with its tail{keep}; saw the tail off only then."
    parts = ", ".join(gang.parts)
    return f"Mill {parts} in their one length{keep}; crosscut them apart only then, in this order."


def _machines(ledgers: Iterable[MillingLedger], operations: frozenset[Operation]) -> tuple[Machine, ...]:
    """With what some operations are done on all parts."""
    return tuple(
        dict.fromkeys(
            done.machine for ledger in ledgers for done in ledger.passes if done.operation in operations
        )
    )
