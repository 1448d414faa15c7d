"""A reader of exchange structures (ISO 10303-21) for tests: entities as they stand, volumes of flat bodies.

It knows no kernel. What a body holds is summed from the corners of its loops, by the divergence theorem: a
sixth of the triple products of each edge with the loop's first corner.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import numpy as np

__all__ = ["Exchange", "read_exchange"]

_TOKEN = re.compile(r"\s*('(?:[^']|'')*'|#\d+|\.[A-Z_0-9]+\.|[A-Z_0-9]+(?=\()|[-+0-9.E]+|[(),$*])")


@dataclass(frozen=True, slots=True)
class Exchange:
    """Entities by number: what they are called, and their arguments; references are ``#12``."""

    entities: dict[str, tuple[str, list[Any]]]

    def of(self, kind: str) -> list[tuple[str, list[Any]]]:
        """All of one kind, with their numbers."""
        return [(number, args) for number, (name, args) in self.entities.items() if name == kind]

    def args(self, reference: str) -> list[Any]:
        """Arguments of what is referred to."""
        return self.entities[reference][1]

    def kind(self, reference: str) -> str:
        """What is referred to."""
        return self.entities[reference][0]

    def bodies(self) -> dict[str, str]:
        """The body of each part of the assembly, by the name of its use."""
        shown = {self.args(args[0])[2]: args[1] for _, args in self.of("SHAPE_DEFINITION_REPRESENTATION")}
        found = {}
        for _, args in self.of("NEXT_ASSEMBLY_USAGE_OCCURRENCE"):
            items = self.args(shown[args[4]])[1]
            (found[args[1].strip("'")],) = (i for i in items if self.kind(i) == "MANIFOLD_SOLID_BREP")
        return found

    def volume_mm3(self, body: str) -> float | None:
        """What a body of plane faces and straight edges holds; None where it has others. [mm3]"""
        total = 0.0
        for face in self.args(self.args(body)[1])[1]:
            _, bounds, surface, _ = self.args(face)
            loops = [self._corners(bound) for bound in bounds]
            if self.kind(surface) != "PLANE" or any(loop is None for loop in loops):
                return None
            for loop in loops:
                following = np.roll(loop, -1, axis=0)
                total += float((np.cross(loop, following) @ loop[0]).sum()) / 6.0
        return abs(total)

    def _corners(self, bound: str) -> np.ndarray | None:
        """Corners of a loop in its own order; None where an edge of it is not straight."""
        _, loop, kept = self.args(bound)
        corners = []
        for oriented in self.args(loop)[1]:
            edge, along = self.args(oriented)[3:5]
            _, start, end, curve, _ = self.args(edge)
            if self.kind(curve) == "SURFACE_CURVE":
                curve = self.args(curve)[1]
            if self.kind(curve) != "LINE":
                return None
            corners.append(self._point(start if along == ".T." else end))
        return np.array(corners if kept == ".T." else corners[::-1])

    def _point(self, vertex: str) -> list[float]:
        return [float(x) for x in self.args(self.args(vertex)[1])[1]]


def read_exchange(text: str) -> Exchange:
    """The data section of an exchange structure; entities of several types are left out."""
    data = text.split("DATA;", 1)[1].split("ENDSEC;", 1)[0]
    found = {}
    for number, name, args in re.findall(r"(#\d+)\s*=\s*([A-Z_0-9]+)\s*(\(.*?\))\s*;", data, re.DOTALL):
        found[number] = (name, _list(_TOKEN.findall(args)))
    return Exchange(found)


def _list(tokens: list[str]) -> list[Any]:
    stack: list[list[Any]] = [[]]
    for sign in tokens:
        if sign == "(":
            stack.append([])
        elif sign == ")":
            done = stack.pop()
            stack[-1].append(done)
        elif sign != ",":
            stack[-1].append(sign)
    return stack[0][0]
