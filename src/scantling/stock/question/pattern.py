"""A pattern: how one board is taken apart, as cells inside cells, in whole units."""

from __future__ import annotations

from dataclasses import dataclass, field

__all__ = ["Pattern", "Segment", "Spot", "Strip"]


@dataclass(slots=True)
class Spot:
    """One blank or panel strip in its place. ``kind`` counts kinds first, then panels."""

    kind: int
    x: int
    y: int
    length: int
    width: int


@dataclass(slots=True)
class Strip:
    """A ripping of a segment: its blanks stand one behind the other."""

    y: int
    width: int
    spots: list[Spot] = field(default_factory=list)


@dataclass(slots=True)
class Segment:
    """A stretch of the board between two crosscuts."""

    x: int
    length: int
    strips: list[Strip] = field(default_factory=list)


@dataclass(slots=True)
class Pattern:
    """All of one board."""

    stock: int
    segments: list[Segment] = field(default_factory=list)

    def copy(self) -> Pattern:
        """A copy of all that may change."""
        return Pattern(
            stock=self.stock,
            segments=[
                Segment(
                    x=segment.x,
                    length=segment.length,
                    strips=[
                        Strip(
                            y=strip.y,
                            width=strip.width,
                            spots=[Spot(s.kind, s.x, s.y, s.length, s.width) for s in strip.spots],
                        )
                        for strip in segment.strips
                    ],
                )
                for segment in self.segments
            ],
        )

    def spots(self) -> list[Spot]:
        """Every blank in the pattern."""
        return [spot for segment in self.segments for strip in segment.strips for spot in strip.spots]

    @property
    def area(self) -> int:
        """Face area of its blanks. [units2]"""
        return sum(spot.length * spot.width for spot in self.spots())
