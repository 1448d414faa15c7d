"""What every face of a shipped piece shows, as text: sheets and command line, page, packet."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from functools import cache

from scantling.papers.packet import Paper
from scantling.papers.pages.packet_pages import PacketSource, packet_of
from scantling.web.designs.designing import UNITS, PieceDesigner
from scantling.web.designs.session import Session
from tests.papers.drawn import bodies_of, projected_once
from tests.plan.jobs import EXAMPLES, PLANNER, SHIPPED, shipped_job

__all__ = ["packet_texts", "page_texts"]

_IDENTITIES = {"name", "like", "key", "code", "id", "parts", "tight_part", "tone", "kind", "unit", "units"}
"""Fields of the page that its script reads and nobody sees."""


@cache
def page_texts(piece: str, units: str, *, leave: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """All words of the page, those of the sheets (which the command line prints too) among them.

    ``leave`` names fields of the page to leave out.
    """
    shop, room = SHIPPED[piece]
    file = EXAMPLES / f"{piece}.yaml"
    designer = PieceDesigner(
        file,
        shop=EXAMPLES / "shops" / f"{shop}.yaml",
        rack=next((EXAMPLES / "racks").glob(f"{shop}.*")),
        room=EXAMPLES / "rooms" / f"{room}.yaml",
        planner=PLANNER,
    )
    session = Session(file, designer=designer)
    return tuple(_texts(session.plan_view({UNITS: units}), leave=_IDENTITIES | leave))


@cache
def packet_texts(piece: str, units: str) -> tuple[str, ...]:
    """All words of the packet, those of its drawings among them."""
    job = shipped_job(piece)
    job = replace(job, piece=job.piece.shown_in(units))
    shapes = PLANNER.shapes(job)
    source = PacketSource(
        plan=PLANNER.plan(job),
        piece=job.piece,
        shapes=shapes,
        meshes=PLANNER.solids(job),
        bodies=bodies_of(shapes),
    )
    with projected_once():
        return tuple(_texts(packet_of(source, paper=Paper.A4), leave=set()))


def _texts(value: object, *, leave: set[str]) -> Iterator[str]:
    if isinstance(value, str) and not isinstance(value, Enum):
        if value.startswith("<svg"):
            yield from map(html.unescape, re.findall(r"<(?:text|title)[^>]*>([^<]+)<", value))
        else:
            yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each, leave=leave)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name not in leave:
                yield from _texts(getattr(value, field.name), leave=leave)
