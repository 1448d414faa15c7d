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
from functools import cache
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
    through = stack.through_faces(air, marks[:-1])
    state = stack.start()[..., None]
    records = [state]
    emc = air.emc_pct[:, None, None, None]
    fallen = (1.0 - _GAMMA) * (emc[:-1] - emc[1:])
    for number, (first, last) in enumerate(pairwise(marks)):
        temperature = float(air.temperature_c[first])
        step, at_end, by_fall = stack.stepper(state, temperature, through[number], step_s=step_s)
        for drive in emc[first + 1 : last + 1] * at_end + fallen[first:last] * by_fall:
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
    """[1] shape (parts, 1)"""
    dry_density_kg_mm3: Array
    start_pct: Array
    resistance_s_mm: Array
    fixed_mm2_s: Array
    unknown: NDArray[np.bool_]
    """Whether the diffusivity is to be computed. shape (parts, 1)"""
    all_unknown: bool
    per_mm2: Array
    """What a diffusivity is multiplied by to be a rate. [1/mm2] shape (parts, 1)"""
    rates: Array
    """What each rate, at the points and through the faces, adds to the system: see :func:`_rates_of`."""

    @classmethod
    def of(cls, slabs: Sequence[Slab], *, points: int) -> _Stack:
        import numpy as np

        fixed = np.array([math.nan if s.diffusivity_mm2_s is None else s.diffusivity_mm2_s for s in slabs])
        rule, thickness_mm = lobatto_rule(points), np.array([slab.thickness_mm for slab in slabs])
        finish = np.array([(slab.finish_front_s_mm, slab.finish_back_s_mm) for slab in slabs])
        gravity = [specific_gravity(slab.basic_specific_gravity, mc_pct=10.0) for slab in slabs]
        unknown = np.isnan(fixed)[:, None]
        return cls(
            rule=rule,
            thickness_mm=thickness_mm,
            basic=np.array([slab.basic_specific_gravity for slab in slabs])[:, None],
            dry_density_kg_mm3=np.array(gravity) * WATER_KG_M3 * 1e-9,
            start_pct=np.array([slab.mc_pct for slab in slabs]),
            resistance_s_mm=finish + np.array([slab.film_s_mm for slab in slabs])[:, None],
            fixed_mm2_s=fixed[:, None],
            unknown=unknown,
            all_unknown=bool(unknown.all()),
            per_mm2=(1.0 / thickness_mm**2)[:, None],
            rates=_rates_of(points),
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
        gravity = self.basic / (1.0 - (30.0 - below) * (0.265 / 30.0 * self.basic))
        computed = transverse_diffusivity_siau_mm2_s(gravity, mc_pct=below, temperature_c=temperature_c)
        return computed if self.all_unknown else np.where(self.unknown, computed, self.fixed_mm2_s)

    def through_faces(self, air: _Air, marks: Sequence[int]) -> Array:
        """Rate at which water passes each face at some times, whatever the moisture inside.

        Of mean moisture, by the difference to the air's. [1/s] shape (times, parts, 2)
        """
        surface = surface_coefficient_mm_s(
            dry_density_kg_mm3=self.dry_density_kg_mm3[:, None],
            temperature_c=air.temperature_c[marks, None, None],
            slope_pct=air.slope_pct[marks, None, None],
            resistance_s_mm=self.resistance_s_mm,
        )
        return surface / self.thickness_mm[:, None]

    def stepper(
        self, state: Array, temperature_c: float, through: Array, *, step_s: float
    ) -> tuple[Array, Array, Array]:
        """What carries a state over one step: a matrix, and what the air adds (see :func:`_alexander`)."""
        import numpy as np

        parts, size = self.thickness_mm.size, self.rule.points.size + 1
        inside = self._diffusivity(state[:, :-1, 0], temperature_c) * self.per_mm2
        rates = np.concatenate([inside, through], axis=1) * (_GAMMA * step_s)
        # A product a part, and none over parts, so that a part's figures do not turn on its company.
        return _alexander((rates[:, None, :] @ self.rates).reshape(parts, size, size + 1))


@cache
def _rates_of(points: int) -> Array:
    """What a rate of one does: ``A`` and, as its last column, ``b`` of ``y' = A y + b u``, row after row.

    First of the diffusivity at each point over the square of the thickness, then of what passes the front
    face and the back face. [1] shape (points + 2, (points + 1) * (points + 2))
    """
    import numpy as np

    rule = lobatto_rule(points)
    made = np.zeros((points + 2, points + 1, points + 2))
    flow = rule.derivative[:, :, None] * rule.derivative[:, None, :] * rule.weights[:, None, None]
    made[:points, :points, :points] = -flow / rule.weights[:, None]
    for face, point in ((points, 0), (points + 1, points - 1)):
        made[face, point, point] = -1.0 / rule.weights[point]
        made[face, point, -1] = 1.0 / rule.weights[point]
        made[face, points, point] = -1.0
        made[face, points, -1] = 1.0
    made.flags.writeable = False
    return made.reshape(points + 2, -1)


def _alexander(system: Array) -> tuple[Array, Array, Array]:
    """Two-stage, second-order, L-stable step of ``y' = A y + b u(t)``, with ``u`` straight over the step.

    Parameters
    ----------
    system
        ``A`` and, as its last column, ``b``, times gamma and the step. shape (parts, size, size + 1)

    Returns
    -------
    tuple of arrays
        The matrix of the step; what ``u`` at the end adds; and what the share 1 - gamma of the fall of
        ``u`` over the step adds. shapes (parts, size, size), (parts, size, 1) twice
    """
    import numpy as np

    one = _one(system.shape[1])
    # What a stage adds, by the state and by the air it stands in: the second stands at the end of the step.
    stage = np.linalg.solve(one - system[..., :-1], system)
    # What the first adds, carried through the second: it stands a share 1 - gamma before the end.
    first = (1.0 - _GAMMA) / _GAMMA * (stage[..., :-1] @ stage + stage)
    both = stage + first
    return one + both[..., :-1], both[..., -1:], first[..., -1:]


@cache
def _one(size: int) -> Array:
    import numpy as np

    one = np.eye(size)
    one.flags.writeable = False
    return one
