"""What the settings of a shop profile are called where a maker sets them."""

from __future__ import annotations

__all__ = ["label_of_field"]

_LABELS = {
    "glue": "Usual glue",
    "finish": "Usual finish",
    "units": "Unit of bare lengths",
    "names": "Thicknesses bought",
    "milled_in": "Month of milling",
    "wood": "Moisture measured in the wood",
    "reads_to": "Reads to",
    "jointer.cut": "Depth of one pass",
    "planer.cut": "Depth of one pass",
    "layout.price": "A unit of money for boards",
    "layout.waste": "A square meter wasted",
    "layout.cut": "Each cut",
    "layout.offcut": "A square meter of the largest offcut",
    "layout.looks": "A unit of a wish",
    "depth_square": "Depth of cut at square",
    "depth_tilted": "Depth of cut tilted",
    "min_rip": "Narrowest rip",
    "stacked_cutter": "Widest stacked cutter",
    "max_width": "Takes a width of",
    "max_height": "Takes a height of",
    "min_length": "Shortest part",
    "min_thickness": "Thinnest part",
    "tilts": "Its table tilts",
    "track": "Length of track",
    "resaw": "Takes a height of",
    "cleanup": "Planed off a sawn face",
    "centers": "Between centers",
    "max_depth": "Deepest cut",
    "max_lift": "Lifts at most",
    "people.count": "How many work here",
    "open": "Open time",
    "working": "Working time",
    "glues.clamp": "Time in clamps",
    "cure": "Time to cure",
    "spacing_most": "Clamps apart, at most",
    "end_distance": "First clamp from the end",
    "open_share": "Share of the working time used",
    "spread_s_per_m": "Spreading, seconds a meter",
    "spread_joint_s": "Spreading a joint, seconds at least",
    "place_s": "Placing a part, seconds",
    "clamp_s": "Setting a clamp, seconds",
    "helped_share": "Share of that time with help",
    "glue_spare": "Glue mixed for each part used",
    "clamping.margin": "Screw travel left",
    "spread_g_m2": "Spread, g per m²",
    "first_l_m2": "First coat, L per m²",
    "next_l_m2": "Next coats, L per m²",
    "minutes_per_m2": "Minutes a square meter",
    "m2_per_sheet": "Square meters a sheet does",
    "recoat_h": "Next coat after, hours",
    "light_use_h": "Light use after, hours",
    "full_cure_h": "Cured after, hours",
    "price_per_l": "Price a liter",
    "price_per_sheet": "Price a sheet",
    "per_board_foot": "A board foot",
    "per_m3": "A cubic meter",
    "per_m2": "A square meter",
    "hourly": "An hour of work",
    "overhead_hourly": "Overhead on an hour",
    "timber_markup": "Added to timber",
    "hardware_markup": "Added to hardware",
    "glue_per": "Glue, a kilogram",
    "finish_per_l": "Finish, a liter",
    "abrasive_per_sheet": "Abrasive, a sheet",
    "strip_least": "Narrowest strip of a panel",
    "strip_most": "Widest strip of a panel",
    "system": "Row of thicknesses",
    "bought_as": "Boards come",
    "end_trim": "At each end",
    "face": "Off the first face",
    "plane": "Off the second face",
    "settle": "While it rests",
    "thicker": "Thicker boards planed down, at most",
    "skim": "Off a surfaced face",
    "edge": "Off the first edge",
    "rip_clean": "Off the second edge",
    "surface": "Scraped and sanded off",
    "panel_reflatten": "Off the faces of a panel",
    "panel_trim_width": "Off the edges of a panel",
    "panel_trim_end": "Off each end of a panel",
    "seam_edge": "Off each edge of a strip",
    "lamination_reflatten": "Off the faces of a lamination",
    "lamination_slip": "Extra width of a lamination",
    "flush_cut": "Left where ends are cut flush",
    "round": "Extra for a round part",
    "sheet_edge": "Off the edges of a sheet",
    "sheet": "Extra on a sheet part",
    "run_out": "Free before and behind machines",
    "climate.driest": "Driest of its year",
    "climate.wettest": "Most humid of its year",
    "accuracy.mark": "A mark",
}


def label_of_field(key: str, section: str = "") -> str:
    """What a field is called.

    Examples
    --------
    >>> label_of_field("bed_length"), label_of_field("recoat_h"), label_of_field("cut", "layout")
    ('Bed length', 'Next coat after, hours', 'Each cut')
    """
    for known in (f"{section}.{key}", key):
        if known in _LABELS:
            return _LABELS[known]
    words = key.replace("_", " ").strip()
    return words[:1].upper() + words[1:]
