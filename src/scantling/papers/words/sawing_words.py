"""What is sawn at a setting, in words, for the sheets and the packet alike."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scantling.papers.words.naming import names_of
from scantling.piece.model import End
from scantling.shop.sawing.sawsetup import SawSetup

__all__ = ["BY_HAND", "all_by_hand", "ends_words"]

BY_HAND = (
    "By hand nothing is set: knife each line all round from the face side and the face edge, saw a hair "
    "outside it, and shoot the end down to it."
)
"""How ends are sawn where no saw has a fence."""


def all_by_hand(setups: Iterable[SawSetup]) -> bool:
    """Whether every end is sawn by hand."""
    return all(setup.machine.by_hand for setup in setups)


def ends_words(setup: SawSetup, looks: Mapping[tuple[str, End], str]) -> str:
    """The parts cut at one setting, by which of their ends it is: ``Left end: Top. Front end: Rail``.

    Parameters
    ----------
    setup
        The setting.
    looks
        Where each end of each part looks: ``left``.
    """
    ends: dict[str, dict[str, None]] = {}
    for cut in setup.cuts:
        ends.setdefault(f"{looks[cut.part, cut.end]} end", {})[cut.part] = None
    return ". ".join(f"{end[:1].upper()}{end[1:]}: {names_of(parts)}" for end, parts in ends.items())
