"""Several pieces, or several of a piece, laid out on one rack: here, on more processes, or on a cluster."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from scantling.plan.job import Job
    from scantling.stock.buying.run import RunPiece
    from scantling.stock.layouts.layout import Layout
    from scantling.stock.solving.solve import LayoutRequest

__all__ = ["is_run", "run_boards", "workers_of"]


def is_run(options: argparse.Namespace) -> bool:
    """Whether more is asked than one piece laid out in this process."""
    return len(options.piece) > 1 or bool(options.times) or bool(options.cluster)


def workers_of(options: argparse.Namespace) -> int:
    """How many processes may search, as given or as usual."""
    from scantling.errors import InputError
    from scantling.stock.solving.hands import usual_workers

    if options.workers is None:
        return usual_workers()
    if options.workers < 1:
        raise InputError(
            code="workers",
            field="--workers",
            value=str(options.workers),
            rule="must be a whole number from 1 up",
            remedy="Write how many processes may work at once, such as --workers 2.",
        )
    return int(options.workers)


def run_boards(options: argparse.Namespace) -> int:
    """Lay a run out for as long as is given; an interrupt ends the search and keeps the best."""
    from scantling.cli.progress import Progress
    from scantling.cli.show import print_sheets
    from scantling.papers.sheets.run import run_sheet
    from scantling.papers.sheets.show import Show
    from scantling.plan.timber.timber import named_in_full
    from scantling.stock.buying.run import run_request, wishes_left
    from scantling.stock.solving.hands import hands
    from scantling.stock.solving.solve import lay_out

    times = _times(options.times, len(options.piece))
    workers = workers_of(options)
    jobs = _jobs(options)
    pieces = _pieces(_names(options.piece), jobs, times)
    rack = jobs[0].rack
    assert rack is not None, "the caller has seen to it"
    request = run_request(pieces, named_in_full(rack).boards)
    currency = jobs[0].shop.rates.currency
    with hands(workers=workers, cluster=options.cluster or "") as executor:
        layout = lay_out(
            request, rounds=None, seconds=options.seconds, told=Progress(currency), executor=executor
        )
    _check(layout, request)
    show = Show.in_style(jobs[0].piece.style)
    made = tuple((piece.name, piece.times) for piece in pieces)
    print_sheets((run_sheet(layout, pieces=made, left=wishes_left(pieces), show=show, currency=currency),))
    return 0


def _times(given: Sequence[int], pieces: int) -> list[int]:
    """How many of each piece."""
    from scantling.errors import InputError

    times = list(given) or [1]
    if len(times) == 1:
        times *= pieces
    if len(times) != pieces or min(times) < 1:
        raise InputError(
            code="times",
            field="--times",
            value=", ".join(map(str, given)),
            rule=f"must be a whole number from 1 up, once for all or once for each of the {pieces} pieces",
            remedy="Write, for example, --times 40.",
        )
    return times


def _jobs(options: argparse.Namespace) -> list[Job]:
    """The job of every piece, with the faults of all of them at once."""
    from argparse import Namespace

    from scantling.cli.job import job_of
    from scantling.errors import InputError, Telling

    telling = Telling()
    found = []
    for piece in options.piece:
        job = telling.tried(lambda: job_of(Namespace(**{**vars(options), "piece": piece})))  # noqa: B023
        if job is not None:
            found.append(job)
    telling.refuse()
    noted = next((job.rack.notes.file for job in found if job.rack is not None and job.rack.notes.file), "")
    if noted:
        raise InputError(
            code="notes_of_one_piece",
            field="--rack",
            value=noted,
            rule="bench notes tell of one piece and cannot be read for a run",
            remedy="Lay the run out on a copy of the rack or piece file that has no notes beside it.",
        )
    return found


def _pieces(names: list[str], jobs: list[Job], times: list[int]) -> tuple[RunPiece, ...]:
    """What each piece asks for, by its plan."""
    from dataclasses import replace

    from scantling.plan.planner import Planner
    from scantling.plan.timber.timber import yard_needs
    from scantling.stock.buying.run import RunPiece

    planner = Planner()
    return tuple(
        RunPiece(
            name=name,
            needs=yard_needs(planner.plan(replace(job, rack=None)).timber, job.shop),
            times=count,
        )
        for name, job, count in zip(names, jobs, times, strict=True)
    )


def _names(pieces: Sequence[str]) -> list[str]:
    """What copies are called after: the file, with a number where two are named alike."""
    from pathlib import PurePath

    stems = [PurePath(piece).stem for piece in pieces]
    return [s if stems.count(s) == 1 else f"{s} {n}" for n, s in enumerate(stems, start=1)]


def _check(layout: Layout, request: LayoutRequest) -> None:
    """Nothing is printed that the independent checker does not pass."""
    from scantling.errors import ModelError
    from scantling.stock.checking.verify import verify_layout

    broken = verify_layout(
        layout,
        boards=request.boards,
        blanks=request.blanks,
        panels=request.panels,
        cutting=request.cutting,
        wishes=request.wishes,
    )
    if broken:
        raise ModelError(f"a layout that breaks a rule: {broken[0]}")
