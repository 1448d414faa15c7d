"""A part added on the page: drawn before it is kept, told what is wrong where it is typed, joined, undone."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from scantling.joinery import load_piece_text
from scantling.piece.adding.standing import extent_of
from scantling.piece.contact import contacts
from scantling.web.documents.shell import static_folder
from scantling.web.sent import part_bodies
from tests.plan.jobs import EXAMPLES
from tests.web.kept_browser import Chromium, kept_page
from tests.web.records import app_with_records

__all__: list[str] = []

TEXT = (EXAMPLES / "bookcase.yaml").read_text(encoding="utf-8")
TYPES = static_folder() / "js" / "part-types.js"
SHELF = {
    "kind": "panel",
    "name": "Middle shelf",
    "way": "between",
    "at": "side_left",
    "typed": {"y": "shelf_y", "z": "bottom_z + pitch / 2", "width": "shelf_depth"},
}
TOUCHES = "It touches side left, side right, back low muntin, back stile left and back stile right."
WRITTEN = """\
  middle_shelf:
    kind: panel
    species: sugar maple
    from: [-(width - side) / 2 + side / 2, shelf_y, bottom_z + pitch / 2]
    to: [(width - side) / 2 - side / 2, shelf_y, bottom_z + pitch / 2]
    section: [shelf_depth, side]
    width_toward: back
    trim: {start: side_left.right, end: side_right.left}
    show: all
"""


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """Asks a server that keeps the bookcase as number 1."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        client.post("/api/pieces", json={"content": {"piece": TEXT}})
        yield client


def _try(kept: TestClient, **said: Any) -> Any:
    answer = kept.post("/api/pieces/1/parts/try", json={"parent": 1, **said})
    assert answer.status_code == 200, answer.text
    return answer.json()


@pytest.mark.parametrize("kind", ["ChoiceBody", "PartChoices", "SlotBody", "PartTried"])
def test_types_name_the_fields_that_are_sent(kind: str) -> None:
    """``part-types.js`` has the same fields in the same order as what the server sends."""
    text = TYPES.read_text(encoding="utf-8")
    block = text.split(f"@typedef {{object}} {kind}\n", 1)[1].split("@typedef", 1)[0]
    sent = [field.alias for field in getattr(part_bodies, kind).model_fields.values()]
    assert re.findall(r"@property \{.+?\} (\w+)", block) == sent


def test_a_part_is_drawn_and_not_kept_then_kept_as_it_was_drawn(kept: TestClient) -> None:
    """The file gets the entry at the end of its parts and nothing else; the draft has the part in it."""
    tried = _try(kept, **SHELF)
    assert tried["errors"] == []
    assert tried["meets"] == TOUCHES
    assert {slot["name"]: slot["result"] for slot in tried["slots"]}["width"] == "280 mm"
    drawn = {each["name"]: each for each in kept.get(f"/drafts/{tried['draft']}/api/shape").json()["parts"]}
    assert dict(drawn["middle_shelf"]["sizes"])["Length"] == "856\u00a0mm"
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1
    opened = kept.post("/api/pieces/1/parts", json={"parent": 1, **SHELF})
    assert opened.status_code == 201, opened.text
    before, after = TEXT.split("\njoints:\n")
    assert opened.json()["content"]["piece"] == f"{before}{WRITTEN}\njoints:\n{after}"
    stale = kept.post("/api/pieces/1/parts", json={"parent": 1, **SHELF, "name": "other"})
    assert (stale.status_code, stale.json()["current"]) == (409, 2)


def test_an_end_that_lies_beside_the_part_it_touches_is_told(tmp_path: Path) -> None:
    """A stretcher set lower than where its place was worked out for stands half off legs that splay."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        client.post("/api/pieces", json={"form": "reading-table"})
        between = {"part": "leg_fl", "face": "right", "other": "leg_fr", "other_face": "left"}
        size = {"width": "40 mm", "thickness": "20 mm"}
        tried = _try(client, kind="stick", name="stretcher", way="between", typed={**between, **size})
        assert tried["meets"] == "It touches front left leg and front right leg."
        low = {**between, **size, "z": "180 mm"}
        told = _try(client, kind="stick", name="stretcher", way="between", typed=low)["meets"]
        shares = re.findall(r"(\d+) % of its end lies on front (left|right) leg", told)
        assert [side for _, side in shares] == ["left", "right"]
        parts = load_piece_text(_with(client, low)).parts
        (contact, *_) = contacts(parts["stretcher"], parts["leg_fl"])
        lean = math.hypot(1.0, math.tan(math.radians(7.0)))  # the end is cut to the lean of the leg
        assert int(shares[0][0]) == pytest.approx(100.0 * contact.area_mm2 / (40.0 * 20.0 * lean), abs=1.0)


def _with(client: TestClient, typed: dict[str, str]) -> str:
    """The file with a stretcher of these sizes kept in it."""
    body = {"kind": "stick", "name": "stretcher", "way": "between", "typed": typed, "parent": 1}
    answer = client.post("/api/pieces/1/parts", json=body)
    assert answer.status_code == 201, answer.text
    return str(answer.json()["content"]["piece"])


@pytest.mark.parametrize("form", ["bookcase", "reading-table"])
@pytest.mark.parametrize("way", ["middle", "points"])
def test_what_stands_in_the_middle_of_the_piece_stays_there_when_sizes_change(
    tmp_path: Path, form: str, way: str
) -> None:
    """As proposed it is as long as the piece, at half its height and depth; so it is at every other size."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        client.post("/api/pieces", json={"form": form})
        size = {"width": "20 mm", "thickness": "20 mm"}
        told = client.post(
            "/api/pieces/1/parts",
            json={"parent": 1, "kind": "stick", "name": "rod", "way": way, "typed": size},
        )
        assert told.status_code == 201, told.text
        text = told.json()["content"]["piece"]
    lengths = [each for each in load_piece_text(text).parameters if each.dimension == "length"][:3]
    longer = [{each.name: f"{min(1.08 * each.value, each.most or 1e9):.1f} mm"} for each in lengths]
    for given in ({}, *longer):
        parts = load_piece_text(text, given=given).parts
        rod, others = parts["rod"], [part for name, part in parts.items() if name != "rod"]
        for axis in range(3):
            own, all_else = extent_of((rod,), axis), extent_of(others, axis)
            assert sum(own) == pytest.approx(sum(all_else), abs=0.05), (given, axis)
            if axis == 0:
                assert own == pytest.approx(all_else, abs=0.05), given


def test_what_stands_on_a_face_stays_on_it_when_sizes_change(kept: TestClient) -> None:
    """On a part, a copy, a part of a row: where it is, is written by their sizes.

    Lying it touches with all of 30 x 100, standing out with its end of 30 by the thickness of a side.
    """
    wide = {"width": "1000 mm", "height": "1500 mm", "side": "25 mm"}
    for part, face, along in (
        ("side_left", "right", "top"),
        ("side_right", "right", "away"),
        ("upper_shelf_1", "top", "away"),
        ("lower_shelf_2", "bottom", "right"),
        ("top", "top", "right"),
        ("back_stile_right", "back", "top"),
    ):
        typed = {"part": part, "face": face, "along": along, "width": "30", "length": "100"}
        tried = _try(kept, kind="stick", name="cleat", way="on", typed=typed)
        assert tried["errors"] == [], tried["errors"]
        text = TEXT.replace("\njoints:\n", "\n  " + tried["entry"].replace("\n", "\n  ") + "\njoints:\n", 1)
        for given, side in (({}, 22.0), (wide, 25.0)):
            parts = load_piece_text(text, given=given).parts
            (contact,) = contacts(parts["cleat"], parts[part])
            area = 30.0 * (side if along == "away" else 100.0)
            assert contact.area_mm2 == pytest.approx(area), (part, face, along, given)


def test_everything_wrong_is_told_at_once_beside_its_field(kept: TestClient) -> None:
    """A name that is taken, a wood and a word nobody knows, a size that cannot be: each at its own."""
    typed = {"y": "shelf_x", "z": "3 kg", "thickness": "0"}
    told = _try(kept, **{**SHELF, "name": "Top", "species": "mapel", "typed": typed})
    faults = {error["field"]: error for error in told["errors"]}
    assert faults.keys() == {"name", "species", "y", "z", "thickness"}
    assert "top 2" in faults["name"]["remedy"]
    assert "shelf_y" in faults["y"]["remedy"]
    assert told["draft"] == ""
    refused = kept.post("/api/pieces/1/parts", json={"parent": 1, **SHELF, "name": "Top"})
    assert (refused.status_code, refused.json()["errors"][0]["field"]) == (422, "name")
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1


@pytest.mark.parametrize("size", ["width", "thickness"])
def test_a_section_too_thin_is_told_at_its_size(kept: TestClient, size: str) -> None:
    """More than nothing, less than can be: a fault of the file, told at the form's field."""
    (fault,) = _try(kept, **{**SHELF, "typed": {size: "0.2 mm"}})["errors"]
    assert (fault["field"], fault["code"]) == (size, "section_not_positive")


def test_faces_with_no_room_between_them_are_told_at_the_second(kept: TestClient) -> None:
    """In words of the form: nobody has typed a 'from' or a 'to'."""
    same = {"part": "side_left", "face": "right", "other": "side_left", "other_face": "right"}
    (fault,) = _try(kept, kind="stick", way="between", typed=same)["errors"]
    assert (fault["field"], fault["rule"]) == ("other_face", "must lie across from the other face")


def test_parts_in_braces_are_said_to_be_so(tmp_path: Path) -> None:
    """By the form and by copies; both name the page where the file is written."""
    data = yaml.safe_load(TEXT)
    braces = yaml.safe_dump(
        {"parts": data.pop("parts")}, default_flow_style=True, width=10_000, sort_keys=False
    )
    text = yaml.safe_dump(data, sort_keys=False) + braces.strip()[1:-1] + "\n"
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        assert client.post("/api/pieces", json={"content": {"piece": text}}).status_code == 201
        (fault,) = _try(client, **SHELF)["errors"]
        assert (fault["code"], fault["field"]) == ("in_braces", "")
        (fault,) = _copied(client, 422, part="top", name="again", move=["0", "0", "9"])["errors"]
        assert (fault["code"], fault["field"]) == ("in_braces", "parts.top")
        assert "Text" in fault["remedy"]


def test_every_kind_can_be_placed_every_way(kept: TestClient) -> None:
    """With nothing said but what it is and how it stands there is a part that can be drawn."""
    choices = kept.get("/api/pieces/1/parts/choices").json()
    kinds, ways = ([each["value"] for each in choices[name]] for name in ("kinds", "ways"))
    assert len(kinds) * len(ways) == 16
    for kind in kinds:
        for way in ways:
            tried = _try(kept, kind=kind, way=way)
            assert tried["draft"], (kind, way, tried["errors"])
            assert tried["name"] == f"new_{kind}"


def _copied(kept: TestClient, status: int, **said: Any) -> Any:
    version = kept.get("/api/pieces/1").json()["piece"]["version"]
    answer = kept.post("/api/pieces/1/copies", json={"parent": version, **said})
    assert answer.status_code == status, answer.text
    return answer.json()


def test_a_part_that_is_not_there_is_told_at_the_field_that_names_it(kept: TestClient) -> None:
    """The one to be copied, and the one in whose middle the mirror stands."""
    copy = {"part": "top", "name": "top_2", "mirror": ["left-right"], "about": "bottom"}
    for field in ("part", "about"):
        (fault,) = _copied(kept, 422, **{**copy, field: "lid"})["errors"]
        assert (fault["code"], fault["field"], fault["value"]) == ("unknown_part", field, "lid")


def test_a_part_is_mirrored_about_the_middle_of_a_part(kept: TestClient) -> None:
    """A cleat beside a post between the sides; a copy of it mirrored back to the other side of the piece."""
    post = {"part": "bottom", "face": "top", "x": "-100", "width": "40", "length": "150"}
    body = {"kind": "stick", "name": "post", "way": "on", "typed": post, "parent": 1}
    assert kept.post("/api/pieces/1/parts", json=body).status_code == 201
    cleat = {"part": "post", "face": "right", "along": "top", "width": "30", "thickness": "10"}
    body = {"kind": "stick", "name": "cleat", "way": "on", "typed": {**cleat, "length": "50"}, "parent": 2}
    assert kept.post("/api/pieces/1/parts", json=body).status_code == 201
    opened = _copied(kept, 201, part="cleat", name="cleat_left", mirror=["left-right"], about="post")
    assert "cleat_left: {mirror: [left-right], move: [-200, 0, 0]}" in opened["content"]["piece"]
    opened = _copied(kept, 201, part="cleat_left", name="far", mirror=["left-right"])
    parts = load_piece_text(opened["content"]["piece"]).parts
    assert len(contacts(parts["cleat_left"], parts["post"])) == 1
    assert parts["far"].middle[0] == pytest.approx(-parts["cleat_left"].middle[0])
    told = _copied(kept, 422, part="cleat", name="again", mirror=["left-right"], about="post")
    assert "cleat left" in told["errors"][0]["rule"]
    assert _copied(kept, 422, part="lower_shelf_1", name="x", move=["0", "0", "9"])["errors"][0]["code"] == (
        "copies_and_repeat"
    )


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """The page of the bookcase, kept."""
    with kept_page(tmp_path, chromium, "bookcase") as page:
        yield page


@pytest.mark.browser
def test_a_shelf_is_added_joined_by_the_offer_and_undone(page: Page) -> None:
    """Seen in the picture before it is kept; a wrong word is told at its field and keeps nothing."""
    page.get_by_role("combobox", name="Show a part").select_option("side_left")
    page.get_by_role("button", name="Add a part", exact=True).click()
    form = page.get_by_role("form", name="A new part")
    form.get_by_label("What it is").select_option("panel")
    form.get_by_label("It stands").select_option("between")
    form.get_by_label("Name").fill("Middle shelf")
    form.get_by_label("Above the floor").fill("bottom_z + pitch / 2")
    form.get_by_label("Width", exact=True).fill("shelf_depth")
    form.get_by_label("Behind the middle").fill("shelf_x")
    form.get_by_role("button", name="Keep this part").click()
    expect(form.get_by_label("Behind the middle")).to_be_focused(timeout=30_000)
    expect(form.locator("#new-y-fault")).to_contain_text("shelf_y")
    assert page.request.get("/api/pieces/1").json()["piece"]["version"] == 1
    form.get_by_label("Behind the middle").fill("shelf_y")
    form.get_by_label("Behind the middle").press("Enter")
    expect(form.get_by_role("status")).to_have_text(TOUCHES, timeout=30_000)
    expect(page.locator("piece-plate .name")).to_have_text("Middle shelf")
    assert page.request.get("/api/pieces/1").json()["piece"]["version"] == 1
    form.get_by_role("button", name="Keep this part").click()
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)
    assert page.request.get("/api/pieces/1/file").text().count(WRITTEN) == 1
    first = page.locator("meeting-list li").first
    expect(first).to_contain_text("iddle shelf", timeout=30_000)
    expect(page.locator("part-slip h2")).to_have_text("Middle shelf")
    for version, side in ((3, "left"), (4, "right")):
        meeting = page.locator("meeting-list li", has_text=f"Side {side} and middle shelf")
        meeting.get_by_role("button", name="housing").click()
        page.get_by_text(f"Kept as version {version}").wait_for(timeout=30_000)
        expect(meeting).to_have_count(0, timeout=30_000)  # what is joined is listed no more
    for end in ("start, side_left", "end, side_right"):
        assert (
            f"{{kind: housing, between: [[middle_shelf.{end}]]}}"
            in page.request.get("/api/pieces/1/file").text()
        )
    for version in (3, 2, 1):
        page.get_by_role("button", name="Undo").click()
        expect(page.get_by_text(f"Version {version} of 4")).to_be_visible()
    assert "middle_shelf" not in page.request.get("/api/pieces/1/file").text()


@pytest.mark.browser
def test_the_part_picked_says_where_a_new_one_stands_and_escape_puts_it_away(page: Page) -> None:
    """From its slip, or picked while the form is open; put away, the picture shows the piece as it is."""
    page.get_by_role("combobox", name="Show a part").select_option("top")
    page.get_by_text("As it is written, to change").click()
    page.get_by_role("button", name="Add a part at it").press("Enter")
    form = page.get_by_role("form", name="A new part")
    expect(form.get_by_role("heading", name="A new part")).to_be_focused(timeout=30_000)
    expect(form.get_by_label("Part")).to_have_value("top")
    page.get_by_role("combobox", name="Show a part").select_option("bottom")
    expect(form.get_by_label("Part")).to_have_value("bottom", timeout=30_000)
    expect(form.get_by_label("Face")).to_have_value("top")
    expect(form.get_by_role("status")).to_have_text("It touches bottom.", timeout=30_000)
    expect(page.locator("piece-plate .name")).to_have_text("New stick")
    form.get_by_label("Name").press("Escape")
    expect(page.get_by_role("button", name="Add a part", exact=True)).to_be_focused()
    expect(page.locator("piece-plate .name")).to_have_text("Bottom")


@pytest.mark.browser
def test_what_is_filled_in_stays_until_the_part_is_kept(page: Page) -> None:
    """Asked for at another part, put away, taken out again; once a part is kept, the form is empty."""
    page.get_by_role("combobox", name="Show a part").select_option("top")
    page.get_by_text("As it is written, to change").click()
    begin = page.get_by_role("button", name="Add a part", exact=True)
    begin.click()
    form = page.get_by_role("form", name="A new part")
    expect(form.get_by_label("Part")).to_have_value("top", timeout=30_000)
    form.get_by_label("Name").fill("Cleat")
    form.get_by_label("Face", exact=True).select_option("bottom")
    form.get_by_label("Width", exact=True).fill("31")
    page.get_by_role("button", name="Add a part at it").click()
    expect(form.get_by_role("heading", name="A new part")).to_be_focused(timeout=30_000)
    assert [form.get_by_label(name, exact=True).input_value() for name in ("Name", "Face", "Width")] == [
        "Cleat",
        "bottom",
        "31",
    ]
    form.get_by_label("Name").press("Escape")
    page.get_by_role("combobox", name="Show a part").select_option("bottom")
    begin.click()
    expect(form.get_by_label("Part")).to_have_value("bottom", timeout=30_000)
    expect(form.get_by_label("Name")).to_have_value("Cleat")
    expect(form.get_by_label("Width", exact=True)).to_have_value("31")
    expect(form.get_by_role("status")).to_have_text("It touches bottom.", timeout=30_000)
    form.get_by_role("button", name="Keep this part").click()
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)
    page.get_by_role("combobox", name="Show a part").select_option("bottom")
    begin.click()
    expect(form.get_by_label("Part")).to_have_value("bottom", timeout=30_000)
    expect(form.get_by_label("Name")).to_have_value("")
    form.get_by_role("button", name="Keep this part").click()  # as it is offered, with nothing filled in
    page.get_by_text("Kept as version 3").wait_for(timeout=30_000)
    page.get_by_role("combobox", name="Show a part").select_option("bottom")
    begin.click()
    expect(form.get_by_label("Part")).to_have_value("bottom", timeout=30_000)


@pytest.mark.browser
def test_on_a_phone_no_slip_lies_over_what_is_asked_and_offered(page: Page) -> None:
    """A part picked says where the new one stands and is put away; after it is kept its joints come up."""
    page.set_viewport_size({"width": 360, "height": 740})
    page.select_option("plate-controls select", "top", force=True)
    page.get_by_text("As it is written, to change").click()
    page.get_by_role("button", name="Add a part at it").click()
    form = page.get_by_role("form", name="A new part")
    expect(form.get_by_label("Part")).to_have_value("top", timeout=30_000)
    expect(page.locator("part-slip")).to_be_hidden()
    page.select_option("plate-controls select", "bottom", force=True)
    expect(form.get_by_label("Part")).to_have_value("bottom", timeout=30_000)
    expect(page.locator("part-slip")).to_be_hidden()
    form.get_by_role("button", name="Keep this part").click()
    expect(page.locator("meeting-list summary")).to_be_focused(timeout=30_000)
    expect(page.locator("part-slip")).to_be_hidden()
    expect(page.locator("meeting-list li").first).to_contain_text("new stick")


@pytest.mark.browser
def test_a_part_is_mirrored_with_the_keys_of_its_slip(page: Page) -> None:
    """The rail in front is made once more at the back of the piece, about the middle of the bottom."""
    page.get_by_role("combobox", name="Show a part").select_option("plinth_rail")
    page.get_by_text("As it is written, to change").click()
    page.get_by_role("button", name="Make another").click()
    page.locator("entry-form [name=mirror]").select_option("front-back")
    page.locator("entry-form [name=about]").select_option("bottom")
    page.locator("entry-form .copy [name=name]").fill("plinth_back")
    page.get_by_role("button", name="Make it").click()
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)
    written = "plinth_back: {mirror: [front-back], move: [0, 2 * shelf_y, 0]}"
    assert written in page.request.get("/api/pieces/1/file").text()


@pytest.mark.browser
def test_why_a_joint_was_refused_goes_with_the_piece_it_was_of(page: Page) -> None:
    """A stretcher half beside its legs is not joined, and it is said why until the piece is another."""
    page.request.post("/api/pieces", data={"form": "reading-table"})
    between = {"part": "leg_fl", "face": "right", "other": "leg_fr", "other_face": "left"}
    typed = {**between, "width": "40 mm", "thickness": "20 mm", "z": "180 mm"}
    body = {"kind": "stick", "name": "stretcher", "way": "between", "typed": typed, "parent": 1}
    assert page.request.post("/api/pieces/2/parts", data=body).status == 201
    page.goto("/pieces/2/")
    page.locator("meeting-list summary").click(timeout=60_000)
    meeting = page.locator("meeting-list li", has_text="Front left leg and stretcher")
    meeting.get_by_role("button", name="mortise and tenon", exact=True).click()
    expect(page.locator("meeting-list .fault")).to_contain_text("Not joined.", timeout=30_000)
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("piece-bar [role=status]")).to_contain_text("Undone", timeout=30_000)
    expect(page.locator("meeting-list .fault")).to_have_count(0)
