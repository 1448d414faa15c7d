"""A rail with pegs and two short cleats: small parts for the tests of cutting. Invented."""

from __future__ import annotations

from pathlib import Path

from scantling.cli.job import job_from_files
from scantling.plan.job import Job

__all__ = ["BY_HAND", "PEG_RAIL", "RACK", "SHOP", "peg_job"]

PEG_RAIL = """
scantling: 1
title: Peg rail
units: mm
parts:
  rail:
    kind: stick
    species: white oak
    from: [-320 mm, 0, 1500 mm]
    to: [320 mm, 0, 1500 mm]
    section: [90 mm, 22 mm]
    width_toward: top
  cleat:
    kind: stick
    species: white oak
    from: [-300 mm, 22 mm, 1500 mm]
    to: [-180 mm, 22 mm, 1500 mm]
    section: [90 mm, 22 mm]
    width_toward: top
    repeat: {count: 2, step: [480 mm, 0, 0]}
  peg:
    kind: stick
    species: white oak
    from: [-240 mm, -11 mm, 1500 mm]
    to: [-240 mm, -101 mm, 1500 mm]
    section: [25 mm, 25 mm]
    width_toward: top
    repeat: {count: 5, step: [120 mm, 0, 0]}
"""
SHOP = """
name: Corner of a barn
units: mm
machines:
  jointer: {min_length: 300}
  planer: {min_length: 320}
  table_saw: {kerf: 3}
  miter_saw: {kerf: 3, min_length: 60}
yard: {names: [4/4, 5/4, 6/4]}
"""
BY_HAND = """
name: Bench in the kitchen
units: mm
machines: {}
yard: {names: [4/4, 5/4, 6/4]}
"""
RACK = """name,species,thickness,length,width,left_trim,right_trim,price
O1,white oak,5/4,1500,160,20,20,30
O2,white oak,6/4,900,120,20,20,24
"""


def peg_job(folder: Path, *, piece: str = PEG_RAIL, shop: str = SHOP, rack: str | None = RACK) -> Job:
    """The rail in its shop, with its rack unless there is none."""
    files = {"rail.yaml": piece, "shop.yaml": shop, "rack.csv": rack}
    for name, text in files.items():
        if text is not None:
            (folder / name).write_text(text, encoding="utf-8")
    boards = folder / "rack.csv" if rack is not None else None
    return job_from_files(folder / "rail.yaml", shop=folder / "shop.yaml", rack=boards)
