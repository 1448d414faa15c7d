"""A plane frame by slope and deflection, every rotation an unknown of its own: to hold the package's sum to.

It shares nothing with the package. A joint that turns is two rotations with a spring between them; what moves
together is one unknown. From any book of structural mechanics: the 6 x 6 stiffness of a straight bar.
"""

from __future__ import annotations

from math import hypot

import numpy as np

__all__ = ["PlaneFrame"]

Place = tuple[float, float]
Moves = tuple[int, int, int]


class PlaneFrame:
    """Unknowns, bars and springs; unknown 0 is held. Lengths in mm, forces in N."""

    def __init__(self) -> None:
        self._count = 1
        self._terms: list[tuple[list[int], np.ndarray]] = []

    def unknown(self) -> int:
        """One displacement or rotation more."""
        self._count += 1
        return self._count - 1

    def bar(self, ends: tuple[Place, Place], moves: tuple[Moves, Moves], *, ea: float, ei: float) -> None:
        """A straight bar; its ends move aside, up and round by these unknowns."""
        (x1, y1), (x2, y2) = ends
        length = hypot(x2 - x1, y2 - y1)
        c, s = (x2 - x1) / length, (y2 - y1) / length
        a, b = ea / length, ei / length**3
        own = b * np.array(
            [
                [0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
                [0.0, 12.0, 6.0 * length, 0.0, -12.0, 6.0 * length],
                [0.0, 6.0 * length, 4.0 * length**2, 0.0, -6.0 * length, 2.0 * length**2],
                [0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
                [0.0, -12.0, -6.0 * length, 0.0, 12.0, -6.0 * length],
                [0.0, 6.0 * length, 2.0 * length**2, 0.0, -6.0 * length, 4.0 * length**2],
            ]
        )
        own[0, 0] = own[3, 3] = a
        own[0, 3] = own[3, 0] = -a
        turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
        both = np.block([[turn, np.zeros((3, 3))], [np.zeros((3, 3)), turn]])
        self._terms.append(([*moves[0], *moves[1]], both.T @ own @ both))

    def spring(self, one: int, other: int, stiffness: float) -> None:
        """A spring between two rotations."""
        self._terms.append(([one, other], stiffness * np.array([[1.0, -1.0], [-1.0, 1.0]])))

    def moved(self, loads: dict[int, float]) -> np.ndarray:
        """Every unknown under loads on some of them."""
        whole, asked = np.zeros((self._count, self._count)), np.zeros(self._count)
        for places, term in self._terms:
            np.add.at(whole, np.ix_(places, places), term)
        for place, load in loads.items():
            asked[place] += load
        found = np.zeros(self._count)
        found[1:] = np.linalg.solve(whole[1:, 1:], asked[1:])
        return found
