"""The boards over the routes: parts put and refused, marks kept and undone, a search and its best kept."""

from __future__ import annotations

import json
import re
import shutil
import threading
import time
from collections.abc import Iterator
from multiprocessing import active_children
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from scantling.plan.planner import Planner
from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.designs.designing import PieceDesigner
from scantling.web.designs.session import Session
from scantling.web.designs.sources import FileSources
from scantling.web.kept.desk import Desk
from scantling.web.kept.notes_keeping import FileNotes
from tests.plan.jobs import EXAMPLES
from tests.store.clock import Clock

RACK = EXAMPLES / "racks" / "reading-table.csv"
SHOP = EXAMPLES / "shops" / "reading-table.yaml"
PIECE = EXAMPLES / "reading_table.yaml"
PLANNER = Planner()
"""Plans the pieces that are files."""
SMALL = {"x": "1", "y": "1", "length": "10", "width": "10"}


class Asker:
    """Asks for the boards of one piece, and marks them."""

    def __init__(self, client: TestClient, address: str) -> None:
        self.client, self.address = client, address
        self.notes: dict[str, Any] = {}

    def look(self, units: str = "") -> dict[str, Any]:
        """The boards as they are."""
        answer = self.client.get(f"{self.address}{units}")
        assert answer.status_code == 200, answer.text
        told: dict[str, Any] = answer.json()
        self.notes = told["notes"]
        return told

    def mark(self, act: str, status: int = 200, **told: object) -> dict[str, Any]:
        """One mark."""
        body = {"act": act, "parent": self.notes["parent"], **told}
        answer = self.client.post(self.address, json=body)
        assert answer.status_code == status, answer.text
        said: dict[str, Any] = answer.json()
        if status == 200:
            self.notes = said
        return said

    def board(self, name: str) -> dict[str, Any]:
        """One board as it is."""
        return next(b for b in self.look()["boards"] if b["name"] == name)


def _file(path: Path) -> dict[str, str]:
    return {"name": path.name, "text": path.read_text(encoding="utf-8")}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A server with records, which plans what was planned before from what it has at hand."""
    place = Place(file=tmp_path_factory.mktemp("boards") / "records.db")
    app = create_app(None, Desk(lambda: open_records(place), now=Clock()))
    with TestClient(app, base_url="http://127.0.0.1") as client:
        yield client


@pytest.fixture
def kept(client: TestClient) -> Asker:
    """The reading table, kept with its rack; a piece of its own for each test."""
    content = {"piece": PIECE.read_text(encoding="utf-8"), "shop": _file(SHOP), "rack": _file(RACK)}
    made = client.post("/api/pieces", json={"content": content}).json()
    asker = Asker(client, f"/pieces/{made['piece']['number']}/api/boards")
    asker.look()
    return asker


@pytest.fixture
def beside(tmp_path: Path) -> Iterator[Asker]:
    """The reading table served from files of its own."""
    rack = tmp_path / "cherry.csv"
    shutil.copy(RACK, rack)
    sources = FileSources(PIECE, rack=rack, shop=SHOP, room=None)
    session = Session(PIECE, designer=PieceDesigner(sources, planner=PLANNER))
    app = create_app(session, notes=FileNotes(PIECE, sources, planner=PLANNER))
    with TestClient(app, base_url="http://127.0.0.1") as client:
        asker = Asker(client, "/api/boards")
        asker.look()
        yield asker


def _names(board: dict[str, Any]) -> list[str]:
    return [part["name"] for part in board["parts"]]


def test_a_part_dropped_on_a_board_is_drawn_to_its_edge_and_held_there(kept: Asker) -> None:
    """Dropped 2 mm over the straightened edge it lies on it; the plan's boards and the packet's show it."""
    seen = kept.board("C4")
    left, top, _, high = seen["box"]
    put = {"part": "apron_left", "drawing": "C4", "corner": [left + 57, top + high - 0.8]}
    judged = kept.client.post(f"{kept.address}/judge", json=put).json()
    assert (judged["fits"], judged["board"], judged["atMm"], judged["upMm"]) == (True, "C4", 1026, None)
    assert judged["words"].replace("\xa0", " ") == "on C4 at 1026 mm, on the lower edge."
    kept.mark("hold", part="apron_left", board="C4", atMm=judged["atMm"])
    assert kept.notes["text"] == "pin:\n  apron_left: C4 at 1026 mm\n"
    (part,) = kept.board("C4")["parts"]
    assert (part["name"], part["held"]) == ("apron_left", "place")
    plan = kept.client.get(kept.address.replace("boards", "plan")).json()
    boards = next(sheet for sheet in plan["sheets"] if sheet["id"] == "boards")
    assert "C4 left" in json.dumps(boards)


@pytest.mark.parametrize(
    ("part", "board", "at", "reason", "remedy"),
    [
        ("apron_left", "L1", 100, "not of the wood and thickness", "choose another"),
        ("leg_fl", "L2", 600, "on the knot at 760 mm of L2", "a place nearby"),
        ("apron_front", "C4", 900, "would end at 1914 mm", "a place nearby"),
        ("top strip 1", "C1", 100, "held to a board together", "Hold all of top to C1"),
    ],
)
def test_a_place_where_it_cannot_lie_is_refused_with_the_reason_and_the_way_out(
    kept: Asker, part: str, board: str, at: float, reason: str, remedy: str
) -> None:
    """Judged and refused alike, and nothing is kept of it."""
    before = kept.notes
    judged = kept.client.post(f"{kept.address}/judge", json={"part": part, "board": board, "atMm": at}).json()
    assert not judged["fits"]
    assert reason in judged["words"].replace("\xa0", " ")
    assert remedy in judged["remedy"]
    told = kept.mark("hold", 422, part=part, board=board, atMm=at)
    assert reason in told["errors"][0]["rule"].replace("\xa0", " ")
    assert kept.look()["notes"] == before


def test_what_is_told_of_boards_is_told_in_the_unit_on_show(kept: Asker) -> None:
    """A place past the end, and what the rules found below the boards, in inches where they are shown."""
    put = {"part": "apron_front", "board": "C4", "atMm": 900}
    refused = kept.client.post(f"{kept.address}/judge?units=in", json=put).json()
    assert "would end at 75 11/32 in" in refused["words"].replace("\xa0", " ")  # 1914 mm
    kept.mark("leave", board="C1")
    told = json.dumps(kept.look("?units=in")["findings"], ensure_ascii=False).replace("\xa0", " ")
    assert " in of black cherry" in told
    assert not re.search(r"\d mm\b", told)


def test_the_place_nearby_is_one_where_it_can_lie(kept: Asker) -> None:
    """What is proposed beside a knot is judged good, and held."""
    put = {"part": "leg_fl", "board": "L2", "atMm": 600.0}
    judged = kept.client.post(f"{kept.address}/judge", json=put).json()
    put |= {"atMm": judged["betterAtMm"], "upMm": judged["betterUpMm"]}
    again = kept.client.post(f"{kept.address}/judge", json=put).json()
    assert (again["fits"], again["atMm"]) == (True, judged["betterAtMm"])
    kept.mark("hold", part="leg_fl", board="L2", atMm=again["atMm"], upMm=again["upMm"])
    assert "leg_fl" in _names(kept.board("L2"))


def test_arrow_keys_move_by_steps_of_the_unit_on_show(kept: Asker) -> None:
    """Ten millimeters, or one with the finer key; half an inch, or a sixteenth."""
    put: dict[str, object] = {"part": "apron_left", "board": "C4", "atMm": 600, "steps": [1, 0]}
    at = {}
    for units, fine in (("mm", False), ("mm", True), ("in", False), ("in", True)):
        told = kept.client.post(f"{kept.address}/judge?units={units}", json={**put, "fine": fine}).json()
        at[units, fine] = told["atMm"]
    assert at["mm", False] == 610
    assert at["mm", True] == 601
    assert at["in", False] == pytest.approx(612.7, abs=0.8)
    assert at["in", True] == pytest.approx(601.6625, abs=0.001)


def test_every_mark_is_a_version_and_is_undone_like_one(kept: Asker) -> None:
    """A board left out, a knot: kept in the content, gone one by one, there again; and both are drawn."""
    kept.mark("leave", board="L2")
    kept.mark("mark", board="C3", kind="knot", x="300", y="20", length="40 mm", width="1 1/2 in", face="face")
    text = 'leave: [L2]\nfound:\n  C3: "knot at 300 x 20, 40 x 38.1 on face"\n'
    assert kept.notes["text"] == text
    number = kept.address.split("/")[2]
    assert kept.client.get(f"/api/pieces/{number}").json()["content"]["bench"]["text"] == text
    assert kept.board("L2")["state"] == "left"
    (mark,) = kept.board("C3")["marks"]
    assert mark["written"] == "knot at 300 x 20, 40 x 38.1 on face"
    steps = []
    for way in ("undo", "undo", "redo"):
        answer = kept.client.post(f"{kept.address}/{way}", json={"parent": kept.notes["parent"]})
        kept.notes = answer.json()
        steps.append(kept.notes["text"])
    assert steps == ["leave: [L2]\n", "", "leave: [L2]\n"]
    kept.mark("use", board="L2")
    assert kept.notes["text"] == ""
    assert kept.client.get(f"/api/pieces/{number}").json()["content"]["bench"] is None


def test_a_mark_made_on_what_another_window_left_behind_is_told_with_where_it_is_now(kept: Asker) -> None:
    """409 with the current version: sent again with that, both marks are kept."""
    first = kept.notes["parent"]
    kept.mark("leave", board="L2")
    kept.notes = {**kept.notes, "parent": first}
    told = kept.mark("mark", 409, board="C1", kind="stain", x="10", y="10", length="30", width="20")
    kept.notes = {**kept.notes, "parent": told["current"]}
    kept.mark("mark", board="C1", kind="stain", x="10", y="10", length="30", width="20")
    assert "leave: [L2]" in kept.notes["text"]
    assert "stain" in kept.notes["text"]


def test_what_is_cut_stays_where_it_is_and_only_the_rest_is_laid_out_anew(kept: Asker) -> None:
    """Two legs are cut; the others of that board stay with them, until one turns out to lie on a split."""
    before = kept.board("L1")
    kept.mark("cut", part="leg_fl", board="L1")
    kept.mark("cut", part="leg_bl", board="L1")
    after = kept.board("L1")
    assert [(p["name"], p["box"]) for p in after["parts"]] == [(p["name"], p["box"]) for p in before["parts"]]
    assert {p["name"] for p in after["parts"] if p["cut"]} == {"leg_fl", "leg_bl"}
    assert (after["begun"], after["takes"]) == (True, False)
    for act, told in (
        ("hold", {"part": "leg_fl", "board": "L2"}),
        ("hold", {"part": "leg_fr", "board": "L2"}),
        ("hold", {"part": "apron_left", "board": "L1"}),
        ("leave", {"board": "L1"}),
        ("free", {"board": "L1"}),
    ):
        kept.mark(act, 422, **told)
    other = next(p for p in after["parts"] if p["name"] == "leg_br")
    x = 807 + 100
    kept.mark("mark", board="L1", kind="split", x=str(x), y="70", length="60", width="12", face="through")
    assert other["name"] not in _names(kept.board("L1"))
    assert "leg_br" in [p["name"] for b in kept.look()["boards"] for p in b["parts"]] + [
        p["name"] for p in kept.look()["loose"]
    ]
    kept.mark("uncut", part="leg_fl", board="L1")
    kept.mark("uncut", part="leg_bl", board="L1")
    assert "laid" not in kept.notes["text"]


def test_a_board_that_stays_is_kept_through_other_marks_until_it_is_let_go(kept: Asker) -> None:
    """C3 stays as laid out while C4 is left out; a part moved off it, or a knot under one, lets it go."""
    before = [(p["name"], p["box"]) for p in kept.board("C3")["parts"]]
    kept.mark("stay", board="C3")
    kept.mark("leave", board="C4")
    after = kept.board("C3")
    assert after["stays"]
    assert [(p["name"], p["box"]) for p in after["parts"]] == before
    kept.mark("mark", board="C3", kind="knot", x="400", y="60", length="40", width="40", face="through")
    assert "laid" not in kept.notes["text"]


@pytest.mark.parametrize(
    ("act", "told", "code"),
    [
        ("leave", {"board": "Z9"}, "unknown_board"),
        ("hold", {"part": "nothing", "board": "C1"}, "unknown_blank"),
        ("cut", {"part": "leg_fl", "board": "C1"}, "unknown_blank"),
        (
            "mark",
            {"board": "C1", "kind": "wart", **SMALL},
            "unknown_word",
        ),
        (
            "mark",
            {"board": "C1", **SMALL, "x": "9999"},
            "defect_outside_board",
        ),
        ("mark", {"board": "C1", **SMALL, "x": "many"}, "not_a_length"),
        ("text", {"text": "leave: [Z9]\n"}, "unknown_board"),
        ("text", {"text": "leaf: [C1]\n"}, "unknown_field"),
        ("keep", {"number": 7}, "unknown_search"),
    ],
)
def test_a_mark_that_cannot_be_is_refused(kept: Asker, act: str, told: dict[str, object], code: str) -> None:
    """With a code and words, and nothing is kept."""
    before = kept.notes["parent"]
    answer = kept.client.post(kept.address, json={"act": act, "parent": before, **told})
    assert answer.status_code in {404, 422}
    (fault,) = answer.json()["errors"]
    assert (fault["code"], bool(fault["remedy"])) == (code, True)
    assert kept.look()["notes"]["parent"] == before


def test_a_mark_is_taken_off_by_what_it_is_also_behind_another_window(kept: Asker) -> None:
    """Two windows take the same knot off: the stain beside it stays; inches have a name too."""
    kept.mark("text", text='found:\n  C3: "knot at 12 in x 1 in, 2 x 1 in; stain at 600 x 20, 40 x 40"\n')
    knot = kept.board("C3")["marks"][0]["written"]
    assert knot == "knot at 304.8 x 25.4, 2 x 25.4"
    kept.mark("unmark", board="C3", mark=knot)
    left = kept.notes
    told = kept.mark("unmark", 422, board="C3", mark=knot)
    assert told["errors"][0]["code"] == "unknown_mark"
    assert kept.look()["notes"]["text"] == left["text"] == 'found:\n  C3: "stain at 600 x 20, 40 x 40"\n'


_KNOT = {"kind": "knot", "x": "300", "y": "20", "length": "40", "width": "30"}


@pytest.mark.parametrize(
    ("act", "told", "code"),
    [
        ("use", {"board": "nope"}, "unknown_board"),
        ("use", {"board": "C1"}, "as_it_is"),
        ("unmark", {"board": "nope", "mark": "x"}, "unknown_board"),
        ("unmark", {"board": "C1", "mark": "knot at 1 x 1, 2 x 2"}, "unknown_mark"),
        ("let go", {"part": "nope"}, "unknown_blank"),
        ("let go", {"part": "leg_fl"}, "as_it_is"),
        ("uncut", {"board": "C1", "part": "nope"}, "unknown_blank"),
        ("uncut", {"board": "L1", "part": "leg_fl"}, "as_it_is"),
        ("free", {"board": "C1"}, "as_it_is"),
        ("leave", {"board": "L2"}, "as_it_is"),
        ("mark", {"board": "L1", **_KNOT}, "as_it_is"),
        ("text", {}, "as_it_is"),
    ],
)
def test_an_act_on_nothing_is_not_told_as_done(
    kept: Asker, act: str, told: dict[str, object], code: str
) -> None:
    """Neither for what is not there nor for what is so already; and no version is kept of it."""
    kept.mark("mark", board="L1", **_KNOT)
    kept.mark("leave", board="L2")
    before = kept.notes["parent"]
    status = 404 if code == "unknown_board" else 422
    told = {"text": kept.notes["text"]} if act == "text" else told
    (fault,) = kept.mark(act, status, **told)["errors"]
    assert (fault["code"], bool(fault["remedy"])) == (code, True)
    assert kept.look()["notes"]["parent"] == before


def _events(asker: Asker, query: str) -> list[tuple[str, dict[str, Any]]]:
    found: list[tuple[str, dict[str, Any]]] = []
    with asker.client.stream("GET", f"{asker.address}/search{query}") as answer:
        assert answer.headers["content-type"].startswith("text/event-stream")
        name = ""
        for line in answer.iter_lines():
            if line.startswith("event: "):
                name = line.removeprefix("event: ")
            elif line.startswith("data: "):
                found.append((name, json.loads(line.removeprefix("data: "))))
    return found


def test_a_search_tells_every_better_layout_and_its_best_can_be_kept(kept: Asker) -> None:
    """Begun, better, end; kept, every board stays as it was found, and undo lets all of them go."""
    kept.mark("hold", part="apron_left", board="C4")
    events = _events(kept, "?seconds=4")
    assert [name for name, _ in events[:1]] == ["begun"]
    assert events[-1] == ("end", {"number": events[0][1]["number"], "broken_off": False})
    better = [told for name, told in events if name == "better"]
    assert better
    assert "USD" in better[-1]["words"]
    number = events[0][1]["number"]
    assert {told["number"] for _, told in events} == {number}
    kept.mark("keep", number=number)
    cut = [b for b in kept.look()["boards"] if b["state"] == "cut"]
    assert cut
    assert all(b["stays"] for b in cut)
    kept.mark("mark", board="C1", kind="stain", x="10", y="10", length="30", width="20")
    told = kept.mark("keep", 422, number=number)
    assert told["errors"][0]["code"] == "asked_otherwise"


def test_a_search_that_dies_is_not_told_as_come_to_its_end(kept: Asker) -> None:
    """Whoever listens hears that it broke off."""

    def kill() -> None:
        while not active_children():
            time.sleep(0.05)
        for each in active_children():
            each.kill()

    killing = threading.Thread(target=kill, daemon=True)
    killing.start()
    name, told = _events(kept, "?seconds=60")[-1]
    killing.join()
    assert (name, told["broken_off"]) == ("end", True)


@pytest.mark.parametrize("seconds", ["0", "-1", "901", "soon", "nan", "inf"])
def test_a_search_without_a_sensible_end_is_refused_in_the_stream(kept: Asker, seconds: str) -> None:
    """A page that listens to events hears of it as one."""
    ((name, told),) = _events(kept, f"?seconds={seconds}")
    assert (name, told["errors"][0]["code"]) == ("refused", "out_of_range")


def test_notes_beside_a_rack_are_written_when_asked_and_never_over_another_change(
    beside: Asker, tmp_path: Path
) -> None:
    """Marked, they are in the program only; written, in the file; changed there too, both are kept."""
    place = tmp_path / "cherry.bench.yaml"
    beside.mark("leave", board="L2")
    assert not place.exists()
    assert (beside.notes["written"], beside.notes["place"]) == (False, "cherry.bench.yaml")
    plan = beside.client.get("/api/plan").json()
    assert "Left alone: L2" not in json.dumps(plan)
    beside.notes = beside.client.post("/api/boards/write", json={"parent": beside.notes["parent"]}).json()
    assert place.read_text(encoding="utf-8") == "leave: [L2]\n"
    assert "Left alone: L2" in json.dumps(beside.client.get("/api/plan").json())
    beside.mark("mark", board="C1", kind="stain", x="10", y="10", length="30", width="20")
    place.write_text("# by hand\nleave: [L2]\n", encoding="utf-8")
    merged = beside.look()["notes"]
    assert merged["text"].startswith("# by hand\nleave: [L2]\nfound:")
    place.write_text("# by hand\nleave: [L2]\nfound:\n  C1: hole at 5 x 5, 10 x 10\n", encoding="utf-8")
    answer = beside.client.post("/api/boards/write", json={"parent": beside.look()["notes"]["parent"]})
    assert (answer.status_code, answer.json()["errors"][0]["code"]) == (409, "file_changed")
    assert "hole" in place.read_text(encoding="utf-8")
    taken = beside.client.get("/api/boards/notes.yaml")
    assert "stain" in taken.text
    assert "cherry.bench.yaml" in taken.headers["content-disposition"]


def test_marks_beside_a_rack_are_undone_to_the_file_as_it_was(beside: Asker, tmp_path: Path) -> None:
    """Back to nothing the file is taken away again; a step that is not there is refused."""
    beside.mark("leave", board="L2")
    beside.client.post("/api/boards/write", json={"parent": beside.notes["parent"]})
    beside.look()
    beside.notes = beside.client.post("/api/boards/undo", json={"parent": beside.notes["parent"]}).json()
    beside.client.post("/api/boards/write", json={"parent": beside.notes["parent"]})
    assert not (tmp_path / "cherry.bench.yaml").exists()
    answer = beside.client.post("/api/boards/undo", json={"parent": beside.look()["notes"]["parent"]})
    assert (answer.status_code, answer.json()["errors"][0]["code"]) == (409, "nothing_to_undo")


def test_a_mark_made_on_what_an_earlier_run_held_is_not_made_on_what_this_one_has(
    beside: Asker, tmp_path: Path
) -> None:
    """The program was stopped with marks not written: they are not passed over, the page looks anew."""
    before = beside.notes
    beside.mark("leave", board="L2")
    sources = FileSources(PIECE, rack=tmp_path / "cherry.csv", shop=SHOP, room=None)
    session = Session(PIECE, designer=PieceDesigner(sources, planner=PLANNER))
    again = create_app(session, notes=FileNotes(PIECE, sources, planner=PLANNER, first=1000))
    with TestClient(again, base_url="http://127.0.0.1") as client:
        asker = Asker(client, "/api/boards")
        fresh = asker.look()["notes"]
        assert (fresh["run"], fresh["parent"]) == (1000, 1000)
        assert (before["run"], fresh["held"]) == (0, before["held"])
        told = client.post(
            "/api/boards", json={"act": "leave", "board": "C1", "parent": beside.notes["parent"]}
        )
        assert (told.status_code, told.json()["errors"][0]["code"]) == (409, "begun_anew")
        assert "current" not in told.json()
        told = client.post("/api/boards/undo", json={"parent": beside.notes["parent"]})
        assert told.json()["errors"][0]["code"] == "begun_anew"
        assert asker.look()["notes"]["text"] == ""
        asker.mark("leave", board="C1")


def test_notes_of_another_file_are_held_under_another_name(beside: Asker, tmp_path: Path) -> None:
    """One browser may see two racks at one address, one after the other."""
    other = tmp_path / "other"
    other.mkdir()
    shutil.copy(RACK, other / "cherry.csv")
    sources = FileSources(PIECE, rack=other / "cherry.csv", shop=SHOP, room=None)
    held = FileNotes(PIECE, sources, planner=PLANNER).look().held
    assert held
    assert held != beside.notes["held"]
    assert str(tmp_path) not in held


def test_a_piece_without_a_rack_says_so() -> None:
    """The page opens with words; a mark is refused."""
    sources = FileSources(PIECE, rack=None, shop=SHOP, room=None)
    session = Session(PIECE, designer=PieceDesigner(sources))
    app = create_app(session, notes=FileNotes(PIECE, sources))
    with TestClient(app, base_url="http://127.0.0.1") as client:
        assert client.get("/boards").status_code == 200
        told = client.get("/api/boards").json()
        assert (told["boards"], told["lead"][:11]) == ([], "No rack was")
        answer = client.post("/api/boards", json={"act": "leave", "board": "C1", "parent": 0})
        assert answer.json()["errors"][0]["code"] == "no_rack"


def test_sawing_takes_a_board_that_a_pin_has_parted_out_of_the_stockroom_once(client: TestClient) -> None:
    """C4 goes out whole, what is left of its pieces comes in, and what was noted about it is told."""
    boards = {"rack": _file(RACK), "party": "", "at": None, "note": ""}
    assert client.post("/api/stockroom/add", json=boards).status_code == 201
    content = {
        "piece": PIECE.read_text(encoding="utf-8"),
        "shop": _file(SHOP),
        "rack": {"name": "stockroom"},
    }
    number = client.post("/api/pieces", json={"content": content}).json()["piece"]["number"]
    asker = Asker(client, f"/pieces/{number}/api/boards")
    asker.look()
    asker.mark("hold", part="apron_left", board="C4", atMm=967)
    told = client.post(f"/api/pieces/{number}/cut", json={"really": True}).json()
    out = [board["name"] for board in told["out"]]
    assert out.count("C4") == 1
    assert all(" left" not in name for name in out)
    assert "C4 right" in [offcut["name"] for offcut in told["kept"]]
    after = client.get(f"/pieces/{number}/api/boards").json()
    assert "not in the stockroom any more" in json.dumps(after["findings"])
