"""A shop profile changed as a form changes it, and the form made from the profile's model."""

from __future__ import annotations

import re

import pytest

from scantling.errors import FileFaults, InputError
from scantling.reading.setting import Setting
from scantling.shop.profile.machines import USUAL_MACHINES, Machines
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.profile_file import parse_shop
from scantling.shop.profile.profile_text import (
    changes_between,
    with_entry,
    with_machine,
    with_settings,
    without_entry,
)
from scantling.shop.profile.settings import shop_chapters
from tests.shop.test_settings_page import page

PLAIN = "# Behind the house.\nname: Mine # and hers\n"


def _settings(text: str) -> dict[tuple[str | int, ...], Setting]:
    return {
        setting.path: setting
        for chapter in shop_chapters(text)
        for section in chapter.sections
        for setting in section.settings
    }


def test_the_form_holds_every_setting_of_the_page_once() -> None:
    """What docs/shop-settings.md lists, of a shop that owns every machine; entries stand for their lists."""
    text = f"machines: {{{', '.join(f'{name}: {{}}' for name in Machines.model_fields)}}}"
    chapters = shop_chapters(text)
    paths = [s.path for c in chapters for part in c.sections for s in part.settings]
    assert len(paths) == len(set(paths))
    shown = {".".join(str(step) for step in path if not isinstance(step, int)) for path in paths}
    shown |= {
        ".".join(map(str, (*adding.path, *setting.path)))
        for c in chapters
        for adding in c.adding
        for setting in adding.settings
    }
    listed = {name.replace("[]", "") for name in re.findall(r"^\| `([^`]+)`", page(), re.MULTILINE)}
    assert listed - shown == {"rates.hardware"}
    assert shown - listed == {"rates.hardware.price"}


def test_a_default_has_its_value_and_its_source() -> None:
    """As the model has them; in a shop that works in inches, lengths and degrees as they are said there."""
    found = _settings("name: x")[("machines", "jointer", "min_thickness")]
    assert (found.default, found.written, found.about) == (
        "13 mm",
        None,
        "Common practice: 1/2 in, safety leaflets.",
    )
    inches = _settings("units: in\nclimate: {temperature: 68 F}")
    assert inches[("machines", "table_saw", "blade")].default == "10 in"
    assert inches[("climate", "temperature")].default == "68 F"
    assert inches[("climate", "temperature")].written == "68 F"


def test_one_setting_of_one_machine_leaves_the_others_where_they_are() -> None:
    """A file without machines has the usual ones; a line about one must not take the others away."""
    made = with_settings(PLAIN, {("machines", "planer", "max_width"): "13 in"})
    shop = parse_shop(made)
    assert shop.machines.planer is not None
    assert shop.machines.planer.max_width_mm == pytest.approx(330.2)
    owned = {name for name in Machines.model_fields if getattr(shop.machines, name) is not None}
    assert owned == {name for name in Machines.model_fields if getattr(USUAL_MACHINES, name) is not None}
    assert made.startswith(PLAIN)


def test_a_setting_put_back_leaves_the_file_as_it_was_read() -> None:
    """The machine stays, its line about the width goes; a section that is empty then goes as a whole."""
    made = with_settings(
        PLAIN,
        {
            ("machines", "planer", "max_width"): "13 in",
            ("yard", "widest_board"): "12 in",
            ("machines", "router", "bits"): "1/4 in, 1/2 in",
        },
    )
    assert parse_shop(made).machines.router.bits_mm == pytest.approx((6.35, 12.7))  # type: ignore[union-attr]
    back = with_settings(made, dict.fromkeys(standing_of(made), ""))
    assert parse_shop(back) == parse_shop(PLAIN)
    assert "yard" not in back


def standing_of(text: str) -> list[tuple[str | int, ...]]:
    """Settings that are written, but for the name."""
    return [path for path, one in _settings(text).items() if one.written is not None and path != ("name",)]


def test_a_machine_is_here_or_not() -> None:
    """What was said of it goes with it; the last one gone leaves a shop of hand tools, not the usual one."""
    with_lathe = with_machine(PLAIN, "lathe", owned=True)
    assert parse_shop(with_lathe).machines.lathe is not None
    bare = with_lathe
    for name in Machines.model_fields:
        bare = with_machine(bare, name, owned=False)
    assert parse_shop(bare).machines == Machines()
    assert parse_shop(with_machine(bare, "bandsaw", owned=True)).machines.bandsaw is not None
    with pytest.raises(InputError, match="must be a setting"):
        with_machine(PLAIN, "shaper", owned=True)


def test_clamps_are_counted_added_and_taken_out() -> None:
    """A file without clamps has the usual ones, which are written out before the first change."""
    usual = Shop().clamps
    more = with_entry(PLAIN, ("clamps",), {"kind": "pipe clamp", "reach": "6 ft", "count": "2", "force": ""})
    assert parse_shop(more).clamps[:-1] == usual
    assert parse_shop(more).clamps[-1].reach_mm == pytest.approx(1828.8)
    fewer = without_entry(PLAIN, ("clamps", 0))
    assert parse_shop(fewer).clamps == usual[1:]
    counted = with_settings(PLAIN, {("clamps", 1, "count"): "2"})
    assert parse_shop(counted).clamps[1].count == 2
    for _ in usual:
        more = without_entry(more, ("clamps", 0))
    assert len(parse_shop(without_entry(more, ("clamps", 0))).clamps) == 0


def test_prices_and_glues_are_added_under_their_names() -> None:
    """A name once; one that is there is changed, not added again."""
    text = with_entry(PLAIN, ("rates", "timber"), {"per_board_foot": "9.5"}, name="black cherry")
    text = with_entry(text, ("rates", "hardware"), {"price": "0.9"}, name="Z-shaped top clip")
    text = with_entry(
        text,
        ("glues",),
        {
            "name": "Hoof, no. 2",
            "kind": "hide",
            "open": "3 min",
            "working": "6 min",
            "clamp": "4 h",
            "cure": "1 day",
            "min_temperature": "68 F",
            "spread_g_m2": "200",
        },
    )
    shop = parse_shop(text)
    assert shop.rates.timber["black cherry"].per_board_foot == 9.5
    assert shop.rates.hardware == {"Z-shaped top clip": 0.9}
    assert shop.glues[0].name == "Hoof, no. 2"
    with pytest.raises(InputError, match="not there yet"):
        with_entry(text, ("rates", "timber"), {"per_board_foot": "8"}, name="black cherry")
    assert parse_shop(without_entry(text, ("glues", 0))).glues == ()
    assert parse_shop(without_entry(text, ("rates", "timber", "black cherry"))).rates.timber == {}


def test_what_the_file_may_not_be_is_told_at_each_field() -> None:
    """Several at once, with line, field, value, rule and remedy, as of the file."""
    made = with_settings(
        PLAIN,
        {
            ("machines", "planer", "max_width"): "thirteen",
            ("machines", "jointer", "cut"): "-1 mm",
            ("yard", "names"): "4/4, 13/4",
        },
    )
    with pytest.raises(FileFaults) as refused:
        parse_shop(made)
    told = {fault.field: fault for fault in refused.value.faults}
    assert set(told) == {"machines.planer.max_width", "machines.jointer.cut", "yard.names[2]"}
    for fault in told.values():
        assert fault.line
        assert fault.rule
        assert fault.value


def test_what_two_profiles_have_otherwise_is_told_in_words() -> None:
    """Values, machines that came and went, clamps that were counted anew."""
    now = with_settings(PLAIN, {("machines", "planer", "max_width"): "16 in", ("rates", "hourly"): "55"})
    now = with_machine(now, "lathe", owned=True)
    told = {change.label: (change.then, change.now) for change in changes_between(PLAIN, now)}
    assert told["Planer: takes a width of"] == ("330 mm", "16 in")
    assert told["An hour of work"] == ("48", "55")
    assert told["Lathe"] == ("not here", "here")
    assert changes_between(now, now) == ()


def test_a_bare_number_is_told_with_the_unit_it_is_in() -> None:
    """330 in a file of millimeters is told beside 13 in, not as if it were inches."""
    bare = with_settings(PLAIN, {("machines", "planer", "max_width"): "330"})
    other = with_settings(PLAIN, {("machines", "planer", "max_width"): "13 in"})
    (change,) = changes_between(bare, other)
    assert (change.then, change.now) == ("330 mm", "13 in")


@pytest.mark.parametrize("path", [("machines", "lathe", "swing"), ("machines", "planer"), ("paint",)])
def test_what_is_no_setting_of_this_shop_is_refused(path: tuple[str, ...]) -> None:
    """A setting of a machine that is not here, a section, and a word of nobody's."""
    with pytest.raises(InputError) as refused:
        with_settings(PLAIN, {path: "12 in"})
    assert refused.value.code == "unknown_setting"
