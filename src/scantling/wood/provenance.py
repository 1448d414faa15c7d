"""Where a number comes from and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Confidence", "HowKnown", "Provenance"]


class HowKnown(StrEnum):
    """Whether a number was seen in its source."""

    READ = "read"
    READ_SECONDARY = "read-secondary"
    MEMORY = "memory"
    COMPUTED = "computed"
    OWN = "own"

    @property
    def words(self) -> str:
        """For a person to read."""
        return _WORDS[self]


_WORDS = {
    HowKnown.READ: "read there",
    HowKnown.READ_SECONDARY: "read in a reproduction of it",
    HowKnown.MEMORY: "from memory",
    HowKnown.COMPUTED: "computed",
    HowKnown.OWN: "your own",
}


class Confidence(StrEnum):
    """How far a number can be trusted."""

    HIGH = "high"
    MEDIUM_HIGH = "medium-high"
    MEDIUM = "medium"
    LOW = "low"


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """The source of one number.

    Parameters
    ----------
    source
        Full citation.
    table, row
        Where it stands there; the row is named as the source names it.
    printed
        The figure as printed, where it was converted (``15200 lbf/in2``).
    how
        Read in the source, in a reproduction, recalled, computed, or the user's own.
    confidence
        How far it can be trusted; a low one is shown as an estimate.
    note
        Anything to know about it.
    """

    source: str
    table: str = ""
    row: str = ""
    printed: str = ""
    how: HowKnown = HowKnown.MEMORY
    confidence: Confidence = Confidence.MEDIUM
    note: str = ""

    @property
    def is_estimate(self) -> bool:
        """Whether the number is to be shown as an estimate: doubtful, or recalled and nothing confirms it."""
        recalled = self.how is HowKnown.MEMORY and self.confidence is Confidence.MEDIUM
        return recalled or self.confidence is Confidence.LOW

    def __str__(self) -> str:
        place = f", Table {self.table}" if self.table else ""
        row = f', row "{self.row}"' if self.row else ""
        note = f"; {self.note}" if self.note else ""
        estimate = ", an estimate" if self.is_estimate else ""
        return f"{self.source}{place}{row} ({self.how.words}{estimate}{note})"
