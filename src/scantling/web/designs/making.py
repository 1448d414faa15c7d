"""From what happened at the bench to what is made of the piece: sizes measured, parts cut by steps done."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from scantling.piece.built import Built
from scantling.store.bench import BenchEvent, BenchKind
from scantling.web.sent.bench_sizes import measured_mm

__all__ = ["Making", "built_from", "standing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What has to be known of the versions of a piece.

    Parameters
    ----------
    fixed_by
        Of a version: sizes of parts, each with the steps after which it is cut.
    sizes_of
        Sizes of the parts of a version with what was made of it until then. [mm]
    """

    fixed_by: Callable[[int], Mapping[str, frozenset[str]]]
    sizes_of: Callable[[int, Built], Mapping[str, float]]


def standing(events: Iterable[BenchEvent]) -> tuple[BenchEvent, ...]:
    """What happened and was not taken back."""
    listed = tuple(events)
    gone = {event.takes_back for event in listed}
    return tuple(e for e in listed if e.number not in gone and e.kind is not BenchKind.TAKEN_BACK)


def built_from(events: Iterable[BenchEvent], making: Making) -> Built:
    """What is made.

    A part is cut once all steps that give it a size are done, in the size the plan gave it then: with the
    version that was current, and with what was measured until then.

    Parameters
    ----------
    events
        All that happened, in the order it was kept.
    making
        Answers for the versions.
    """
    log = _Log(making=making)
    for event in standing(events):
        match event.kind:
            case BenchKind.MEASURED:
                log.measure(event)
            case BenchKind.STEP_DONE:
                log.done[event.subject] = event.version
                log.cut_by(event)
            case BenchKind.STEP_OPEN:
                log.open(event.subject)
    return Built(measured=dict(log.measured), cut=dict(log.cut))


@dataclass(slots=True, kw_only=True)
class _Log:
    making: Making
    done: dict[str, int] = field(default_factory=dict)
    measured: dict[str, float] = field(default_factory=dict)
    cut: dict[str, float | None] = field(default_factory=dict)
    by: dict[str, frozenset[str]] = field(default_factory=dict)
    """The steps that cut each size."""
    known: dict[int, Mapping[str, float]] = field(default_factory=dict)
    """Sizes of versions as they stand since the last measure."""

    def measure(self, event: BenchEvent) -> None:
        """A size measured counts from then on, in whatever unit."""
        found_mm = measured_mm(event)
        if found_mm is not None:
            self.measured[event.subject] = found_mm
            self.known.clear()

    def cut_by(self, event: BenchEvent) -> None:
        """Sizes whose last step this was."""
        for size, keys in self.making.fixed_by(event.version).items():
            if event.subject in keys and keys <= self.done.keys() and size not in self.cut:
                self.cut[size] = self._sizes(event.version).get(size)
                self.by[size] = keys

    def open(self, key: str) -> None:
        """A step that was not done after all, and what it cut with others."""
        self.done.pop(key, None)
        for size in [size for size, keys in self.by.items() if key in keys]:
            del self.cut[size], self.by[size]
        self.known.clear()

    def _sizes(self, version: int) -> Mapping[str, float]:
        if version not in self.known:
            built = Built(measured=dict(self.measured), cut=dict(self.cut))
            self.known[version] = self.making.sizes_of(version, built)
        return self.known[version]
