"""What a document in several units shows in one of them."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from copy import deepcopy

__all__ = ["shown_in"]


def shown_in(root: ET.Element, unit: str) -> ET.Element:
    """A copy without what is for other units, letters set apart for this one joined to those about them."""
    made = ET.Element(root.tag, {name: value for name, value in root.attrib.items() if name != "data-in"})
    made.text = root.text or ""
    for child in root:
        tail = child.tail or ""
        if unit not in child.get("data-in", unit).split():
            _add(made, tail)
        elif child.tag in {"span", "tspan"} and set(child.attrib) == {"data-in"}:
            _add(made, (child.text or "") + tail)
        else:
            inner = shown_in(deepcopy(child), unit)
            made.append(inner)
            inner.tail = tail
    return made


def _add(made: ET.Element, letters: str) -> None:
    if len(made):
        made[-1].tail = (made[-1].tail or "") + letters
    else:
        made.text = (made.text or "") + letters
