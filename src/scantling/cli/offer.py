"""``scantling offer``: the offer for a client, and what should be mended before it is handed over."""

from __future__ import annotations

import argparse

from scantling.cli.job import job_of
from scantling.cli.writing import refuse_output, write_bytes
from scantling.papers.packet import Paper
from scantling.papers.pages.packet_pdf import offer_pdf
from scantling.papers.words.offer_terms import Terms, asked_price
from scantling.papers.words.severity_words import serious_told
from scantling.plan.planner import Planner

__all__ = ["offer"]


def offer(options: argparse.Namespace) -> int:
    """Write the offer; tell what is serious in the design, and what has no price."""
    terms = Terms(client=options.client.strip(), price=asked_price(options.price))
    refuse_output(options.output, ending=".pdf", force=options.force)
    job, planner = job_of(options), Planner()
    paper = Paper.LETTER if options.paper == "letter" else Paper.A4
    pdf = offer_pdf(job, planner, terms, paper=paper)
    write_bytes(options.output, pdf)
    print(f"{options.output}: {len(pdf) / 1024:.0f} kB")
    plan = planner.plan(job)
    if plan.errors:
        told = serious_told(plan.findings)
        print(f"Serious findings: {told}. Read 'scantling check' before you hand it over.")
    if plan.pricing.unpriced and terms.price is None:
        lacking = ", ".join(plan.pricing.unpriced)
        print(f"No price is known for {lacking}: the offer leaves a line for it. Give yours with --price.")
    return 0
