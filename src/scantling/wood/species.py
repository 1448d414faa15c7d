"""The woods: what is published of each, with the source of every number."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, fields
from functools import cache

from scantling.errors import InputError
from scantling.wood import tables
from scantling.wood.provenance import Provenance

__all__ = ["NUMBER_FIELDS", "Species", "all_species", "find_species", "own_woods", "woods_of_own"]

FIBER_SATURATION_PCT = 30.0
"""Moisture content at which shrinkage starts, for most woods. [%] Wood Handbook, chapter 4."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One wood. A number is ``None`` where nothing is published for it.

    Parameters
    ----------
    name
        The name shown (``black cherry``).
    common_names
        Other names a maker may write.
    botanical
        Botanical name.
    hardwood
        Whether it is a hardwood.
    radial_pct, tangential_pct, volumetric_pct
        Total shrinkage, green to ovendry, of the green size. [%]
    cr_per_pct, ct_per_pct
        Dimensional change coefficient, radial and tangential, 6 to 14 % moisture. [1 per % MC]
    shrink_start_pct
        Moisture content at which shrinkage starts. [%]
    specific_gravity_12, specific_gravity_green
        Ovendry mass over the volume at 12 % and when green, relative to water. [1]
    moe_mpa, mor_mpa
        Modulus of elasticity and of rupture in bending at 12 %. [MPa]
    shear_mpa, compression_parallel_mpa, compression_perp_mpa, tension_perp_mpa
        Strengths at 12 %: shear along the grain, compression along and across, tension across. [MPa]
    side_hardness_n
        Side hardness at 12 %. [N]
    et_per_el, er_per_el, glr_per_el, glt_per_el, grt_per_el
        Elastic ratios to the modulus along the grain. [1]
    mu_lr, mu_lt, mu_rt, mu_tr, mu_rl, mu_tl
        Poisson ratios. [1]
    sources
        Provenance of every number, by field name.
    """

    name: str
    common_names: tuple[str, ...] = ()
    botanical: str = ""
    hardwood: bool = True
    radial_pct: float | None = None
    tangential_pct: float | None = None
    volumetric_pct: float | None = None
    cr_per_pct: float | None = None
    ct_per_pct: float | None = None
    shrink_start_pct: float = FIBER_SATURATION_PCT
    specific_gravity_12: float | None = None
    specific_gravity_green: float | None = None
    moe_mpa: float | None = None
    mor_mpa: float | None = None
    shear_mpa: float | None = None
    compression_parallel_mpa: float | None = None
    compression_perp_mpa: float | None = None
    tension_perp_mpa: float | None = None
    side_hardness_n: float | None = None
    et_per_el: float | None = None
    er_per_el: float | None = None
    glr_per_el: float | None = None
    glt_per_el: float | None = None
    grt_per_el: float | None = None
    mu_lr: float | None = None
    mu_lt: float | None = None
    mu_rt: float | None = None
    mu_tr: float | None = None
    mu_rl: float | None = None
    mu_tl: float | None = None
    sources: dict[str, Provenance] = field(default_factory=dict, hash=False, compare=False)

    def source(self, field_name: str) -> Provenance | None:
        """Provenance of one number, or ``None`` where there is no number."""
        return self.sources.get(field_name)

    def is_estimate(self, field_name: str) -> bool:
        """Whether a number is doubtful or only recalled, and to be shown as an estimate."""
        source = self.sources.get(field_name)
        return source is not None and source.is_estimate


NUMBER_FIELDS: tuple[str, ...] = tuple(
    f.name
    for f in fields(Species)
    if f.name not in ("name", "common_names", "botanical", "hardwood", "sources")
)
"""Names of the fields of :class:`Species` that hold a published number."""


def _key(name: str) -> str:
    """Words of a name in order of the alphabet, so ``Cherry, black`` meets ``black_cherry``."""
    return " ".join(sorted(re.findall(r"[^\W_]+", name.casefold())))


@cache
def all_species() -> tuple[Species, ...]:
    """Every wood of the published tables, in the order of their genus.

    Examples
    --------
    >>> len(all_species()) > 200
    True
    """
    numbers = tables.values()
    woods = []
    for row in tables.names():
        own = numbers.get(row["name"], {})
        others = tuple(part.strip() for part in row["other_names"].split(";") if part.strip())
        values = {quantity: value for quantity, (value, _) in own.items()}
        woods.append(
            Species(
                name=row["name"],
                common_names=others,
                botanical=row["botanical"],
                hardwood=row["kind"] == "hardwood",
                sources={quantity: source for quantity, (_, source) in own.items()},
                **values,
            )
        )
    return tuple(woods)


def _index(woods: Sequence[Species]) -> dict[str, Species]:
    """Woods by every form of their names; a proper name beats another's by-name."""
    index: dict[str, Species] = {}
    for wood in woods:
        for name in (*wood.common_names, wood.botanical):
            index.setdefault(_key(name), wood)
    for wood in woods:
        index[_key(wood.name)] = wood
    index.pop("", None)
    return index


@cache
def _published_index() -> dict[str, Species]:
    return _index(all_species())


_own: list[tuple[Species, ...]] = []
"""Lists of own woods known now; the last one counts."""


@contextmanager
def own_woods(woods: Sequence[Species]) -> Iterator[None]:
    """Let a maker's own woods be found by name, before the published ones, as long as it lasts.

    One workshop has one list of its own: it holds for every thread of the program, the page's too.

    Examples
    --------
    >>> with own_woods([Species(name="street plum", tangential_pct=8.0)]):
    ...     find_species("street plum").tangential_pct
    8.0
    """
    _own.append(tuple(woods))
    try:
        yield
    finally:
        _own.pop()


def woods_of_own() -> tuple[Species, ...]:
    """The maker's own woods known now."""
    return _own[-1] if _own else ()


def find_species(name: str, *, own: Sequence[Species] = ()) -> Species:
    """The wood of a name, in any form a maker writes it.

    Parameters
    ----------
    name
        Common, botanical or trade name: ``cherry``, ``Cherry, black``, ``black_cherry``,
        ``Prunus serotina``, ``hard maple``.
    own
        The user's own woods; they come before the published ones. Left out, those of :func:`own_woods`.

    Raises
    ------
    InputError
        ``unknown_species``, naming the near matches.

    Examples
    --------
    >>> find_species("Cherry, black").name
    'black cherry'
    >>> find_species("hard maple").name
    'sugar maple'
    """
    key, own = _key(name), own or woods_of_own()
    if own:
        found = _index(own).get(key)
        if found is not None:
            return found
    found = _published_index().get(key)
    if found is None:
        raise _unknown(name, key, own)
    return found


def _near(key: str, own: Sequence[Species]) -> list[str]:
    from difflib import get_close_matches  # only on the way to an error

    index = {**_published_index(), **_index(own)}
    words = set(key.split())
    solid = key.replace(" ", "")  # ``whiteoak`` is both words of white oak
    woods = (*own, *all_species())
    joined = [wood for wood in woods if wood.name.casefold().replace(" ", "") == solid]
    kin = [wood for wood in woods if words & set(_key(wood.name).split())]
    kin += [wood for wood in woods if len(words) == 1 and solid.endswith(wood.name.casefold().split()[-1])]
    near = [wood.name for wood in joined]
    near += [wood.name for wood in sorted(kin, key=lambda wood: -len(wood.sources))]  # best known first
    if len(near) < 3:
        near += [index[match].name for match in get_close_matches(key, list(index), n=5, cutoff=0.6)]
    if not near:  # a slip in one word: ``oka`` for ``oak``
        known = {word for wood in (*own, *all_species()) for word in _key(wood.name).split()}
        meant = {match for word in words for match in get_close_matches(word, known, n=1, cutoff=0.6)}
        kin = [wood for wood in (*own, *all_species()) if meant & set(_key(wood.name).split())]
        near = [wood.name for wood in sorted(kin, key=lambda wood: -len(wood.sources))]
    return list(dict.fromkeys(near))[:8]


def _unknown(name: str, key: str, own: Sequence[Species]) -> InputError:
    near = _near(key, own)
    return InputError(
        code="unknown_species",
        field="species",
        value=name[:80],
        rule="must name a wood of the tables or of your own file",
        remedy=f"Write one of: {', '.join(near)}." if near else "Write a wood of the tables.",
    )
