"""A shop profile is read with every fault at its line; what is left out has a sane default."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from scantling.errors import Fault, FileFaults, InputError
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.profile_file import default_shop, parse_shop, read_shop
from scantling.shop.profile.yard import BoughtAs, StockSystem, nominals

EXAMPLES = sorted((Path(__file__).parents[2] / "examples" / "shops").glob("*.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_shop_reads(path: Path) -> None:
    """Shipped shops are without fault, name a glue, a finish and stock that exist, and survive JSON."""
    shop = read_shop(path)
    assert shop.glue_named().name == shop.glue
    assert shop.finish_named().name == shop.finish
    assert shop.offered()
    assert shop.clamps
    adapter = TypeAdapter(Shop)
    assert adapter.validate_json(adapter.dump_json(shop)) == shop


def test_the_reading_table_shop_is_what_its_scenario_says() -> None:
    """250 jointer, 330 planer, 47 deg, six clamps of 1200 and four of 900, two people, 45 %."""
    shop = read_shop(next(path for path in EXAMPLES if path.stem == "reading-table"))
    machines = shop.machines
    assert machines.jointer is not None
    assert machines.planer is not None
    assert machines.table_saw is not None
    assert (machines.jointer.max_width_mm, machines.planer.max_width_mm) == (250.0, 330.0)
    assert machines.table_saw.max_tilt_deg == 47.0
    assert [(c.reach_mm, c.count) for c in shop.clamps] == [(1200.0, 6), (900.0, 4)]
    assert shop.people.count == 2
    assert shop.climate.humidity_pct == 45.0


def test_what_is_left_out_takes_the_default_and_an_empty_section_owns_nothing() -> None:
    """No machines section means the usual shop, an empty one hand tools; clamps likewise."""
    assert parse_shop("name: mine").machines == default_shop().machines
    bare = parse_shop("machines: {}\nclamps: []\n")
    assert bare.machines.jointer is None
    assert bare.clamps == ()
    assert bare.kerf_mm == 1.5


def test_bare_lengths_are_in_the_units_of_the_file() -> None:
    """An inch shop writes 13 for its planer; a text carries its own unit."""
    shop = parse_shop("units: in\nmachines: {planer: {max_width: 13, snipe: 50 mm}}")
    assert shop.machines.planer is not None
    assert shop.machines.planer.max_width_mm == pytest.approx(330.2)
    assert shop.machines.planer.snipe_mm == 50.0


def test_all_faults_come_at_once_at_their_lines() -> None:
    """Unknown glue, finish, stock and species are four faults, each at its line with what is allowed."""
    text = (
        "glue: yelow PVA\nfinish: ketchup\nyard: {names: [4/4, 9/4]}\nrates: {timber: {chery: {per_m3: 1}}}\n"
    )
    with pytest.raises(FileFaults) as caught:
        parse_shop(text, file="shop.yaml")
    found = {(fault.line, fault.code, fault.value) for fault in caught.value.faults}
    assert {(1, "unknown_glue", "yelow PVA"), (2, "unknown_finish", "ketchup")} <= found
    assert (3, "unknown_thickness", "9/4") in found
    assert {line for line, _, _ in found} == {1, 2, 3, 4}
    assert "yellow PVA" in caught.value.faults[0].remedy


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("machines: {planer: {max_width: 13 parsecs}}", "machines.planer.max_width"),
        ("machines: {planer: {color: red}}", "machines.planer.color"),
        ("clamps: [{reach: -3, count: 2}]", "clamps[1].reach"),
        ("rates: {margin: 100}", "rates.margin"),
        ("machines: {planer: {max_width: -330}}", "machines.planer.max_width"),
        ("machines: {table_saw: {max_tilt: 95 deg}}", "machines.table_saw.max_tilt"),
        ("allowances: {face: -2 mm}", "allowances.face"),
        ("clamping: {open_share: 1.2}", "clamping.open_share"),
        ("people: {count: 0}", "people.count"),
    ],
)
def test_a_bad_value_is_named_by_its_field(text: str, field: str) -> None:
    """The fault carries the field as the file spells it."""
    with pytest.raises(FileFaults) as caught:
        parse_shop(text)
    assert [fault.field for fault in caught.value.faults] == [field]


def test_an_unknown_glue_asked_for_by_a_joint_is_refused_by_value() -> None:
    """The error names the glue and those there are."""
    with pytest.raises(InputError, match="got glu") as caught:
        default_shop().glue_named("glu")
    assert (caught.value.code, caught.value.value) == ("unknown_glue", "glu")


def test_own_glues_go_before_those_shipped() -> None:
    """A glue of one's own replaces the shipped one of that name, and the others stay."""
    own = (
        "glues:\n  - {name: yellow PVA, kind: pva, open: 9, working: 14 min, clamp: 1 h, cure: 1 day,"
        " min_temperature: 50 F, spread_g_m2: 200}\n"
    )
    shop = parse_shop(own.replace("1 day", "24 h"))
    assert shop.glue_named().working_min == 14.0
    assert shop.glue_named().clamp_min == 60.0
    assert shop.glue_named().min_temperature_c == pytest.approx(10.0)
    assert shop.glue_named("liquid hide").working_min == 40.0


def test_timber_prices_are_found_under_any_name_of_the_wood() -> None:
    """Cherry and black cherry are one wood; a wood without any price has none."""
    shop = parse_shop("rates: {timber: {cherry: {per_board_foot: 9.5}}}")
    price = shop.timber_price("black cherry")
    assert price is not None
    assert price.per_board_foot == 9.5
    assert shop.timber_price("balsa") is None


def test_a_yard_sells_one_system_or_what_is_named() -> None:
    """Metric sizes by themselves; names choose among all."""
    metric = parse_shop("yard: {system: metric}").offered()
    assert [nominal.rough_mm for nominal in metric] == [27.0, 34.0, 41.0, 54.0, 65.0, 80.0]
    assert all(nominal.system is StockSystem.METRIC for nominal in metric)
    named = parse_shop("yard: {names: [8/4, 27 mm]}").offered()
    assert [nominal.name for nominal in named] == ["27 mm", "8/4"]
    assert all(n.bought_mm(BoughtAs.SURFACED) < n.bought_mm(BoughtAs.ROUGH) for n in nominals())


def test_no_thickness_is_bought_that_yards_seldom_list() -> None:
    """4/4 to 16/4 without 7/4 and 14/4, unless the shop names them or the piece asks for them."""
    usual = ["4/4", "5/4", "6/4", "8/4", "10/4", "12/4", "16/4"]
    assert [nominal.name for nominal in default_shop().offered()] == usual
    assert "7/4" in [nominal.name for nominal in parse_shop("yard: {names: [7/4]}").offered()]
    assert "7/4" in [nominal.name for nominal in default_shop().offered(asked=(7,))]
    assert [n.name for n in parse_shop("yard: {names: [8/4]}").offered(asked=(7,))] == ["8/4"]


def test_working_time_falls_with_heat_and_never_grows_with_cold() -> None:
    """Ten degrees above 20 take 40 to 50 % of it (from memory); below 20 nothing is added."""
    glue = default_shop().glue_named()
    assert 0.5 <= glue.working_at(30.0) / glue.working_min <= 0.6
    assert glue.working_at(12.0) == glue.working_min


def test_a_schema_completes_the_profile_in_an_editor() -> None:
    """Keys are those of the file, without units, and lengths may be texts."""
    schema = Shop.model_json_schema()
    planer = schema["$defs"]["Planer"]["properties"]
    assert "max_width" in planer
    assert "max_width_mm" not in planer
    assert {"type": "string", "maxLength": 60} in planer["max_width"]["anyOf"]


WORDS = st.sampled_from(
    [
        "machines",
        "planer",
        "max_width",
        "clamps",
        "reach",
        "glue",
        "units",
        "13 in",
        "in",
        "yard",
        "names",
        "-3",
    ]
)
DATA = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=8,
)


@given(data=st.dictionaries(WORDS, DATA, max_size=4))
def test_whatever_is_written_gives_a_shop_or_its_faults(data: dict[str, object]) -> None:
    """Nonsense in the right words never gives anything but faults, each with a line and a rule."""
    faults: tuple[Fault, ...] = ()
    shop = None
    try:
        shop = parse_shop(json.dumps(data))
    except FileFaults as error:
        faults = error.faults
    assert (shop is None) is bool(faults)
    assert all(fault.rule and fault.line >= 1 for fault in faults)
    assert shop is None or shop.kerf_mm > 0


@pytest.mark.parametrize(
    ("written", "field", "rule"),
    [
        ("climate: {temperature: 200}", "climate.temperature", "must be at most 45 C"),
        ("climate: {humidity: 120 %}", "climate.humidity", "must be at most 95 %"),
        ("climate: {humidity: 0.45}", "climate.humidity", "must be at least 15 %"),
        ("people: {max_lift: -5 kg}", "people.max_lift", "must be more than 0 kg"),
        ("people: {hours_per_week: 400}", "people.hours_per_week", "must be at most 168"),
        ("rates: {hardware: {butt hinge: -3}}", "rates.hardware.butt hinge", "must be at least 0"),
        (
            "clamps: [{name: c, reach: 600, count: 2, force: -4 kN}]",
            "clamps[1].force",
            "must be more than 0 N",
        ),
    ],
)
def test_a_figure_out_of_its_range_is_told_by_its_own_name(written: str, field: str, rule: str) -> None:
    """At its line, as it is written in the file, before anything is computed with it."""
    with pytest.raises(FileFaults) as caught:
        parse_shop(written)
    told = {fault.field: fault for fault in caught.value.faults}
    assert told[field].rule == rule
    assert told[field].line == 1


def test_a_shop_of_many_faults_tells_names_and_sizes_together() -> None:
    """An unknown glue does not wait until the planer's width is mended."""
    text = (
        "glue: PAV\n"
        "machines: {planer: {max_width: -3}}\n"
        "yard: {names: [4/4, 9/7]}\n"
        "rates: {timber: {red oka: {per_m3: 3}}}\n"
        "glue: white PVA\n"
    )
    with pytest.raises(FileFaults) as caught:
        parse_shop(text)
    assert [(fault.code, fault.line) for fault in caught.value.faults] == [
        ("unknown_glue", 1),
        ("out_of_range", 2),
        ("unknown_thickness", 3),
        ("unknown_species", 4),
        ("duplicate_key", 5),
    ]


def test_a_price_of_what_no_list_names_is_refused() -> None:
    """It would be left aside, and the hinges would be priced from memory."""
    with pytest.raises(FileFaults) as caught:
        parse_shop("rates: {hardware: {butt hinges: 6}}")
    [fault] = caught.value.faults
    assert (fault.code, fault.field) == ("unknown_hardware", "rates.hardware")
    assert "butt hinge" in fault.remedy
