"""``scantling pieces``: files kept with every version, and written out again."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.cli.records import now, opened
from scantling.errors import InputError

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from scantling.store.content import Attached, Content
    from scantling.store.pieces import PieceRecord

__all__ = ["pieces"]


def pieces(options: argparse.Namespace) -> int:
    """Do what the verb says; returns the exit status."""
    return _ACTS[options.act](options)


def _list(options: argparse.Namespace) -> int:
    from scantling.store.pieces import list_pieces

    with opened() as database, database.reading() as records:
        listed = list_pieces(records, put_away=options.put_away)
    if options.json:
        print(json.dumps([asdict(piece) for piece in listed], indent=1, default=str))
        return 0
    for piece in listed:
        print(_line(piece))
    if not listed:
        print("No piece is kept. Keep one with: scantling pieces keep PIECE.yaml")
    return 0


def _keep(options: argparse.Namespace) -> int:
    from scantling.store.pieces import spare_name
    from scantling.store.versions import begin_piece

    content, title = _content(options)
    with opened() as database, database.writing() as records:
        if options.into is None:
            name = options.name or spare_name(records, title)
            piece = begin_piece(records, name, content, now=now(), why=options.why or "Begun")
        else:
            piece = _next_version(records, content, options)
    print(_line(piece))
    return 0


def _next_version(records: Connection, content: Content, options: argparse.Namespace) -> PieceRecord:
    """Save over a piece; what somebody saved since stays, and both are brought together where asked."""
    from scantling.store.stale import StaleParentError
    from scantling.store.versions import save

    into = _found(records, options.into)
    parent = into.current if options.parent is None else options.parent
    try:
        return save(records, into.number, content, parent=parent, now=now(), why=options.why)
    except StaleParentError as stale:
        merged = stale.merged.content
        if merged is not None and options.merge:
            why = options.why or f"With version {stale.current}"
            return save(records, into.number, merged, parent=stale.current, now=now(), why=why)
        places = [f"{found.where} line {found.clash.line}" for found in stale.merged.clashes]
        raise InputError(
            code=stale.code,
            field="--parent",
            value=f"version {parent}",
            rule=f"must be the current version, which is {stale.current}",
            remedy=f"Both changed {', '.join(places)}: write out version {stale.current} and merge by hand."
            if merged is None
            else "The two changes do not touch: say --merge to keep both.",
        ) from stale


def _write(options: argparse.Namespace) -> int:
    from scantling.cli.writing import refuse_if_there, write_bytes
    from scantling.papers.exports import file_stem
    from scantling.store.content import BESIDE
    from scantling.store.versions import content_at

    with opened() as database, database.reading() as records:
        piece = _found(records, options.kept)
        content = content_at(records, piece.number, options.version)
    place = Path(options.output) / f"{file_stem(piece.name)}.yaml"
    files, words = {place: content.piece}, [f"scantling plan {place}"]
    for what in BESIDE:
        one = content.beside(what)
        if one is not None and one.text is not None:
            beside, option = _beside(what, one, content, piece=place)
            files[beside] = one.text
            words += [f"{option} {beside}"] if option else []
        elif one is not None:
            words.append(f"--{what} '{one.name}'")
    words += [f"--set '{key}={value}'" for key, value in content.given.items()]
    for path in files:
        refuse_if_there(path, force=options.force)
    for path, text in files.items():
        write_bytes(path, text.encode())
        print(path)
    print(f"Plan it with: {' '.join(words)}")
    return 0


def _versions(options: argparse.Namespace) -> int:
    from scantling.store.versions import list_versions

    with opened() as database, database.reading() as records:
        piece = _found(records, options.kept)
        listed = list_versions(records, piece.number)
    if options.json:
        print(json.dumps([asdict(version) for version in listed], indent=1, default=str))
        return 0
    for version in listed:
        mark = "*" if version.number == piece.current else " "
        parent = "" if version.parent in {None, version.number - 1} else f" (made from {version.parent})"
        print(f"{mark} {version.number:4}  {version.made_at:%Y-%m-%d %H:%M}  {version.why}{parent}".rstrip())
    return 0


def _undo(options: argparse.Namespace) -> int:
    from scantling.store.versions import undo

    return _stepped(
        options, lambda records, piece: undo(records, piece.number, parent=piece.current, now=now())
    )


def _redo(options: argparse.Namespace) -> int:
    from scantling.store.versions import redo

    return _stepped(
        options, lambda records, piece: redo(records, piece.number, parent=piece.current, now=now())
    )


def _restore(options: argparse.Namespace) -> int:
    from scantling.store.versions import restore

    return _stepped(
        options,
        lambda records, piece: restore(
            records, piece.number, options.version, parent=piece.current, now=now()
        ),
    )


def _put_away(options: argparse.Namespace) -> int:
    from scantling.store.pieces import put_away

    return _stepped(options, lambda records, piece: put_away(records, piece.number, now=now()))


def _take_out(options: argparse.Namespace) -> int:
    from scantling.store.pieces import take_out

    return _stepped(options, lambda records, piece: take_out(records, piece.number))


def _stepped(options: argparse.Namespace, step: Callable[[Connection, PieceRecord], PieceRecord]) -> int:
    """Do one thing to a piece, and tell it as it then is."""
    with opened() as database, database.writing() as records:
        piece = step(records, _found(records, options.kept))
    print(_line(piece))
    return 0


def _found(records: Connection, called: str) -> PieceRecord:
    """A piece by its number, or by what it is called, put away or not."""
    from scantling.reading import did_you_mean
    from scantling.store.pieces import find_piece, list_pieces

    kept = [*list_pieces(records), *list_pieces(records, put_away=True)]
    for piece in kept:
        if piece.name == " ".join(called.split()):
            return piece
    number = called.strip().removeprefix("#")
    if number.isdecimal():
        return find_piece(records, int(number))
    raise InputError(
        code="unknown_piece",
        field="piece",
        value=called.strip() or "nothing",
        rule="must be a piece that is kept, by its name or number",
        remedy=did_you_mean(
            called, [piece.name for piece in kept], otherwise="scantling pieces list shows them."
        ),
    )


def _content(options: argparse.Namespace) -> tuple[Content, str]:
    """What is to be kept of the files named, and the piece's title. A piece with faults is kept too."""
    from scantling.cli.job import given_values, piece_path
    from scantling.errors import ScantlingError
    from scantling.reading import parse_on, read_text
    from scantling.store.content import Content

    path = piece_path(options.piece)
    text = read_text(path)
    try:
        title = str(parse_on(text, file=str(path)).get(("title",)) or path.stem)
    except ScantlingError:
        title = path.stem
    content = Content(
        piece=text,
        given=given_values(options.given),
        shop=_attached(options.shop),
        rack=_attached(options.rack),
        room=_attached(options.room),
        bench=_notes(options.rack, piece=path),
    )
    return content, " ".join(title.split())[:150]


def _attached(named: str | None) -> Attached | None:
    """A file that goes with a piece, or a name alone (a typical room, the stockroom)."""
    from scantling.reading import read_text
    from scantling.store.content import Attached

    if named is None:
        return None
    path = Path(named)
    if path.suffix.casefold() in {".yaml", ".yml", ".csv"} or path.exists():
        return Attached(name=path.name, text=read_text(path))
    return Attached(name=named)


def _notes(rack: str | None, *, piece: Path) -> Attached | None:
    """The notes from the bench beside the rack, or beside the piece that comes out of the stockroom."""
    from scantling.store.stockroom import notes_place

    place = notes_place(rack, piece=piece)
    return _attached(str(place)) if place is not None and place.is_file() else None


def _beside(what: str, one: Attached, content: Content, *, piece: Path) -> tuple[Path, str]:
    """Where what goes with a piece is written, and the option that names it; none names notes found there."""
    from scantling.stock.racks.notes_file import built_in, notes_path, stockroom_notes_path

    def place(of: str, name: str) -> Path:
        return piece.with_name(f"{piece.stem}-{of}{Path(name).suffix or '.yaml'}")

    if what != "bench":
        return place(what, one.name), f"--{what}"
    if content.rack is None:
        measured = built_in(one.text or "", file=one.name) is not None
        return piece.with_name(f"{piece.stem}.bench.yaml"), "--measured" if measured else ""
    if content.rack.text is None:
        return stockroom_notes_path(piece), ""
    return notes_path(place("rack", content.rack.name)), ""


def _line(piece: PieceRecord) -> str:
    count = f"{piece.versions} version{'s' if piece.versions != 1 else ''}"
    away = ", put away" if piece.put_away_at is not None else ""
    return (
        f"{piece.number:4}  {piece.name}: at version {piece.current} of {count}, "
        f"changed {piece.changed_at:%Y-%m-%d %H:%M}{away}"
    )


_ACTS: dict[str, Callable[[argparse.Namespace], int]] = {
    "list": _list,
    "keep": _keep,
    "write": _write,
    "versions": _versions,
    "undo": _undo,
    "redo": _redo,
    "restore": _restore,
    "put-away": _put_away,
    "take-out": _take_out,
}
