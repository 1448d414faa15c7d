"""What a piece is planned from: files on the disk, or texts that are kept or being written."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Protocol

from scantling.errors import InputError
from scantling.joinery import look_at, look_at_text
from scantling.piece.built import Built
from scantling.piece.files import Reading
from scantling.plan.refusals import DEFAULT_ROOM
from scantling.reading import Document, read_text
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room, known_room
from scantling.seasons.room_text import parse_room
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.profile_file import default_shop, parse_shop, read_shop
from scantling.stock.racks.notes_file import built_in, built_notes, parse_notes
from scantling.stock.racks.rack import Rack, parse_rack, read_notes
from scantling.store.content import Attached, Content
from scantling.store.stockroom import STOCKROOM, notes_place, takes_stockroom

__all__ = ["FileSources", "Sources", "TextSources", "named_room", "with_notes"]


class Sources(Protocol):
    """Where piece, shop, room and rack come from; each raises FileFaults or InputError."""

    def key(self) -> str:
        """Key of all of it."""
        ...

    def setting_key(self) -> str:
        """Key of shop, room and rack."""
        ...

    def piece(self, given: Mapping[str, str]) -> Reading:
        """The piece for these parameters, as far as it can be read."""
        ...

    def shop(self) -> Shop:
        """The shop."""
        ...

    def room(self) -> Room:
        """The room."""
        ...

    def rack(self) -> Rack | None:
        """The rack; None to plan what to buy."""
        ...

    def notes(self) -> Attached | None:
        """The notes from the bench that are read with the rack, as written; None where there are none."""
        ...


class FileSources:
    """Files, read anew when they have changed.

    Parameters
    ----------
    piece
        The piece file.
    rack, shop
        Files; None plans what to buy, in the shop that comes with the program.
    room
        A file, or the name of a typical room; None takes the usual one.
    stockroom
        Gives the timber there is, for a rack of that name where no file has it; None where there is none.
    measured
        What is measured and done; None takes the notes beside the rack file, or beside the piece
        where the rack is the stockroom.
    fractions
        Smallest fraction of an inch shown, as its denominator; None leaves it to the piece file.
    """

    def __init__(  # noqa: PLR0913 - one for each option of the command
        self,
        piece: Path,
        *,
        rack: Path | None,
        shop: Path | None,
        room: str | Path | None,
        stockroom: Callable[[], Rack | None] | None = None,
        measured: Path | None = None,
        fractions: int | None = None,
    ) -> None:
        self._measured, self._fractions = measured, fractions
        self._piece, self._rack, self._shop, self._room = piece, rack, shop, str(room or DEFAULT_ROOM)
        self._timber = stockroom if rack is not None and takes_stockroom(rack) else None

    def key(self) -> str:
        """Key of the files."""
        return _digest(self._piece, self._measured, *self._beside()) + _timber_key(self._timber)

    def setting_key(self) -> str:
        """Key of the files beside the piece."""
        return _digest(*self._beside()) + _timber_key(self._timber)

    def _beside(self) -> tuple[Path | None, ...]:
        return self._rack, self.notes_place(), self._shop, Path(self._room)

    def piece(self, given: Mapping[str, str]) -> Reading:
        """The piece file, read."""
        built = built_notes(self.notes_place(), measured=self._measured)
        reading = look_at(self._piece, given=given, built=built)
        if self._fractions is None:
            return reading
        return replace(reading, piece=replace(reading.piece, fractions=self._fractions))

    def shop(self) -> Shop:
        """The shop file, read."""
        return default_shop() if self._shop is None else read_shop(self._shop)

    def room(self) -> Room:
        """The room, by file or name."""
        return find_room(self._room)

    def rack(self) -> Rack | None:
        """The rack with its notes, read."""
        rack, place = self.bare_rack(), self.notes_place()
        return rack if rack is None or place is None else read_notes(rack, place, gone=self.from_stockroom)

    def notes(self) -> Attached | None:
        """The file beside the rack; beside the piece where the rack is the timber there is."""
        place = self.notes_place()
        if place is None:
            return None
        return Attached(name=place.name, text=read_text(place)) if place.is_file() else None

    @property
    def from_stockroom(self) -> bool:
        """Whether the rack is the timber there is."""
        return self._timber is not None

    def bare_rack(self) -> Rack | None:
        """The rack without its notes."""
        if self._timber is not None:
            return self._timber()
        return None if self._rack is None else parse_rack(read_text(self._rack), file=str(self._rack))

    def notes_place(self) -> Path | None:
        """Where the notes are written; None without a rack."""
        return notes_place(self._rack, piece=self._piece)


class TextSources:
    """Texts, as the records keep them.

    Parameters
    ----------
    content
        The texts.
    name
        What the piece file is called where a fault is told.
    stockroom
        Gives the timber there is, for a rack of that name; None where there is none to ask.
    built
        What is made of the piece already; None where nothing is.
    """

    def __init__(
        self,
        content: Content,
        *,
        name: str = "piece.yaml",
        stockroom: Callable[[], Rack | None] | None = None,
        built: Built | None = None,
    ) -> None:
        self._content, self._name, self._built = content, name, built
        rack = content.rack
        takes_timber = rack is not None and rack.text is None and rack.name == STOCKROOM
        self._timber = stockroom if takes_timber else None

    def key(self) -> str:
        """Key of the texts, and of the timber there is where it counts."""
        return f"{self._content.digest} {self._built!r} {_timber_key(self._timber)}"

    def setting_key(self) -> str:
        """Key of what goes with the piece; the texts never change."""
        return _timber_key(self._timber)

    def piece(self, given: Mapping[str, str]) -> Reading:
        """The piece's text, read with the parameters kept beside it and these, which come first."""
        given = {**self._content.given, **given}
        return look_at_text(
            self._content.piece, file=self._name, given=given, built=self._built or self._noted()
        )

    def _noted(self) -> Document | None:
        """What the bench notes say of the piece; None where they say nothing of it."""
        notes = self._content.bench
        return None if notes is None or notes.text is None else built_in(notes.text, file=notes.name)

    def shop(self) -> Shop:
        """The shop's text, read."""
        shop = self._content.shop
        if shop is None:
            return default_shop()
        return parse_shop(_text(shop, "shop"), file=shop.name)

    def room(self) -> Room:
        """The room's text, read, or the typical room of that name."""
        room = self._content.room
        if room is None or room.text is None:
            return named_room(DEFAULT_ROOM if room is None else room.name)
        return parse_room(room.text, file=room.name)

    def rack(self) -> Rack | None:
        """The rack's text, read, or the timber there is."""
        rack = self._bare()
        notes = self._content.bench
        return (
            rack if rack is None or notes is None else with_notes(rack, notes, gone=self._timber is not None)
        )

    def notes(self) -> Attached | None:
        """The notes' text."""
        return self._content.bench

    def _bare(self) -> Rack | None:
        if self._timber is not None:
            return self._timber()
        rack = self._content.rack
        return None if rack is None else parse_rack(_text(rack, "rack"), file=rack.name)


def with_notes(rack: Rack, notes: Attached, *, gone: bool) -> Rack:
    """A rack with the notes beside it.

    Parameters
    ----------
    rack
        The rack.
    notes
        The notes, with their text.
    gone
        Whether its boards may have left it since the notes were written, as they leave a stockroom.

    Raises
    ------
    FileFaults
        Every fault of the notes.
    """
    text = _text(notes, "bench")
    boards = (*rack.boards, *rack.sheets)
    return replace(rack, notes=parse_notes(text, file=notes.name, boards=boards, gone=gone))


def _timber_key(timber: Callable[[], Rack | None] | None) -> str:
    """Key of the timber there is, where it counts; an empty stockroom is told when it is planned with."""
    if timber is None:
        return ""
    try:
        rack = timber()
    except InputError:
        rack = None
    return hashlib.sha256(repr(rack and rack.boards).encode()).hexdigest()


def named_room(name: str) -> Room:
    """A typical room or a town, and no file: a name that is kept leads to nothing that lies on the disk."""
    if name.casefold().endswith((".yaml", ".yml")):
        raise InputError(
            code="unknown_room",
            field="room",
            value=name[:80],
            rule="must be a typical room or a town, or come with its text",
            remedy="Send the room file's text with its name.",
        )
    return known_room(name)


def _text(attached: Attached, what: str) -> str:
    if attached.text is None:
        raise InputError(
            code=f"unknown_{what}",
            field=what,
            value=attached.name[:80],
            rule="must come with its text",
            remedy=f"Send the {what} file's text with its name.",
        )
    return attached.text


def _digest(*sources: Path | None) -> str:
    digest = hashlib.sha256()
    for source in sources:
        content = source.read_bytes() if source is not None and source.is_file() else b""
        digest.update(f"\0{source}\0".encode() + content)
    return digest.hexdigest()
