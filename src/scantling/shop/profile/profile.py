"""The shop profile: what a shop owns, buys, uses, charges, and how it works."""

from __future__ import annotations

from typing import Annotated, Literal, TypeVar

from pydantic import Field

from scantling.errors import InputError
from scantling.shop.profile.allowances import Allowances
from scantling.shop.profile.clamps import USUAL_CLAMPS, Clamp, Clamping
from scantling.shop.profile.glues import Glue, shipped_glues
from scantling.shop.profile.machines import HAND_KERF_MM, USUAL_MACHINES, Machines
from scantling.shop.profile.place import Accuracy, Climate, People, Space
from scantling.shop.profile.rates import Rates, TimberPrice, shipped_timber_prices
from scantling.shop.profile.section import ProfileSection
from scantling.shop.profile.surfacing import Abrasive, FinishProduct, shipped_abrasives, shipped_finishes
from scantling.shop.profile.weights import LayoutWeights
from scantling.shop.profile.yard import Nominal, Yard, nominals
from scantling.wood.species import find_species

__all__ = ["Shop"]

Kind = TypeVar("Kind", Glue, FinishProduct)


class Shop(ProfileSection):
    """A shop. Sections left out take the defaults; a machine or clamp left out of its section is not owned.

    ``machines: {}`` owns none: all is planned for hand tools.
    """

    name: Annotated[str, Field(max_length=120)] = "A one-person shop"
    units: Literal["mm", "cm", "in"] = "mm"
    """Unit of bare lengths in the file."""
    note: str = ""
    machines: Machines = USUAL_MACHINES
    yard: Yard = Yard()
    allowances: Allowances = Allowances()
    clamps: tuple[Clamp, ...] = USUAL_CLAMPS
    clamping: Clamping = Clamping()
    glue: str = "yellow PVA"
    """Name of the glue used unless a joint says otherwise."""
    glues: tuple[Glue, ...] = ()
    """Glues of your own, added to those shipped; the same name goes before."""
    finish: str = "oil-varnish blend"
    """Name of the finish used unless the piece says otherwise."""
    finishes: tuple[FinishProduct, ...] = ()
    """Finishes of your own, added to those shipped; the same name goes before."""
    abrasives: tuple[Abrasive, ...] = ()
    """Grits of your own; empty takes those shipped."""
    people: People = People()
    accuracy: Accuracy = Accuracy()
    space: Space = Space()
    climate: Climate = Climate()
    rates: Rates = Rates()
    layout: LayoutWeights = LayoutWeights()

    @property
    def kerf_mm(self) -> float:
        """Kerf of the saw that cuts parts out. [mm]"""
        owned = self.machines
        saws = (owned.table_saw, owned.miter_saw, owned.track_saw, owned.bandsaw)
        return next((saw.kerf_mm for saw in saws if saw is not None), HAND_KERF_MM)

    def offered(self, *, asked: tuple[int, ...] = ()) -> tuple[Nominal, ...]:
        """Thicknesses this shop buys, thinnest first.

        Parameters
        ----------
        asked
            Thicknesses the piece asks for; a shop that lists none of its own gets these too, though
            yards seldom have them. [1/4 in]
        """
        yard = self.yard
        chosen = [
            n
            for n in nominals()
            if (n.name in yard.names if yard.names else n.system is yard.system and n.usual)
            or (not yard.names and n.quarters in asked)
        ]
        return tuple(sorted(chosen, key=lambda n: n.rough_mm))

    def known_glues(self) -> tuple[Glue, ...]:
        """Glues shipped and your own, yours in place of those of the same name."""
        return tuple({glue.name: glue for glue in (*shipped_glues(), *self.glues)}.values())

    def glue_named(self, name: str = "") -> Glue:
        """A glue by name; the shop's usual one when none is given.

        Raises
        ------
        InputError
            ``unknown_glue``.
        """
        glues = {glue.name: glue for glue in self.known_glues()}
        return _named(glues, name or self.glue, what="glue")

    def finish_named(self, name: str = "") -> FinishProduct:
        """A finish by name; the shop's usual one when none is given.

        Raises
        ------
        InputError
            ``unknown_finish``.
        """
        finishes = {finish.name: finish for finish in (*shipped_finishes(), *self.finishes)}
        return _named(finishes, name or self.finish, what="finish")

    def grits(self) -> tuple[Abrasive, ...]:
        """Abrasives, coarse first."""
        return tuple(sorted(self.abrasives or shipped_abrasives(), key=lambda a: a.grit))

    def timber_price(self, species: str) -> TimberPrice | None:
        """Price of a species where no rack gives one; None when nothing is known.

        Raises
        ------
        InputError
            ``unknown_species``.
        """
        wood = find_species(species).name
        own = {find_species(name).name: price for name, price in self.rates.timber.items()}
        return own.get(wood) or shipped_timber_prices().get(wood)


def _named(things: dict[str, Kind], name: str, *, what: str) -> Kind:
    if name not in things:
        raise InputError(
            code=f"unknown_{what}",
            field=what,
            value=name,
            rule=f"must be one of {', '.join(sorted(things))}",
            remedy=f"Use one of these names, or add the {what} to the shop profile.",
        )
    return things[name]
