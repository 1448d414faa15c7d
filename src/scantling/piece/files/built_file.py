"""What is measured and cut of a piece, as it is written in the notes from the bench."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from scantling.errors import Fault, InputError
from scantling.piece.built import AGREE_MM, SHOULDERS, SIZES, Built
from scantling.piece.files.resolve import Reading
from scantling.reading import Document, did_you_mean, faults_for
from scantling.reading.documents import Path
from scantling.units import is_in_inches, parse_length_mm, show_limit

__all__ = ["BUILT_FIELDS", "believable_mm", "built_of"]

BUILT_FIELDS = ("measured", "done")
"""Fields of the notes that are about the piece; the others are about its boards."""
_A_SIZE = "size (length, width, thickness, or shoulders for what lies between its tenons)"
_LEAST_SHARE, _MOST_SHARE, _MORE_MM = 0.5, 1.25, 5.0
"""Between which shares a measured size is believed: slips of unit or digit lie outside (common practice)."""


def built_of(
    document: Document, drawn: Reading, *, over_mm: Mapping[str, float]
) -> tuple[Built, tuple[Fault, ...]]:
    """What the notes say of a piece, and everything wrong with it.

    Parameters
    ----------
    document
        The notes; fields of boards in it are left to whoever reads the rack.
    drawn
        The piece as its file draws it.
    over_mm
        What tenons and tongues add to the length of parts. [mm]
    """
    reader = _Reader(document=document, drawn=drawn, over_mm=over_mm)
    built = reader.built()
    return built, tuple(sorted(reader.faults, key=lambda fault: (fault.line, fault.column)))


def believable_mm(drawn_mm: float) -> tuple[float, float]:
    """Least and most that can have been measured of what is drawn so large. [mm]"""
    return drawn_mm * _LEAST_SHARE, drawn_mm * _MOST_SHARE + _MORE_MM


@dataclass(slots=True, kw_only=True)
class _Reader:
    document: Document
    drawn: Reading
    over_mm: Mapping[str, float]
    faults: list[Fault] = field(default_factory=list)

    def built(self) -> Built:
        """The facts as far as they can be read."""
        measured: dict[str, float] = {}
        for name, told in self._block("measured").items():
            if isinstance(told, dict):
                self._part(str(name), told, measured)
            elif self._known(("measured", str(name)), str(name), self.drawn.lengths_mm, "parameter or value"):
                path = ("measured", str(name))
                self._size(path, told, self.drawn.lengths_mm[str(name)], str(name), measured)
        cut = {
            f"{part}.{size}": None
            for part in self._done()
            for size in SIZES
            if f"{part}.{size}" not in measured
            and not (size == "length" and f"{part}.{SHOULDERS}" in measured)
        }
        return Built(measured=measured, cut=cut, file=self.document.file)

    def _part(self, part: str, told: Mapping[str, object], measured: dict[str, float]) -> None:
        if not self._known(("measured", part), part, self.drawn.piece.parts, "part"):
            return
        for size, text in told.items():
            if self._known(("measured", part, size), size, (*SIZES, SHOULDERS), _A_SIZE):
                inner = "length" if size == SHOULDERS else size
                drawn_mm = float(getattr(self.drawn.piece.parts[part], f"{inner}_mm"))
                drawn_mm += self.over_mm.get(part, 0.0) if size == "length" else 0.0
                self._size(("measured", part, size), text, drawn_mm, f"{part}.{size}", measured)
        self._one_length(part, measured)

    def _one_length(self, part: str, measured: dict[str, float]) -> None:
        """Over its tenons and between their shoulders a part has one length: a fault where they tell two."""
        over, between = (measured.get(f"{part}.{size}") for size in ("length", SHOULDERS))
        if over is None or between is None:
            return
        tenons_mm = self.over_mm.get(part, 0.0)
        if abs(over - tenons_mm - between) <= AGREE_MM:
            return
        path = ("measured", part, SHOULDERS)
        text = str(self.document.get(path))
        inch = is_in_inches(text, otherwise=self.drawn.piece.units == "in")
        should, tenons = (show_limit(mm, inch=inch) for mm in (over - tenons_mm, tenons_mm))
        self._wrong(
            path,
            "two_lengths",
            f"must be {should}, the length less {tenons} of tenons, where both are measured",
            "Write one of the two, length or shoulders, whichever was measured last.",
        )

    def _size(self, path: Path, text: object, drawn_mm: float, name: str, measured: dict[str, float]) -> None:
        """One measured size; a fault where it has no unit, or cannot be."""
        if isinstance(text, int | float) and not isinstance(text, bool):
            unit = self.drawn.piece.units
            self._wrong(path, "unit_missing", "must have a unit", f"Write {text:g} {unit}.")
            return
        try:
            found = parse_length_mm(str(text), field=str(path[-1]))
        except InputError as error:
            self.faults.extend(faults_for(self.document, path, error))
            return
        least, most = believable_mm(drawn_mm)
        if not least <= found <= most:
            inch = is_in_inches(str(text), otherwise=self.drawn.piece.units == "in")
            drawn, low, high = (show_limit(mm, inch=inch) for mm in (drawn_mm, least, most))
            self._wrong(
                path,
                "not_believable",
                f"must lie in {low} .. {high}, for it is drawn {drawn}",
                "Measure it again, and look at the unit; what was made otherwise belongs in the piece file.",
            )
            return
        measured[name] = found

    def _done(self) -> list[str]:
        told = self.document.get(("done",))
        names = told if isinstance(told, list) else [] if told is None else [told]
        found: list[str] = []
        for number, name in enumerate(names):
            path: Path = ("done", number) if isinstance(told, list) else ("done",)
            row = str(name).removesuffix("_*")
            parts = self.drawn.piece.parts
            if row != name:
                members = [part.name for part in parts.values() if part.like == row]
                if self._known(path, str(name), [str(name)] if members else [], "row of parts"):
                    found += members
            elif self._known(path, str(name), parts, "part"):
                found.append(str(name))
        return found

    def _block(self, name: str) -> dict[str, object]:
        found = self.document.get((name,))
        if found is None:
            return {}
        if not isinstance(found, dict):
            self._wrong((name,), "not_a_block", "must be a block of names", "Write top: {width: 897 mm}.")
            return {}
        return dict(found)

    def _known(self, path: Path, name: str, names: object, what: str) -> bool:
        listed = [str(each) for each in names] if isinstance(names, Mapping | list | tuple) else []
        if name in listed:
            return True
        far = "A part's sizes stand in braces: top: {width: 897 mm}."
        near = did_you_mean(
            name, listed, otherwise=far if path[0] == "measured" else "See the list of parts."
        )
        self._wrong(path, "not_in_piece", f"must name a {what} of the piece", near, value=name)
        return False

    def _wrong(self, path: Path, code: str, rule: str, remedy: str, value: str | None = None) -> None:
        self.faults.append(self.document.fault(path, code=code, rule=rule, remedy=remedy, value=value))
