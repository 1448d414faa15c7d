"""The offer: what a client signs holds no hour and no cost of the shop's."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from scantling.errors import InputError
from scantling.papers.packet import PacketData, Paper, compile_packet
from scantling.papers.packet.blocks import Caution
from scantling.papers.pages.offer_pages import offer_of
from scantling.papers.pages.packet_pages import PacketSource
from scantling.papers.words.offer_terms import Terms, asked_price
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from tests.plan.jobs import demo_job, shipped_job, shipped_plan


def offered(job: Job, terms: Terms) -> PacketData:
    """The offer of a job."""
    planner = Planner()
    plan = planner.plan(job)
    source = PacketSource(plan=plan, piece=job.piece, shapes=planner.shapes(job), meshes=planner.solids(job))
    return offer_of(source, terms, paper=Paper.A4)


@cache
def demo_offer() -> PacketData:
    """That of the demo piece, at its own price."""
    return offered(demo_job(rack=False), Terms())


def test_the_offer_says_what_is_made_and_for_how_much() -> None:
    """Wood, surface, seats, in how many pieces; the price of the plan, to the unit."""
    job = demo_job(rack=False)
    plan = Planner().plan(job)
    held = repr(demo_offer())
    price = f"{plan.pricing.quote.price:,.0f} {plan.pricing.currency}"
    assert demo_offer().heading == "Offer"
    assert [fact.value for fact in demo_offer().facts][1:] == ["black cherry", "film varnish", price]
    for words in (
        "black cherry",
        "film varnish, 4 coats",
        "in 2 pieces",
        f"{plan.order.timetable.last_day} days",
    ):
        assert words in held
    assert f"{price} for the piece as described" in held


def test_a_load_is_told_as_it_was_asked_for() -> None:
    """The bench's 160 kg, not 160.0."""
    assert "160 kg on it" in repr(offered(shipped_job("hall_bench", rack=False), Terms()))


def test_no_hour_and_no_cost_is_in_it() -> None:
    """The client reads neither the hours nor what wood and hours cost."""
    plan = shipped_plan("reading_table", rack=False)
    held = repr(demo_offer())
    assert f"{plan.pricing.quote.hours:.1f} h" not in held
    for line in plan.pricing.quote.lines:
        assert f"{line.amount:,.2f}" not in held
    assert f"{plan.pricing.quote.cost:,.0f}" not in held
    assert plan.shop not in held


def test_the_client_is_told_how_the_top_moves() -> None:
    """The top's year and the step at its breadboard ends, in the figures of the plan."""
    plan = shipped_plan("reading_table", rack=False)
    top = next(part for part in plan.seasons.parts if part.part == "top")
    held = repr(demo_offer())
    assert f"{-top.narrowest_mm:.1f} mm narrower in the driest month." in held
    assert " 0 mm" not in held
    assert "is drawn flush with the edges of top" in held
    assert "At the wall" not in held


def test_a_price_and_a_client_of_ones_own() -> None:
    """The maker asks what the maker asks."""
    offer = offered(demo_job(rack=False), Terms(client="A reader", price=4900.0))
    assert offer.made_for == "For A reader"
    assert offer.facts[-1].value == "4,900 USD"


def test_no_sum_is_asked_that_lacks_something_without_a_price() -> None:
    """A wood nobody knows the price of: a line to write on, no sum; unless the maker asks one."""
    job = demo_job(rack=False)
    parts = {name: replace(part, species="European ash") for name, part in job.piece.parts.items()}
    job = replace(job, piece=replace(job.piece, parts=parts))
    plan = Planner().plan(job)
    assert plan.pricing.unpriced
    held = repr(offered(job, Terms()))
    assert f"{plan.pricing.quote.price:,.0f}" not in held
    assert "____________ USD for the piece as described" in held
    assert "a draft: not all of it has a price yet" in held
    assert "4,900 USD for the piece" in repr(offered(job, Terms(price=4900.0)))


def test_what_the_wall_holds_is_told() -> None:
    """A rack that hangs, and a chest with drawers; each in a box of its own."""
    for piece, words in (
        ("coat_rack", "licensed where it can fall"),
        ("five_drawer_chest", "anchored to the wall"),
    ):
        offer = offered(shipped_job(piece, rack=False), Terms())
        boxes = [
            block for section in offer.sections for block in section.blocks if isinstance(block, Caution)
        ]
        assert len(boxes) == 1
        assert words in boxes[0].text


def test_what_does_not_pass_the_door_is_not_glossed_over() -> None:
    """The trestle desk's top is too long for its stair: the offer says where it is stuck."""
    held = repr(offered(shipped_job("trestle_desk", rack=False), Terms()))
    assert "stuck at" in held
    assert "lets it through" not in held


def test_it_is_set_on_two_sheets() -> None:
    """The piece and its price on the first, what is signed on the second; the same offer, the same bytes."""
    pdf = compile_packet(demo_offer(), paper=Paper.A4)
    assert pdf.count(b"/Type /Page\n") + pdf.count(b"/Type/Page\n") in (0, 2)
    assert compile_packet(replace(demo_offer()), paper=Paper.A4) == pdf


@pytest.mark.parametrize(
    ("written", "price"),
    [("2900", 2900.0), ("2,900", 2900.0), ("12 900.50", 12900.5), (" 1,234,567 ", 1234567.0)],
)
def test_a_price_is_read_as_it_is_written(written: str, price: float) -> None:
    """Thousands apart by commas or spaces, cents behind a point."""
    assert asked_price(written) == price


@pytest.mark.parametrize("written", ["4900,50", "4.900,00", "4.900", "1,5", "49,00", "1e3", "nan", "0", "-5"])
def test_a_price_that_may_be_two_sums_is_refused(written: str) -> None:
    """A comma before cents would be read as a hundred times the sum: it has to be written otherwise."""
    with pytest.raises(InputError) as caught:
        asked_price(written)
    assert caught.value.code == "not_a_price"
