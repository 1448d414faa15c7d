"""Colors in a STEP file, written by ourselves.

The kernel writes them in the order of its memory addresses, which differs from run to run; equal pieces
must give equal files.

References
----------
ISO 10303-46, *Visual presentation*: styled_item and what it refers to.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from scantling.solids.tones import Color

__all__ = ["colored"]


_ENTITY = re.compile(r"#(\d+) = ([A-Z_0-9]+)\((.*?)\);\n", re.DOTALL)
_REFERENCE = re.compile(r"#(\d+)")
_END = "ENDSEC;\nEND-ISO-10303-21;"


def colored(text: str, colors: Mapping[str, Color]) -> str:
    """The file with the bodies of products colored.

    Parameters
    ----------
    text
        A STEP file of products made of solids.
    colors
        By name of the product; red, green and blue. 0..1

    Returns
    -------
    str
        The file with a style for each such solid added at its end.
    """
    entities = {
        int(number): (kind, re.sub(r"\n\s*", "", values)) for number, kind, values in _ENTITY.findall(text)
    }
    lines: list[str] = []
    following = max(entities, default=0) + 1
    for kind, values in entities.values():
        if kind != "SHAPE_DEFINITION_REPRESENTATION":
            continue
        definition, shape = (int(n) for n in _REFERENCE.findall(values))
        color = colors.get(_product(entities, definition))
        if color is None or shape not in entities:
            continue
        *items, context = (int(n) for n in _REFERENCE.findall(entities[shape][1]))
        for solid in items:
            if entities[solid][0] == "MANIFOLD_SOLID_BREP":
                lines += _style(following, solid, context, color)
                following = following + _STYLE_ENTITIES
    return text.replace(_END, "".join(lines) + _END)


def _product(entities: Mapping[int, tuple[str, str]], definition: int) -> str:
    """Name of the product a shape definition belongs to, following the references up."""
    number = definition
    for _ in range(4):
        kind, values = entities[number]
        if kind == "PRODUCT":
            return values[1:].split("','", 1)[0].replace("''", "'")
        number = int(_REFERENCE.findall(values)[0])
    return ""


_STYLE_ENTITIES = 9


def _style(first: int, solid: int, context: int, color: Color) -> list[str]:
    n = list(range(first, first + _STYLE_ENTITIES))
    red, green, blue = (f"{value:.6f}" for value in color)
    return [
        f"#{n[0]} = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#{n[1]}),#{context});\n",
        f"#{n[1]} = STYLED_ITEM('color',(#{n[2]}),#{solid});\n",
        f"#{n[2]} = PRESENTATION_STYLE_ASSIGNMENT((#{n[3]}));\n",
        f"#{n[3]} = SURFACE_STYLE_USAGE(.BOTH.,#{n[4]});\n",
        f"#{n[4]} = SURFACE_SIDE_STYLE('',(#{n[5]}));\n",
        f"#{n[5]} = SURFACE_STYLE_FILL_AREA(#{n[6]});\n",
        f"#{n[6]} = FILL_AREA_STYLE('',(#{n[7]}));\n",
        f"#{n[7]} = FILL_AREA_STYLE_COLOUR('',#{n[8]});\n",
        f"#{n[8]} = COLOUR_RGB('',{red},{green},{blue});\n",
    ]
