"""What can be taken away: the packet, and files for other programs; each as bytes with its name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from scantling.errors import InputError
from scantling.papers.exports import file_stem
from scantling.solids.gltf import glb_bytes
from scantling.solids.tones import colors_of
from scantling.web.sent.taken import TakenFile

if TYPE_CHECKING:
    from scantling.web.designs.designing import Shape

__all__ = ["KINDS", "PAPERS", "export", "packet_name", "paper_named", "picture"]

PAPERS = ("a4", "letter")


def export(shape: Shape, kind: str) -> TakenFile:
    """The piece for other programs.

    Raises
    ------
    InputError
        ``unknown_export``.
    """
    if kind not in KINDS:
        raise InputError(
            code="unknown_export", field="export", value=kind[:40], rule=f"must be one of {', '.join(KINDS)}"
        )
    ending, media_type, made = KINDS[kind]
    name = f"{file_stem(shape.piece.title)}{ending}"
    return TakenFile(name=name, media_type=media_type, content=made(shape))


def packet_name(shape: Shape, paper: str, *, what: str = "packet") -> str:
    """Name of the packet's file, or of the offer's."""
    return f"{file_stem(shape.piece.title)}-{what}-{paper}.pdf"


def paper_named(paper: str) -> str:
    """The paper asked for; raises InputError ``unknown_paper``."""
    if paper not in PAPERS:
        raise InputError(
            code="unknown_paper", field="paper", value=paper[:40], rule=f"must be one of {', '.join(PAPERS)}"
        )
    return paper


def _step(shape: Shape) -> bytes:
    from scantling.solids.step import step_bytes

    return step_bytes(shape.shapes, title=shape.piece.title, colors=colors_of(shape.piece.parts.values()))


def _glb(shape: Shape) -> bytes:
    return _drawn(shape, lean=False)


def picture(shape: Shape) -> bytes:
    """The piece in 3D as the page draws it, binary glTF."""
    return _drawn(shape, lean=True)


def _drawn(shape: Shape, *, lean: bool) -> bytes:
    parts = shape.piece.parts
    return glb_bytes(parts, shape.meshes, colors=colors_of(parts.values()), works=shape.works, lean=lean)


def _parts(shape: Shape) -> bytes:
    from scantling.papers.exports.tables import parts_csv

    return parts_csv(shape.shapes, shape.meshes)


def _hardware(shape: Shape) -> bytes:
    from scantling.papers.exports.tables import hardware_csv

    return hardware_csv(shape.works)


def _marks(shape: Shape) -> bytes:
    from scantling.papers.exports.tables import marks_csv

    return marks_csv(shape.works)


def _workbook(shape: Shape) -> bytes:
    from scantling.papers.exports.tables import hardware_table, marks_table, parts_table
    from scantling.papers.exports.workbook import workbook_bytes

    tables = (parts_table(shape.shapes, shape.meshes), hardware_table(shape.works), marks_table(shape.works))
    return workbook_bytes(tables, title=shape.piece.title)


def _faces(shape: Shape) -> bytes:
    from scantling.papers.exports.dxf import dxf_bytes

    return dxf_bytes(shape.piece, shape.works)


_XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_CSV = "text/csv; charset=utf-8"
KINDS: Mapping[str, tuple[str, str, Callable[[Shape], bytes]]] = {
    "step": (".step", "model/step", _step),
    "glb": (".glb", "model/gltf-binary", _glb),
    "dxf": (".dxf", "image/vnd.dxf", _faces),
    "xlsx": (".xlsx", _XLSX, _workbook),
    "csv": ("-parts.csv", _CSV, _parts),
    "hardware-csv": ("-hardware.csv", _CSV, _hardware),
    "marks-csv": ("-marks.csv", _CSV, _marks),
}
"""What can be exported: ending of the file, its type, and what makes it."""
