"""Reading a piece file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from pydantic import BaseModel

from scantling.errors import Fault, FileFaults
from scantling.piece.built import SIZES, Built
from scantling.piece.files.as_built import Drawn, TriedJoints, TryJoints, as_built
from scantling.piece.files.built_file import built_of
from scantling.piece.files.fixed import Fixed
from scantling.piece.files.resolve import Form, Reading, Resolver
from scantling.piece.files.shape import piece_model
from scantling.piece.files.spec import PieceSpec
from scantling.piece.model import Piece
from scantling.reading import Document, parse_on, read_text

__all__ = [
    "BuiltSource",
    "Reading",
    "TriedJoints",
    "TryJoints",
    "lengths_of",
    "look_at_piece",
    "look_at_piece_text",
    "parse_piece",
    "read_piece",
]

BuiltSource = Built | Document
"""What is made of a piece, or a file that says it."""


def _no_joints(_: Piece) -> TriedJoints:
    return TriedJoints()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """What is made, and what tries the joints it is made with."""

    source: BuiltSource | None
    tried: TryJoints


def look_at_piece(
    path: str | Path,
    *,
    families: Mapping[str, type[BaseModel]],
    given: Mapping[str, str] | None = None,
    built: BuiltSource | None = None,
    tried: TryJoints = _no_joints,
) -> Reading:
    """Read a piece file as far as it goes, to look for more faults in what could be read.

    Parameters
    ----------
    built
        What is made of it already, or the file that says so.
    tried
        Tries its joints.

    Raises
    ------
    FileFaults
        What is wrong with a file nothing can be read from.
    """
    form = _form_of(read_text(path), str(path), piece_model(families))
    return _read(form, given or {}, _Made(source=built, tried=tried))


def look_at_piece_text(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
    built: BuiltSource | None = None,
    tried: TryJoints = _no_joints,
) -> Reading:
    """As :func:`look_at_piece`, from a text."""
    form = _form_of(text, file, piece_model(families))
    return _read(form, given or {}, _Made(source=built, tried=tried))


def read_piece(
    path: str | Path, *, families: Mapping[str, type[BaseModel]], given: Mapping[str, str] | None = None
) -> Piece:
    """Read and resolve a piece file.

    Parameters
    ----------
    path
        The file.
    families
        Options model of each joint family.
    given
        Parameter values instead of the defaults, as a maker writes them.

    Raises
    ------
    FileFaults
        Everything wrong with it, each with line, field, value, rule and remedy.
    """
    return _whole(look_at_piece(path, families=families, given=given))


def parse_piece(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
) -> Piece:
    """As :func:`read_piece`, from a text."""
    return _whole(look_at_piece_text(text, families=families, file=file, given=given))


def lengths_of(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
) -> Callable[[str], float]:
    """What works out lengths as a field of the file would: with its parameters, values and parts' sizes.

    Returns
    -------
    Callable
        Takes a length as written; raises InputError or FileFaults where it is none. [mm]
    """
    form = _form_of(text, file, piece_model(families))
    return Resolver(form, given=given or {}).length_mm


@lru_cache(maxsize=8)
def _form_of(text: str, file: str, model: type[PieceSpec]) -> Form:
    """A file as far as its form goes; the same text is asked for again with every size that is tried."""
    return Form.of(parse_on(text, file=file), model)


def _read(form: Form, given: Mapping[str, str], made: _Made) -> Reading:
    source = made.source
    drawn = Resolver(form, given=given).read()
    if source is None or drawn.faults:
        return drawn
    over_mm = made.tried(drawn.piece).over_mm
    built, faults = built_of(source, drawn, over_mm=over_mm) if isinstance(source, Document) else (source, ())
    if faults:
        return replace(drawn, faults=faults)
    if given:
        built = _as_cut(form, built, made.tried)

    def redraw(fixed: Fixed) -> Piece:
        reading = Resolver(form, given=given, fixed=fixed).read()
        if reading.faults:
            raise FileFaults([_as_measured(fault) for fault in reading.faults])
        return reading.piece

    try:
        names = {
            f"{part}.{size}": name
            for part in drawn.piece.parts
            for size in SIZES
            if (name := _bare_name(form.document, drawn, part, size))
        }
        file = Drawn(piece=drawn.piece, lengths_mm=drawn.lengths_mm, over_mm=over_mm, names=names)
        piece = as_built(file, built, tried=made.tried, redraw=redraw)
    except FileFaults as error:
        return replace(drawn, faults=error.faults)
    return replace(drawn, piece=piece)


def _as_cut(form: Form, built: Built, tried: TryJoints) -> Built:
    """What is told of the making, parts that are done in the sizes of the file: values given came later."""
    if None not in built.cut.values():
        return built
    first = Resolver(form, given={}).read()
    if first.faults:
        return built
    over_mm = tried(first.piece).over_mm
    cut = dict(built.cut)
    for name, size_mm in built.cut.items():
        part, _, size = name.partition(".")
        if size_mm is None and part in first.piece.parts:
            more = over_mm.get(part, 0.0) if size == "length" else 0.0
            cut[name] = float(getattr(first.piece.parts[part], f"{size}_mm")) + more
    return replace(built, cut=cut)


def _as_measured(fault: Fault) -> Fault:
    """A fault of a piece that is drawn well and cannot be drawn as it was measured."""
    remedy = f"Drawn it can be; with what was measured it cannot: measure again. {fault.remedy}".strip()
    return replace(fault, remedy=remedy)


def _bare_name(document: Document, drawn: Reading, part: str, size: str) -> str:
    """The parameter or value that a part's size is written as; empty where it is written otherwise."""
    entry = ("parts", drawn.piece.parts[part].like)
    place = (*entry, "length") if size == "length" else (*entry, "section", 0 if size == "width" else 1)
    text = document.get(place)
    return text.strip() if isinstance(text, str) and text.strip() in drawn.lengths_mm else ""


def _whole(reading: Reading) -> Piece:
    if reading.faults:
        raise FileFaults(reading.faults)
    return reading.piece
