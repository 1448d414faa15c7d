"""What cannot be cut, and what is written wrongly: each is named at the command line before the search."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from scantling.cli.main import main
from tests.cli.test_bench_story import PIECE

HEAD = "name,species,thickness,length,width,left_trim,right_trim,price,defects\n"
SHOP = (
    "name: Shed\nunits: mm\nmachines: {table_saw: {}, jointer: {}, planer: {}}\nyard: {names: [4/4, 5/4]}\n"
)
GOOD = "A,white oak,4/4,2300,120,,,20,\nB,white oak,4/4,2300,120,,,20,\n"
MATCH = "matching:\n  rails: {wish: %s, parts: [rail_1, rail_2, rail_3, rail_4, rail_5, rail_6]}\n"


def files(folder: Path, rack: str, piece: str = PIECE) -> list[str]:
    """The six rails of the bench story, a shop and a rack."""
    for name, text in (("rails.yaml", piece), ("shop.yaml", SHOP), ("rack.csv", HEAD + rack)):
        (folder / name).write_text(text, encoding="utf-8")
    return [
        str(folder / "rails.yaml"),
        "--shop",
        str(folder / "shop.yaml"),
        "--rack",
        str(folder / "rack.csv"),
    ]


@pytest.mark.parametrize(
    ("rack", "line", "said"),
    [
        ("A,white oak,4/4,2300,0,,,20,\n", 2, "width: must be above 0 mm, got 0"),
        ("A,white oak,4/4,0,120,,,20,\n", 2, "length: must be above 0 mm, got 0"),
        (GOOD.replace("B,", "A,"), 3, "name: must be unique; line 2 has it too"),
        (
            'A,white oak,4/4,2300,120,,,20,"knot at 2290 x 40, 30 x 20"\n',
            2,
            "must lie on the board, 2300 × 120",
        ),
        (
            'A,white oak,4/4,2300,120,,,20,"knot at 90 x 110, 30 x 20"\n',
            2,
            "must lie on the board, 2300 × 120",
        ),
        ("A,white oak,4/4,2300,120,1200,1100,20,\n", 2, "end trims must leave some of the 2300 mm"),
        ("A,white oat,4/4,2300,120,,,20,\n", 2, "must name a wood"),
        ("A,white oak,4,2300,120,,,-5,\n", 2, "price: must be a number from 0"),
        ("", 1, "must hold at least one board"),
    ],
)
def test_a_board_written_wrongly_is_refused_with_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], rack: str, line: int, said: str
) -> None:
    """Line, field, value, rule and remedy; status 2 and no plan."""
    assert main(["plan", *files(tmp_path, rack)]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert f"rack.csv:{line}" in told or not rack
    assert "Traceback" not in told


@pytest.mark.parametrize(
    ("rack", "code", "way_out"),
    [
        ("A,white oak,4/4,600,120,,,20,\n", "T01", "at least 730 mm long, 105 mm wide and 25.4 mm thick"),
        ("A,white oak,4/4,600,120,20,20,20,\n", "T01", "at least 770 mm long, 105 mm wide and 25.4 mm thick"),
        ("A,black cherry,4/4,2300,120,,,20,\n", "T03", "Bring a white oak board at least 730 mm long"),
        (
            "A,white oak,4/4,2300,120,,,20,\n",
            "T05",
            "Add a white oak board at least 730 mm long, 105 mm wide",
        ),
    ],
)
def test_what_no_board_can_give_is_named_with_the_smallest_that_would_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], rack: str, code: str, way_out: str
) -> None:
    """Rails of 730 x 96.3 mm rough: too long, of another wood, or more of them than there is board."""
    assert main(["check", *files(tmp_path, rack), "--json"]) == 1
    told = {f["code"]: f for f in json.loads(capsys.readouterr().out) if f["code"].startswith("T")}
    assert list(told) == [code]
    assert way_out in told[code]["advice"]


@pytest.mark.parametrize(
    ("wish", "code", "way_out"),
    [
        ("same board", "T06", "one board of 2300 mm that is no narrower than 192 mm"),
        ("alike", "T06", "one board of 2300 mm that is no narrower than 192 mm"),
        ("same flitch", "T06", "Split the wish, give it a worth"),
        ("grain runs through", "T01", "at least 4396 mm long"),
        ("side by side", "T02", "602 mm wide"),
        ("book-matched", "T08", "Have it resawn elsewhere"),
        ("resawn", "T08", "or let them come from two boards"),
    ],
)
def test_a_match_no_board_can_grant_is_the_one_thing_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], wish: str, code: str, way_out: str
) -> None:
    """Six rails, 0.422 m2 in all, must belong together: what never can be is told once, not part by part."""
    rack = GOOD + GOOD.replace("A,", "C,").replace("B,", "D,")
    assert main(["check", *files(tmp_path, rack, PIECE + MATCH % wish), "--json"]) == 1
    told = [f for f in json.loads(capsys.readouterr().out) if f["code"].startswith("T")]
    assert told[0]["code"] == code
    assert way_out in told[0]["advice"]
    assert {f["code"] for f in told} <= {code, "T09"}


def test_a_wish_for_parts_there_are_none_of_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A word for the wish that nobody knows, and a part that is not there, each with the nearest name."""
    piece = PIECE + "matching:\n  rails: {wish: same bord, parts: [rail_1, rial_2]}\n"
    assert main(["check", *files(tmp_path, GOOD, piece)]) == 2
    assert "Did you mean same board?" in capsys.readouterr().err
    piece = PIECE + "matching:\n  rails: {wish: same board, parts: [rail_1, rial_2]}\n"
    assert main(["check", *files(tmp_path, GOOD, piece)]) == 2
    assert "rail_2" in capsys.readouterr().err


def test_a_piece_given_as_a_rack_is_told_as_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One fault with the way out, not one for each field of the piece."""
    (tmp_path / "rails.yaml").write_text(PIECE, encoding="utf-8")
    assert main(["rack", str(tmp_path / "rails.yaml")]) != 0
    err = capsys.readouterr().err
    assert "This is a piece" in err
    assert "1 fault" in err
