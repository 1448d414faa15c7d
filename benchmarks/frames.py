"""Frames in a row, as a piece file: three parts each, no two alike, or all alike; for timings alone."""

from __future__ import annotations

import yaml

__all__ = ["ALL_RAILS", "ONE_RAIL", "frames_text"]

ONE_RAIL, ALL_RAILS = "one_rail", "all_rails"
"""Parameters: the thickness of one rail in the middle of the row, and that of all."""


def frames_text(frames: int, *, alike: bool = False) -> str:
    """A piece file of ``3 * frames`` parts: two posts and a rail between them, with four joints' cuts.

    Parameters
    ----------
    frames
        How many stand in the row.
    alike
        Whether they are all of one size; otherwise each is a little thicker than the one before.
    """
    parts: dict[str, object] = {}
    pairs: list[list[str]] = []
    base = {"kind": "stick", "species": "white oak"}
    for k in range(frames):
        step, y = (0.0 if alike else 0.1 * (k % 40)), 120.0 * k
        deep = 40.0 + step
        ends = {"from": [-250, y, 0], "to": [-250, y, 700], "section": [deep, deep], "width_toward": "right"}
        copies = {f"post_r_{k:03}": {"mirror": ["left-right"]}}
        parts[f"post_l_{k:03}"] = {**base, **ends, "copies": copies}
        name = f"rail_{k:03}"
        thick = f"{ONE_RAIL if k == frames // 2 else ALL_RAILS} + {step / 2.0:.2f} mm"
        ends = {"from": [-250, y, 600], "to": [250, y, 600], "section": [90, thick]}
        trim = {"start": f"post_l_{k:03}.right", "end": f"post_r_{k:03}.left"}
        parts[name] = {**base, **ends, "width_toward": "top", "trim": trim}
        pairs += [[f"{name}.start", f"post_l_{k:03}"], [f"{name}.end", f"post_r_{k:03}"]]
    joint = {"kind": "mortise_tenon", "length": 25, "thickness": 8, "pin": 6, "between": pairs}
    size = {"default": "22 mm", "least": "20 mm", "most": "30 mm"}
    sizes = {ONE_RAIL: {**size, "about": "One rail."}, ALL_RAILS: {**size, "about": "All others."}}
    text = {
        "scantling": 1,
        "title": "Frames",
        "units": "mm",
        "parameters": sizes,
        "parts": parts,
        "joints": {"rails": joint},
    }
    return yaml.safe_dump(text, sort_keys=False)
