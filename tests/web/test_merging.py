"""The same in several units as one markup: nothing is lost, nothing is told in a unit it is not of."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from copy import deepcopy

from hypothesis import given
from hypothesis import strategies as st

from scantling.web.publishing.merging import merged
from tests.web.shown_units import shown_in

__all__: list[str] = []

_UNITS = ("mm", "in", "both")
_WORDS = st.sampled_from(["", "Top", "610 mm", "24 in", "A & <b>"])


def _elements(tag: str, inside: st.SearchStrategy[list[ET.Element]]) -> st.SearchStrategy[ET.Element]:
    def made(name: str, kind: str, text: str, children: list[ET.Element]) -> ET.Element:
        element = ET.Element(name, {"class": kind} if kind else {})
        element.text = text
        element.extend(children)
        return element

    return st.builds(made, st.sampled_from([tag, "p"]), st.sampled_from(["", "x", "y"]), _WORDS, inside)


def _tailed(elements: st.SearchStrategy[ET.Element]) -> st.SearchStrategy[ET.Element]:
    def made(element: ET.Element, tail: str) -> ET.Element:
        element.tail = tail
        return element

    return st.builds(made, elements, _WORDS)


_LEAVES = _tailed(_elements("b", st.just([])))
_ROWS = _tailed(_elements("li", st.lists(_LEAVES, max_size=3)))


@st.composite
def _ways(draw: st.DrawFn) -> dict[str, ET.Element]:
    """A document in three units: mostly alike, here and there not."""
    common = draw(st.lists(_ROWS, max_size=5))
    ways = {}
    for unit in _UNITS:
        root = ET.Element("div")
        for row in common:
            kept = draw(st.sampled_from(["alike", "alike", "alike", "other", "none", "more"]))
            if kept in {"alike", "more"}:
                root.append(deepcopy(row))
            if kept in {"other", "more"}:
                root.append(deepcopy(draw(_ROWS)))
        _name(root)
        ways[unit] = root
    return ways


def _name(root: ET.Element) -> None:
    """Numbered names in a document, as headings have them, and what is called by the last one before it."""
    count = 0
    for each in root.iter():
        if each.get("class") == "x":
            count += 1
            each.set("id", f"c{count}")
        elif each.get("class") == "y" and count:
            each.set("aria-labelledby", f"c{count}")


def _as_told(element: ET.Element) -> ET.Element:
    """A copy with the names it had before it was told beside others."""
    made = deepcopy(element)
    for each in made.iter():
        for name in {"id", "aria-labelledby"} & each.attrib.keys():
            each.set(name, re.sub(r"-(mm|in|both)$", "", each.attrib[name]))
    return made


def _plain(element: ET.Element) -> str:
    return ET.tostring(element, encoding="unicode", method="html")


@given(_ways())
def test_without_what_is_for_other_units_it_is_what_was_told(ways: dict[str, ET.Element]) -> None:
    """In each unit, to the letter, but for the ends of names."""
    markup = merged({unit: _plain(way) for unit, way in ways.items()})
    whole = ET.fromstring(markup)  # noqa: S314 - made by us just now
    for unit, way in ways.items():
        assert _plain(_as_told(shown_in(whole, unit))) == _plain(way)


@given(_ways())
def test_a_name_is_there_once_and_whoever_calls_it_finds_it(ways: dict[str, ET.Element]) -> None:
    """Of headings told apart each has a name of its own."""
    whole = ET.fromstring(merged({unit: _plain(way) for unit, way in ways.items()}))  # noqa: S314 - as above
    names = [each.attrib["id"] for each in whole.iter() if "id" in each.attrib]
    assert len(names) == len(set(names))
    called = {each.attrib["aria-labelledby"] for each in whole.iter() if "aria-labelledby" in each.attrib}
    assert called <= set(names)


def test_rows_told_apart_have_names_of_their_own() -> None:
    """A heading, what is called by it and a clip, in a run with more rows in one unit than in another."""
    drawn = '<svg><g id="k"/><path clip-path="url(#k)"/>{0}</svg>'
    row = f'<h3 id="c1">{{0}}</h3><div aria-labelledby="c1">{drawn}</div>'
    found = merged({"mm": f"<div>{row.format('a')}</div>", "in": f"<div>{row.format('b')}<p>More</p></div>"})
    assert re.findall(r'(?: id|labelledby)="([\w-]+)"', found) == ["c1", "c1", "k", "c1-in", "c1-in", "k-in"]
    assert re.findall(r"url\(#([\w-]+)\)", found) == ["k", "k-in"]


def test_what_is_alike_is_there_once() -> None:
    """A row more in one unit, a figure in another way: the rest stands once, and for all."""
    rows = "<li>Mill all parts square.</li>" * 40
    found = merged(
        {
            "mm": f"<ol>{rows}<li>Cut to 734 mm.</li>{rows}</ol>",
            "in": f"<ol>{rows}<li>Cut to 28 29/32 in.</li>{rows}</ol>",
            "both": f"<ol>{rows}<li>Two figures.</li><li>Cut to 734 mm [28 29/32 in].</li>{rows}</ol>",
        }
    )
    assert found.count("Mill all parts square.") == 80
    assert len(found) < 2 * 40 * len("<li>Mill all parts square.</li>") + 300


def test_a_drawing_with_names_is_told_whole_each_with_names_of_its_own() -> None:
    """Else what is clipped in one unit would ask for a clip that is hidden with another."""
    drawn = '<svg><clipPath id="p1-c"><rect width="{}"/></clipPath><path clip-path="url(#p1-c)"/></svg>'
    told = {unit: f"<div>{drawn.format(width)}</div>" for unit, width in zip(_UNITS, (1, 1, 2), strict=True)}
    found = merged(told)
    assert re.findall(r'<svg data-in="([\w ]+)">', found) == ["mm in", "both"]
    assert re.findall(r'id="([\w-]+)"', found) == ["p1-c", "p1-c-both"]
    assert re.findall(r"url\(#([\w-]+)\)", found) == ["p1-c", "p1-c-both"]


def test_letters_of_a_drawing_are_set_apart_as_its_own() -> None:
    """A span has no place in a drawing."""
    told = {unit: f'<svg><text x="1">{size}</text></svg>' for unit, size in (("mm", "610"), ("in", "24"))}
    letters = '<tspan data-in="mm">610</tspan><tspan data-in="in">24</tspan>'
    assert merged(told) == f'<svg><text x="1">{letters}</text></svg>'
