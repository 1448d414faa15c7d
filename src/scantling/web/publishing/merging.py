"""The same told in several units as one markup: only what differs is in it several times."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator, Mapping, Sequence
from copy import deepcopy
from difflib import SequenceMatcher
from functools import reduce
from typing import TypeVar

__all__ = ["UNIT", "merged"]

UNIT = "data-in"
"""Attribute of what is for some units only: their names, with spaces between."""
_LETTERS = {"text": "tspan", "tspan": "tspan"}
"""What letters that differ are set into, by the element they stand in; elsewhere a span."""
_BARE = frozenset({"title"})
"""Elements that hold letters alone."""
_NAMING = frozenset({"aria-labelledby", "aria-describedby"})
"""Attributes that hold names of other elements."""
_REFERENCE = re.compile(r"url\(#([\w-]+)\)")

_Ways = Mapping[str, ET.Element]
_Way = TypeVar("_Way")


def merged(told: Mapping[str, str]) -> str:
    """Markup of one element in several units as one markup.

    Parameters
    ----------
    told
        Well-formed markup by unit.

    Returns
    -------
    str
        Without the elements whose :data:`UNIT` does not name a unit, it is what was told in that unit, but
        for names: a document holds a name once, so that of another unit ends in the unit's.

    Examples
    --------
    >>> merged({"mm": '<p id="a">A <b>top</b> of 610 mm</p>', "in": '<p id="a">A <b>top</b> of 24 in</p>'})
    '<p id="a">A <b>top</b><span data-in="mm"> of 610 mm</span><span data-in="in"> of 24 in</span></p>'
    """
    ways = {unit: ET.fromstring(markup) for unit, markup in told.items()}  # noqa: S314 - made by us just now
    made = _Merging(ways).told(ways)
    _name_once(made, tuple(told))
    return "".join(ET.tostring(each, encoding="unicode", method="html") for each in made)


class _Merging:
    """Elements with a number each, the same one for what is alike, tails aside."""

    def __init__(self, ways: _Ways) -> None:
        self._numbers: dict[tuple[object, ...], int] = {}
        self._number_of: dict[ET.Element, int] = {}
        for root in ways.values():
            self._count(root)

    def _count(self, element: ET.Element) -> int:
        inside = tuple((self._count(child), child.tail) for child in element)
        kind = (element.tag, *sorted(element.attrib.items()), element.text, inside)
        self._number_of[element] = self._numbers.setdefault(kind, len(self._numbers))
        return self._number_of[element]

    def told(self, ways: _Ways) -> list[ET.Element]:
        """What stands in place of the elements, without their tails: one, or one for each kind of head."""
        alike = _grouped(ways, self._head)
        found = [(units, self._one({unit: ways[unit] for unit in units})) for units in alike]
        if len(found) > 1:
            for units, element in found:
                element.set(UNIT, " ".join(units))
        return [element for _, element in found]

    def _head(self, element: ET.Element) -> object:
        """What must be the same for two elements to be told as one."""
        names = element.tag == "svg" and any("id" in each.attrib for each in element.iter())
        if names or element.tag in _BARE:
            return self._number_of[element]
        return (element.tag, *sorted(element.attrib.items()))

    def _one(self, ways: _Ways) -> ET.Element:
        """One element, where the heads are the same."""
        first = next(iter(ways.values()))
        if len({self._number_of[each] for each in ways.values()}) == 1:
            return _without_tail(first)
        whole = ET.Element(first.tag, first.attrib)
        _set_letters(whole, {unit: each.text or "" for unit, each in ways.items()})
        for run in self._runs(ways):
            if len({len(children) for children in run.values()}) == 1:
                self._in_turn(whole, run)
            else:
                self._apart(whole, run)
        return whole

    def _runs(self, ways: _Ways) -> Iterator[dict[str, list[ET.Element]]]:
        """Children in runs of as many in each, as far as those go that are the same in all."""
        rows = {unit: [(self._number_of[child], child.tail) for child in each] for unit, each in ways.items()}
        at = dict.fromkeys(ways, 0)
        for same in reduce(_in_common, rows.values()):
            to = {unit: rows[unit].index(same, at[unit]) for unit in ways}
            yield {unit: each[at[unit] : to[unit]] for unit, each in ways.items()}
            yield {unit: [each[to[unit]]] for unit, each in ways.items()}
            at = {unit: place + 1 for unit, place in to.items()}
        yield {unit: each[at[unit] :] for unit, each in ways.items()}

    def _in_turn(self, whole: ET.Element, run: Mapping[str, list[ET.Element]]) -> None:
        for children in zip(*run.values(), strict=True):
            pairs = dict(zip(run, children, strict=True))
            whole.extend(self.told(pairs))
            _set_letters(whole, {unit: child.tail or "" for unit, child in pairs.items()})

    def _apart(self, whole: ET.Element, run: Mapping[str, list[ET.Element]]) -> None:
        """More in one than in another: each unit has its own."""
        for units in _grouped(run, lambda row: tuple((self._number_of[each], each.tail) for each in row)):
            for child in run[units[0]]:
                variant = _without_tail(child)
                variant.set(UNIT, " ".join(units))
                whole.append(variant)
                _set_apart(whole, {child.tail or "": list(units)})


def _grouped(ways: Mapping[str, _Way], kind: Callable[[_Way], object]) -> list[tuple[str, ...]]:
    """Units in groups of one kind, in their order."""
    found: dict[object, tuple[str, ...]] = {}
    for unit, way in ways.items():
        of = kind(way)
        found[of] = (*found.get(of, ()), unit)
    return list(found.values())


def _in_common(one: Sequence[_Way], other: Sequence[_Way]) -> list[_Way]:
    """What stands in both, in their order."""
    blocks = SequenceMatcher(None, one, other, autojunk=False).get_matching_blocks()
    return [each for block in blocks for each in one[block.a : block.a + block.size]]


def _set_letters(whole: ET.Element, letters: Mapping[str, str]) -> None:
    """Letters at the end of what is there; where they differ, each in an element of its own."""
    alike = {letters[units[0]]: list(units) for units in _grouped(letters, lambda text: text)}
    if len(alike) > 1:
        _set_apart(whole, alike)
        return
    (text,) = alike
    if len(whole):
        whole[-1].tail = (whole[-1].tail or "") + text
    else:
        whole.text = (whole.text or "") + text


def _set_apart(whole: ET.Element, letters: Mapping[str, list[str]]) -> None:
    for text, units in letters.items():
        if text:
            ET.SubElement(whole, _LETTERS.get(whole.tag, "span"), {UNIT: " ".join(units)}).text = text


def _without_tail(element: ET.Element) -> ET.Element:
    copy = deepcopy(element)
    copy.tail = None
    return copy


def _name_once(made: Sequence[ET.Element], units: tuple[str, ...]) -> None:
    """Names of their own for what is told several times; who calls it by name, calls that of its units."""
    shown = [each for element in made for each in _shown(element, units)]
    known: dict[str, list[tuple[str, tuple[str, ...]]]] = {}
    for element, own in shown:
        name = element.get("id")
        if name is not None:
            variants = known.setdefault(name, [])
            new = f"{name}-{own[0]}" if variants else name
            variants.append((new, own))
            element.set("id", new)
    for element, own in shown:
        for attribute, value in element.attrib.items():
            if attribute in _NAMING:
                element.set(attribute, " ".join(_called(name, known, own) for name in value.split()))
            elif (found := _REFERENCE.fullmatch(value)) is not None:
                element.set(attribute, f"url(#{_called(found[1], known, own)})")


def _shown(element: ET.Element, units: tuple[str, ...]) -> Iterator[tuple[ET.Element, tuple[str, ...]]]:
    """An element and all in it, each with the units it is shown in."""
    told = element.get(UNIT)
    own = units if told is None else tuple(unit for unit in units if unit in told.split())
    yield element, own
    for child in element:
        yield from _shown(child, own)


def _called(name: str, known: Mapping[str, list[tuple[str, tuple[str, ...]]]], own: tuple[str, ...]) -> str:
    """The name now of what is shown in the first of some units, or in any of them."""
    variants = known.get(name, [])
    for unit in own:
        for new, units in variants:
            if unit in units:
                return new
    return name
