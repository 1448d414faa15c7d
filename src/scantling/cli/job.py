"""From the options of a command to the job they ask for."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.errors import Fault, FileFaults, InputError

if TYPE_CHECKING:
    from scantling.papers.sheets.model import Sheet
    from scantling.plan.job import Job

__all__ = [
    "DEFAULT_ROOM",
    "faults_to_serve_with",
    "given_values",
    "job_from_files",
    "job_of",
    "piece_path",
    "wanted_sheets",
]

DEFAULT_ROOM = "dry-winter-house"
"""Where no room is named: a heated house, the commonest and the hardest on wood."""


def given_values(pairs: Sequence[str]) -> dict[str, str]:
    """Parameters from ``--set NAME=VALUE``.

    Raises
    ------
    InputError
        ``not_a_setting``.
    """
    given: dict[str, str] = {}
    for pair in pairs:
        name, sign, value = pair.partition("=")
        if not sign or not name.strip() or not value.strip():
            raise InputError(
                code="not_a_setting",
                field="--set",
                value=pair,
                rule="must be NAME=VALUE",
                remedy="Write, for example, --set width='28 3/4 in'.",
            )
        given[name.strip()] = value.strip()
    return given


def piece_path(name: str) -> Path:
    """A piece file, or the form of that name."""
    path = Path(name)
    if path.suffix or path.exists():
        return path
    from scantling.cli.forms import find_form

    return find_form(name).path


def job_of(options: argparse.Namespace) -> Job:
    """The job a command asks for.

    Raises
    ------
    FileFaults, InputError
        Everything wrong in the files and options.
    """
    job = job_from_files(
        piece_path(options.piece),
        shop=options.shop,
        rack=options.rack,
        room=options.room,
        given=given_values(options.given),
    )
    if options.units:
        return replace(job, piece=replace(job.piece, units=options.units))
    return job


def job_from_files(
    piece: Path,
    *,
    shop: str | Path | None = None,
    rack: str | Path | None = None,
    room: str | None = None,
    given: dict[str, str] | None = None,
) -> Job:
    """The job of a piece with its shop, rack and room, as files or defaults."""
    from scantling.joinery import load_piece
    from scantling.plan.job import Job
    from scantling.seasons.room_file import find_room
    from scantling.shop.profile_file import default_shop, read_shop
    from scantling.stock.rack import read_rack

    faults: list[Fault] = []
    made: dict[str, object] = {}
    for name, read in (
        ("piece", lambda: load_piece(piece, given=given or {})),
        ("shop", lambda: read_shop(shop) if shop else default_shop()),
        ("room", lambda: find_room(room or DEFAULT_ROOM)),
        ("rack", lambda: read_rack(Path(rack)) if rack else None),
    ):
        try:
            made[name] = read()
        except FileFaults as error:
            faults.extend(error.faults)
        except InputError as error:
            faults.append(error.fault)
    if faults:
        raise FileFaults(faults)
    return Job(**made)  # type: ignore[arg-type]


def faults_to_serve_with(
    piece: Path,
    *,
    shop: str | None = None,
    rack: str | None = None,
    room: str | None = None,
    given: dict[str, str] | None = None,
) -> tuple[Fault, ...]:
    """The faults inside the files of a job, which its page shows until they are mended.

    Raises
    ------
    FileFaults
        Every fault, if one of them is not on a line of a file: a file that is not there, a wrong option.
        No mending of the file would bring such a page to life.
    """
    try:
        job_from_files(piece, shop=shop, rack=rack, room=room, given=given)
    except FileFaults as error:
        if not all(fault.line for fault in error.faults):
            raise
        return error.faults
    return ()


def wanted_sheets(sheets: tuple[Sheet, ...], wanted: Sequence[str]) -> tuple[Sheet, ...]:
    """The sheets asked for by name.

    Raises
    ------
    InputError
        ``unknown_sheet``.
    """
    known = {sheet.id: sheet for sheet in sheets}
    for name in wanted:
        if name not in known:
            raise InputError(
                code="unknown_sheet", field="--sheet", value=name, rule=f"must be one of {', '.join(known)}"
            )
    return tuple(known[name] for name in dict.fromkeys(wanted))
