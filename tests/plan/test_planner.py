"""The plan as a whole: complete, repeatable, and worked out again only where something changed."""

from __future__ import annotations

import json
from dataclasses import replace

import jsonschema
import pytest

from scantling.plan.cache import Cache, content_of
from scantling.plan.document import plan_json, plan_schema
from scantling.plan.planner import Planner, make_plan
from tests.plan.jobs import SHIPPED, demo_job, demo_plan, shipped_plan


@pytest.mark.parametrize("piece", SHIPPED)
@pytest.mark.parametrize("rack", [True, False])
def test_every_shipped_piece_has_a_whole_plan(piece: str, rack: bool) -> None:
    """All sections are there, hours and money add up, and each blank is placed or named as missing."""
    plan = shipped_plan(piece, rack=rack)
    names = {part.name for part in plan.parts}
    assert {ledger.part for ledger in plan.milling} == names
    assert plan.order.hours == pytest.approx(sum(s.hands_on_min for s in plan.order.steps) / 60)
    quote = plan.pricing.quote
    assert quote.cost == pytest.approx(sum(line.amount for line in quote.lines))
    assert quote.price == pytest.approx(quote.cost / (1 - quote.margin_pct / 100))
    assert plan.moving.mass_kg == pytest.approx(sum(part.mass_kg for part in plan.parts))
    if plan.timber.layout is not None:
        placed = [p.blank.name for board in plan.timber.layout.boards for p in board.placed]
        missing = [blank.name for blank in plan.timber.layout.unplaced]
        wanted = {blank.name for blank in plan.timber.blanks}
        assert wanted <= set(placed) | set(missing)
        assert len(placed) == len(set(placed))


def test_the_demo_is_safe_to_cut_by() -> None:
    """No rule stops the demo's design itself; what the rack lacks is named, with what to buy."""
    stops = {finding.code for finding in demo_plan().errors}
    assert stops <= {"T05"}
    if stops:
        assert demo_plan().timber.to_buy


def test_json_holds_to_its_schema() -> None:
    """The complete plan validates against the schema that documents it."""
    schema = plan_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    document = json.loads(plan_json(demo_plan()))
    jsonschema.validate(document, schema)
    assert document["version"] == 1
    assert {
        "parts",
        "milling",
        "timber",
        "seasons",
        "gluing",
        "order",
        "pricing",
        "findings",
    } <= document.keys()


def test_the_same_job_gives_the_same_bytes() -> None:
    """Two fresh plans of one job are equal to the byte."""
    assert plan_json(make_plan(demo_job())) == plan_json(make_plan(demo_job()))


def test_a_kept_plan_equals_a_fresh_one() -> None:
    """After a change and back, what was kept gives what is worked out anew."""
    planner = Planner()
    planner.plan(demo_job())
    planner.plan(demo_job(height="700 mm"))
    assert plan_json(planner.plan(demo_job())) == plan_json(demo_plan())


def test_a_thinner_foot_leaves_the_other_parts_alone() -> None:
    """Only the legs are milled, sawn and meshed again when the section at the floor changes."""
    planner = Planner()
    planner.plan(demo_job(rack=False))
    worked, built = dict(planner.cache.worked), planner.meshes.built
    planner.plan(demo_job(rack=False, leg_foot="32 mm"))
    assert planner.cache.worked["milling"] == worked["milling"]
    assert planner.cache.worked["sawing"] == worked["sawing"] + 4
    assert planner.cache.worked.get("year") == worked["year"]
    assert planner.meshes.built - built <= 4


def test_content_decides_not_identity() -> None:
    """Equal content has one digest however it was made; anything else another."""
    assert content_of({"a": 1}, (1.0, 2.0)) == content_of({"a": 1}, (1.0, 2.0))
    assert content_of(frozenset({"x", "y"})) == content_of(frozenset({"y", "x"}))
    assert content_of(1.0) != content_of(1.0000001)


def test_cache_forgets_the_oldest_and_keeps_no_failure() -> None:
    """The limit holds, and what raised is asked again."""
    cache = Cache(limit=2)
    calls: list[int] = []

    def work(n: int) -> int:
        calls.append(n)
        if n < 0:
            raise ValueError(n)
        return n

    for n in (1, 2, 3, 1):
        cache.answer("s", (n,), lambda n=n: work(n))
    assert calls == [1, 2, 3, 1]
    for _ in range(2):
        with pytest.raises(ValueError, match="-1"):
            cache.answer("s", (-1,), lambda: work(-1))
    assert calls[-2:] == [-1, -1]


def test_a_rack_that_falls_short_leaves_one_count_of_strips() -> None:
    """Milling plans the strips the boards give and what is still to buy, and nothing else."""
    job = demo_job()
    assert job.rack is not None
    whole = make_plan(job)
    assert whole.timber.layout is not None
    used = {
        board.board.name
        for board in whole.timber.layout.boards
        if any("top" in p.blank.name for p in board.placed)
    }
    fewer = tuple(board for board in job.rack.boards if board.name != min(used))
    plan = make_plan(replace(job, rack=replace(job.rack, boards=fewer)))
    assert plan.timber.layout is not None
    [strips] = [one for one in plan.timber.layout.strips if one.panel == "top"]
    [top] = [ledger for ledger in plan.milling if ledger.part == "top"]
    assert strips.missing_mm > 0.0
    assert top.strips is not None
    assert top.strips.widths_mm[: len(strips.widths_mm)] == strips.widths_mm
    assert sum(top.strips.widths_mm) == pytest.approx(sum(strips.widths_mm) + strips.missing_mm)
    assert "still to buy" in top.strips.reason
