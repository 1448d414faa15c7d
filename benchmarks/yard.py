"""How soon the yard answers, board by board, with the pile at twelve.

``python benchmarks/yard.py`` prints the longest answer for three pieces, in time of the processor.
"""

from __future__ import annotations

import time
from dataclasses import replace
from pathlib import Path

from scantling.cli.job import job_from_files
from scantling.plan.planner import make_plan
from scantling.plan.timber.needs import cutting_of
from scantling.stock.buying.yard import Needs, judge_board

__all__ = ["longest_answer_s", "main"]

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
PIECES = {name: name.replace("_", "-") for name in ("reading_table", "sideboard", "five_drawer_chest")}
"""Each piece with the name of its shop and rack."""
LIMIT_S = 1.0
BOARDS = 12


def longest_answer_s(piece: str, shop: str) -> float:
    """Time of the processor for the slowest answer, the pile growing to twelve boards of its rack. [s]"""
    job = job_from_files(
        EXAMPLES / f"{piece}.yaml",
        shop=EXAMPLES / "shops" / f"{shop}.yaml",
        rack=next((EXAMPLES / "racks").glob(f"{shop}.*")),
    )
    assert job.rack is not None
    timber = make_plan(replace(job, rack=None)).timber
    needs = Needs(blanks=timber.blanks, panels=timber.panels, cutting=cutting_of(job.shop))
    pile, longest = list(job.rack.boards[:0]), 0.0
    for board in job.rack.boards[:BOARDS]:
        begun = time.process_time()
        judge_board(board, pile, needs=needs)
        longest = max(longest, time.process_time() - begun)
        pile.append(board)
    return longest


def main() -> int:
    """Print the longest answers; 1 where one is over the limit."""
    answers = {piece: longest_answer_s(piece, shop) for piece, shop in PIECES.items()}
    for piece, longest in answers.items():
        print(f"{piece:<18} {longest:6.2f} s of the processor, limit {LIMIT_S} s")
    return int(max(answers.values()) > LIMIT_S)


if __name__ == "__main__":
    raise SystemExit(main())
