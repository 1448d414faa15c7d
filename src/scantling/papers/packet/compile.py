"""Setting the packet: blocks to JSON and SVG, the layout files, and the typesetter."""

from __future__ import annotations

import json
from dataclasses import fields
from functools import cache
from importlib import resources

from scantling.papers.drawing import Sheet, to_svg
from scantling.papers.packet.blocks import (
    BOTTOM_MM,
    LEFT_MM,
    RIGHT_MM,
    TOP_MM,
    PacketData,
    Paper,
)
from scantling.papers.typesetting import typeset
from scantling.papers.words.unbroken import all_unbroken

__all__ = ["compile_packet", "packet_json"]

_LAYOUT = ("main.typ", "blocks.typ", "cover.typ")


def _plain(value: object) -> object:
    if isinstance(value, Sheet):
        return {
            "svg": to_svg(value),
            "width_mm": round(value.width_mm, 4),
            "height_mm": round(value.height_mm, 4),
            "title": value.title,
        }
    if isinstance(value, tuple):
        return [_plain(v) for v in value]
    if hasattr(value, "__dataclass_fields__"):
        named = {f.name: _plain(getattr(value, f.name)) for f in fields(value)}  # type: ignore[arg-type]
        return {"kind": type(value).__name__.lower(), **named}
    return value


def packet_json(packet: PacketData, *, paper: Paper) -> str:
    """What the layout files read: the same packet and paper give the same characters.

    Parameters
    ----------
    packet
        The packet.
    paper
        Paper to print on.

    Returns
    -------
    str
        JSON.
    """
    width, height = paper.size_mm
    page = {
        "width": width,
        "height": height,
        "left": LEFT_MM,
        "right": RIGHT_MM,
        "top": TOP_MM,
        "bottom": BOTTOM_MM,
    }
    held = _plain(all_unbroken(packet))
    return json.dumps({"page": page, "packet": held}, ensure_ascii=False, sort_keys=True)


@cache
def _layout_files() -> dict[str, bytes]:
    folder = resources.files("scantling.papers").joinpath("packet/layout")
    return {name: folder.joinpath(name).read_bytes() for name in _LAYOUT}


def compile_packet(packet: PacketData, *, paper: Paper = Paper.A4) -> bytes:
    """Set a packet as PDF; the same packet and paper give the same bytes.

    Parameters
    ----------
    packet
        The packet.
    paper
        Paper to print on.

    Returns
    -------
    bytes
        The PDF.

    Raises
    ------
    RuntimeError
        A font or a layout file is missing from the installation.
    """
    return typeset({**_layout_files(), "packet.json": packet_json(packet, paper=paper).encode()})
