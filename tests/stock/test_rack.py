"""Rack files: both kinds say the same, and every fault of a file comes at once with its line."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults
from scantling.reading.limits import MAX_FAULTS
from scantling.stock import Defect, DefectKind, Face, Price, PriceBasis, parse_rack, read_rack
from scantling.stock.racks.notes_file import parse_notes

RACKS = Path(__file__).parents[2] / "examples" / "racks"

CSV = """# a note
name,species,thickness,width (in),length (ft),price,price_per,defects (mm)
A,Cherry,5/4,7 1/2,8,11.5,board foot,"knot at 620 x 40, 90 x 50 on face; check at 0 x 60, 150 x 30"
"""
YAML = """
unit: in
boards:
  - name: A
    species: Cherry
    thickness: 5/4
    width: 7 1/2
    length: 8 ft
    price: 11.5
    price_per: board foot
    defects:
      - knot at 620 mm x 40 mm, 90 mm x 50 mm on face
      - check at 0 x 60 mm, 150 mm x 30 mm
"""


def faults_of(text: str, file: str) -> list[tuple[str, str, int]]:
    """Code, field and line of every fault."""
    with pytest.raises(FileFaults) as caught:
        parse_rack(text, file=file)
    return [(fault.code, fault.field, fault.line) for fault in caught.value.faults]


def test_csv_and_yaml_say_the_same() -> None:
    """A board written in a table and in a list is the same board."""
    board = parse_rack(CSV, file="rack.csv").boards[0]
    assert board == parse_rack(YAML, file="rack.yaml").boards[0]
    assert (board.species, board.quarters, board.width_mm, board.length_mm) == (
        "black cherry",
        5.0,
        190.5,
        2438.4,
    )
    assert board.price == Price(amount=11.5, basis=PriceBasis.BOARD_FOOT)
    knot = Defect(kind=DefectKind.KNOT, x_mm=620, y_mm=40, length_mm=90, width_mm=50, face=Face.FACE)
    assert board.defects[0] == knot


@pytest.mark.parametrize(
    ("said", "face"),
    [("", Face.THROUGH), (" through", Face.THROUGH), (" on back", Face.BACK), (" face", Face.FACE)],
)
def test_the_face_of_a_defect_may_be_said_with_or_without_on(said: str, face: Face) -> None:
    """Left out, a defect goes through."""
    text = CSV.replace("90 x 50 on face", f"90 x 50{said}")
    assert parse_rack(text, file="rack.csv").boards[0].defects[0].face is face


def test_all_faults_of_a_table_come_at_once() -> None:
    """Zero width, a defect off the board, a double name, a wrong word, an unknown column: all told."""
    text = (
        "name,species,thickness,width,length,price_per,price,defects,colour\n"
        'A,red oak,4/4,0,2000,,,"knot at 10 x 10, 5 x 5",\n'
        'A,red oak,4/4,150,2000,bushel,3,"knot at 1990 x 10, 50 x 20",\n'
        "B,,9,150,-2000,,,,\n"
    )
    assert faults_of(text, "rack.csv") == [
        ("unknown_field", "boards.colour", 1),
        ("not_positive", "boards.A.width", 2),
        ("defect_outside_board", "boards.A.defects", 3),
        ("name_twice", "boards.A.name", 3),
        ("unknown_word", "boards.A.price_per", 3),
        ("not_positive", "boards.B.length", 4),
        ("missing", "boards.B.species", 4),
    ]


@pytest.mark.parametrize(
    ("text", "file", "code"),
    [
        ("", "rack.csv", "file_empty"),
        ("unit: furlong\nboards: []\n", "rack.yaml", "unknown_unit"),
        ("name,species\n", "rack.csv", "empty_rack"),
        ("boards: []\n", "rack.yaml", "empty_rack"),
        ("boards: 3\n", "rack.yaml", "no_boards"),
        ("boards: [\n", "rack.yaml", "yaml_form"),
        ("a: &a [x]\nb: [*a, *a]\n", "rack.yaml", "alias_not_allowed"),
    ],
)
def test_files_that_hold_no_rack(text: str, file: str, code: str) -> None:
    """Empty, misshapen and self-multiplying files are refused by name."""
    assert {fault[0] for fault in faults_of(text, file)} == {code}


def test_missing_binary_and_oversized_files(tmp_path: Path) -> None:
    """A file that cannot be a rack is a fault, not a traceback."""
    binary, large = tmp_path / "b.csv", tmp_path / "l.csv"
    binary.write_bytes(b"\xff\xfe\x00rubbish")
    large.write_bytes(b"x" * 2_000_001)
    for path, code in (
        (tmp_path / "none.csv", "file_missing"),
        (binary, "not_text"),
        (large, "file_too_big"),
    ):
        with pytest.raises(FileFaults) as caught:
            read_rack(path)
        assert caught.value.faults[0].code == code


@given(st.text(max_size=300), st.sampled_from(("rack.csv", "rack.yaml")))
def test_any_text_is_read_or_refused(text: str, file: str) -> None:
    """Whatever stands in a file, reading it gives a rack or faults."""
    found: tuple[object, ...]
    try:
        found = parse_rack(text, file=file).boards
    except FileFaults as error:
        found = error.faults
    assert found


@pytest.mark.parametrize(
    ("name", "boards", "board_feet"),
    [
        ("reading-table.csv", 6, 34.02),
        ("hall-bench.yaml", 3, 26.76),
        ("trestle-desk.csv", 8, 52.99),
        ("tall-bookcase.csv", 7, 34.50),
    ],
)
def test_example_racks_are_read(name: str, boards: int, board_feet: float) -> None:
    """The racks of the examples hold what their pieces' stock lists say."""
    rack = read_rack(RACKS / name)
    assert len(rack.boards) == boards
    assert round(sum(b.board_feet for b in rack.boards), 2) == board_feet


def test_an_unknown_wood_is_told_at_its_line() -> None:
    """A wood no table has is refused where it stands, with the names it may be meant for."""
    with pytest.raises(FileFaults) as caught:
        parse_rack("name,species,thickness,width,length\nA,oak,4/4,150,2000\n", file="rack.csv")
    fault = caught.value.faults[0]
    assert (fault.code, fault.line, fault.column) == ("unknown_species", 2, 3)
    assert "white oak" in fault.remedy


def test_photo_and_tallied_feet_are_read() -> None:
    """A board may name its photo, and be priced by the yard's tally."""
    head = "name,species,thickness,width (in),length (ft),price,price_per,photo\n"
    board = parse_rack(head + "A,cherry,8/4,6 1/4,8,9,tallied board foot,a.jpg\n", file="r.csv").boards[0]
    assert (board.photo, board.price_total) == ("a.jpg", 72.0)


def test_a_rack_of_many_faults_tells_them_all() -> None:
    """Names, woods, sizes and fields nobody knows: `units` would else leave every inch a millimeter."""
    text = (
        "units: in\n"
        "boards:\n"
        "  - {name: A, species: red oka, thickness: 8/4, length: -1, width: 190, left_trim: 2000}\n"
        "  - {name: A, species: red oak, thickness: 1 kg, length: 900, with: 190}\n"
        "  - {name: B, name: C, species: red oak, thickness: 4/4, length: 1000, width: 190}\n"
    )
    assert faults_of(text, "rack.yaml") == [
        ("unknown_field", "units", 1),
        ("not_positive", "boards.A.length", 3),
        ("unknown_species", "boards.A.species", 3),
        ("name_twice", "boards.A.name", 4),
        ("not_a_length", "boards.A.thickness", 4),
        ("missing", "boards.A.width", 4),
        ("unknown_field", "boards.with", 4),
        ("duplicate_key", "boards[3].name", 5),
    ]


def test_no_more_faults_are_told_than_anybody_reads() -> None:
    """Of one board with a thousand marks that are none, and of notes with as many places."""
    marks = "; ".join(["knot at 1 x 1"] * 1000)
    table = f"name,species,thickness,length,width,defects\nA,cherry,8/4,900,190,{marks}\n"
    assert faults_of(table, "rack.csv") == [("not_a_defect", "boards.A.defects", 2)] * MAX_FAULTS
    notes = "pin:\n" + "".join(f"  part_{n}: Z{n}\n" for n in range(100))
    with pytest.raises(FileFaults) as caught:
        parse_notes(notes, file="rack.bench.yaml", boards=())
    assert len(caught.value.faults) == MAX_FAULTS


def test_marks_and_places_without_end_are_none() -> None:
    """Longer than a maker writes: they are not even looked at, as that would take ever longer."""
    long = "knot at 620 x 40, 90 x 50" + " " * 300 + "on face"
    table = f'name,species,thickness,length,width,defects\nA,cherry,8/4,900,190,"{long}"\n'
    assert faults_of(table, "rack.csv") == [("not_a_defect", "boards.A.defects", 2)]
    boards = parse_rack("name,species,thickness,length,width\nA,cherry,8/4,900,190\n", file="r.csv").boards
    sizes = "1 x " * 200
    for block, code in (
        (f"pin: {{a: 'A at {sizes}'}}", "not_a_place"),
        (f"left: {{A: '{sizes}'}}", "not_a_size"),
    ):
        with pytest.raises(FileFaults) as caught:
            parse_notes(block, file="rack.bench.yaml", boards=boards)
        assert code in {fault.code for fault in caught.value.faults}


@pytest.mark.parametrize("written", ["4 quarter", "five quarters", "thick"])
def test_a_thickness_in_words_is_told_how_quarters_are_written(written: str) -> None:
    """What is neither quarters nor a length shows both."""
    with pytest.raises(FileFaults) as caught:
        parse_rack(CSV.replace("5/4", written), file="rack.csv")
    [fault] = caught.value.faults
    assert (fault.code, fault.value) == ("not_a_length", written)
    assert "5/4" in fault.remedy


def test_a_comma_in_defects_without_quotes_is_told_as_a_cell_too_many() -> None:
    """The row has one cell more than the header, and the comma is why."""
    with pytest.raises(FileFaults) as caught:
        parse_rack(CSV.replace('"', ""), file="rack.csv")
    fault = next(each for each in caught.value.faults if each.code == "cells_beyond_header")
    assert "this row has 10" in fault.rule
    assert "comma" in fault.remedy
    assert "quotes" in fault.remedy
