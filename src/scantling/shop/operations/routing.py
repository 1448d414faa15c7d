"""Which machine, or which hand tool, does a milling operation on a part of a given size."""

from __future__ import annotations

from enum import StrEnum

from scantling.shop.profile.machines import Machines
from scantling.shop.sizes.size import Size

__all__ = ["Machine", "Operation", "machine_for"]


class Operation(StrEnum):
    """Milling operations in the words of the bench."""

    CROSSCUT_ROUGH = "cross-cut to rough length"
    FACE = "joint first face flat"
    EDGE = "joint first edge straight and square"
    PLANE = "plane second face parallel"
    RIP = "rip to width and plane the sawn edge"
    REST = "rest in the shop"
    RESAW = "resaw into leaves"
    PART = "crosscut the parts out of the length"
    SEAM_EDGES = "joint both edges for gluing"
    SETTLE = "plane to final size after resting"
    GLUE_SUB_PANELS = "glue strips to sub-panels"
    GLUE_STRIPS = "glue up the panel"
    GLUE_LAYERS = "glue layers to a lamination"
    FLATTEN_SUB_PANELS = "flatten sub-panels"
    REFLATTEN = "flatten again after glue-up"
    SQUARE_UP = "plane the glued edges square"
    TRIM_WIDTH = "trim panel to width"
    TRIM_LENGTH = "trim panel to length"
    CROSSCUT = "cut to length"
    ROUND = "make round"
    SURFACE = "scrape and sand"
    CUT_SHEET = "cut out over size"
    SHEET_TO_LINE = "cut to size"
    FLUSH_CUT = "cut flush after assembly"


class Machine(StrEnum):
    """Machines and hand tools, by their trade names."""

    JOINTER = "jointer"
    PLANER = "planer"
    PLANER_SLED = "planer with a flattening sled"
    TABLE_SAW = "table saw"
    MITER_SAW = "miter saw"
    TRACK_SAW = "track saw"
    BANDSAW = "bandsaw"
    DRUM_SANDER = "drum sander"
    LATHE = "lathe"
    HAND_PLANE = "hand planes"
    HAND_SAW = "hand saw"
    HAND_SAW_PLANE = "hand saw and plane"
    SCRAPER = "scraper and sander"
    CLAMPS = "clamps"
    NONE = ""

    @property
    def by_hand(self) -> bool:
        """Whether it is hand work."""
        return self in (Machine.HAND_PLANE, Machine.HAND_SAW, Machine.HAND_SAW_PLANE)


def machine_for(operation: Operation, size: Size, machines: Machines) -> Machine:
    """The machine that does an operation on a part of this size, or the hand tool if none can.

    Safe minimum sizes are not looked at here: they are findings of :mod:`scantling.shop.milling.capacity`.
    """
    match operation:
        case Operation.FACE:
            return _face(size, machines)
        case Operation.EDGE | Operation.SEAM_EDGES | Operation.SQUARE_UP:
            return Machine.JOINTER if machines.jointer else Machine.HAND_PLANE
        case Operation.PLANE | Operation.SETTLE | Operation.FLATTEN_SUB_PANELS | Operation.REFLATTEN:
            return _plane(size, machines)
        case Operation.RIP | Operation.TRIM_WIDTH | Operation.CUT_SHEET | Operation.SHEET_TO_LINE:
            return _rip(operation, size, machines)
        case (
            Operation.CROSSCUT_ROUGH
            | Operation.PART
            | Operation.CROSSCUT
            | Operation.TRIM_LENGTH
            | Operation.FLUSH_CUT
        ):
            return _crosscut(operation, size, machines)
        case Operation.RESAW:
            return Machine.BANDSAW if machines.bandsaw else Machine.HAND_SAW
        case Operation.ROUND:
            return _round(size, machines)
        case Operation.SURFACE:
            return Machine.SCRAPER
        case Operation.GLUE_SUB_PANELS | Operation.GLUE_STRIPS | Operation.GLUE_LAYERS:
            return Machine.CLAMPS
        case _:
            return Machine.NONE


def _face(size: Size, machines: Machines) -> Machine:
    if machines.jointer and size.width_mm <= machines.jointer.max_width_mm:
        return Machine.JOINTER
    if machines.planer and size.width_mm <= machines.planer.max_width_mm:
        return Machine.PLANER_SLED
    return Machine.HAND_PLANE


def _plane(size: Size, machines: Machines) -> Machine:
    planer, sander = machines.planer, machines.drum_sander
    if planer and size.width_mm <= planer.max_width_mm and size.thickness_mm <= planer.max_height_mm:
        return Machine.PLANER
    if sander and size.width_mm <= sander.max_width_mm:
        return Machine.DRUM_SANDER
    return Machine.HAND_PLANE


def _rip(operation: Operation, size: Size, machines: Machines) -> Machine:
    bandsaw = machines.bandsaw
    if machines.table_saw and size.width_mm <= machines.table_saw.rip_capacity_mm:
        return Machine.TABLE_SAW
    if machines.track_saw:
        return Machine.TRACK_SAW
    if bandsaw and size.width_mm <= bandsaw.throat_mm:  # wider, it would hang over the table, cut freehand
        return Machine.BANDSAW
    return Machine.HAND_SAW_PLANE if operation is Operation.TRIM_WIDTH else Machine.HAND_SAW


def _crosscut(operation: Operation, size: Size, machines: Machines) -> Machine:
    miter, table, track = machines.miter_saw, machines.table_saw, machines.track_saw
    if operation is not Operation.FLUSH_CUT:
        if miter and size.width_mm <= miter.crosscut_mm and size.thickness_mm <= miter.height_mm:
            return Machine.MITER_SAW
        squared = operation is not Operation.CROSSCUT_ROUGH  # a rough edge rides on no fence of a table saw
        if squared and table and size.width_mm <= table.crosscut_capacity_mm:
            return Machine.TABLE_SAW
    if track:
        return Machine.TRACK_SAW
    return Machine.HAND_SAW_PLANE if operation is Operation.TRIM_LENGTH else Machine.HAND_SAW


def _round(size: Size, machines: Machines) -> Machine:
    lathe = machines.lathe
    if lathe and size.width_mm <= lathe.swing_mm and size.length_mm <= lathe.centers_mm:
        return Machine.LATHE
    return Machine.HAND_PLANE
