"""Moisture in time: one-dimensional diffusion through the thickness of many parts at once.

Through the thickness, moisture is a smooth curve held at thirteen points, closest together at the faces.
Water passes inside by the diffusivity of the wood, and between a face and the air through a film of still
air and the finish of that face. In time the whole is stepped by an implicit scheme of second order, stable
at any step. Diffusivity follows moisture and temperature: it is refreshed once a day, and the step of that
day is one small matrix a part, so a year by the hour costs a fraction of a second.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from scantling.errors import InputError
from scantling.wood.density import WATER_KG_M3, specific_gravity
from scantling.wood.diffusivity import transverse_diffusivity_siau_mm2_s
from scantling.wood.lobatto import LobattoRule, lobatto_rule
from scantling.wood.moisture import emc_pct
from scantling.wood.surface import AIR_FILM_S_MM, surface_coefficient_mm_s

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["SEALED_S_MM", "MoistureHistory", "Slab", "simulate"]

SEALED_S_MM = math.inf
"""Resistance of a face that lets nothing through. [s/mm]"""
_GAMMA = 1.0 - math.sqrt(0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A part as diffusion sees it.

    Parameters
    ----------
    thickness_mm
        Between the two faces. [mm] > 0.
    basic_specific_gravity
        Ovendry mass over green volume. [1]
    mc_pct
        Moisture content at the start, even through the thickness. [%]
    finish_front_s_mm, finish_back_s_mm
        Resistance of the finish on each face to water vapour; 0 bare, infinite sealed. [s/mm]
    film_s_mm
        Resistance of the air film at each face. [s/mm] > 0.
    diffusivity_mm2_s
        A constant diffusion coefficient; ``None`` to have it computed from density, moisture and
        temperature. [mm2/s]
    """

    thickness_mm: float
    basic_specific_gravity: float = 0.5
    mc_pct: float = 8.0
    finish_front_s_mm: float = 0.0
    finish_back_s_mm: float = 0.0
    film_s_mm: float = AIR_FILM_S_MM
    diffusivity_mm2_s: float | None = None

    def __post_init__(self) -> None:
        if not self.thickness_mm > 0.0:
            raise InputError(
                code="thickness_not_positive",
                field="thickness_mm",
                value=self.thickness_mm,
                rule="must be greater than 0 mm",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureHistory:
    """Moisture of every part at the recorded times.

    Parameters
    ----------
    time_s
        Times from the start. [s] shape (times,)
    profile_pct
        Moisture at the points, front face first, back face last. [%] shape (times, parts, points)
    taken_up_pct
        Water that has come in through both faces since the start, as mean moisture. [%]
        shape (times, parts)
    rule
        The points, from 0 at the front face to 1 at the back, and their weights.
    """

    time_s: Array
    profile_pct: Array
    taken_up_pct: Array
    rule: LobattoRule

    def of_part(self, at: int) -> MoistureHistory:
        """The history of one part, by its place in the order asked: shapes (times, 1, points), (times, 1)."""
        return MoistureHistory(
            time_s=self.time_s,
            profile_pct=self.profile_pct[:, at : at + 1].copy(),
            taken_up_pct=self.taken_up_pct[:, at : at + 1].copy(),
            rule=self.rule,
        )

    @property
    def mean_pct(self) -> Array:
        """Mean through the thickness. [%] shape (times, parts)"""
        mean: Array = self.profile_pct @ self.rule.weights
        return mean

    @property
    def front_pct(self) -> Array:
        """Moisture at the front face. [%] shape (times, parts)"""
        return self.profile_pct[:, :, 0]

    @property
    def back_pct(self) -> Array:
        """Moisture at the back face. [%] shape (times, parts)"""
        return self.profile_pct[:, :, -1]

    @property
    def tilt_pct(self) -> Array:
        """Front less back of the straight gradient that bends a board alike. [%] shape (times, parts)

        Twelve times the first moment about the middle: for a straight gradient, its own difference.
        """
        arm = self.rule.weights * (0.5 - self.rule.points)
        tilt: Array = 12.0 * (self.profile_pct @ arm)
        return tilt


def simulate(
    slabs: Sequence[Slab],
    *,
    temperature_c: Array,
    relative_humidity: Array,
    step_s: float = 3600.0,
    record_every: int = 24,
    points: int = 13,
) -> MoistureHistory:
    r"""Follow the moisture of parts through a stretch of weather.

    Parameters
    ----------
    slabs
        The parts.
    temperature_c, relative_humidity
        Air at the start and after each step; between them it changes evenly. [degC], [1]
        shape (steps + 1,)
    step_s
        Length of a step. [s]
    record_every
        Steps between records, which is also how often diffusivity is refreshed. [1]
    points
        Points through the thickness. [1] >= 3.

    Returns
    -------
    MoistureHistory
        Records at the start, every ``record_every`` steps, and at the end.

    Raises
    ------
    InputError
        ``temperature_out_of_range``, ``humidity_out_of_range``, ``air_series_uneven``.

    Notes
    -----
    .. math:: \frac{\partial M}{\partial t} = \frac{\partial}{\partial x}\left(D\frac{\partial M}{\partial x}
              \right),\qquad \mp D\frac{\partial M}{\partial x} = S\,(M_e - M)\ \text{at the faces}

    In space the Galerkin method with Gauss-Lobatto points [2]_: whatever the points, water is neither lost
    nor made. In time the two-stage L-stable scheme of [3]_.

    References
    ----------
    .. [1] J. Crank, *The Mathematics of Diffusion*, 2nd ed., Oxford, 1975.
    .. [2] C. Canuto, M. Y. Hussaini, A. Quarteroni, T. A. Zang, *Spectral Methods: Fundamentals in
       Single Domains*, Springer, 2006.
    .. [3] R. Alexander, "Diagonally implicit Runge-Kutta methods for stiff O.D.E.'s", *SIAM J. Numer.
       Anal.* 14(6), 1977, 1006-1021.
    """
    import numpy as np

    if temperature_c.shape != relative_humidity.shape or temperature_c.size < 2:
        raise InputError(
            code="air_series_uneven",
            field="relative_humidity",
            value=f"{relative_humidity.size} values against {temperature_c.size} temperatures",
            rule="must have as many values as there are temperatures, at least two",
        )
    air = _Air.of(temperature_c, relative_humidity)
    stack = _Stack.of(slabs, points=points)
    steps = temperature_c.size - 1
    marks = [*range(0, steps, record_every), steps]
    exchange = stack.exchange(air, marks[:-1])
    state = stack.start()[..., None]
    records = [state]
    for number, (first, last) in enumerate(pairwise(marks)):
        temperature = float(air.temperature_c[first])
        step, from_before, from_after = stack.stepper(state, temperature, exchange.at(number), step_s=step_s)
        emc = air.emc_pct[first : last + 1, None, None, None]
        for drive in emc[:-1] * from_before + emc[1:] * from_after:
            state = step @ state + drive
        records.append(state)
    states = np.stack(records)[..., 0]
    return MoistureHistory(
        time_s=np.array(marks) * step_s,
        profile_pct=states[:, :, :points],
        taken_up_pct=states[:, :, points],
        rule=stack.rule,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Air:
    """Air, what the wood settles at in it, and the slope of that over humidity. shape (steps + 1,)"""

    temperature_c: Array
    emc_pct: Array
    slope_pct: Array

    @classmethod
    def of(cls, temperature_c: Array, relative_humidity: Array) -> _Air:
        import numpy as np

        low = np.clip(relative_humidity - 0.02, 0.0, 0.94)
        slope = (emc_pct(temperature_c, low + 0.04) - emc_pct(temperature_c, low)) / 0.04
        settled = emc_pct(temperature_c, relative_humidity)
        return cls(temperature_c=temperature_c, emc_pct=settled, slope_pct=slope)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stack:
    """All parts, and the step matrices made from them.

    A state holds the moisture at every point and, in its last place, the water taken up, as mean
    moisture: shape (parts, points + 1).
    """

    rule: LobattoRule
    thickness_mm: Array
    basic: Array
    dry_density_kg_mm3: Array
    start_pct: Array
    resistance_s_mm: Array
    fixed_mm2_s: Array
    unknown: NDArray[np.bool_]
    """Whether the diffusivity is to be computed. shape (parts, 1)"""
    across: Array
    """What the flow at a point is divided by to change its moisture. [mm2] shape (parts, points, 1)"""

    @classmethod
    def of(cls, slabs: Sequence[Slab], *, points: int) -> _Stack:
        import numpy as np

        fixed = np.array([math.nan if s.diffusivity_mm2_s is None else s.diffusivity_mm2_s for s in slabs])
        rule, thickness_mm = lobatto_rule(points), np.array([slab.thickness_mm for slab in slabs])
        finish = np.array([(slab.finish_front_s_mm, slab.finish_back_s_mm) for slab in slabs])
        gravity = [specific_gravity(slab.basic_specific_gravity, mc_pct=10.0) for slab in slabs]
        return cls(
            rule=rule,
            thickness_mm=thickness_mm,
            basic=np.array([slab.basic_specific_gravity for slab in slabs]),
            dry_density_kg_mm3=np.array(gravity) * WATER_KG_M3 * 1e-9,
            start_pct=np.array([slab.mc_pct for slab in slabs]),
            resistance_s_mm=finish + np.array([slab.film_s_mm for slab in slabs])[:, None],
            fixed_mm2_s=fixed[:, None],
            unknown=np.isnan(fixed)[:, None],
            across=-(thickness_mm**2)[:, None, None] * rule.weights[:, None],
        )

    def start(self) -> Array:
        import numpy as np

        state = np.zeros((self.thickness_mm.size, self.rule.points.size + 1))
        state[:, :-1] = self.start_pct[:, None]
        return state

    def _diffusivity(self, moisture_pct: Array, temperature_c: float) -> Array:
        """Diffusivity at every point. [mm2/s] shape (parts, points)"""
        import numpy as np

        below = np.minimum(np.maximum(moisture_pct, 0.0), 30.0)
        basic = self.basic[:, None]
        gravity = basic / (1.0 - 0.265 * (30.0 - below) / 30.0 * basic)
        computed = transverse_diffusivity_siau_mm2_s(gravity, mc_pct=below, temperature_c=temperature_c)
        return computed if self.unknown.all() else np.where(self.unknown, computed, self.fixed_mm2_s)

    def exchange(self, air: _Air, marks: Sequence[int]) -> _Exchange:
        """What passes the faces with the air at some times; it does not depend on the moisture inside."""
        import numpy as np

        surface = np.stack(
            [
                surface_coefficient_mm_s(
                    dry_density_kg_mm3=self.dry_density_kg_mm3[:, None],
                    temperature_c=float(air.temperature_c[at]),
                    slope_pct=float(air.slope_pct[at]),
                    resistance_s_mm=self.resistance_s_mm,
                )
                for at in marks
            ]
        )
        out = surface / self.thickness_mm[:, None]
        return _Exchange(out=out, into=out / self.rule.weights[[0, -1]], both=out.sum(axis=2))

    def stepper(
        self, state: Array, temperature_c: float, exchange: _Exchange, *, step_s: float
    ) -> tuple[Array, Array, Array]:
        """What carries a state over one step: a matrix, and the shares of the air before and after it."""
        import numpy as np

        parts, points = self.thickness_mm.size, self.rule.points.size
        weights, slope = self.rule.weights, self.rule.derivative
        diffusivity = self._diffusivity(state[:, :-1, 0], temperature_c)
        # A product a part, and none over parts, so that a part's figures do not turn on its company.
        flow = (slope.T * (diffusivity * weights)[:, None, :]) @ slope
        matrix = np.zeros((parts, points + 1, points + 1))
        matrix[:, :-1, :-1] = flow / self.across
        source = np.zeros((parts, points + 1, 1))
        for face, point in enumerate((0, points - 1)):
            matrix[:, point, point] -= exchange.into[:, face]
            matrix[:, points, point] = -exchange.out[:, face]
            source[:, point, 0] = exchange.into[:, face]
        source[:, points, 0] = exchange.both
        return _alexander(matrix, source, step_s)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Exchange:
    """What passes the faces of parts, by the difference of moisture to the air.

    Parameters
    ----------
    out
        From front and back, as mean moisture. [1/s] shape (..., parts, 2)
    into
        The same as moisture at the face's point.
    both
        Of both faces. [1/s] shape (..., parts)
    """

    out: Array
    into: Array
    both: Array

    def at(self, number: int) -> _Exchange:
        """At one of several times."""
        return _Exchange(out=self.out[number], into=self.into[number], both=self.both[number])


def _alexander(matrix: Array, source: Array, step_s: float) -> tuple[Array, Array, Array]:
    """Two-stage, second-order, L-stable step of ``y' = A y + b u(t)``, with ``u`` straight over the step."""
    import numpy as np

    parts, size, _ = matrix.shape
    solve = np.linalg.inv(np.eye(size) - _GAMMA * step_s * matrix)
    early, late = (1.0 - _GAMMA) * step_s, _GAMMA * step_s
    rate = solve @ matrix
    # 1 + early R + late R (1 + early R), of which only one product is of matrices.
    step = step_s * rate + (late * early) * (rate @ rate)
    step.reshape(parts, -1)[:, :: size + 1] += 1.0  # its diagonal
    drive = solve @ source
    # The first stage stands at the share gamma of the step, the second at its end.
    by_first = early * drive + (late * early) * (rate @ drive)
    by_second = late * drive
    return step, (1.0 - _GAMMA) * by_first, _GAMMA * by_first + by_second
