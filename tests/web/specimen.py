"""A specimen of every kind of block on the parts of the demo piece; its words are invented."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from scantling.errors import Finding, Severity
from scantling.papers.sheets import Align, Caution, Column, Facts, Picture, Sheet, Table, Tone, Words
from scantling.piece.model import Piece
from scantling.web.designs.designing import Design, PieceDesigner, Shape

__all__ = ["DEMO", "SpecimenDesigner", "specimen_sheets"]

DEMO = Path(__file__).resolve().parents[2] / "examples" / "reading_table.yaml"
_SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" class="sheet" role="img" viewBox="0 0 160 40" fill="none">'
    "<style>.sheet .s-thin{stroke:var(--sheet-ink,#000);stroke-width:0.4}</style>"
    '<path d="M5 5L155 5L155 30L5 30Z" style="fill:var(--sheet-tint,#ddd)" class="s-thin"/>'
    '<text x="80" y="20" font-size="6" text-anchor="middle" style="fill:var(--sheet-ink,#000)">Board 1</text>'
    '<script>window.scriptRan = true</script><path d="M0 0" onclick="window.scriptRan = true"/></svg>'
)


class SpecimenDesigner(PieceDesigner):
    """The demo piece with specimen sheets and findings."""

    def figures(self, shape: Shape) -> Design:
        """The plan of a shape, but for what takes longest."""
        return replace(super().figures(shape), sheets=specimen_sheets(shape.piece), findings=_findings())

    def completed(self, design: Design) -> Design:
        """The same with what was left out; the sheets stay those of the specimen."""
        return replace(super().completed(design), sheets=design.sheets)


def specimen_sheets(piece: Piece) -> tuple[Sheet, ...]:
    """Three sheets that hold every kind of block."""
    return (_parts(piece), _boards(), _work())


def _parts(piece: Piece) -> Sheet:
    columns = ("Part", "Count", "Wood", "Length", "Width", "Thickness")
    groups = piece.alike()
    table = Table(
        title="Finished sizes",
        columns=tuple(
            Column(title=c, align=Align.RIGHT if c in columns[3:] else Align.LEFT) for c in columns
        ),
        rows=tuple(
            (
                like,
                str(len(parts)),
                parts[0].species,
                f"{parts[0].length_mm:.1f}",
                f"{parts[0].width_mm:.1f}",
                f"{parts[0].thickness_mm:.1f}",
            )
            for like, parts in groups.items()
        ),
        tones=tuple(Tone.WARN if like == "top" else Tone.PLAIN for like in groups),
        parts=tuple(tuple(part.name for part in parts) for parts in groups.values()),
        note="Millimeters, to the long point of an angled end.",
    )
    facts = Facts(title="", items=(("Parts", str(len(piece.parts))), ("Weight", "21.4 kg"), ("Kinds", "5")))
    return Sheet(id="parts", title="Parts", lead="Eleven parts of five kinds.", blocks=(facts, table))


def _boards() -> Sheet:
    picture = Picture(title="Board 1", svg=_SVG, words="One board with the top's strips laid out on it.")
    return Sheet(id="boards", title="Boards", lead="Four boards are enough.", blocks=(picture,))


def _work() -> Sheet:
    steps = Words(title="Steps", lines=("Flatten a face.", "Plane to thickness.", "Rip."), numbered=True)
    caution = Caution(lines=("A short part under the planer tips: leave two legs in one length.",))
    plain = Words(title="", lines=("Two days, of which one is waiting.",))
    return Sheet(id="work", title="Order of work", lead="", blocks=(plain, steps, caution))


def _findings() -> tuple[Finding, ...]:
    return (
        Finding(
            code="F07",
            severity=Severity.MEDIUM,
            where="top/breadboard.1",
            message="The end will not stay flush: a step of 2.7 mm comes and goes with the seasons.",
            advice="Make a shadow line of 3 mm, or tell the customer.",
        ),
        Finding(
            code="F32",
            severity=Severity.HIGH,
            where="leg_fl/apron_to_leg.1",
            message="The clamp faces are 8.6 degrees out of parallel.",
            advice="Saw wedges of 8.6 degrees.",
        ),
    )
