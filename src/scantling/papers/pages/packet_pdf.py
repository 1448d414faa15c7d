"""From a job to the bytes of its packet, or of the offer for a client."""

from __future__ import annotations

from scantling.papers.packet import Paper, compile_packet
from scantling.papers.pages.offer_pages import offer_of
from scantling.papers.pages.packet_pages import PacketSource, packet_of
from scantling.papers.words.offer_terms import Terms
from scantling.plan.job import Job
from scantling.plan.planner import Planner

__all__ = ["offer_pdf", "packet_pdf"]


def packet_pdf(job: Job, planner: Planner, *, paper: Paper = Paper.A4, prices: bool = True) -> bytes:
    """Plan a job and set its packet.

    Parameters
    ----------
    job
        The piece, its shop, rack and room.
    planner
        What it kept of an earlier plan is used again.
    paper
        Paper to print on.
    prices
        Whether the cost sheet is in it.

    Returns
    -------
    bytes
        PDF; the same job gives the same bytes.
    """
    plan = planner.plan(job)
    source = PacketSource(plan=plan, piece=job.piece, shapes=planner.shapes(job), meshes=planner.solids(job))
    return compile_packet(packet_of(source, paper=paper, prices=prices), paper=paper)


def offer_pdf(job: Job, planner: Planner, terms: Terms, *, paper: Paper = Paper.A4) -> bytes:
    """Plan a job and set the offer for its client; arguments as of :func:`packet_pdf`.

    Parameters
    ----------
    terms
        Whom it is for, and the price where it is not the plan's.
    """
    plan = planner.plan(job)
    source = PacketSource(plan=plan, piece=job.piece, shapes=planner.shapes(job), meshes=planner.solids(job))
    return compile_packet(offer_of(source, terms, paper=paper), paper=paper)
