"""A piece as it stands after what was measured and cut: what is made stays, the rest is worked out from it.

A size measured is a fact. Where the piece file writes a name there (``section: [width, top_thickness]``) it
measures that name, and everything computed from it follows, unless something made by the old figure would
then no longer fit. Then it is a fact of its part alone, and only what lies against its faces or is flush with
it follows.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from scantling.errors import Fault, FileFaults
from scantling.piece.built import AGREE_MM, SHOULDERS, SIZES, AsBuilt, Built, NameStands, SizeStands, WayOut
from scantling.piece.files.fixed import Fixed, FixedSizes
from scantling.piece.files.placement import SQUARE
from scantling.piece.following import Adjusted, Followed, follow
from scantling.piece.geometry import add, scale
from scantling.piece.model import ParameterValue, Part, Piece

__all__ = ["Drawn", "Redrawn", "TriedJoints", "TryJoints", "as_built"]

_SAME_MM = 0.05
"""A difference no rule shows. [mm]"""
_SHARE = 0.02
"""A parameter changed by more than this share makes another piece (common practice). [1]"""
_WAYS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedJoints:
    """The joints of a piece, tried.

    Parameters
    ----------
    over_mm
        What tenons and tongues add to the length of parts. [mm]
    faults
        Joints that cannot be made.
    """

    over_mm: Mapping[str, float] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()


TryJoints = Callable[[Piece], TriedJoints]
Redrawn = Callable[[Fixed], Piece]
"""Reads the piece file again with some facts; raises FileFaults where it has faults then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A piece as its file draws it.

    Parameters
    ----------
    lengths_mm
        Parameters and values of the file that are lengths. [mm]
    over_mm
        What tenons and tongues add to the length of parts: lengths are told over them. [mm]
    names
        Sizes of parts (``top.width``) that the file writes as a name, and that name.
    """

    piece: Piece
    lengths_mm: Mapping[str, float]
    over_mm: Mapping[str, float]
    names: Mapping[str, str]


def as_built(drawn: Drawn, built: Built, *, tried: TryJoints, redraw: Redrawn) -> Piece:
    """The piece with what is made of it.

    Parameters
    ----------
    drawn
        As the file draws it.
    built
        What was told.
    tried
        Tries the joints of a piece.
    redraw
        Reads the file again.

    Raises
    ------
    FileFaults
        The piece cannot be drawn with what is made.
    """
    known, unknown = _known(drawn, built)
    if not built:
        return drawn.piece
    told = AsBuilt(file=built.file, unknown=unknown, measured=tuple(built.measured))
    if not known:
        return replace(drawn.piece, built=told)
    building = _Building(file=drawn, drawn=drawn.piece, built=known, tried=tried, redraw=redraw)
    return building.piece(told)


def _known(drawn: Drawn, built: Built) -> tuple[Built, tuple[str, ...]]:
    """What was told of parts and names there are, and what of others."""

    def there(name: str) -> bool:
        part, dot, size = name.partition(".")
        if not dot:
            return name in drawn.lengths_mm
        return part in drawn.piece.parts and size in (*SIZES, SHOULDERS)

    known = replace(
        built,
        measured={name: mm for name, mm in built.measured.items() if there(name)},
        cut={name: mm for name, mm in built.cut.items() if there(name)},
    )
    told = dict.fromkeys([*built.measured, *built.cut])
    return known, tuple(name for name in told if not there(name))


@dataclass(slots=True, kw_only=True)
class _Building:
    file: Drawn
    drawn: Piece
    built: Built
    tried: TryJoints
    redraw: Redrawn
    made: dict[str, float] = field(default_factory=dict)
    """Sizes that are facts, by part and size. [mm]"""
    measured: set[str] = field(default_factory=set)
    names: dict[str, float] = field(default_factory=dict)
    because: dict[str, str] = field(default_factory=dict)
    alone: list[tuple[str, str]] = field(default_factory=list)
    trials: dict[tuple[str, float], Piece | None] = field(default_factory=dict)

    def piece(self, record: AsBuilt) -> Piece:
        """The piece as it stands, with what is known of it beside what was told."""
        for told, size_mm in self.built.cut.items():
            name = _inner(told)
            drawn_mm = _size_of(self.drawn.parts, name)
            self.made[name] = drawn_mm if size_mm is None else size_mm - self._over_mm(told)
        for told, size_mm in self.built.measured.items():
            if "." in told:
                self.made[_inner(told)] = size_mm - self._over_mm(told)
                self.measured.add(_inner(told))
        if not self.built.measured and not any(
            abs(made_mm - _size_of(self.drawn.parts, name)) > _SAME_MM for name, made_mm in self.made.items()
        ):
            return replace(self.drawn, built=record)
        self.names = {name: mm for name, mm in self.built.measured.items() if "." not in name}
        base = self._named(self.redraw(Fixed(names_mm=self.names)))
        followed = self._followed(base)
        needed = self.redraw(self._fixed(base, followed.adjusted))
        unmade = self.tried(needed).faults
        if unmade:
            needed = self.drawn if self.tried(base).faults else base
        record = replace(
            record,
            sizes=tuple(self._sizes(needed.parts)),
            names=tuple(self._name_stands()),
            alone=tuple(self.alone),
            loose=followed.loose,
            unmade=tuple((fault.field, f"{fault.rule}, got {fault.value}") for fault in unmade),
        )
        record = replace(record, ways=tuple(self._ways(record, base)))
        return replace(needed, built=record)

    def _over_mm(self, name: str) -> float:
        """What tenons add to a length as it is told. [mm]"""
        part, _, size = name.partition(".")
        return self.file.over_mm.get(part, 0.0) if size == "length" else 0.0

    def _named(self, base: Piece) -> Piece:
        """Let sizes measured stand for the names the file writes there, unless something made forbids."""
        for name, sizes in self._by_name().items():
            found = [self.made[size] for size in sizes]
            measured = [size for size in sizes if size in self.measured]
            value = sum(found) / len(found)
            if name in self.names or not measured or abs(value - _size_of(base.parts, sizes[0])) <= 1e-9:
                continue
            tried = None if max(found) - min(found) > AGREE_MM else self._tried(name, value)
            self.trials.clear()
            if tried is None or self._spoils(base, tried, sizes) or self.tried(tried).faults:
                self.alone += [(size, name) for size in measured]
                continue
            self.names[name], self.because[name] = value, measured[0]
            base = tried
        return base

    def _by_name(self) -> dict[str, list[str]]:
        """Sizes that are facts, by the name the file writes for them."""
        found: dict[str, list[str]] = {}
        for made in self.made:
            part, _, size = made.partition(".")
            name = (
                self.file.names.get(made, "")
                if size != "length" or not _derived(self.drawn.parts[part])
                else ""
            )
            if name:
                found.setdefault(name, []).append(made)
        return found

    def _spoils(self, before: Piece, after: Piece, but: list[str]) -> bool:
        """Whether something made would fit worse than before."""
        for name, made_mm in self.made.items():
            worse = abs(_size_of(after.parts, name) - made_mm) - abs(_size_of(before.parts, name) - made_mm)
            if name not in but and worse > _SAME_MM:
                return True
        return False

    def _followed(self, base: Piece) -> Followed:
        facts = frozenset(
            (part, size)
            for part, _, size in (name.partition(".") for name in self.made)
            if size != "length" or not _derived(base.parts[part])
        )

        def parts(adjusted: Mapping[str, Adjusted]) -> Mapping[str, Part]:
            return self.redraw(self._fixed(base, adjusted)).parts

        return follow(base.parts, base.joints, made=facts, redraw=parts)

    def _fixed(self, base: Piece, adjusted: Mapping[str, Adjusted]) -> Fixed:
        """Everything that is a fact, or follows."""
        sizes: dict[str, dict[str, float]] = {}
        for name, made_mm in self.made.items():
            part, _, size = name.partition(".")
            off = abs(made_mm - _size_of(base.parts, name))
            if off > 1e-9 and (size != "length" or not _derived(base.parts[part])):
                sizes.setdefault(part, {})[f"{size}_mm"] = made_mm
        for part, own in adjusted.items():
            for axis, size in ((1, "width_mm"), (2, "thickness_mm")):
                if own.grown_mm(axis):
                    drawn = getattr(base.parts[part], size)
                    sizes.setdefault(part, {})[size] = drawn + own.grown_mm(axis)
        parts = dict.fromkeys([*sizes, *adjusted])
        return Fixed(
            names_mm=self.names,
            sizes={
                part: _sizes_of(base.parts[part], sizes.get(part, {}), adjusted.get(part)) for part in parts
            },
        )

    def _sizes(self, parts: Mapping[str, Part]) -> list[SizeStands]:
        """What is known of sizes, in the order of the parts."""
        found = []
        for part in parts:
            for size in SIZES:
                name = f"{part}.{size}"
                over = self._over_mm(name)
                drawn, needed = _size_of(self.drawn.parts, name) + over, _size_of(parts, name) + over
                stands = self.made[name] + over if name in self.made else needed
                if name in self.made or abs(needed - drawn) > _SAME_MM:
                    found.append(
                        SizeStands(
                            part=part,
                            size=size,
                            drawn_mm=drawn,
                            stands_mm=stands,
                            needed_mm=needed,
                            measured=name in self.measured,
                            cut=name in self.made,
                        )
                    )
        return found

    def _name_stands(self) -> list[NameStands]:
        because = self.because
        return [
            NameStands(
                name=name, drawn_mm=self.file.lengths_mm[name], stands_mm=mm, because=because.get(name, "")
            )
            for name, mm in self.names.items()
        ]

    def _ways(self, record: AsBuilt, base: Piece) -> list[WayOut]:
        """Parameters that would make a part fit that is cut to another length, the least changed first."""
        named = [name for name in self.names if name not in self.because]
        found: list[WayOut] = []
        for off in record.sizes:
            if not off.cut or abs(off.off_mm) <= _SAME_MM or (named and not off.measured):
                continue
            ways = [self._way(off, each, base) for each in base.parameters if each.dimension == "length"]
            fit = sorted((way for way in ways if way is not None), key=lambda way: way[0])
            found += [way for _, way in fit[:_WAYS]]
        return found

    def _way(self, off: SizeStands, parameter: ParameterValue, base: Piece) -> tuple[float, WayOut] | None:
        """A parameter that would do, after the share it changes by."""
        if parameter.name in self.names or parameter.value <= 0.0:
            return None
        at = _size_of(base.parts, off.name)
        more = self._tried(parameter.name, parameter.value + 1.0)
        slope = 0.0 if more is None else _size_of(more.parts, off.name) - at
        if abs(slope) < 0.01:
            return None
        value = round(parameter.value + off.off_mm / slope, 1)
        share = abs(value / parameter.value - 1.0)
        low, high = parameter.least, parameter.most
        if share > _SHARE or (low is not None and value < low) or (high is not None and value > high):
            return None
        there = self._tried(parameter.name, value)
        if there is None or abs(_size_of(there.parts, off.name) - at - off.off_mm) > 2.0 * _SAME_MM:
            return None
        if self._spoils(base, there, []):
            return None
        return share, WayOut(part=off.part, parameter=parameter.name, value_mm=value)

    def _tried(self, parameter: str, value_mm: float) -> Piece | None:
        """The piece with one parameter otherwise; asked for again, it is not read again."""
        key = (parameter, value_mm)
        if key not in self.trials:
            try:
                self.trials[key] = self.redraw(Fixed(names_mm={**self.names, parameter: value_mm}))
            except FileFaults:
                self.trials[key] = None
        return self.trials[key]


def _inner(name: str) -> str:
    """A size as it is computed with: what is told between the shoulders is the length here."""
    return name.removesuffix(SHOULDERS) + "length" if name.endswith(f".{SHOULDERS}") else name


def _derived(part: Part) -> bool:
    """Whether its length follows faces, so that the file gives none."""
    return any(trim.by != SQUARE for trim in part.trims)


def _size_of(parts: Mapping[str, Part], name: str) -> float:
    """A size by its name, ``top.width``. [mm]"""
    part, _, size = name.partition(".")
    return float(getattr(parts[part], f"{size}_mm"))


def _sizes_of(part: Part, sizes: Mapping[str, float], own: Adjusted | None) -> FixedSizes:
    moved = (0.0, 0.0, 0.0) if own is None else own.moved_mm
    for (axis, sign), shift in own.sides_mm.items() if own is not None else ():
        along = part.frame.width if axis == 1 else part.frame.thickness
        moved = add(moved, scale(along, sign * shift / 2.0))
    return FixedSizes(
        width_mm=sizes.get("width_mm"),
        thickness_mm=sizes.get("thickness_mm"),
        length_mm=sizes.get("length_mm"),
        trims_mm={} if own is None else dict(own.trims_mm),
        moved_mm=moved,
    )
