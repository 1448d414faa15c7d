"""From the options of a command to the job they ask for."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.errors import Fault, FileFaults, ModelError, Telling

if TYPE_CHECKING:
    from scantling.papers.sheets.model import Sheet
    from scantling.plan.job import Job

__all__ = [
    "faults_to_serve_with",
    "given_values",
    "job_from_files",
    "job_of",
    "piece_path",
    "wanted_sheets",
]


def given_values(pairs: Sequence[str]) -> dict[str, str]:
    """Parameters from ``--set NAME=VALUE``.

    Raises
    ------
    FileFaults
        ``not_a_setting``, and ``set_twice`` for a name given two values.
    """
    given: dict[str, str] = {}
    faults: list[Fault] = []
    for pair in pairs:
        name, sign, value = pair.partition("=")
        if not sign or not name.strip() or not value.strip():
            faults.append(
                Fault(
                    code="not_a_setting",
                    field="--set",
                    value=pair or "nothing",
                    rule="must be NAME=VALUE",
                    remedy="Write, for example, --set width='28 3/4 in'.",
                )
            )
        elif name.strip() in given:
            faults.append(
                Fault(
                    code="set_twice",
                    field="--set",
                    value=pair,
                    rule=f"must give a name one value; it has {given[name.strip()]} already",
                    remedy="Leave one of the two out.",
                )
            )
        else:
            given[name.strip()] = value.strip()
    if faults:
        raise FileFaults(faults)
    return given


def piece_path(name: str) -> Path:
    """A piece file, or the form of that name."""
    path = Path(name)
    if path.suffix or (name.strip() and path.exists()):
        return path
    from scantling.piece.forms import find_form

    return find_form(name).path


def job_of(options: argparse.Namespace) -> Job:
    """The job a command asks for.

    Raises
    ------
    FileFaults, InputError
        Everything wrong in the files and options.
    """
    telling = Telling()
    given = telling.tried(lambda: given_values(options.given))
    piece = telling.tried(lambda: piece_path(options.piece))
    job = None
    if piece is not None:
        files = {"shop": options.shop, "rack": options.rack, "room": options.room}
        measured = getattr(options, "measured", None)
        job = telling.tried(lambda: job_from_files(piece, given=given, measured=measured, **files))
    telling.refuse()
    if job is None:
        raise ModelError("a job that is neither made nor refused")
    if options.units:
        job = replace(job, piece=job.piece.shown_in(options.units))
    if getattr(options, "fractions", None):
        job = replace(job, piece=replace(job.piece, fractions=options.fractions))
    return job


def job_from_files(
    piece: Path,
    *,
    shop: str | Path | None = None,
    rack: str | Path | None = None,
    room: str | None = None,
    measured: str | Path | None = None,
    given: dict[str, str] | None = None,
) -> Job:
    """The job of a piece with its shop, rack and room, as files or defaults.

    What is measured and done is read from its own file, else from the notes beside the rack; of a piece that
    comes out of the stockroom, beside the piece.
    """
    from scantling.cli.records import rack_of
    from scantling.joinery import look_at
    from scantling.plan.job import Job
    from scantling.plan.refusals import DEFAULT_ROOM, every_fault
    from scantling.seasons.room_file import find_room
    from scantling.shop.profile.profile_file import default_shop, read_shop
    from scantling.stock.racks.notes_file import built_notes
    from scantling.store.stockroom import notes_place

    of_piece, telling = Telling(), Telling()
    telling.faults += _blank({"--shop": shop, "--rack": rack, "--room": room, "--measured": measured})
    made_in = telling.tried(lambda: read_shop(shop) if shop else default_shop())
    stands_in = telling.tried(lambda: find_room(room or DEFAULT_ROOM))
    boards = telling.tried(lambda: rack_of(rack, piece=piece) if rack else None)
    built = telling.tried(lambda: built_notes(notes_place(rack, piece=piece), measured=measured))
    reading = of_piece.tried(lambda: look_at(piece, given=given or {}, built=built))
    if reading is not None:
        of_piece.faults += every_fault(reading, shop=made_in, room=stands_in)
    faults = [*of_piece.faults, *telling.faults]
    if faults or reading is None or made_in is None or stands_in is None:
        raise FileFaults(faults)
    return Job(piece=reading.piece, shop=made_in, room=stands_in, rack=boards)


def _blank(named: Mapping[str, object]) -> list[Fault]:
    """Options that were given and name nothing: to take the default in their place would hide a slip."""
    return [
        Fault(
            code="name_missing",
            field=option,
            value="nothing",
            rule="must name something",
            remedy=f"Name it, or leave {option} out.",
        )
        for option, written in named.items()
        if written is not None and not str(written).strip()
    ]


def faults_to_serve_with(
    piece: Path,
    *,
    shop: str | None = None,
    rack: str | None = None,
    room: str | None = None,
    measured: str | None = None,
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
        job_from_files(piece, shop=shop, rack=rack, room=room, measured=measured, given=given)
    except FileFaults as error:
        if not all(fault.line for fault in error.faults):
            raise
        return error.faults
    return ()


def wanted_sheets(sheets: tuple[Sheet, ...], wanted: Sequence[str]) -> tuple[Sheet, ...]:
    """The sheets asked for by name.

    Raises
    ------
    FileFaults
        ``unknown_sheet``, for each.
    """
    from scantling.reading import did_you_mean

    known = {sheet.id: sheet for sheet in sheets}
    faults = [
        Fault(
            code="unknown_sheet",
            field="--sheet",
            value=name or "nothing",
            rule=f"must be one of {', '.join(known)}",
            remedy=did_you_mean(name, known, otherwise="Leave it out for all of them."),
        )
        for name in dict.fromkeys(wanted)
        if name not in known
    ]
    if faults:
        raise FileFaults(faults)
    return tuple(known[name] for name in dict.fromkeys(wanted))
