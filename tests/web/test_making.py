"""What happened at the bench becomes what is made: parts are cut in the size of the day they were done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from scantling.piece.built import Built
from scantling.store.bench import BenchEvent, BenchKind
from scantling.web.designs.making import Making, built_from
from tests.web.records import app_with_records

_NOON = datetime(2026, 3, 5, 12, tzinfo=UTC)
_FIXED = {
    "top.width": frozenset({"Trim"}),
    "end.length": frozenset({"Saw 1", "Saw 2"}),
}


def event(number: int, kind: BenchKind, subject: str = "", **more: Any) -> BenchEvent:
    """Something that happened."""
    return BenchEvent(kind=kind, at=_NOON, number=number, subject=subject, version=1, **more)


def measured(number: int, subject: str, figure: float, unit: str = "mm") -> BenchEvent:
    """A size measured."""
    return event(number, BenchKind.MEASURED, subject, figure=figure, unit=unit)


def sizes(_: int, built: Built) -> Mapping[str, float]:
    """An end as long as the top is wide."""
    top = built.measured.get("top.width", 660.0)
    return {"top.width": top, "end.length": top}


def made(*events: BenchEvent) -> Built:
    """What is made after some events."""
    return built_from(events, Making(fixed_by=lambda _: _FIXED, sizes_of=sizes))


def test_a_part_is_cut_when_the_last_step_that_sizes_it_is_done() -> None:
    """One end sawn is not a length; two are."""
    one = event(1, BenchKind.STEP_DONE, "Saw 1")
    assert made(one).cut == {}
    assert made(one, event(2, BenchKind.STEP_DONE, "Saw 2")).cut == {"end.length": 660.0}


def test_what_is_cut_keeps_the_size_of_its_day() -> None:
    """Cut by 657 after the top was measured so; a later measure changes nothing in it."""
    sawn = (event(2, BenchKind.STEP_DONE, "Saw 1"), event(3, BenchKind.STEP_DONE, "Saw 2"))
    built = made(measured(1, "top.width", 657.0), *sawn, measured(4, "top.width", 650.0))
    assert built.cut == {"end.length": 657.0}
    assert built.measured == {"top.width": 650.0}


def test_a_step_not_done_after_all_cuts_nothing() -> None:
    """Either of the two steps opened again takes the length back."""
    sawn = (event(1, BenchKind.STEP_DONE, "Saw 1"), event(2, BenchKind.STEP_DONE, "Saw 2"))
    assert made(*sawn, event(3, BenchKind.STEP_OPEN, "Saw 1")).cut == {}


def test_what_was_taken_back_never_counted() -> None:
    """The measure is gone, and what was cut after it is as it would have been without it."""
    built = made(
        measured(1, "top.width", 657.0),
        event(2, BenchKind.STEP_DONE, "Trim"),
        event(3, BenchKind.TAKEN_BACK, takes_back=1),
    )
    assert built == Built(cut={"top.width": 660.0})


def test_moisture_and_weight_are_no_sizes() -> None:
    """Only lengths are sizes."""
    assert not made(measured(1, "top.width", 8.5, "%"))
    assert not made(measured(1, "top.width", 8.5, "kg"))


@pytest.mark.parametrize(("figure", "unit"), [(26.0, "in"), (66.04, "cm"), (0.6604, "m"), (660.4, "mm")])
def test_a_size_counts_in_whatever_unit_it_was_measured(figure: float, unit: str) -> None:
    """660.4 mm is 26 in exactly (an inch is 25.4 mm by definition)."""
    assert made(measured(1, "top.width", figure, unit)).measured == {"top.width": 660.4}


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """A reading table that is kept."""
    with app_with_records(tmp_path) as app:
        client = TestClient(app, base_url="http://127.0.0.1")
        assert client.post("/api/pieces", json={"form": "reading-table"}).status_code == 201
        yield client


def tell(client: TestClient, **what: Any) -> Any:
    """Tell the bench something."""
    return client.post("/api/pieces/1/bench", json=what)


def lengths(client: TestClient) -> dict[str, str]:
    """Length of every part as the page shows it."""
    parts = client.get("/pieces/1/api/shape").json()["parts"]
    return {part["name"]: dict(part["sizes"])["Length"].replace("\u00a0", " ") for part in parts}


def test_a_measure_told_at_the_bench_changes_the_piece_and_taken_back_brings_it_back(
    kept: TestClient,
) -> None:
    """The ends follow the top; the old figure stands beside the new; undone, all is as before."""
    before = lengths(kept)
    answer = tell(kept, kind="measured", subject="top.width", figure=657.0, unit="mm")
    assert answer.status_code == 201
    after = lengths(kept)
    assert (before["end_left"], after["end_left"]) == ("660 mm", "657 mm (drawn 660 mm)")
    assert kept.post("/api/pieces/1/bench/take-back", json={}).status_code == 201
    assert lengths(kept) == before


def test_a_measure_that_cannot_be_is_refused_and_not_kept(kept: TestClient) -> None:
    """A part there is none of, and a figure with a digit too few; each with a remedy."""
    for subject, figure, code in (
        ("tip.width", 657.0, "not_in_piece"),
        ("top.depth", 657.0, "not_in_piece"),
        ("top.width", 65.7, "not_believable"),
        ("splay", 7.0, "not_in_piece"),
    ):
        answer = tell(kept, kind="measured", subject=subject, figure=figure, unit="mm")
        assert answer.status_code == 422
        (fault,) = answer.json()["errors"]
        assert fault["code"] == code
        assert fault["remedy"]
    assert kept.get("/api/pieces/1/bench").json()["events"] == []


@pytest.mark.parametrize(
    ("told", "figure", "unit", "length"),
    [
        ({"written": "25 3/4 in"}, 25.75, "in", "654 mm"),
        ({"written": "25 3/4″"}, 25.75, "in", "654 mm"),
        ({"written": "2' 1-3/4\""}, 25.75, "in", "654 mm"),
        ({"written": "657 mm"}, 657.0, "mm", "657 mm"),
        ({"written": "65,7 cm"}, 657.0, "mm", "657 mm"),
        ({"written": "0,657 m"}, 657.0, "mm", "657 mm"),
        ({"written": "0,6570 m"}, 657.0, "mm", "657 mm"),
        ({"written": "25,750 in"}, 25.75, "in", "654 mm"),
        ({"written": "65,70000 cm"}, 657.0, "mm", "657 mm"),
        ({"figure": 25.75, "unit": "in"}, 25.75, "in", "654 mm"),
        ({"figure": 0.657, "unit": "m"}, 657.0, "mm", "657 mm"),
    ],
)
def test_a_size_counts_as_it_is_written(
    kept: TestClient, told: dict[str, object], figure: float, unit: str, length: str
) -> None:
    """In inches or millimeters, with the comma a phone's keys of digits may have alone; and told so."""
    answer = tell(kept, kind="measured", subject="top.width", **told)
    assert answer.status_code == 201, answer.text
    stands = answer.json()["measured"]["top.width"]
    assert (stands["figure"], stands["unit"]) == (figure, unit)
    assert stands["written"] == ("25 3/4 in" if unit == "in" else "657 mm")
    assert lengths(kept)["end_left"].startswith(f"{length} (drawn 660 mm")


@pytest.mark.parametrize(
    ("told", "code"),
    [
        ({"written": "wide"}, "not_a_length"),
        ({"written": "1,234 mm"}, "not_a_length"),
        ({"written": "1,234,5 mm"}, "not_a_length"),
        ({"written": "1.234,5 mm"}, "not_a_length"),
        ({"written": "1,234.5 mm"}, "not_a_length"),
        ({"written": "0,875 in"}, "not_believable"),
        ({"written": "657"}, "unit_missing"),
        ({"written": "8.5 %"}, "not_a_length"),
        ({"written": "-657 mm"}, "not_believable"),
        ({"written": "657 mm", "figure": 657.0, "unit": "mm"}, "figure_unwanted"),
        ({"figure": 8.5, "unit": "%"}, "not_a_length"),
        ({"figure": 657.0, "unit": "furlong"}, "not_a_length"),
        ({"figure": 657.0}, "unit_missing"),
        ({"figure": 1e300, "unit": "mm"}, "not_a_length"),
        ({}, "figure_missing"),
    ],
)
def test_what_is_no_size_is_refused_and_says_how_to_write_it(
    kept: TestClient, told: dict[str, object], code: str
) -> None:
    """By the size it was told of; nothing is kept that would not count."""
    answer = tell(kept, kind="measured", subject="top.width", **told)
    assert answer.status_code == 422
    (fault,) = answer.json()["errors"]
    assert (fault["code"], fault["field"]) == (code, "top.width")
    assert fault["remedy"]
    assert kept.get("/api/pieces/1/bench").json()["events"] == []


@pytest.mark.parametrize(
    ("subject", "written", "code", "remedy"),
    [
        (
            "apron_front.length",
            "1,368 mm",
            "not_a_length",
            "Write 1368 mm for thousands, or 1,3680 mm for decimals.",
        ),
        (
            "top.width",
            "1,234,5 mm",
            "not_a_length",
            "Write one comma or point, before the decimals, and no sign",
        ),
    ],
)
def test_a_comma_that_could_be_either_is_refused_with_a_way_it_can_be_typed(
    kept: TestClient, subject: str, written: str, code: str, remedy: str
) -> None:
    """Keys of digits may have no point: no way out asks for one alone; both are read then."""
    (fault,) = tell(kept, kind="measured", subject=subject, written=written).json()["errors"]
    assert (fault["code"], fault["value"]) == (code, written)
    assert fault["remedy"].startswith(remedy)


def test_of_a_piece_with_faults_a_comma_is_taken_where_it_can_only_be_before_decimals(
    kept: TestClient,
) -> None:
    """Nothing is known of what could be believed: 0 before it, or other than three figures behind it."""
    content = kept.get("/api/pieces/1").json()["content"] | {"piece": "nothing: here"}
    assert kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1}).status_code == 201
    for written, figure in (("0,875 in", 0.875), ("47,6250 mm", 47.625), ("1368,125 mm", 1368.125)):
        stands = tell(kept, kind="measured", subject="top.width", written=written).json()
        assert stands["measured"]["top.width"]["figure"] == figure
    (fault,) = tell(kept, kind="measured", subject="top.width", written="47,625 mm").json()["errors"]
    assert fault["code"] == "not_a_length"


def test_of_a_piece_with_faults_only_a_size_above_nothing_is_taken(kept: TestClient) -> None:
    """Nothing is known of it, and still no part is as long as nothing."""
    content = kept.get("/api/pieces/1").json()["content"] | {"piece": "nothing: here"}
    assert kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1}).status_code == 201
    (fault,) = tell(kept, kind="measured", subject="top.width", written="0 mm").json()["errors"]
    assert fault["code"] == "not_believable"
    assert tell(kept, kind="measured", subject="top.width", written="25 3/4 in").status_code == 201


def test_what_is_written_goes_with_a_measure_only(kept: TestClient) -> None:
    """A step done has no size."""
    (fault,) = tell(kept, kind="step done", subject="Plane", written="657 mm").json()["errors"]
    assert fault["code"] == "figure_unwanted"


def test_a_measure_sent_again_counts_once_though_it_could_not_be_any_more(kept: TestClient) -> None:
    """The answer was lost, and the piece has changed since: what is kept is kept, and told."""
    size = {"kind": "measured", "subject": "top.width", "written": "657 mm", "key": "k"}
    assert tell(kept, **size).status_code == 201
    content = kept.get("/api/pieces/1").json()["content"] | {"given": {"width": "500 mm"}}
    assert kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1}).status_code == 201
    assert tell(kept, kind="measured", subject="top.width", written="657 mm").status_code == 422
    again = tell(kept, **size)
    assert again.status_code == 201
    assert len(again.json()["events"]) == 1


def test_what_is_cut_stays_when_the_design_changes(kept: TestClient) -> None:
    """The ends are sawn at 660 mm; a version with a table 640 mm wide finds them 10 mm out at each side."""
    work = kept.get("/pieces/1/api/work").json()
    sawn = [s["key"] for s in work["steps"] if any(p["name"] == "end_left" for p in s["parts"])]
    for key in (key for key in sawn if key.startswith("Saw set-up")):
        assert tell(kept, kind="step done", subject=key).status_code == 201
    change = {"path": ["parameters", "width", "default"], "text": "640 mm", "parent": 1}
    assert kept.post("/api/pieces/1/entries", json=change).status_code == 201
    assert lengths(kept)["end_left"] == "660 mm (made; drawn 640 mm)"
    assert lengths(kept)["apron_left"].startswith("407.5 mm")
    told = kept.get("/pieces/1/api/work").json()["findings"]
    assert [found["code"] for found in told] == ["M02"]
    assert "10.0" in told[0]["message"]


def test_what_was_sawn_with_no_signal_has_the_size_it_was_sawn_by(kept: TestClient) -> None:
    """Told after the table was made 640 mm wide at the desk, and done by version 1: the ends are 660 mm."""
    answer = kept.get("/pieces/1/api/work")
    seen = int(answer.headers["piece-version"])
    keys = [s["key"] for s in answer.json()["steps"] if any(p["name"] == "end_left" for p in s["parts"])]
    sawn = [key for key in keys if key.startswith("Saw set-up")]
    assert sawn
    change = {"path": ["parameters", "width", "default"], "text": "640 mm", "parent": 1}
    assert kept.post("/api/pieces/1/entries", json=change).status_code == 201
    for key in sawn:
        assert tell(kept, kind="step done", subject=key, version=seen).status_code == 201
    assert lengths(kept)["end_left"] == "660 mm (made; drawn 640 mm)"
    assert kept.get("/pieces/1/api/work").headers["piece-version"] == "2"


def test_what_was_done_by_a_version_there_is_none_of_is_refused(kept: TestClient) -> None:
    """With what is wrong and where to look; nothing of it is kept."""
    answer = tell(kept, kind="step done", subject="Saw", version=7)
    assert answer.status_code == 404
    (fault,) = answer.json()["errors"]
    assert (fault["code"], fault["field"], fault["value"]) == ("unknown_version", "version", "7")
    assert kept.get("/api/pieces/1/bench").json()["events"] == []


def findings(client: TestClient, page: str = "work") -> dict[str, dict[str, Any]]:
    """What is told of the making, by its code."""
    told = client.get(f"/pieces/1/api/{page}").json()["findings"]
    return {found["code"]: found for found in told if found["code"].startswith("M")}


def test_a_part_made_anew_is_one_key_that_takes_its_measure_back(kept: TestClient) -> None:
    """Offered at the bench and beside the finding on the page; the second time it is refused."""
    tell(kept, kind="measured", subject="apron_front.length", figure=962.0, unit="mm")
    tell(kept, kind="measured", subject="apron_front.length", figure=961.5, unit="mm")
    longer, anew = findings(kept)["M01"]["remedies"]
    assert findings(kept, "plan")["M01"]["remedies"] == [longer, anew]
    assert longer["path"] == ["parameters", "length", "default"]
    assert anew["words"] == "Make apron front anew: take back its length as measured"
    assert (anew["takenBack"], anew["here"]) == ("apron_front.length", True)
    asked = {"subject": anew["takenBack"]}
    answer = kept.post("/api/pieces/1/bench/take-back", json=asked)
    assert answer.status_code == 201
    assert answer.json()["measured"] == {}
    assert findings(kept) == {}
    again = kept.post("/api/pieces/1/bench/take-back", json=asked)
    assert again.status_code == 409
    assert again.json()["errors"][0]["code"] == "nothing_to_take_back"


def test_a_parameter_set_to_what_is_made_mends_it_at_the_bench(kept: TestClient) -> None:
    """The table is 1368 mm long then, and the apron as measured fits."""
    tell(kept, kind="measured", subject="apron_front.length", figure=962.0, unit="mm")
    longer, _ = findings(kept)["M01"]["remedies"]
    change = {"path": longer["path"], "text": longer["text"], "parent": 1}
    assert kept.post("/api/pieces/1/remedies", json=change).status_code == 201
    assert findings(kept) == {}
    assert lengths(kept)["apron_back"] == "962 mm"


def test_what_was_measured_of_a_name_that_is_gone_is_taken_back(kept: TestClient) -> None:
    """The thickness of the top is called otherwise in the next version."""
    tell(kept, kind="measured", subject="top_thickness", figure=23.5, unit="mm")
    text = kept.get("/api/pieces/1").json()["content"]["piece"]
    content = {"piece": text.replace("top_thickness", "board_thickness")}
    answer = kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1})
    assert answer.status_code == 201
    (back,) = findings(kept)["M05"]["remedies"]
    assert back["words"] == "Take back top thickness as measured"
    kept.post("/api/pieces/1/bench/take-back", json={"subject": back["takenBack"]})
    assert findings(kept) == {}


def test_what_stands_in_notes_beside_the_rack_is_told_and_has_no_key(kept: TestClient) -> None:
    """The server takes nothing out of a file of the maker's."""
    content = kept.get("/api/pieces/1").json()["content"]
    content["bench"] = {
        "name": "made.bench.yaml",
        "text": "measured: {apron_front: {length: 966 mm}, end_left: {width: 90 mm}}\n",
    }
    answer = kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1})
    assert answer.status_code == 201, answer.text
    (back,) = findings(kept)["M06"]["remedies"]
    assert back["here"] is False
    assert back["line"] == "measured.end_left.width"
    (longer,) = findings(kept)["M01"]["remedies"]
    assert longer["here"] is True
