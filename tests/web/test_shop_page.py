"""The shop and the rooms in a browser: set, refused, put back, and chosen for a piece; on a phone too."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from scantling.shop.profile.profile_file import parse_shop
from scantling.web.documents.shell import static_folder
from scantling.web.routes import choosing
from scantling.web.sent import profile_bodies
from tests.web.kept_browser import HOLDING, Chromium, kept_server
from tests.web.specimen import DEMO

TYPES = static_folder() / "js" / "profile-types.js"
MINE = "# Behind the house.\nname: Mine # and hers\n"


@pytest.mark.parametrize(
    "kind",
    [
        *("ProfileBody", "ProfileVersionBody", "SettingBody", "SectionBody", "AddingBody", "ChapterBody"),
        *("ShopOpen", "RoomOpen", "RoomYearBody", "KnownRoom", "KnownRooms", "ChangedBody"),
        *("ChosenBody", "SettingOfPiece"),
    ],
)
def test_types_name_the_fields_that_are_sent(kind: str) -> None:
    """``profile-types.js`` has the same fields in the same order as what the server sends."""
    text = TYPES.read_text(encoding="utf-8")
    block = text.split(f"@typedef {{object}} {kind}\n", 1)[1].split("@typedef", 1)[0]
    model = getattr(profile_bodies, kind, None) or getattr(choosing, kind)
    sent = [field.alias for field in model.model_fields.values()]
    assert re.findall(r"@property \{.+?\} (\w+)", block) == sent


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """A phone, with nothing kept yet."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context: BrowserContext = browser.new_context(
            base_url=address, viewport={"width": 360, "height": 740}, reduced_motion="reduce"
        )
        page = context.new_page()
        complaints: list[str] = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        yield page
        assert complaints == []


def _shop(page: Page, text: str = MINE) -> None:
    assert page.request.post("/api/shops", data={"text": text}).status == 201
    page.goto("/shop")
    page.wait_for_selector("setting-field")


def _text(page: Page, what: str = "shops", number: int = 1) -> str:
    return str(page.request.get(f"/api/{what}/{number}").json()["text"])


@pytest.mark.browser
def test_a_maker_begins_a_shop_and_sets_it_as_it_is_said(page: Page) -> None:
    """With units, several at once; what is set stands apart from what is default, and goes back to it."""
    page.goto("/shop")
    page.get_by_role("button", name="Begin with the usual shop").click()
    page.get_by_label("Planer: all at their defaults").click()
    planer = page.get_by_role("region", name="Planer")
    width = planer.get_by_label("Takes a width of")
    assert width.get_attribute("placeholder") == "330 mm"
    width.fill("13 in")
    planer.get_by_label("Snipe").fill("10 mm")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("status").first).to_have_text("2 settings kept.")
    expect(planer.locator("setting-field[data-set]")).to_have_count(2)
    shop = parse_shop(_text(page))
    assert shop.machines.planer is not None
    assert shop.machines.planer.max_width_mm == pytest.approx(330.2)
    assert shop.machines.jointer is not None
    planer.get_by_role("button", name="Takes a width of: Back to 330 mm").click()
    expect(planer.locator("setting-field[data-set]")).to_have_count(1)
    page.get_by_role("button", name="Undo").click()
    expect(planer.locator("setting-field[data-set]")).to_have_count(2)
    assert page.evaluate("document.documentElement.scrollWidth") == 360


@pytest.mark.browser
def test_what_is_refused_stays_typed_and_is_told_at_its_field(page: Page) -> None:
    """All of it at once, even where it was folded away; typed and not kept it outlives a reload."""
    _shop(page)
    page.get_by_label("Find a setting").fill("height")
    page.get_by_label("Takes a height of").first.fill("6 inn")
    page.get_by_label("Find a setting").fill("margin")
    page.get_by_label("Margin", exact=True).fill("120 %")
    page.get_by_label("Find a setting").fill("")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("setting-field[data-faulty]")).to_have_count(2)
    expect(page.locator("setting-field .fault").first).to_be_visible()
    expect(page.locator("setting-field .fault").first).to_contain_text("got 6 inn")
    assert page.evaluate("document.activeElement.getAttribute('aria-invalid')") == "true"
    assert _text(page) == MINE
    page.reload()
    expect(page.get_by_role("status").first).to_have_text("What you typed and had not kept is here again.")
    page.get_by_role("button", name="Let go").click()
    expect(page.locator(".typed-bar")).to_have_count(0)


@pytest.mark.browser
def test_what_is_typed_while_keeping_stays_typed(page: Page) -> None:
    """In its field and in the text of the file; a text is never carried into another shop."""
    page.request.post("/api/shops", data={"text": "name: Barn\n"})
    _shop(page)
    page.get_by_label("Which shop").select_option("Mine")
    name, text = page.locator("#set-name"), page.get_by_label("Text of the file")
    expect(name).to_have_value("Mine")
    page.get_by_label("Find a setting").fill("name")
    page.evaluate(HOLDING, "/settings")
    name.press("End")
    name.press_sequentially(" 2")
    expect(name).to_have_value("Mine 2")
    name.press("Enter")
    page.wait_for_function("() => window.holds")
    name.press_sequentially("b")
    page.evaluate("() => window.letGo()")
    expect(page.get_by_label("Which shop").locator("option:checked")).to_have_text("Mine 2")
    expect(name).to_have_value("Mine 2b")
    expect(page.locator(".typed-bar")).to_contain_text("1 setting typed, not kept yet")
    page.get_by_role("button", name="Let go").click()
    page.get_by_text("Its file as text").click()
    page.evaluate("() => { window.holds = false; }")
    page.evaluate(HOLDING, "/shops/2/versions")
    text.fill("name: Third\n")
    page.get_by_role("button", name="Save the text").click()
    page.wait_for_function("() => window.holds")
    text.fill("name: Fourth\n")
    page.evaluate("() => window.letGo()")
    expect(page.get_by_label("Which shop").locator("option:checked")).to_have_text("Third")
    expect(page.get_by_role("button", name="Save the text")).to_be_enabled()
    expect(text).to_have_value("name: Fourth\n")
    page.get_by_label("Which shop").select_option("Barn")
    expect(text).to_have_value("name: Barn\n")
    expect(page.get_by_role("button", name="Save the text")).to_be_disabled()


@pytest.mark.browser
def test_a_text_not_saved_outlives_a_reload_and_says_what_it_would_replace(page: Page) -> None:
    """It is open again and told; what was kept since is named before the text takes its place."""
    _shop(page)
    page.get_by_text("Its file as text").click()
    text, save = page.get_by_label("Text of the file"), page.get_by_role("button", name="Save the text")
    text.fill("name: By hand\n")
    expect(page.locator("profile-text [role=status]")).to_have_text("Not saved yet; kept in this browser.")
    page.reload()
    expect(page.locator("profile-text [role=status]")).to_have_text(
        "What you wrote and had not saved is here again."
    )
    expect(text).to_be_visible()
    expect(text).to_have_value("name: By hand\n")
    expect(page.locator("profile-text .notice")).to_have_count(0)
    page.get_by_label("Find a setting").fill("name")
    page.locator("#set-name").fill("Typed")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("profile-text .notice")).to_contain_text(
        "began this text on version 1; version 2 is kept"
    )
    assert _text(page) == MINE.replace("Mine", "Typed")
    save.click()
    expect(page.get_by_role("status").first).to_have_text("Saved.")
    assert _text(page) == "name: By hand\n"
    page.reload()
    page.get_by_text("Its file as text").click()
    expect(save).to_be_disabled()
    expect(page.locator("profile-text [role=status]")).to_have_count(0)


@pytest.mark.browser
def test_machines_and_clamps_come_and_go_and_comments_stay(page: Page) -> None:
    """A machine is here or not with one key; clamps are added with their fields, one at a time."""
    _shop(page)
    saw = page.get_by_label("Table saw in the shop")
    saw.click()
    expect(page.get_by_role("status").first).to_have_text("Table saw: not here any more.")
    expect(saw).not_to_be_checked()
    expect(page.get_by_role("region", name="Table saw").locator("setting-field")).to_have_count(0)
    page.get_by_role("heading", name="Clamps").click()
    page.get_by_text("Add: clamps of one kind and length").click()
    page.get_by_role("button", name="Add it").first.click()
    expect(page.locator(".adding .notice")).to_contain_text("Clamps 5, reach")
    page.locator(".adding").first.get_by_label("Reach").fill("6 ft")
    page.locator(".adding").first.get_by_label("Count").fill("2")
    page.get_by_role("button", name="Add it").first.click()
    expect(page.get_by_role("heading", name="Bar clamp 6 ft")).to_be_visible()
    text = _text(page)
    assert text.startswith(MINE)
    shop = parse_shop(text)
    assert shop.machines.table_saw is None
    assert shop.clamps[-1].count == 2


@pytest.mark.browser
def test_what_is_typed_of_a_clamp_is_never_written_to_another(page: Page) -> None:
    """It follows its clamp when one before it is taken out; else it is let go, and that is said."""
    clamps = "".join(f"  - {{reach: {reach} mm, count: 4}}\n" for reach in (600, 900, 1200))
    _shop(page, f"{MINE}clamps:\n{clamps}")
    page.get_by_label("Find a setting").fill("clamp")
    page.locator("#set-clamps-2-count").fill("7")
    page.get_by_role("button", name="Take out").first.click()
    expect(page.get_by_role("button", name="Take out")).to_have_count(2)
    page.reload()
    page.wait_for_selector("setting-field")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("status").first).to_have_text("1 setting kept.")
    held = parse_shop(_text(page)).clamps
    assert [(round(one.reach_mm), one.count) for one in held] == [(900, 7), (1200, 4)]
    page.get_by_label("Find a setting").fill("clamp")
    page.locator("#set-clamps-2-count").fill("9")
    page.request.post("/api/shops/1/entries/remove", data={"path": ["clamps", 0], "parent": 3})
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("status").first).to_contain_text("is let go")
    expect(page.locator(".typed-bar")).to_have_count(0)
    assert [one.count for one in parse_shop(_text(page)).clamps] == [4]


@pytest.mark.browser
def test_a_shop_comes_from_a_file_and_goes_as_one(page: Page, tmp_path: Path) -> None:
    """One with faults is told with its lines and not kept; two shops are chosen between by name."""
    bad, good = tmp_path / "bad.yaml", tmp_path / "good.yaml"
    bad.write_text("name: Barn\nmachines:\n  planer: {max_width: wide}\n", encoding="utf-8")
    good.write_text("# Cold.\nname: Barn\nrates: {hourly: 60}\n", encoding="utf-8")
    page.goto("/shop")
    page.locator("shop-desk input[type=file]").set_input_files(bad)
    expect(page.get_by_role("alert")).to_contain_text("line 3 of shop.yaml")
    page.locator("shop-desk input[type=file]").set_input_files(good)
    expect(page.get_by_role("heading", name="Barn")).to_be_visible()
    page.get_by_text("Files, versions, another shop").click()
    with page.expect_download() as taken:
        page.get_by_role("link", name="As a file").click()
    assert Path(taken.value.path()).read_text(encoding="utf-8") == good.read_text(encoding="utf-8")
    page.get_by_role("button", name="A new shop").click()
    expect(page.get_by_label("Which shop")).to_have_value("2")
    page.get_by_label("Which shop").select_option("Barn")
    expect(page.locator("#set-rates-hourly")).to_have_value("60")


@pytest.mark.browser
def test_a_room_is_begun_from_a_town_and_its_damp_is_told(page: Page) -> None:
    """Its year is drawn anew; the same room month by month can be typed over."""
    page.goto("/rooms")
    page.get_by_label("A heated house in").select_option("Denver, CO")
    page.get_by_role("button", name="Begin from it: Heated house in Denver, CO").click()
    expect(page.locator("room-year .note")).to_contain_text("Driest in January: wood at 6.1 %")
    page.get_by_label("Water given off, kg a day").fill("16")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("room-year .note")).not_to_contain_text("6.1 %")
    page.get_by_label("How its air is known").select_option("Month by month")
    july = page.get_by_role("region", name="July")
    expect(july.get_by_label("Humidity")).not_to_have_value("")
    july.get_by_label("Humidity").fill("75 %")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("room-year .note")).to_contain_text("Wettest in July")
    assert page.evaluate("document.documentElement.scrollWidth") == 360


@pytest.mark.browser
def test_the_way_the_air_is_known_is_shown_as_it_is(page: Page) -> None:
    """After each change, and after one that is refused."""
    page.request.post("/api/rooms", data={"known": "Denver, CO"})
    page.goto("/rooms")
    how, told = page.get_by_label("How its air is known"), page.get_by_role("status").first
    expect(how).to_have_value("climate")
    for number, kind in enumerate(("months", "range", "months"), start=2):
        how.select_option(kind)
        expect(how).to_have_value(kind)
        expect(told).to_contain_text("Its air is known another way")
        assert page.request.get("/api/rooms/1").json()["profile"]["version"] == number
    page.route("**/api/rooms/1/air", lambda route: route.abort())
    how.select_option("range")
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    expect(how).to_have_value("months")


@pytest.mark.browser
def test_own_rooms_are_there_where_those_known_by_name_are_not(page: Page) -> None:
    """It is said why they are not."""
    page.request.post("/api/rooms", data={"known": "Denver, CO"})
    page.route("**/api/rooms/known", lambda route: route.abort())
    page.goto("/rooms")
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    expect(page.get_by_label("How its air is known")).to_have_value("climate")
    expect(page.get_by_text("Looking ...")).to_have_count(0)


@pytest.mark.browser
def test_the_shop_that_is_chosen_is_the_one_on_show(page: Page) -> None:
    """Where another one could not be opened, where it is copied, and where it is put away."""
    for name in ("Barn", "Cellar"):
        page.request.post("/api/shops", data={"text": f"name: {name}\n"})
    _shop(page)
    which, shown = page.get_by_label("Which shop"), page.locator("#set-name")
    which.select_option("Cellar")
    expect(shown).to_have_value("Cellar")
    page.route("**/api/shops/1", lambda route: route.abort())
    which.select_option("Barn")
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    expect(which.locator("option:checked")).to_have_text("Cellar")
    page.unroute("**/api/shops/1")
    page.get_by_text("Files, versions, another shop").click()
    page.get_by_role("button", name="A copy of this one").click()
    expect(which).to_have_value("4")
    which.select_option("2")
    expect(page.get_by_role("link", name="As a file")).to_have_attribute("href", "/api/shops/2/file")
    page.get_by_role("button", name="Put this one away").click()
    expect(which.locator("option")).to_have_count(3)
    expect(page.get_by_role("status").first).to_contain_text("Cellar is put away")
    expect(which.locator("option:checked")).to_have_text(shown.input_value())


@pytest.mark.browser
def test_a_key_tapped_twice_does_its_work_once(page: Page) -> None:
    """While it is on its way, and where the first has come by the second tap."""
    _shop(page)
    page.get_by_text("Files, versions, another shop").click()
    page.evaluate(HOLDING, "/shops")
    page.get_by_role("button", name="A copy of this one").dblclick()
    page.wait_for_function("() => window.holds")
    for name in ("A copy of this one", "A new shop", "Put this one away"):
        expect(page.get_by_role("button", name=name)).to_be_disabled()
    page.evaluate("() => window.letGo()")
    expect(page.get_by_label("Which shop").locator("option")).to_have_count(2)
    away = page.get_by_role("button", name="Put this one away")
    expect(away).to_be_enabled()
    away.click()
    expect(page.get_by_role("heading", name="Mine", exact=True)).to_be_visible()
    expect(away).to_be_enabled()
    away.dispatch_event("click", {"detail": 2})
    away.dispatch_event("click", {"detail": 1})
    expect(page.get_by_role("button", name="Begin with the usual shop")).to_be_visible()
    kept = page.request.get("/api/shops?putAway=true").json()["kept"]
    assert len(kept) == 2


@pytest.mark.browser
def test_a_piece_is_planned_for_a_shop_and_takes_it_as_it_is_now(page: Page) -> None:
    """Begun with the only shop there is; changed since, it says what, and one key takes it."""
    _shop(page)
    page.goto("/pieces")
    expect(page.get_by_label("Shop", exact=True)).to_have_value("kept 1")
    page.get_by_label("Room it will stand in").select_option("Denver, CO")
    page.get_by_role("button", name="Begin this one").first.click()
    page.wait_for_selector("piece-setting select")
    expect(page.locator("#planned-shop")).to_have_value("kept 1")
    expect(page.locator("#planned-room")).to_have_value("known Denver, CO")
    number = int(re.findall(r"/pieces/(\d+)/", page.url)[0])
    changes = [{"path": ["rates", "hourly"], "text": "60"}]
    page.request.post("/api/shops/1/settings", data={"changes": changes, "parent": 1})
    page.reload()
    expect(page.locator("piece-setting .since")).to_contain_text("An hour of work 48 → 60", timeout=30_000)
    page.get_by_role("button", name="Take it as it is now").click()
    expect(page.locator("piece-setting .since")).to_have_count(0)
    with page.expect_response(lambda answer: answer.request.method == "POST" and "setting" in answer.url):
        page.locator("#planned-room").select_option("House near the sea")
    expect(page.locator("piece-bar")).to_contain_text("Kept as version 3.")
    kept = page.request.get(f"/api/pieces/{number}").json()
    assert kept["piece"]["version"] == 3
    assert kept["content"]["room"] == {"name": "mild-damp-house", "text": None}
    assert "hourly: 60" in kept["content"]["shop"]["text"]
    assert page.evaluate("document.documentElement.scrollWidth") == 360


@pytest.mark.browser
def test_a_room_that_is_refused_is_not_shown_as_chosen(page: Page) -> None:
    """The piece was changed elsewhere meanwhile: it is told, and the list shows the room it has."""
    assert page.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
    page.goto("/pieces/1/")
    room = page.locator("#planned-room")
    before = room.input_value()
    opened = page.request.get("/api/pieces/1").json()
    content = {**opened["content"], "given": {"height": "700 mm"}}
    change = {"content": content, "parent": 1, "why": "Lower"}
    assert page.request.post("/api/pieces/1/versions", data=change).status == 201
    room.select_option("House near the sea")
    expect(page.locator("piece-setting [role=alert]")).to_be_visible()
    expect(room).to_be_enabled()
    expect(room).to_have_value(before)


@pytest.mark.browser
def test_the_shop_a_piece_came_with_is_kept_for_others(page: Page) -> None:
    """The demo comes with its own shop and room; with one key each is on the list."""
    demo = page.request.get("/api/demo").json()
    assert demo["piece"] == DEMO.read_text(encoding="utf-8")
    page.request.post("/api/pieces", data={"content": demo})
    page.goto("/pieces/1/")
    page.wait_for_selector("piece-setting select")
    page.get_by_role("button", name="Keep it for other pieces").first.click()
    expect(page.locator("#planned-shop")).to_have_value("kept 1")
    assert _text(page) == demo["shop"]["text"]


@pytest.mark.browser
def test_a_text_that_is_not_saved_waits_for_its_shop(page: Page) -> None:
    """Another shop shows its own text; back at the first, what was written is there again until let go."""
    page.request.post("/api/shops", data={"text": "name: Barn\n"})
    _shop(page)
    which, text = page.get_by_label("Which shop"), page.get_by_label("Text of the file")
    which.select_option("Mine")
    page.get_by_text("Its file as text").click()
    expect(text).to_have_value(MINE)
    text.fill("name: Yours\n")
    which.select_option("Barn")
    expect(text).to_have_value("name: Barn\n")
    which.select_option("Mine")
    expect(text).to_have_value("name: Yours\n")
    expect(page.get_by_role("button", name="Save the text")).to_be_enabled()
    page.get_by_role("button", name="As it is kept").click()
    which.select_option("Barn")
    expect(text).to_have_value("name: Barn\n")
    which.select_option("Mine")
    expect(text).to_have_value(MINE)
