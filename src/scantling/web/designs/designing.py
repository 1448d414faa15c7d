"""Designs of one piece, in two steps: its shape at once, its plan a moment later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Lock
from typing import Protocol

from scantling.errors import FileFaults, Finding, InputError, Telling
from scantling.joinery import JointWork
from scantling.papers.sheets import Sheet
from scantling.papers.sheets.all import sheet_of, sheets_of
from scantling.papers.sheets.timber import timber_sheet
from scantling.papers.words.built_words import beside, sizes_of
from scantling.papers.words.offer_terms import Terms
from scantling.piece.built import SIZES
from scantling.piece.files import Reading
from scantling.piece.geometry import Vec
from scantling.piece.model import Piece
from scantling.plan.job import Job
from scantling.plan.parts import finished_parts
from scantling.plan.planner import Planner
from scantling.plan.refusals import every_fault
from scantling.plan.result import Plan
from scantling.plan.timber.laying_out import Question
from scantling.seasons.room import Room
from scantling.shop.profile.profile import Shop
from scantling.solids.explode import explode
from scantling.solids.mesh import PartMesh, meshes_of
from scantling.solids.shape import PartShape, shapes_of
from scantling.stock.racks.rack import Rack
from scantling.units import show_length
from scantling.web.designs.sources import FileSources, Sources

__all__ = ["UNITS", "Design", "Designer", "PieceDesigner", "Shape"]

UNITS = "units"
"""Name under which the unit to show lengths in is asked for, among the parameters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What the picture shows of one set of parameters.

    Parameters
    ----------
    sizes
        By part: label and shown value.
    offsets_mm
        Where each part goes when the piece is pulled apart. [mm]
    """

    piece: Piece
    works: tuple[JointWork, ...]
    shapes: Mapping[str, PartShape]
    meshes: Mapping[str, PartMesh]
    offsets_mm: Mapping[str, Vec]
    sizes: Mapping[str, tuple[tuple[str, str], ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """The shape with everything planned for it.

    Parameters
    ----------
    whole
        Whether nothing is left out; see :meth:`Designer.figures`.
    """

    shape: Shape
    job: Job
    plan: Plan
    sheets: tuple[Sheet, ...]
    findings: tuple[Finding, ...]
    whole: bool = True


class Designer(Protocol):
    """Draws up designs of one piece."""

    def key(self) -> str:
        """Key of all that is read from files; a change of one makes every design new."""
        ...

    def shape(self, given: Mapping[str, str]) -> Shape:
        """The shape for these parameters, and :data:`UNITS`; raises FileFaults or InputError."""
        ...

    def figures(self, shape: Shape) -> Design:
        """The plan of a shape, but for what takes longest; raises FileFaults or InputError."""
        ...

    def completed(self, design: Design) -> Design:
        """The same with what was left out."""
        ...

    def question(self, shape: Shape) -> Question | None:
        """What a shape asks of the boards; None without a rack; raises as :meth:`design`."""
        ...

    def packet(self, design: Design, paper: str) -> bytes:
        """The packet of a design, as PDF on ``a4`` or ``letter``."""
        ...

    def offer(self, design: Design, terms: Terms, paper: str) -> bytes:
        """The offer for a client, as PDF on ``a4`` or ``letter``."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class _Setting:
    """What a piece is planned with, and the key of the files it was read from."""

    key: str
    shop: Shop
    room: Room
    rack: Rack | None


class PieceDesigner:
    """Draws up designs from files, or from other sources.

    Parameters
    ----------
    piece, rack, shop, room
        Files, as in :class:`~scantling.web.designs.sources.FileSources`; or the sources alone.
    planner
        Plans them; one of its own if not given.
    """

    def __init__(
        self,
        piece: Path | Sources,
        *,
        rack: Path | None = None,
        shop: Path | None = None,
        room: str | Path | None = None,
        planner: Planner | None = None,
    ) -> None:
        self._sources: Sources = (
            FileSources(piece, rack=rack, shop=shop, room=room) if isinstance(piece, Path) else piece
        )
        self._planner = planner or Planner()
        self._setting: _Setting | None = None
        self._lock = Lock()

    def key(self) -> str:
        """Key of all that is read."""
        return self._sources.key()

    def shape(self, given: Mapping[str, str]) -> Shape:
        """The shape for these parameters."""
        sizes = {name: value for name, value in given.items() if name != UNITS}
        job = self._job_of(self._sources.piece(sizes))
        if UNITS in given:
            job = replace(job, piece=job.piece.shown_in(_units(given[UNITS])))
        works = self._planner.works(job)
        shapes = shapes_of(job.piece, works)
        meshes = meshes_of(shapes, self._planner.meshes)
        return Shape(
            piece=job.piece,
            works=works,
            shapes=shapes,
            meshes=meshes,
            offsets_mm=explode(job.piece.parts, meshes, works).offsets_mm,
            sizes=_sizes(job.piece, works),
        )

    def figures(self, shape: Shape) -> Design:
        """The plan of a shape, but for what takes longest."""
        job = self._job(shape.piece)
        plan = self._planner.figures(job)
        whole = job.rack is not None and bool(job.rack.boards)
        return Design(
            shape=shape, job=job, plan=plan, sheets=sheets_of(plan), findings=plan.findings, whole=whole
        )

    def completed(self, design: Design) -> Design:
        """The same with what was left out."""
        if design.whole:
            return design
        plan = self._planner.completed(design.plan, design.job)
        timber = sheet_of(plan, timber_sheet)
        sheets = tuple(timber if sheet.id == timber.id else sheet for sheet in design.sheets)
        return replace(design, plan=plan, sheets=sheets, whole=True)

    def question(self, shape: Shape) -> Question | None:
        """What a shape asks of the boards."""
        return self._planner.question(self._job(shape.piece))

    def packet(self, design: Design, paper: str) -> bytes:
        """The packet of a design."""
        from scantling.papers.packet import Paper
        from scantling.papers.pages.packet_pdf import packet_pdf

        wanted = Paper.LETTER if paper == "letter" else Paper.A4
        return packet_pdf(design.job, self._planner, paper=wanted)

    def offer(self, design: Design, terms: Terms, paper: str) -> bytes:
        """The offer of a design."""
        from scantling.papers.packet import Paper
        from scantling.papers.pages.packet_pdf import offer_pdf

        wanted = Paper.LETTER if paper == "letter" else Paper.A4
        return offer_pdf(design.job, self._planner, terms, paper=wanted)

    def _job_of(self, reading: Reading) -> Job:
        """The job of a piece as read; whatever is wrong with it or with its setting is told together."""
        setting = Telling()
        job = setting.tried(lambda: self._job(reading.piece))
        shop, room = (job.shop, job.room) if job else (None, None)
        one = self._planner.one_joint()
        faults = (*every_fault(reading, shop=shop, room=room, one=one), *setting.faults)
        if job is None or faults:
            raise FileFaults(faults)
        return job

    def _job(self, piece: Piece) -> Job:
        with self._lock:
            key = self._sources.setting_key()
            if self._setting is None or self._setting.key != key:
                self._setting = self._read_setting(key)
            setting = self._setting
        return Job(piece=piece, shop=setting.shop, room=setting.room, rack=setting.rack)

    def _read_setting(self, key: str) -> _Setting:
        telling = Telling()
        shop = telling.tried(self._sources.shop)
        room = telling.tried(self._sources.room)
        rack = telling.tried(self._sources.rack)
        if shop is None or room is None or telling.faults:
            raise FileFaults(telling.faults)
        return _Setting(key=key, shop=shop, room=room, rack=rack)


def _units(named: str) -> str:
    if named not in {"mm", "in", "both"}:
        raise InputError(
            code="unknown_units",
            field=UNITS,
            value=named[:40],
            rule="must be mm, in or both",
            remedy="Open the page without it: it shows the unit of the piece file.",
        )
    return named


def _sizes(piece: Piece, works: tuple[JointWork, ...]) -> dict[str, tuple[tuple[str, str], ...]]:
    style = piece.style
    fine = replace(style, denominator=64, step_mm=0.1)

    def shown(part: str, size: str, mm: float) -> tuple[str, str]:
        more = beside(piece.built, part, size, lambda drawn: show_length(drawn, fine))
        told = show_length(mm, style)
        return size.capitalize(), f"{told} ({more})" if more else told

    return {
        part.name: tuple(
            shown(part.name, size, mm) for size, mm in zip(SIZES, sizes_of(part, piece.built), strict=True)
        )
        for part in finished_parts(piece, works)
    }
