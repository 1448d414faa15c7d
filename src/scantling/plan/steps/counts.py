"""How much of each operation the piece needs: for a second opinion on the hours."""

from __future__ import annotations

from collections import Counter

from scantling.money.hours import Count
from scantling.piece.model import PartKind
from scantling.plan.making.finishing import Finishing
from scantling.plan.steps.step import Work
from scantling.shop.gluing.glueup import GlueUpKind
from scantling.shop.milling.ganging import pieces_milled

__all__ = ["counts_of"]

_OPERATIONS = {
    **dict.fromkeys(("top_clip", "top_button", "figure_eight", "slotted_screw", "plain_screw"), ""),
    **dict.fromkeys(("edge_glue", "face_lamination"), ""),
    **dict.fromkeys(
        ("panel_groove", "drawer_groove", "tongue_groove", "shiplap", "rabbet", "housing", "spline", "notch"),
        "groove",
    ),
    **dict.fromkeys(
        (
            "butt_hinge",
            "strap_hinge",
            "pin_hinge",
            "lid_stay",
            "shelf_pin",
            "drawer_runner",
            "drawer_slide",
        ),
        "hang",
    ),
    "opening_fit": "fit_opening",
    "breadboard_end": "breadboard_end",
}
"""What a joint of a family counts as where it is not cut and fitted by itself: nothing where its
fasteners or its glue-up are counted, else a groove run in one pass, a thing hung on, a gap fitted."""


def counts_of(work: Work) -> tuple[Count, ...]:
    """Counts by operation.

    Parameters
    ----------
    work
        The piece and what is known of its making.
    """
    parts = [ledger for ledger in work.ledgers if work.piece.parts[ledger.part].kind is not PartKind.SHEET]
    pieces = pieces_milled(parts)
    joints = Counter(_OPERATIONS.get(done.family, "joint") for done in work.works)
    shaped = sum(1 for sawing in work.sawings if sawing.tapers)
    shaped += sum(1 for part in work.piece.parts.values() if part.round is not None)
    angled = sum(len(setup.cuts) for setup in work.setups if setup.miter_deg or setup.bevel_deg)
    wet = [stage for stage in work.gluing.assembly if stage.kind is not GlueUpKind.DRY]
    counts = {
        "design": float(len(work.piece.alike())),
        "rough_cut": float(pieces),
        "mill": float(pieces),
        "glue_panel": float(sum(1 for ledger in parts if ledger.strips and ledger.pieces > 1)),
        "glue_lamination": float(sum(1 for ledger in parts if ledger.lamination)),
        "flatten_panel": _panel_m2(work),
        "shape_part": float(shaped),
        "angled_end": float(angled),
        **{
            name: float(joints[name]) for name in ("joint", "groove", "hang", "fit_opening", "breadboard_end")
        },
        "fastener": float(sum(line.needed for line in work.hardware if not line.made_here)),
        "dry_fit": float(len(wet)),
        "glue_up": float(len(wet)),
        **_surface(work.finishing),
        "final_fit": 1.0,
        "deliver": 1.0,
    }
    return tuple(Count(operation=name, count=count) for name, count in counts.items())


def _panel_m2(work: Work) -> float:
    return sum(
        ledger.glued.length_mm * ledger.glued.width_mm * 2e-6
        for ledger in work.ledgers
        if ledger.strips is not None and ledger.glued is not None
    )


def _surface(finishing: Finishing) -> dict[str, float]:
    """What shows is sanded; what is hidden stays as planed, and is coated like the rest."""
    areas = finishing.areas
    return {"sand": areas.shown_m2, "coat": areas.finished_m2 * len(finishing.drying.coats)}
