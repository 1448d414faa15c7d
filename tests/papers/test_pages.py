"""Packets of real plans: the example pieces in their shops, racks and rooms."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pypdfium2
import pytest

from scantling.joinery.joining import load_piece
from scantling.papers.packet import PacketData, Paper, compile_packet
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import marked_parts
from scantling.papers.pages.packet_pages import PacketSource, packet_of
from scantling.papers.pages.timber_pages import layer_rows, rough_rows
from scantling.papers.words.unbroken import NO_BREAK
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.seasons.room_file import read_room
from scantling.shop.profile.profile_file import read_shop
from scantling.solids.exact import exact_parts
from scantling.stock.racks.rack import read_rack
from scantling.units import LengthStyle, show_angle

EXAMPLES = Path(__file__).parents[2] / "examples"
JOBS = {
    "reading_table": ("reading-table", "reading-table.csv", "high-plains-house"),
    "hall_bench": ("hall-bench", "hall-bench.yaml", "hall"),
    "bookcase": ("tall-bookcase", "tall-bookcase.csv", "apartment"),
    "trestle_desk": ("trestle-desk", "", "study-by-hygrometer"),
}


@cache
def _source(name: str) -> PacketSource:
    shop, rack, room = JOBS[name]
    job = Job(
        piece=load_piece(EXAMPLES / f"{name}.yaml"),
        shop=read_shop(EXAMPLES / "shops" / f"{shop}.yaml"),
        room=read_room(EXAMPLES / "rooms" / f"{room}.yaml"),
        rack=read_rack(EXAMPLES / "racks" / rack) if rack else None,
    )
    planner = Planner()
    shapes = planner.shapes(job)
    return PacketSource(
        plan=planner.plan(job),
        piece=job.piece,
        shapes=shapes,
        meshes=planner.solids(job),
        bodies=exact_parts(shapes),
    )


@cache
def _packet(name: str, paper: Paper) -> PacketData:
    return packet_of(_source(name), paper=paper)


@cache
def _text(name: str, paper: Paper) -> str:
    return "\n".join(_pages_of(_packet(name, paper), paper))


def _pages_of(packet: PacketData, paper: Paper) -> list[str]:
    pdf = pypdfium2.PdfDocument(compile_packet(packet, paper=paper))
    texts = [str(page.get_textpage().get_text_range()) for page in pdf]
    pdf.close()
    return texts


@pytest.mark.parametrize("name", JOBS)
def test_every_example_makes_a_packet(name: str) -> None:
    """Each example is printed with its parts, findings, price and sources."""
    plan, text = _source(name).plan, _text(name, Paper.A4)
    for title in (
        "Parts",
        "Views and sizes",
        "Rough list",
        "Seasons",
        "Order of work",
        "Sources and cautions",
    ):
        assert title in text
    for finding in plan.findings:
        assert finding.code in text
    assert f"{plan.pricing.quote.price:,.2f}" in text


def test_what_is_printed_is_what_was_planned() -> None:
    """Saw angles, lengths, movement and hours of the plan stand in the packet as the plan has them."""
    plan, text = _source("reading_table").plan, _text("reading_table", Paper.A4)
    for setup in plan.setups:
        if setup.miter_deg > 0.05 or setup.bevel_deg > 0.05:
            assert show_angle(setup.miter_deg) in text
            assert show_angle(setup.bevel_deg) in text
    for part in plan.parts:
        assert f"{round(part.length_mm * 2) / 2:g}" in text, part.name
    most = plan.seasons.parts[0]
    assert f"{most.widest_mm - most.narrowest_mm:.1f}" in text
    for entry in plan.order.timetable.entries:
        assert entry.hands_on_min >= 0
    assert f"{plan.order.timetable.last_day} days" in text


def test_a_packet_for_publishing_names_no_price() -> None:
    """Left out means left out: no cost sheet, no price on the cover."""
    source = _source("reading_table")
    packet = packet_of(source, paper=Paper.A4, prices=False)
    assert all(section.title != "Cost and price" for section in packet.sections)
    assert all(fact.label != "Price" for fact in packet.facts)


def test_the_cover_says_which_hours_the_price_is_for() -> None:
    """The cover shows both figures too; where it leaves the price out, there is nothing to tell apart."""
    source = _source("reading_table")
    noted = {fact.label: fact.note for fact in _packet("reading_table", Paper.A4).facts}
    assert noted["Work"].endswith("; counted by steps")
    assert noted["Price"].endswith(f"for {source.plan.pricing.quote.hours:.0f} h counted by operation")
    published = {fact.label: fact.note for fact in packet_of(source, paper=Paper.A4, prices=False).facts}
    assert "counted" not in published["Work"]


def test_a_packet_can_be_had_in_inches() -> None:
    """The same plan with inches shows fractions and no bare millimeters in the part list."""
    source = _source("reading_table")
    packet = packet_of(source, paper=Paper.LETTER, style=LengthStyle(inch=True, denominator=32))
    parts = _pages_of(packet, Paper.LETTER)[1].replace(NO_BREAK, " ")
    assert "Length, in" in parts
    assert "25 31/32" in parts or "26" in parts  # 660 mm
    assert " 660 " not in parts


def test_the_same_plan_gives_the_same_bytes() -> None:
    """Making the packet twice from one plan gives one file."""
    source = _source("reading_table")
    first = compile_packet(packet_of(source, paper=Paper.A4), paper=Paper.A4)
    second = compile_packet(packet_of(source, paper=Paper.A4), paper=Paper.A4)
    assert first == second


def test_marks_are_drawn_where_the_joint_put_them() -> None:
    """On every sheet a mark lies from its end and its face as the joint says, and within the face."""
    source = _source("reading_table")
    figures = Figures(style=LengthStyle())
    seen = 0
    for group in marked_parts(source.piece, source.plan.joints, figures=figures):
        part = group.parts[0]
        tags = {tagged.tag: tagged.mark for tagged in group.marks}
        for view in group.views:
            wide = max(x for x, _ in view.outline)
            high = max(y for _, y in view.outline)
            for drawn in view.marks:
                mark = tags[drawn.tag]
                across = high - drawn.y_mm if drawn.from_top else drawn.y_mm
                assert across == pytest.approx(mark.from_face_mm)
                whole = part.width_mm if mark.on_end else part.length_mm
                along = whole - drawn.x_mm if drawn.from_far else drawn.x_mm
                assert along == pytest.approx(mark.from_end_mm)
                assert -1.0 <= drawn.x_mm <= wide + 1.0
                assert -1.0 <= drawn.y_mm <= high + 1.0
                seen += 1
    assert seen > 10


def test_alike_legs_share_one_sheet_and_their_mirror_images_are_named() -> None:
    """Four splayed legs are one form: two of each hand."""
    source = _source("reading_table")
    groups = marked_parts(source.piece, source.plan.joints, figures=Figures(style=LengthStyle()))
    legs = next(g for g in groups if any(p.name.startswith("leg") for p in g.parts))
    assert len(legs.parts) == 4
    assert sorted(p.mirrored for p in legs.parts) == [False, False, True, True]


def test_a_peg_weighs_something() -> None:
    """A weight below a tenth is told to a hundredth on every face, in either unit."""
    for inch, light, heavy in ((False, "0.04 kg", "17.2 kg"), (True, "0.09 lb", "38.0 lb")):
        figures = Figures(style=LengthStyle(inch=inch))
        assert (figures.mass(0.042), figures.mass(17.24)) == (light, heavy)


def test_layers_are_told_once_and_make_up_what_is_glued() -> None:
    """In the list of blanks and in that of layers the same size; the note beside it tells none."""
    milling = _source("trestle_desk").plan.milling
    laminated = [each for each in milling if each.lamination is not None]
    figures = Figures(style=LengthStyle(inch=False))
    rough, rows = rough_rows(laminated, figures=figures), layer_rows(milling, figures=figures)
    assert [row.milled_thickness for row in rough] == [row.layer_thickness for row in rows]
    assert {int(r.layers) * float(r.layer_thickness) >= float(r.glued_thickness) for r in rows} == {True}
    assert not [row.note for row in rows if " mm" in row.note]
