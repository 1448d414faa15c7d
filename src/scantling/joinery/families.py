"""The joint families at hand. To add one is to write its file and name it here."""

from __future__ import annotations

from pydantic import BaseModel

from scantling.joinery.breadboard_end import BreadboardEnd
from scantling.joinery.bridle import Bridle
from scantling.joinery.butt_hinge import ButtHinge
from scantling.joinery.cross_bolt import CrossBolt
from scantling.joinery.dovetail import Dovetail
from scantling.joinery.dowel_pin import DowelPin
from scantling.joinery.drawer_groove import DrawerGroove
from scantling.joinery.drawer_runner import DrawerRunner
from scantling.joinery.drawer_slide import DrawerSlide
from scantling.joinery.figure_eight import FigureEight
from scantling.joinery.finger_joint import FingerJoint
from scantling.joinery.glue_line import EdgeGlue, FaceLamination
from scantling.joinery.halving import Halving
from scantling.joinery.housing import Housing
from scantling.joinery.lid_stay import LidStay
from scantling.joinery.loose_tenon import LooseTenon
from scantling.joinery.miter import Miter
from scantling.joinery.mortise_tenon import MortiseTenon
from scantling.joinery.notch import Notch
from scantling.joinery.opening_fit import OpeningFit
from scantling.joinery.panel_groove import PanelGroove
from scantling.joinery.pin_hinge import PinHinge
from scantling.joinery.plain_screw import PlainScrew
from scantling.joinery.rabbet import Rabbet
from scantling.joinery.round_tenon import RoundTenon
from scantling.joinery.shelf_pin import ShelfPin
from scantling.joinery.shiplap import Shiplap
from scantling.joinery.sliding_batten import SlidingBatten
from scantling.joinery.slotted_screw import SlottedScrew
from scantling.joinery.spline import Spline
from scantling.joinery.strap_hinge import StrapHinge
from scantling.joinery.tongue_groove import TongueGroove
from scantling.joinery.top_button import TopButton
from scantling.joinery.top_clip import TopClip
from scantling.joinery.tusk_tenon import TuskTenon
from scantling.joinery.work import JointFamily

__all__ = ["FAMILIES", "option_models"]

FAMILIES: dict[str, JointFamily] = {
    family.name: family
    for family in (
        BreadboardEnd(),
        Bridle(),
        CrossBolt(),
        ButtHinge(),
        Dovetail(),
        DowelPin(),
        DrawerGroove(),
        DrawerRunner(),
        DrawerSlide(),
        EdgeGlue(),
        FaceLamination(),
        FigureEight(),
        FingerJoint(),
        Halving(),
        Housing(),
        LidStay(),
        LooseTenon(),
        Miter(),
        MortiseTenon(),
        Notch(),
        OpeningFit(),
        PanelGroove(),
        Rabbet(),
        RoundTenon(),
        PinHinge(),
        PlainScrew(),
        ShelfPin(),
        Shiplap(),
        SlidingBatten(),
        SlottedScrew(),
        Spline(),
        StrapHinge(),
        TongueGroove(),
        TopButton(),
        TopClip(),
        TuskTenon(),
    )
}
"""Every family by its name in a piece file."""


def option_models() -> dict[str, type[BaseModel]]:
    """Options model of each family, for reading piece files."""
    return {name: family.options_model for name, family in FAMILIES.items()}
