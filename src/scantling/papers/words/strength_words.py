"""What a joint bears, in a maker's words: what may be counted on, how far it turns, and who says so."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import pi

from scantling.joinery.strength import Figure, JointStrength, Known
from scantling.joinery.work import JointWork
from scantling.units.us_measures import measure_of

__all__ = ["BearingRow", "bearing_rows", "bearing_sources", "moment_words", "unpublished"]

_NOTHING = "—"
_WHATS = ("drawn apart", "pressed across", "turned", "turning stiffness")
_SHORT = {
    Known.TESTED: "tests",
    Known.FORMULA: "formula",
    Known.RECKONED: "the wood",
    Known.MEMORY: "memory",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingRow:
    """Joints that bear alike; figures as shown.

    Parameters
    ----------
    joints, parts
        Their names, and those of the parts they join.
    pull, shear, moment
        What may be counted on: drawn apart, pressed across, turned.
    turns
        Under what moment it turns by a degree, with its range.
    known
        How the figures are known.
    """

    joints: tuple[str, ...]
    parts: tuple[str, ...]
    pull: str
    shear: str
    moment: str
    turns: str
    known: str


def moment_words(nmm: float, *, inch: bool) -> str:
    """A moment with its unit.

    Examples
    --------
    >>> moment_words(52_500.0, inch=False), moment_words(52_500.0, inch=True)
    ('52 N m', '39 lbf ft')
    """
    if inch:
        return f"{measure_of('N m', nmm / 1000.0).number(nmm / 1000.0)} lbf ft"
    return f"{nmm / 1000.0:.0f} N m"


def bearing_rows(
    works: Iterable[JointWork], *, force: Callable[[float], str], inch: bool
) -> tuple[BearingRow, ...]:
    """Joints with a published figure, those that bear alike together.

    Parameters
    ----------
    works
        The joints, in the order of the file.
    force
        How forces are written.
    inch
        Whether figures are in inches and pounds.
    """
    rows: dict[tuple[str, ...], list[JointWork]] = {}
    for work in works:
        told = work.strength
        if any(figure.known is not Known.NONE for figure in _figures(told)):
            rows.setdefault(_cells(told, force=force, inch=inch), []).append(work)
    return tuple(
        BearingRow(
            joints=tuple(work.joint for work in alike),
            parts=tuple(dict.fromkeys(name for work in alike for name in (work.first, work.second))),
            pull=p,
            shear=s,
            moment=m,
            turns=t,
            known=k,
        )
        for (p, s, m, t, k), alike in rows.items()
    )


def _figures(told: JointStrength) -> tuple[Figure, ...]:
    return (told.pull_n, told.shear_n, told.moment_nmm, told.stiffness_nmm_rad)


def _cells(told: JointStrength, *, force: Callable[[float], str], inch: bool) -> tuple[str, ...]:
    moment = told.moment_nmm.may
    return (
        _NOTHING if told.pull_n.may is None else force(told.pull_n.may),
        _NOTHING if told.shear_n.may is None else force(told.shear_n.may),
        _NOTHING if moment is None else moment_words(moment, inch=inch),
        _turns(told.stiffness_nmm_rad, inch=inch),
        ", ".join(dict.fromkeys(_SHORT[figure.known] for figure in _figures(told) if figure.known in _SHORT)),
    )


def _turns(figure: Figure, *, inch: bool) -> str:
    """The moment that turns it by a degree, and from where to where."""
    if figure.likely is None or figure.low is None or figure.high is None:
        return _NOTHING
    low, likely, high = (
        moment_words(each * pi / 180.0, inch=inch) for each in (figure.low, figure.likely, figure.high)
    )
    return f"{likely} ({low.split()[0]} to {high.split()[0]})"


def bearing_sources(works: Iterable[JointWork]) -> tuple[str, ...]:
    """Every source of the figures once, with what it is a source for."""
    found: dict[str, list[str]] = {}
    for work in works:
        for what, figure in zip(_WHATS, _figures(work.strength), strict=True):
            if figure.known is not Known.NONE:
                found.setdefault(figure.source, []).append(what)
    return tuple(
        f"{', '.join(dict.fromkeys(whats)).capitalize()}: {source}." for source, whats in found.items()
    )


def unpublished(works: Iterable[JointWork]) -> tuple[str, ...]:
    """Kinds of joint of which nothing is published at all, as they are called in the file."""
    told: dict[str, bool] = {}
    for work in works:
        none = all(figure.known is Known.NONE for figure in _figures(work.strength))
        told[work.family] = told.get(work.family, True) and none
    return tuple(family for family, none in told.items() if none)
