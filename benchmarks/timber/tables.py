"""A run of one example on a rack drawn for it: what ``scantling boards PIECE --times 40`` asks for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from random import Random

from scantling.cli.job import job_from_files
from scantling.plan.planner import make_plan
from scantling.plan.timber.timber import yard_needs
from scantling.stock import Board, LayoutRequest
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board
from scantling.stock.buying.run import RunPiece, run_request

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SHARE_COMMON = 0.4
FIVE_QUARTERS, EIGHT_QUARTERS = 5, 1
"""Boards drawn for each copy: half as many again as a run needs."""


def drawn_rack(times: int, *, seed: int, species: str) -> tuple[Board, ...]:
    """A rack for so many reading tables: boards for tops and aprons, and thicker ones for legs."""
    rng = Random(f"tables {seed} {times}")
    return tuple(
        draw_board(
            rng,
            NO_1_COMMON if rng.random() < SHARE_COMMON else FAS,
            name=f"{letter}{n + 1}",
            species=species,
            quarters=quarters,
        )
        for letter, quarters, each in (("C", 5.0, FIVE_QUARTERS), ("L", 8.0, EIGHT_QUARTERS))
        for n in range(times * each)
    )


def table_run(times: int, *, seed: int) -> LayoutRequest:
    """So many reading tables on a rack drawn for them."""
    job = job_from_files(EXAMPLES / "reading_table.yaml", shop=EXAMPLES / "shops" / "reading-table.yaml")
    timber = make_plan(replace(job, rack=None)).timber
    piece = RunPiece(name="table", needs=yard_needs(timber, job.shop), times=times)
    return run_request((piece,), drawn_rack(times, seed=seed, species=timber.blanks[0].species))
