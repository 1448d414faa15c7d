"""Every way a piece file can be wrong is told with code, line, value, rule and a way out; all at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.errors import FileFaults
from scantling.joinery import load_piece
from tests.piece.files import SMALL, changed, fault_of, faults_of, line_of

ONE_FAULT: dict[str, tuple[tuple[str, str], str, str, str]] = {
    "wrong unit": (("thick: 24 mm", "thick: 24 parsec"), "expression_form", "24 parsec", "parsec"),
    "unit of another kind": (
        ("length: 400", "length: 12 deg"),
        "wrong_dimension",
        "length: 12 deg",
        "12 deg",
    ),
    "unknown species": (
        ("species: red oak", "species: red oka"),
        "unknown_species",
        "species: red oka",
        "red oka",
    ),
    "unknown name": (
        ("section: [300, thick]", "section: [300, thik]"),
        "unknown_name",
        "[300, thik]",
        "thik",
    ),
    "negative length": (("length: 400", "length: -400"), "out_of_range", "length: -400", "-400"),
    "length from an expression": (
        ("length: 400", "length: thick - 30 mm"),
        "out_of_range",
        "thick - 30 mm",
        "thick - 30 mm",
    ),
    "section of nothing": (("[45, 45]", "[0, 45]"), "section_not_positive", "[0, 45]", "width 0.00 mm"),
    "nothing left between trims": (
        ("center: [0, 0, rise + thick / 2]", "center: [0, 0, 0]"),
        "no_length_left",
        "{start: floor, end: seat.bottom}",
        "a length of -12.0 mm",
    ),
    "unknown joint": (
        ("kind: loose_tenon", "kind: loose_tenn"),
        "unknown_choice",
        "loose_tenn",
        "loose_tenn",
    ),
    "unknown option": (
        ("    width: 30", "    breadth: 30\n    width: 30"),
        "unknown_field",
        "breadth",
        "30",
    ),
    "missing pair": (
        ("    between:\n      - [post.end, seat]\n      - [post_right.end, seat]\n", ""),
        "field_missing",
        "post_to_seat:",
        "nothing",
    ),
    "unknown part in a joint": (
        ("[post.end, seat]", "[post.end, seet]"),
        "unknown_part",
        "[post.end, seet]",
        "seet",
    ),
    "unknown end": (("[post.end, seat]", "[post.ende, seat]"), "unknown_face", "post.ende", "post.ende"),
    "joined to itself": (("[post.end, seat]", "[seat.top, seat]"), "joined_to_itself", "seat.top", "seat"),
    "rows differ": (("[post.end, seat]", "[post_*, seat]"), "unknown_part", "post_*", "post_*"),
    "name of a copy taken": (("post_right: {", "seat: {"), "name_taken", "seat: {", "seat"),
    "no such face": (("end: seat.bottom", "end: seat.botom"), "unknown_face", "trim:", "seat.botom"),
    "trim on the wrong side": (("end: seat.bottom", "end: seat.top"), "trim_wrong_side", "trim:", "seat.top"),
    "trim along the part": (("end: seat.bottom", "end: seat.left"), "trim_along_part", "trim:", "seat.left"),
    "grain along width": (
        ("width_toward: right", "width_toward: top"),
        "width_along_grain",
        "width_toward: top",
        "top",
    ),
    "placed twice": (
        ("    from: [-150, 0, 0]", "    length: 3\n    from: [-150, 0, 0]"),
        "axis_twice",
        "post:",
        "both",
    ),
    "not placed": (
        ("    from: [-150, 0, 0]\n    to: [-150, 0, rise]\n", ""),
        "no_axis",
        "post:",
        "no complete",
    ),
    "no axis": (("from: [-150, 0, 0]", "from: [-150, 0, rise]"), "axis_too_short", "post:", "0.000 mm"),
    "strips on a stick": (
        ("    section: [45, 45]", "    strips: {}\n    section: [45, 45]"),
        "rule_of_other_kind",
        "strips:",
        "strips",
    ),
    "taper that thickens": (
        (
            "    section: [45, 45]",
            "    taper: {toward: start, begin: 0, to: 50, faces: [left]}\n    section: [45, 45]",
        ),
        "taper_not_possible",
        "taper:",
        "from 45.0 to 50.0 mm",
    ),
    "round over its blank": (
        ("[45, 45]", "[45, 45]\n    round: [30, 46]"),
        "round_over_section",
        "round:",
        "46.0 mm",
    ),
    "round of nothing": (
        ("[45, 45]", "[45, 45]\n    round: [0, 30]"),
        "round_not_positive",
        "round:",
        "0.00 mm",
    ),
    "repeat of none": (
        ("    copies:\n      post_right: {mirror: [left-right]}", "    repeat: {count: 0, step: [0, 0, 1]}"),
        "out_of_range",
        "repeat:",
        "0",
    ),
    "repeat of a thousand": (
        (
            "    copies:\n      post_right: {mirror: [left-right]}",
            "    repeat: {count: 1000, step: [0, 0, 1]}",
        ),
        "out_of_range",
        "repeat:",
        "1000",
    ),
    "half a thing": (
        (
            "    copies:\n      post_right: {mirror: [left-right]}",
            "    repeat: {count: 5 / 2, step: [0, 0, 1]}",
        ),
        "not_whole",
        "repeat:",
        "2.5",
    ),
    "copied and repeated": (
        ("    copies:", "    repeat: {count: 2, step: [0, 0, 1]}\n    copies:"),
        "copies_and_repeat",
        "repeat:",
        "1 copy and a row",
    ),
    "default out of range": (
        ("default: 420 mm", "default: 520 mm"),
        "out_of_range",
        "default: 520",
        "520 mm",
    ),
    "duplicate name": (("  post:\n", "  seat:\n"), "duplicate_key", "  seat:\n    kind: stick", "it again"),
    "name in capitals": (("  post:\n", "  Post:\n"), "wrong_form", "  Post:", "Post"),
    "carried by a wrong name": (
        ("joints:", "brief: {carried: {all: [seat, pots]}}\njoints:"),
        "unknown_part",
        "pots",
        "pots",
    ),
    "matched by a wrong name": (
        ("joints:", "matching:\n  pair: {wish: same board, parts: [seat, pots]}\njoints:"),
        "unknown_part",
        "pots",
        "pots",
    ),
    "matched with itself": (
        ("joints:", "matching:\n  pair: {wish: same board, parts: [post, post]}\njoints:"),
        "part_twice",
        "pair:",
        "post",
    ),
    "book-matched with nothing like it": (
        ("joints:", "matching:\n  pair: {wish: book-matched, parts: [post, seat]}\njoints:"),
        "no_pairs",
        "pair:",
        "seat",
    ),
    "grain through a glued-up panel": (
        ("joints:", "matching:\n  pair: {wish: grain runs through, parts: [post, seat]}\njoints:"),
        "not_one_blank",
        "pair:",
        "seat",
    ),
    "matched for nothing": (
        ("joints:", "matching:\n  pair: {wish: alike, parts: [post], worth: 0}\njoints:"),
        "not_a_worth",
        "pair:",
        "0",
    ),
    "code in an expression": (
        ("length: 400", "length: __import__('os')"),
        "unknown_sign",
        "__import__",
        "os",
    ),
}


@pytest.mark.parametrize("case", ONE_FAULT)
def test_one_thing_wrong_gives_one_fault_that_says_it_all(case: str) -> None:
    """Code, line, value as found, the rule, and what to do."""
    change, code, where, value = ONE_FAULT[case]
    text = changed(change)
    faults = faults_of(text)
    told = [fault for fault in faults if fault.code == code]
    assert told, [str(f) for f in faults]
    assert told[0].line == line_of(text, where), str(told[0])
    assert value in told[0].value
    assert told[0].rule.startswith(("must", "belongs", "is not a known"))
    assert told[0].file == "piece.yaml"


@pytest.mark.parametrize(("section", "number"), [("[0.2, 45]", 1), ("[45, 0.2]", 2)])
def test_a_section_names_the_size_that_is_wrong(section: str, number: int) -> None:
    """By its place in the list, and points at it."""
    fault = fault_of(changed(("[45, 45]", section)))
    assert (fault.code, fault.field) == ("section_not_positive", f"parts.post.section[{number}]")
    assert fault.column == len(f"    section: {section[: section.index('0.2')]}") + 1


def test_a_section_of_two_wrong_sizes_tells_both() -> None:
    """One fault at the section, with the two figures."""
    fault = fault_of(changed(("[45, 45]", "[0.2, -3]")))
    assert (fault.code, fault.field) == ("section_not_positive", "parts.post.section")
    assert fault.value == "width 0.20 mm and thickness -3.00 mm"


@pytest.mark.parametrize(
    ("old", "new", "remedy"),
    [
        ("species: red oak", "species: red oka", "red oak"),
        ("section: [300, thick]", "section: [300, thik]", "thick"),
        ("[post.end, seat]", "[post.end, seet]", "seat"),
        ("kind: loose_tenon", "kind: loose_tenn", "loose_tenon"),
        ("end: seat.bottom", "end: saet.bottom", "seat"),
    ],
)
def test_a_name_that_is_nearly_right_is_offered(old: str, new: str, remedy: str) -> None:
    """A slip of the fingers is answered with the name that was meant."""
    assert any(remedy in fault.remedy for fault in faults_of(changed((old, new))))


def test_all_faults_are_told_at_once_in_the_order_of_the_file() -> None:
    """A value, two parts and a joint wrong: four faults from one reading."""
    text = changed(
        ("rise: height - thick", "rise: hight - thick"),
        ("species: red oak", "species: red oka"),
        ("section: [45, 45]", "section: [45, depth]"),
        ("[post.end, seat]", "[pots.end, seat]"),
    )
    faults = faults_of(text)
    assert [f.line for f in faults] == sorted(f.line for f in faults)
    assert {"unknown_name", "unknown_species", "unknown_part"} <= {f.code for f in faults}
    assert "depends_on_fault" not in {f.code for f in faults}


def test_values_that_ask_for_each_other_are_told_as_the_chain() -> None:
    """One fault, whichever way round it is read."""
    fault = fault_of(changed(("thick: 24 mm", "thick: height - rise")))
    assert (fault.code, fault.value) == ("cycle", "thick -> rise -> thick")
    assert (fault.line, fault.rule) == (line_of(SMALL, "thick: 24"), "must not depend on itself")


def test_a_cycle_through_a_parts_length_is_one_fault() -> None:
    """A value that asks for a length which is trimmed by what the value places."""
    fault = fault_of(changed(("thick: 24 mm", "thick: post.length / 20")))
    assert (fault.code, fault.value) == ("cycle", "thick -> post.length -> rise -> thick")


def test_a_cycle_through_the_reading_table_is_one_fault() -> None:
    """The panel's length from a leg's, the leg trimmed by the panel."""
    text = (Path(__file__).parents[2] / "examples" / "reading_table.yaml").read_text(encoding="utf-8")
    fault = fault_of(text.replace("field: length - 2 * end_width", "field: leg_fl.length - 1"))
    assert (fault.code, fault.value) == ("cycle", "field -> leg_fl.length -> field")


def test_parts_trimmed_by_each_other_are_a_cycle() -> None:
    """The seat stands on the post's top, the post ends at the seat."""
    placed = (
        "    center: [0, 0, rise + thick / 2]\n    along: right\n    length: 400\n",
        "    from: [-200, 0, 400]\n    to: [200, 0, 400]\n    trim: {start: post.left}\n",
    )
    fault = fault_of(changed(placed))
    assert (fault.code, fault.value) == ("cycle", "seat -> post -> seat")


def test_a_part_that_cannot_be_placed_is_told_once() -> None:
    """Not again at the value that asks for its length, nor at the part that is trimmed by it."""
    text = changed(
        (
            "    section: [300, thick]",
            "    taper: {toward: end, begin: 0, to: 500, faces: [back]}\n    section: [300, thick]",
        ),
        ("rise: height - thick", "rise: height - thick\n  reach: seat.length + post.length"),
        ("    length: 400\n", "    length: 400\n    trim: {}\n"),
    )
    fault = fault_of(text)
    assert (fault.code, fault.field) == ("taper_not_possible", "parts.seat.taper")
    assert fault.line == line_of(text, "taper:")


def test_a_part_may_ask_for_another_parts_sizes() -> None:
    """Length, width and thickness of a part and of its copy, where nothing goes round in a circle."""
    piece_text = changed(
        ("section: [45, 45]", "section: [seat.thickness * 2, seat.width / 10]"),
        ("rise: height - thick", "rise: height - thick\n  reach: post_right.length + seat.length"),
    )
    from scantling.joinery import load_piece_text

    post = load_piece_text(piece_text).parts["post"]
    assert (post.width_mm, post.thickness_mm) == (48.0, 30.0)


def test_a_row_is_offered_where_its_base_is_named() -> None:
    """A repeated part has no part of its own name; the row's is ``post_*``."""
    text = changed(
        ("    copies:\n      post_right: {mirror: [left-right]}", "    repeat: {count: 2, step: [300, 0, 0]}")
    )
    faults = faults_of(text)
    assert any(f.code == "unknown_part" and "post_*" in f.remedy for f in faults)


def test_a_row_may_not_take_another_parts_name() -> None:
    """``post`` in a row makes post_1, which is there already."""
    text = changed(
        (
            "    copies:\n      post_right: {mirror: [left-right]}",
            "    repeat: {count: 2, step: [300, 0, 0]}",
        ),
        ("  seat:\n", "  post_1:\n"),
        ("end: seat.bottom", "end: post_1.bottom"),
    )
    assert any(
        (f.code, f.field, f.value) == ("name_taken", "parts.post.repeat", "post_1") for f in faults_of(text)
    )


@pytest.mark.parametrize(
    ("written", "rule"),
    [
        ("seats: -1", "must be at least 0"),
        ("seats: 2000", "must be at most 100"),
        ("load: -5 kg", "must be at least 0 kg"),
        ("load: 50 t", "must be"),
        ("load: 9000 kg", "must be at most 5000 kg"),
        ("door_width: 30", "must lie in 200 mm .. 50 m"),
        ("chair_arms: 66", "must lie in 300 mm .. 1.5 m"),
        ("door_height: -2 m", "must lie in 200 mm .. 50 m"),
        ("ceiling: height - 420 mm", "must lie in 200 mm .. 50 m"),
        ("corridor: [900, 0]", "must lie in 200 mm .. 50 m"),
        ("holds_people: maybe", "must be true or false"),
        ("stands: ceiling", "must be one of floor, wall"),
    ],
)
def test_every_field_of_the_brief_is_held_to_its_range(written: str, rule: str) -> None:
    """Told where it stands, as it is written, and not later by the computation that uses it."""
    text = changed(("joints:", f"brief:\n  {written}\njoints:"))
    fault = fault_of(text)
    assert fault.field.startswith(f"brief.{written.partition(':')[0]}")
    assert fault.line == line_of(text, written)
    assert fault.rule.startswith(rule)
    assert fault.value.split(" = ")[0].strip("'") in written


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"height": "2 m"}, "out_of_range"),
        ({"height": "tall"}, "unknown_name"),
        ({"height": "12 deg"}, "wrong_dimension"),
        ({"hight": "400 mm"}, "unknown_parameter"),
    ],
)
def test_a_wrong_value_given_beside_the_file_is_told_by_its_name(given: dict[str, str], code: str) -> None:
    """What is asked for on the command line or the page is told as what it was."""
    fault = fault_of(SMALL, **given)
    [(name, value)] = given.items()
    assert (fault.code, fault.field, fault.value, fault.line) == (code, name, value, 0)


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"a" * 50_000_000, "file_too_big"),
        (b"\x7fELF\x02\x01\x01\x00\x00", "not_text"),
        (bytes(range(256)) * 20, "not_text"),
        (b"", "file_empty"),
        (b"# nothing\n", "file_empty"),
        (b"a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n", "alias_not_allowed"),
        (b"scantling: !!python/object/apply:os.system [ls]\n", "tag_not_allowed"),
        (b"[" * 100 + b"]" * 100, "too_deep"),
        (b"just a text\n", "wrong_type"),
        (b"scantling: 2\n", "unknown_choice"),
    ],
    ids=["50 MB", "program", "bytes", "empty", "comment", "bomb", "tag", "deep", "text", "version"],
)
def test_a_file_that_is_no_piece_is_refused_at_once(tmp_path: Path, content: bytes, code: str) -> None:
    """Whatever the file is, faults come out and it is left as it was."""
    path = tmp_path / "piece.yaml"
    path.write_bytes(content)
    with pytest.raises(FileFaults) as caught:
        load_piece(path)
    assert code in {fault.code for fault in caught.value.faults}
    assert path.stat().st_size == len(content)
