"""What the server holds while it runs: the piece's designs, drawn up once each and kept."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from pathlib import Path

from scantling import __version__
from scantling.errors import Finding, ScantlingError
from scantling.solids.explode import scene_vector_m
from scantling.solids.gltf import glb_bytes
from scantling.web.coalescing import Coalescing
from scantling.web.designing import Design, Designer, PieceDesigner
from scantling.web.parameters import parameter_views
from scantling.web.tones import rgb_of, tone_of
from scantling.web.views import FindingView, PartView, PieceView, PlanView
from scantling.web.wording import label_of

__all__ = ["Session"]

Given = Mapping[str, str]


class Session:
    """The designs of one piece.

    Parameters
    ----------
    piece
        The piece file.
    rack, shop, room
        Files, or None.
    designer
        Draws up a design; the one that plans the piece if not given.
    """

    def __init__(
        self,
        piece: Path,
        *,
        rack: Path | None = None,
        shop: Path | None = None,
        room: Path | None = None,
        designer: Designer | None = None,
    ) -> None:
        self._file = piece
        self._designer = designer or PieceDesigner(piece, rack=rack, shop=shop, room=room)
        self._designs: Coalescing[Design] = Coalescing()
        self._scenes: Coalescing[bytes] = Coalescing()

    @property
    def worked(self) -> int:
        """Designs that had to be drawn up."""
        return self._designs.worked

    def key(self, given: Given) -> str:
        """Key of everything a design depends on. 32 hexadecimal digits."""
        digest = hashlib.sha256(__version__.encode())
        for source in self._designer.sources:
            digest.update(b"\0file\0" + (source.read_bytes() if source.is_file() else b""))
        for name in sorted(given):
            digest.update(f"\0{name}\0{given[name]}".encode())
        return digest.hexdigest()[:32]

    def design(self, given: Given) -> Design:
        """The design; asked for twice at once, it is drawn up once.

        Raises
        ------
        FileFaults, InputError
            Everything wrong with the piece or the parameters.
        """
        kept = dict(given)
        return self._designs.answer(self.key(kept), lambda: self._designer(kept))

    def heading(self) -> tuple[str, str]:
        """Title and about, for the page before anything is planned; the file's name if it has faults."""
        try:
            piece = self.design({}).piece
        except ScantlingError:
            return self._file.name, ""
        return piece.title, piece.about.strip()

    def piece(self) -> PieceView:
        """The piece before it is planned."""
        piece = self.design({}).piece
        return PieceView(
            ok=True,
            title=piece.title,
            about=piece.about.strip(),
            units=piece.units,
            parameters=parameter_views(piece),
        )

    def plan(self, given: Given) -> PlanView:
        """The plan as the page shows it."""
        design = self.design(given)
        return PlanView(
            ok=True,
            title=design.piece.title,
            about=design.piece.about.strip(),
            key=self.key(given),
            parameters=parameter_views(design.piece),
            parts=tuple(_part(name, design) for name in design.piece.parts),
            sheets=design.sheets,
            findings=tuple(_finding(found, design) for found in design.findings),
        )

    def scene(self, given: Given) -> bytes:
        """The 3D picture, as binary glTF."""
        design = self.design(given)
        colours = {part.species: rgb_of(tone_of(part.species)) for part in design.piece.parts.values()}
        return self._scenes.answer(
            self.key(given), lambda: glb_bytes(design.piece.parts, design.meshes, colours=colours)
        )


def _part(name: str, design: Design) -> PartView:
    part = design.piece.parts[name]
    return PartView(
        name=name,
        label=label_of(name),
        like=part.like,
        species=part.species,
        sizes=design.sizes[name],
        explode_m=scene_vector_m(design.offsets_mm[name]),
        tone=tone_of(part.species),
    )


def _finding(found: Finding, design: Design) -> FindingView:
    named = [word.partition(".")[0] for word in re.split(r"[/,\s]+", found.where)]
    return FindingView(
        code=found.code,
        severity=found.severity.value,
        where=found.where,
        message=found.message,
        advice=found.advice,
        source=found.source,
        parts=tuple(dict.fromkeys(name for name in named if name in design.piece.parts)),
    )
