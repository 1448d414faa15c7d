"""How much wood each pass takes, and is therefore left on before it."""

from __future__ import annotations

from scantling.shop.profile.section import AllowanceMm, ProfileSection

__all__ = ["Allowances"]


class Allowances(ProfileSection):
    """Wood left on for each pass. All [mm].

    The defaults add up to the usual 25 to 50 in length, 6 to 12 in width and 5 to 8 in thickness over the
    finished part (common practice).
    """

    end_trim_mm: AllowanceMm = 15.0
    """At each end of a rough blank: squaring, end checks, the saw's run-in."""
    face_mm: AllowanceMm = 2.0
    """Off the first face, jointed flat."""
    plane_mm: AllowanceMm = 2.0
    """Off the second face, planed parallel."""
    settle_mm: AllowanceMm = 1.0
    """Left on width and thickness while the stock rests, then planed off, half from each side."""
    thicker_mm: AllowanceMm = 13.0
    """Most a board may be thicker than a part's usual stock and be planed down, where that saves a board:
    1/2 in (common practice). 0 keeps to the usual stock."""
    skim_mm: AllowanceMm = 0.4
    """Off each face of stock bought surfaced, in place of face and plane."""
    edge_mm: AllowanceMm = 3.5
    """Off the first edge, jointed straight from the rough edge."""
    rip_clean_mm: AllowanceMm = 1.5
    """Off the second edge, to plane away the saw's marks."""
    surface_mm: AllowanceMm = 0.3
    """Off thickness and width together by scraping and sanding."""
    panel_reflatten_mm: AllowanceMm = 1.5
    """Off both faces together of a panel glued up from strips."""
    panel_trim_width_mm: AllowanceMm = 12.7
    """Off both edges together of a glued panel: 1/2 in."""
    panel_trim_end_mm: AllowanceMm = 15.0
    """Off each end of a glued panel."""
    seam_edge_mm: AllowanceMm = 1.0
    """Off each edge of a strip, planed just before gluing."""
    lamination_reflatten_mm: AllowanceMm = 3.175
    """Off both faces together of a lamination after glue-up: 1/8 in."""
    lamination_slip_mm: AllowanceMm = 5.0
    """Extra width of a lamination's layers, which slip and squeeze out: 3 to 6 mm."""
    flush_cut_mm: AllowanceMm = 3.0
    """Left on each end of a part cut flush after assembly, such as a breadboard end."""
    round_mm: AllowanceMm = 3.0
    """Extra section of a square blank for a part that is made round."""
    sheet_edge_mm: AllowanceMm = 5.0
    """Off every edge of a sheet as it comes, bruised or out of square (common practice)."""
    sheet_mm: AllowanceMm = 10.0
    """Extra length and width of a sheet part cut out over size, then cut to its line."""
