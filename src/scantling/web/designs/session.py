"""What the server holds while it runs: the piece's designs, drawn up once each and kept."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Hashable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar

from scantling import __version__
from scantling.errors import Finding, ScantlingError
from scantling.papers.exports import file_stem
from scantling.papers.words.built_words import sizes_of
from scantling.papers.words.joint_naming import words_of
from scantling.papers.words.naming import knowing, label_of, place_words
from scantling.papers.words.offer_terms import Terms
from scantling.papers.words.sentence_units import in_style
from scantling.papers.words.step_cards import step_cards
from scantling.piece.built import SIZES
from scantling.plan.made.built import BUILT_CODES
from scantling.plan.parts import finished_parts
from scantling.plan.planner import Planner
from scantling.plan.steps.fixing import sizes_fixed
from scantling.plan.timber.laying_out import Question
from scantling.solids.explode import scene_vector_m
from scantling.solids.tones import tone_of
from scantling.store.titles import name_in
from scantling.units import LengthStyle
from scantling.web.designs.coalescing import Coalescing
from scantling.web.designs.designing import UNITS, Design, Designer, PieceDesigner, Shape
from scantling.web.designs.measuring import MeasureIn, MeasureView, measured
from scantling.web.designs.taking import export, packet_name, paper_named, picture
from scantling.web.designs.yarding import YardIn, YardView, answer_yard, rack_file
from scantling.web.designs.year import year_view
from scantling.web.sent.parameters import measurable, parameter_views
from scantling.web.sent.taken import TakenFile
from scantling.web.sent.views import (
    FindingView,
    PartView,
    PieceView,
    PlanView,
    RemedyView,
    ShapeView,
    WorkView,
)

__all__ = ["Session"]

Given = Mapping[str, str]
Answer = TypeVar("Answer")


class Session:
    """The designs of one piece.

    Parameters
    ----------
    piece
        The piece file.
    rack, shop
        Files, or None.
    room
        A file, or the name of a typical room.
    designer
        Draws up a design; the one that plans the piece if not given.
    text
        The text of the piece file, where that lies on no disk.
    """

    def __init__(
        self,
        piece: Path,
        *,
        rack: Path | None = None,
        shop: Path | None = None,
        room: str | Path | None = None,
        designer: Designer | None = None,
        text: str | None = None,
    ) -> None:
        self._file = piece
        self._text = text
        self._designer = designer or PieceDesigner(piece, rack=rack, shop=shop, room=room)
        self._shapes: Coalescing[Shape] = Coalescing()
        self._views: Coalescing[ShapeView] = Coalescing()
        self._figures: Coalescing[Design] = Coalescing()
        self._designs: Coalescing[Design] = Coalescing()
        self._questions: Coalescing[Question | None] = Coalescing()
        self._files: Coalescing[bytes] = Coalescing()
        self._answers: Coalescing[Any] = Coalescing()
        self.planner = Planner()

    def once(self, key: Hashable, answer: Callable[[], Answer]) -> Answer:
        """What else is worked out of a design, once for each key; the last ones are kept."""
        found: Answer = self._answers.answer(key, answer)
        return found

    @property
    def worked(self) -> int:
        """Plans that had to be made."""
        return self._designs.worked

    def key(self, given: Given) -> str:
        """Key of everything a design depends on. 32 hexadecimal digits."""
        digest = hashlib.sha256(f"{__version__} {self._designer.key()}".encode())
        for name in sorted(given):
            digest.update(f"\0{name}\0{given[name]}".encode())
        return digest.hexdigest()[:32]

    def shape(self, given: Given) -> Shape:
        """The shape; asked for twice at once, it is worked out once.

        Raises
        ------
        FileFaults, InputError
            Everything wrong with the piece or the parameters.
        """
        kept = dict(given)
        return self._shapes.answer(self.key(kept), lambda: self._designer.shape(kept))

    def design(self, given: Given) -> Design:
        """The shape with its plan; raises as :meth:`shape`."""
        kept = dict(given)
        return self._designs.answer(self.key(kept), lambda: self._designer.completed(self.figures(kept)))

    def figures(self, given: Given) -> Design:
        """As :meth:`design`, but for what takes longest; raises as :meth:`shape`."""
        kept = dict(given)
        return self._figures.answer(self.key(kept), lambda: self._designer.figures(self.shape(kept)))

    def question(self, given: Given) -> Question | None:
        """What is asked of the boards; None without a rack; raises as :meth:`shape`."""
        kept = dict(given)
        return self._questions.answer(self.key(kept), lambda: self._designer.question(self.shape(kept)))

    def findings(self, given: Given) -> tuple[FindingView, ...]:
        """What the rules found, in words; raises as :meth:`shape`."""
        design = self.figures(given)
        with words_of(design.plan):
            told = tuple(_finding(found, design.shape) for found in design.findings)
        return _styled(told, design.plan.style)

    def heading(self) -> tuple[str, str]:
        """Title and about, before anything is planned; a file without any has its name, a text none."""
        try:
            piece = self.shape({}).piece
        except ScantlingError:
            return self._title() or ("" if self._text is not None else self._file.name), ""
        return piece.title, piece.about.strip()

    def _title(self) -> str:
        """The title of a file with faults; empty where none can be read."""
        try:
            text = self._file.read_text(encoding="utf-8") if self._text is None else self._text
            return name_in(text, "title")
        except (OSError, ValueError):
            return ""

    def piece(self) -> PieceView:
        """The piece before it is planned."""
        piece = self.shape({}).piece
        return PieceView(
            ok=True,
            title=piece.title,
            about=piece.about.strip(),
            units=piece.units,
            parameters=parameter_views(piece),
        )

    def shape_view(self, given: Given) -> ShapeView:
        """The shape as the page shows it."""
        kept = dict(given)
        return self._views.answer(self.key(kept), lambda: self._shape_view(kept))

    def _shape_view(self, given: Given) -> ShapeView:
        shape = self.shape(given)
        with knowing(shape.piece.parts):
            parts = tuple(_part(name, shape) for name in shape.piece.parts)
        return ShapeView(
            ok=True,
            title=shape.piece.title,
            about=shape.piece.about.strip(),
            units=shape.piece.units,
            both_units=shape.piece.both_units,
            key=self.key(given),
            parameters=parameter_views(shape.piece),
            parts=parts,
        )

    def plan_view(self, given: Given, *, whole: bool = True) -> PlanView:
        """The plan as the page shows it; not the whole one is there sooner."""
        design = self.design(given) if whole else self.figures(given)
        shown, plan = self.shape_view(given), design.plan
        findings = self.findings(given)
        with words_of(plan):
            year = year_view(plan)
        return PlanView(
            ok=True,
            title=shown.title,
            about=shown.about,
            units=shown.units,
            both_units=shown.both_units,
            key=shown.key,
            parameters=shown.parameters,
            parts=shown.parts,
            sheets=design.sheets,
            findings=findings,
            year=year,
            whole=design.whole,
        )

    def yard(self, asked: YardIn, given: Given) -> YardView:
        """What is said to a board at the yard; raises as :meth:`shape`, and FileFaults for the boards."""
        design = self.design(given)
        return answer_yard(asked, design.plan, design.job)

    def sizes_fixed(self) -> dict[str, frozenset[str]]:
        """Sizes of the parts, each with the steps after which it is cut; raises as :meth:`shape`."""
        plan = self.design({}).plan
        return sizes_fixed(plan.order.steps, plan.setups)

    def sizes_mm(self) -> dict[str, float]:
        """Sizes of the parts as they are, or are to be made (``top.width``); raises as :meth:`shape`. [mm]"""
        shape = self.shape({})
        return {
            f"{part.name}.{size}": mm
            for part in finished_parts(shape.piece, shape.works)
            for size, mm in zip(SIZES, sizes_of(part, shape.piece.built), strict=True)
        }

    def work(self, given: Given) -> WorkView:
        """The order of work as cards; raises as :meth:`shape`."""
        design = self.design(given)
        plan = design.plan
        told = tuple(found for found in design.findings if found.code in BUILT_CODES)
        with words_of(plan):
            findings = tuple(_finding(found, design.shape) for found in told)
        return WorkView(
            ok=True,
            units=plan.units,
            both_units=plan.both_units,
            key=self.key(given),
            steps=step_cards(plan),
            findings=_styled(findings, plan.style),
            names=measurable(design.shape.piece),
        )

    def measured(self, asked: MeasureIn, given: Given) -> MeasureView:
        """What lies between two edges of the picture; raises as :meth:`shape`, and InputError ``no_edge``."""
        return measured(asked, self.shape(given).piece.style)

    def rack_file(self, asked: YardIn, given: Given) -> TakenFile:
        """The pile at the yard as a rack file; raises as :meth:`yard`."""
        content = rack_file(asked, self.design(given).plan).encode()
        return TakenFile(name="pile.csv", media_type="text/csv; charset=utf-8", content=content)

    def scene(self, given: Given) -> bytes:
        """The 3D picture, as binary glTF."""
        kept = dict(given)
        return self._files.answer((self.key(kept), "glb"), lambda: picture(self.shape(kept)))

    def export(self, given: Given, kind: str) -> TakenFile:
        """The piece for other programs; raises also InputError ``unknown_export``."""
        return export(self.shape(given), kind)

    def published(self, given: Given) -> TakenFile:
        """The plan as one file for readers, in either unit and in both; raises as :meth:`shape`."""
        from scantling.papers.sheets.readers import cards_for_readers, facts_for_readers, sheets_for_readers
        from scantling.web.publishing import Edition, published_file

        piece = self.shape(given).piece
        first, *others = (piece.units, "in" if piece.units == "mm" else "mm", "both")
        editions = []
        for units in ("both", first, others[0]) if piece.both_units else (first, *others):
            plan, shown = self.design({**given, UNITS: units}).plan, self.shape_view({**given, UNITS: units})
            editions.append(
                Edition(
                    units=units,
                    shape=shown,
                    facts=facts_for_readers(plan),
                    sheets=sheets_for_readers(plan),
                    cards=cards_for_readers(plan),
                )
            )
        content = published_file(editions, self.scene(given))
        name = f"{file_stem(editions[0].shape.title)}.html"
        return TakenFile(name=name, media_type="text/html; charset=utf-8", content=content)

    def packet(self, given: Given, paper: str) -> TakenFile:
        """The packet to work from; raises also InputError ``unknown_paper``."""
        kept, sort = dict(given), paper_named(paper)
        content = self._files.answer(
            (self.key(kept), sort), lambda: self._designer.packet(self.design(kept), sort)
        )
        return TakenFile(
            name=packet_name(self.shape(kept), sort), media_type="application/pdf", content=content
        )

    def offer(self, given: Given, terms: Terms, paper: str) -> TakenFile:
        """The offer for a client; raises also InputError ``unknown_paper``."""
        kept, sort = dict(given), paper_named(paper)
        content = self._files.answer(
            (self.key(kept), sort, terms), lambda: self._designer.offer(self.design(kept), terms, sort)
        )
        name = packet_name(self.shape(kept), sort, what="offer")
        return TakenFile(name=name, media_type="application/pdf", content=content)


def _part(name: str, shape: Shape) -> PartView:
    part = shape.piece.parts[name]
    return PartView(
        name=name,
        label=label_of(name),
        like=part.like,
        species=part.species,
        sizes=shape.sizes[name],
        explode_m=scene_vector_m(shape.offsets_mm[name]),
        tone=tone_of(part.species),
    )


def _styled(findings: tuple[FindingView, ...], style: LengthStyle) -> tuple[FindingView, ...]:
    """Findings in the units shown; what would mend them stays as it is to be written."""
    bare = (replace(found, remedies=()) for found in findings)
    styled = (in_style(found, style) for found in bare)
    return tuple(replace(s, remedies=found.remedies) for s, found in zip(styled, findings, strict=True))


def _finding(found: Finding, shape: Shape) -> FindingView:
    named = [word.partition(".")[0] for word in re.split(r"[/,\s]+", found.where)]
    return FindingView(
        code=found.code,
        severity=found.severity.value,
        where=place_words(found.where),
        message=label_of(found.message),
        advice=label_of(found.advice),
        source=found.source,
        parts=tuple(dict.fromkeys(name for name in named if name in shape.piece.parts)),
        remedies=tuple(
            RemedyView(
                words=label_of(r.words) if r.taken_back else r.words,
                path=r.path,
                text=r.text,
                parameter=r.parameter,
                taken_back=r.taken_back,
                line=r.line,
                here=not (r.taken_back and shape.piece.built and shape.piece.built.file),
            )
            for r in found.remedies
        ),
    )
