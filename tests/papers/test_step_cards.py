"""The order of work as cards for the bench."""

from __future__ import annotations

from dataclasses import replace

from scantling.papers.words.step_cards import step_cards
from tests.plan.jobs import demo_plan, shipped_plan

__all__: list[str] = []


def test_cards_come_in_an_order_that_can_be_done() -> None:
    """Each is ticked by a title of the plan, and needs only cards before it."""
    plan = demo_plan()
    cards = step_cards(plan)
    titles = {step.title for step in plan.order.steps}
    seen: set[str] = set()
    for card in cards:
        assert card.key in titles
        assert {need.key for need in card.needs} <= seen, card.key
        seen.add(card.key)
    assert len(seen) == len(cards)


def test_every_minute_of_the_plan_is_on_a_card() -> None:
    """What dries or rests is on the card it comes after, with the time in clamps a part of it."""
    plan = demo_plan()
    cards = {card.key: card for card in step_cards(plan)}
    glued = cards["Glue up top: last joints"]
    own = {step.title: step for step in plan.order.steps}
    clamped = own["Glue up top: last joints"].wait_min
    assert glued.clamped_min == clamped
    assert glued.wait_min == clamped + own["top: last joints cured"].wait_min
    assert "in clamps" in glued.wait


def test_a_saw_card_says_how_the_saw_is_set() -> None:
    """Both angles, the stop, the ends, and how to cut them."""
    plan = demo_plan()
    setup = next(each for each in plan.setups if each.angled and each.stop_mm is not None)
    card = next(each for each in step_cards(plan) if each.key == setup.title)
    assert card.lines[0].startswith("Blade turned ")
    assert "stop to long point" in card.lines[0]
    assert len(card.lines) == 2 + len(setup.steps)


def test_parts_carry_their_sizes_in_the_unit_of_the_piece() -> None:
    """Sizes of a part by name, as drawn; in inches where the piece is shown so, sentences too."""
    plan = demo_plan()
    leg = next(part for card in step_cards(plan) for part in card.parts if part.name == "leg_fl")
    assert {size[0]: size[1] for size in leg.sizes}["width"] == "48 mm"
    inches = step_cards(replace(plan, units="in"))
    leg = next(part for card in inches for part in card.parts if part.name == "leg_fl")
    assert {size[0]: size[1] for size in leg.sizes}["width"] == "1 7/8 in"


def test_a_step_about_a_whole_large_piece_says_how_many_parts_it_is() -> None:
    """Dozens of names at the step that agrees the drawing help nobody; a small piece is told by its parts."""
    chest, table = (
        step_cards(shipped_plan("five_drawer_chest", rack=False)),
        step_cards(demo_plan()),
    )
    assert chest[0].parts_words == f"All {len(chest[0].parts)} parts"
    assert table[0].parts_words.startswith("Top; ")
    assert sum(card.parts_words.startswith("All ") for card in chest) < len(chest) / 2
