"""Screws, nails and bolts: drawn straight out, and pressed sideways."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError
from scantling.joinery.strength.figure import Figure, JointStrength, Known, none, nothing
from scantling.joinery.strength.glue import FACTOR
from scantling.joinery.work import Connector, ConnectorKind, Hole, JointWork
from scantling.piece.model import Part, PartKind
from scantling.wood.fasteners import Fastener, lateral_n, withdrawal_n
from scantling.wood.species import Species, find_species

__all__ = ["LATERAL_SHARE", "Held", "cross_bolt", "driven", "fastened", "fastening", "hinged"]

PULL_FACTOR = 5.0
"""Breaking withdrawal over what a screw may carry for good. [1]
Common practice; 2 850 G2 D of the National Design Specification is 15 700 G2 D over 5.5."""
END_GRAIN_PULL = 0.75
"""Withdrawal from end grain over that from side grain. [1] Wood Handbook ch. 8, from memory; published advice
is not to load wood screws so (T. G. Hicks, *Civil Engineering Formulas*, ch. 6)."""
END_GRAIN_LATERAL = 2.0 / 3.0
"""Lateral load in end grain over that in side grain. [1] Wood Handbook ch. 8, from memory."""
LATERAL_SHARE = 0.75
"""Design load over the Wood Handbook's lateral load at 0.38 mm of slip. [1]

Derived: the design coefficients 4 800, 3 960, 3 240 and 2 520 printed for four groups of woods [1]_ are three
quarters of its 6 400, 5 280, 4 320 and 3 360.

References
----------
.. [1] T. G. Hicks, *Civil Engineering Formulas*, ch. 6, eq. 6.38 and the values below it.
"""
FULL_DIAMETERS = 7.0
"""Bite, in diameters, from which the lateral load counts in full; less counts in proportion. [1]
Wood Handbook ch. 8, from memory."""
_DRAWN = "withdrawal of wood screws by Wood Handbook ch. 8, 108.25 G2 D L (constant from memory), over five"
_DRAWN_NAIL = "withdrawal of nails by Wood Handbook ch. 8, 54.12 G5/2 D L, over five"
_PUSHED = (
    "lateral load at 0.38 mm of slip by Wood Handbook ch. 8 (constants from memory; three quarters of them "
    "are printed in Hicks, Civil Engineering Formulas, eq. 6.38), three quarters of it counted on"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One screw or nail in the part that holds its point.

    Parameters
    ----------
    species
        Of that part.
    diameter_mm, bite_mm
        Of the fastener, and how far it stands in that part. [mm]
    in_end
        Whether it stands in end grain.
    """

    species: Species
    diameter_mm: float
    bite_mm: float
    in_end: bool = False
    nail: bool = False

    @property
    def pull_n(self) -> float | None:
        """What draws it out; None where the wood's gravity is not published. [N]"""
        gravity = self.species.specific_gravity_12
        if gravity is None or self.bite_mm <= 0.0:
            return None
        kind = Fastener.NAIL if self.nail else Fastener.WOOD_SCREW
        out = withdrawal_n(
            kind, specific_gravity_12=gravity, diameter_mm=self.diameter_mm, penetration_mm=self.bite_mm
        )
        return out * (END_GRAIN_PULL if self.in_end else 1.0)

    @property
    def push_n(self) -> float | None:
        """Lateral load at 0.38 mm of slip; None for woods lighter than any published. [N]"""
        gravity = self.species.specific_gravity_12
        if gravity is None or self.bite_mm <= 0.0:
            return None
        try:
            load = lateral_n(
                Fastener.NAIL if self.nail else Fastener.WOOD_SCREW,
                specific_gravity_12=gravity,
                diameter_mm=self.diameter_mm,
                hardwood=self.species.hardwood,
            )
        except InputError:
            return None
        deep = min(self.bite_mm / (FULL_DIAMETERS * self.diameter_mm), 1.0)
        return load * deep * (END_GRAIN_LATERAL if self.in_end else 1.0)


def fastening(helds: list[Held]) -> tuple[Figure, Figure]:
    """What fasteners bear together, drawn out and pressed sideways. [N]"""
    pulls, pushes = [held.pull_n for held in helds], [held.push_n for held in helds]
    out = sum(pull for pull in pulls if pull is not None)
    aside = sum(push for push in pushes if push is not None)
    nail = any(held.nail for held in helds)
    source = _DRAWN_NAIL if nail else _DRAWN
    if any(held.in_end for held in helds):
        source += "; three quarters in end grain, where screws are better not loaded so"
    pull = none("no specific gravity is published for this wood")
    if helds and None not in pulls:
        known = Known.FORMULA if nail else Known.MEMORY
        pull = _figure(out, may=out / PULL_FACTOR, known=known, source=source)
    push = none("no lateral load is published for so light a wood")
    if helds and None not in pushes:
        push = _figure(aside, may=aside * LATERAL_SHARE, known=Known.MEMORY, source=_PUSHED)
    return pull, push


def _figure(likely: float, *, may: float, known: Known, source: str) -> Figure:
    return Figure(
        likely=likely, low=likely, high=likely, may=may, factor=likely / may, known=known, source=source
    )


def driven(work: JointWork, second: Part) -> list[Held]:
    """The screws or nails of a joint in the second part, which holds their points."""
    return _held_in(work, second)


def _held_in(work: JointWork, part: Part, *, share: float = 1.0) -> list[Held]:
    """Its fasteners that stand in one part, as their pilot holes say. A sheet is judged by none."""
    ones = [one for one in work.connectors if one.kind in (ConnectorKind.SCREW, ConnectorKind.NAIL)]
    if not ones or part.kind is PartKind.SHEET:
        return []
    holes = [cut.tool for cut in work.cuts if cut.part == part.name and cut.what == "pilot hole"]
    in_end = any(isinstance(hole, Hole) and abs(hole.frame.grain[0]) > 0.7 for hole in holes)
    found = []
    for one in ones:
        bite = one.drill_mm[1] if len(one.drill_mm) > 1 else 0.0
        found += [
            Held(
                species=find_species(part.species),
                diameter_mm=one.size_mm[0],
                bite_mm=bite,
                in_end=in_end,
                nail=one.kind is ConnectorKind.NAIL,
            )
        ] * max(round(one.count * share), 1)
    return found


def fastened(work: JointWork, _first: Part, second: Part) -> JointStrength:
    """A part screwed or nailed to another."""
    return _of(driven(work, second), why="no turning stiffness is published for screws")


def hinged(work: JointWork, first: Part, second: Part) -> JointStrength:
    """Hardware screwed to both parts, half its screws in each: the weaker part's count."""
    sides = [_held_in(work, part, share=0.5) for part in (first, second)]
    if not all(sides):
        return nothing("screws in sheet goods: no published figure taken")
    return min(
        (_of(side, why="it turns freely") for side in sides), key=lambda each: each.pull_n.likely or 0.0
    )


def _of(helds: list[Held], *, why: str) -> JointStrength:
    if not helds:
        return nothing("fasteners in sheet goods: no published figure taken")
    pull, push = fastening(helds)
    return JointStrength(pull_n=pull, shear_n=push, moment_nmm=none(why), stiffness_nmm_rad=none(why))


def cross_bolt(work: JointWork, first: Part, _second: Part) -> JointStrength:
    """A bolt through one part into a nut across the other: the nut crushes the end grain before it."""
    nut = _one(work, ConnectorKind.BARREL_NUT)
    crushing = None if first.kind is PartKind.SHEET else find_species(first.species).compression_parallel_mpa
    if nut is None or crushing is None:
        return nothing("no crushing strength is published for this wood")
    breaks = crushing * nut.size_mm[0] * nut.size_mm[1] * nut.count
    told = (
        "the nut's width and length by the wood's crushing strength along the grain (Wood Handbook table 5-3)"
    )
    moment = none("no crushing strength is published for this wood")
    if work.breaking_nmm is not None:
        turns = work.breaking_nmm
        moment = _figure(
            turns, may=turns / FACTOR, known=Known.RECKONED, source=f"{told}, by each bolt's arm to the edge"
        )
    return JointStrength(
        pull_n=_figure(breaks, may=breaks / FACTOR, known=Known.RECKONED, source=told),
        shear_n=none("its dowels keep it in place; with the bolt in a wide hole nothing is published"),
        moment_nmm=moment,
        stiffness_nmm_rad=none("as stiff as the bolt is kept tight"),
    )


def _one(work: JointWork, kind: ConnectorKind) -> Connector | None:
    return next((one for one in work.connectors if one.kind is kind), None)
