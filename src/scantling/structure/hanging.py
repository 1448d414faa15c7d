"""Doors on their hinges: what pulls at the screws of the upper hinge."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.structure.gravity import GRAVITY_M_S2
from scantling.wood.fasteners import Fastener, withdrawal_n

__all__ = ["Hanging", "check_hanging"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """A door on two hinges or more; the outer ones carry its turning.

    Parameters
    ----------
    mass_kg, arm_mm, width_mm
        The door, its center beside the pin, and its closing edge. [kg], [mm], [mm]
    apart_mm
        Between the outer hinges. [mm]
    screws, screw_mm, bite_mm
        In each leaf, their diameter, and how far each stands in wood. [1], [mm], [mm]
    specific_gravity
        At 12 %, of the lighter wood they stand in. [1]

    Examples
    --------
    4.2 kg, its center 220 mm beside the pin, hinges 500 mm apart, three screws 3 x 14 in wood of 0.68:

    >>> door = Hanging(mass_kg=4.2, arm_mm=220, width_mm=440, apart_mm=500, screws=3, screw_mm=3.0,
    ...     bite_mm=14.0, specific_gravity=0.68)
    >>> round(door.pull_n(), 1), round(door.pull_n(leaning_kg=10.0), 1), round(door.holds_n)
    (18.1, 104.4, 6307)
    """

    mass_kg: float
    arm_mm: float
    width_mm: float
    apart_mm: float
    screws: int
    screw_mm: float
    bite_mm: float
    specific_gravity: float

    def pull_n(self, *, leaning_kg: float = 0.0) -> float:
        r"""Pull at the upper hinge, out of the case, with someone leaning on the closing edge. [N]

        Moments about the lower hinge: :math:`g (m a + M w) / h`.
        """
        turning = self.mass_kg * self.arm_mm + leaning_kg * self.width_mm
        return GRAVITY_M_S2 * turning / self.apart_mm

    @property
    def holds_n(self) -> float:
        """What its screws hold at their ultimate. [N] Wood Handbook, FPL-GTR-190, ch. 8."""
        return self.screws * withdrawal_n(
            Fastener.WOOD_SCREW,
            specific_gravity_12=self.specific_gravity,
            diameter_mm=self.screw_mm,
            penetration_mm=self.bite_mm,
        )


def check_hanging(where: str, door: Hanging) -> list[Finding]:
    """F74 where the upper hinge's screws are asked for more than a share of what they hold."""
    extra = limit("F74", "leaning_kg")
    loaded = door.pull_n(leaning_kg=extra)
    allowed = door.holds_n / limit("F74", "safety")
    if loaded <= allowed:
        return []
    return [
        finding(
            "F74",
            where=where,
            message=f"the door weighs {door.mass_kg:.1f} kg and {extra:.0f} kg may lean on its edge: that "
            f"pulls {loaded:.0f} N at the upper hinge, whose screws may carry {allowed:.0f} N",
            numbers={"pull_n": loaded, "allowed_n": allowed, "apart_mm": door.apart_mm},
        )
    ]
