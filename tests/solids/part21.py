"""A reader of exchange structures (ISO 10303-21) for tests: entities as they stand, and volumes of bodies.

It knows no kernel. What a body holds is a third of the flux of the place through its faces (divergence
theorem), and the flux through a plane, a cylinder or a cone is an integral along the edges of the face
(Stokes), which are lines, circles, ellipses and B-splines: see ISO 10303-42 for what each entity says.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Exchange", "read_exchange"]

Array = NDArray[np.float64]
Way = tuple[Array, Array]
"""Places along an edge in the direction its loop runs, and the steps between them. [mm] shape (points, 3)"""

_TOKEN = re.compile(r"\s*('(?:[^']|'')*'|#\d+|\.[A-Z_0-9]+\.|[A-Z_0-9]+(?=\()|[-+0-9.E]+|[(),$*])")
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_NEAR_MM = 1e-4


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

    def volume_mm3(self, body: str) -> float:
        """What a body holds. [mm3] KeyError for a face or an edge of a kind not written here."""
        flux = 0.0
        for face in self.args(self.args(body)[1])[1]:
            _, bounds, surface, _ = self.args(face)
            through = _THROUGH[self.kind(surface)](self, surface)
            flux += sum(through(way) for bound in bounds for way in self._ways(bound))
        return flux / 3.0

    def _ways(self, bound: str) -> Iterator[Way]:
        """The edges of a loop, each in the direction the loop runs with its face on the left."""
        _, loop, kept = self.args(bound)
        for oriented in self.args(loop)[1]:
            edge, along = self.args(oriented)[3:5]
            places, steps = self._way(edge)
            yield (places, steps) if along == kept else (places, -steps)

    def _way(self, edge: str) -> Way:
        _, start, end, curve, same = self.args(edge)
        while self.kind(curve) in ("SURFACE_CURVE", "SEAM_CURVE"):
            curve = self.args(curve)[1]
        ends = self.point(self.args(start)[1]), self.point(self.args(end)[1])
        if same == ".F.":
            places, steps = _CURVES[self.kind(curve)](self, curve, *ends[::-1])
            return places, -steps
        return _CURVES[self.kind(curve)](self, curve, *ends)

    def point(self, reference: str) -> Array:
        """A point or a direction."""
        return np.array([float(x) for x in self.args(reference)[1]])

    def axes(self, placement: str) -> tuple[Array, Array, Array, Array]:
        """Origin, and the unit axes x, y, z of a placement."""
        _, at, along, toward = self.args(placement)
        z, x = self.point(along), self.point(toward)
        z = z / np.linalg.norm(z)
        x = x - (x @ z) * z
        x = x / np.linalg.norm(x)
        return self.point(at), x, np.cross(z, x), z


def _gauss(stretches: list[float], place: Callable[[Array], Array], rate: Callable[[Array], Array]) -> Way:
    """Places and weighted steps of a curve over its smooth stretches, by Gauss and Legendre."""
    places, steps = [], []
    for low, high in pairwise(stretches):
        t = (low + high) / 2.0 + (high - low) / 2.0 * _NODES
        places.append(place(t))
        steps.append(rate(t) * (_WEIGHTS * (high - low) / 2.0)[:, None])
    return np.concatenate(places), np.concatenate(steps)


def _line(_: Exchange, __: str, start: Array, end: Array) -> Way:
    way = end - start
    return _gauss([0.0, 1.0], lambda t: start + t[:, None] * way, lambda t: np.tile(way, (len(t), 1)))


def _round(exchange: Exchange, curve: str, start: Array, end: Array) -> Way:
    """A circle or an ellipse, run as its angle grows; all round where it ends where it starts."""
    _, placement, *radii = exchange.args(curve)
    center, x, y, _ = exchange.axes(placement)
    first, second = float(radii[0]), float(radii[-1])

    def angle(point: Array) -> float:
        return float(np.arctan2((point - center) @ y / second, (point - center) @ x / first))

    low = angle(start)
    turn = (angle(end) - low) % (2.0 * np.pi)
    if turn < 1e-9 or turn > 2.0 * np.pi - 1e-9:
        turn = 2.0 * np.pi
    return _gauss(
        np.linspace(low, low + turn, 5).tolist(),
        lambda t: center + np.outer(first * np.cos(t), x) + np.outer(second * np.sin(t), y),
        lambda t: np.outer(-first * np.sin(t), x) + np.outer(second * np.cos(t), y),
    )


def _spline(exchange: Exchange, curve: str, start: Array, end: Array) -> Way:
    _, degree, points, _, _, _, counts, knots, _ = exchange.args(curve)
    laid = np.repeat([float(knot) for knot in knots], [int(count) for count in counts])
    poles = np.array([exchange.point(point) for point in points])
    order = int(degree)
    slopes = order * np.diff(poles, axis=0) / (laid[order + 1 : -1] - laid[1 : -order - 1])[:, None]
    low, high = float(knots[0]), float(knots[-1])
    reached = _on_spline(np.array([low, high]), laid, order, poles)
    gap = float(np.abs(reached - (start, end)).max())
    assert gap < _NEAR_MM, f"a B-spline ends {gap:.2g} mm from its corner"
    return _gauss(
        [float(knot) for knot in knots],
        lambda t: _on_spline(t, laid, order, poles),
        lambda t: _on_spline(t, laid[1:-1], order - 1, slopes),
    )


def _on_spline(t: Array, knots: Array, degree: int, poles: Array) -> Array:
    """Places on a B-spline, by de Boor's recurrence."""
    at = np.clip(np.searchsorted(knots, t, side="right") - 1, degree, len(poles) - 1)
    kept = poles[at[:, None] - degree + np.arange(degree + 1)]
    for level in range(1, degree + 1):
        for j in range(degree, level - 1, -1):
            low, high = knots[at - degree + j], knots[at + 1 + j - level]
            share = ((t - low) / (high - low))[:, None]
            kept[:, j] = (1.0 - share) * kept[:, j - 1] + share * kept[:, j]
    return kept[:, degree]


_CURVES: dict[str, Callable[[Exchange, str, Array, Array], Way]] = {
    "LINE": _line,
    "CIRCLE": _round,
    "ELLIPSE": _round,
    "B_SPLINE_CURVE_WITH_KNOTS": _spline,
}


def _plane(exchange: Exchange, surface: str) -> Callable[[Way], float]:
    """The height of the plane times twice the area, half of each edge's turn about the origin."""
    origin, *_, normal = exchange.axes(exchange.args(surface)[1])
    return lambda way: float(origin @ normal) * float(np.cross(*way).sum(axis=0) @ normal) / 2.0


def _revolved(exchange: Exchange, surface: str) -> Callable[[Way], float]:
    """A cylinder or a cone: with angle a, height h and radius r = R + h t, the flux through a patch is

    the integral of k(a) (R + h t) over a and h with k = R + c . e(a) - t c . z; c is the origin.
    """
    _, placement, radius, *half_angle = exchange.args(surface)
    origin, _, _, axis = exchange.axes(placement)
    slope = np.tan(float(half_angle[0])) if half_angle else 0.0

    def through(way: Way) -> float:
        places, steps = way
        from_origin = places - origin
        height = from_origin @ axis
        arm = from_origin - height[:, None] * axis
        reach = np.linalg.norm(arm, axis=1)
        out = arm / reach[:, None]
        turn = (np.cross(axis, out) * steps).sum(axis=1) / reach
        share = float(radius) + out @ origin - slope * float(origin @ axis)
        return -float((share * (float(radius) * height + slope * height**2 / 2.0) * turn).sum())

    return through


_THROUGH: dict[str, Callable[[Exchange, str], Callable[[Way], float]]] = {
    "PLANE": _plane,
    "CYLINDRICAL_SURFACE": _revolved,
    "CONICAL_SURFACE": _revolved,
}


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
