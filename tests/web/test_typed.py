"""A piece file as it is typed: its faults, the lines of its entries, sizes written into it, what moved on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.web.records import app_with_records
from tests.web.specimen import DEMO

__all__: list[str] = []

TEXT = DEMO.read_text(encoding="utf-8")


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """Asks a server that keeps the demo piece as number 1."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        client.post("/api/pieces", json={"content": {"piece": TEXT}})
        yield client


def _typed(kept: TestClient, text: str, status: int = 200, **body: Any) -> Any:
    given = body.pop("given", {})
    sent = {"content": {"piece": text, "given": given}, "parent": 1, **body}
    answer = kept.post("/api/pieces/1/typed", json=sent)
    assert answer.status_code == status, answer.text
    return answer.json()


def _entry(told: Any, *path: str) -> Any:
    return next(entry for entry in told["entries"] if entry["path"] == list(path))


def test_each_entry_is_told_with_its_lines_and_its_parts(kept: TestClient) -> None:
    """The lines hold the entry and nothing after it; a copy stands within; a joint is of all it joins."""
    told = _typed(kept, TEXT)
    lines = TEXT.split("\n")
    leg = _entry(told, "parts", "leg_fl")
    assert lines[leg["first"] - 1] == "  leg_fl:"
    assert lines[leg["last"]].startswith("  ")
    assert not lines[leg["last"]].startswith("    ")
    assert leg["parts"] == ["leg_fl", "leg_fr", "leg_bl", "leg_br"]
    copy = _entry(told, "parts", "leg_fl", "copies", "leg_br")
    assert copy["parts"] == ["leg_br"]
    assert leg["first"] < copy["first"] == copy["last"] <= leg["last"]
    assert {"leg_fl", "apron_front"} <= set(_entry(told, "joints", "apron_to_leg")["parts"])


def test_it_is_not_saved_and_can_be_drawn(kept: TestClient) -> None:
    """The draft answers with what is typed; the piece stays at its version."""
    told = _typed(kept, TEXT.replace("default: 740 mm", "default: 700 mm", 1))
    assert told["errors"] == []
    shape = kept.get(f"/drafts/{told['draft']}/api/shape").json()
    height = next(each for each in shape["parameters"] if each["name"] == "height")
    assert height["value"] == 700.0
    assert kept.get("/api/pieces/1").json()["piece"]["versions"] == 1


def test_a_text_with_faults_still_tells_where_its_entries_stand(kept: TestClient) -> None:
    """As long as it can be read; each entry then is of the part it names."""
    told = _typed(kept, TEXT.replace("units: mm", "units: furlong", 1))
    assert [error["line"] for error in told["errors"]] == [TEXT.split("\n").index("units: mm") + 1]
    assert _entry(told, "parts", "leg_fl")["parts"] == ["leg_fl"]
    unread = _typed(kept, TEXT + "\nparts: [\n")
    assert unread["entries"] == []
    assert unread["errors"]


def test_sizes_are_written_into_the_text_and_nothing_else(kept: TestClient) -> None:
    """Comments stay; a size kept apart from the text is in the text alone after that."""
    text = TEXT.replace("default: 740 mm", "default: 740 mm # as her desk", 1)
    told = _typed(kept, text, given={"height": "700 mm", "leg": "50 mm"}, sizes={"height": "28 3/4 in"})
    assert told["content"]["piece"] == text.replace("default: 740 mm", "default: 28 3/4 in", 1)
    assert told["content"]["given"] == {"leg": "50 mm"}
    _typed(kept, TEXT, 422, sizes={"heigth": "700 mm"})
    _typed(kept, "parameters: [", 422, sizes={"height": "700 mm"})


def test_a_size_that_cannot_be_is_a_fault_at_its_line(kept: TestClient) -> None:
    """It stands in the text, where it is mended."""
    told = _typed(kept, TEXT, sizes={"height": "7 m"})
    line = next(n for n, each in enumerate(told["content"]["piece"].split("\n"), 1) if "default: 7 m" in each)
    assert line in [error["line"] for error in told["errors"]]


def test_what_moved_on_is_told_with_both_brought_together(kept: TestClient) -> None:
    """Typing goes on from the merged text; lines both changed are told."""
    change = {"path": ["parts", "leg_fl", "rings"], "text": "flat", "parent": 1}
    assert kept.post("/api/pieces/1/entries", json=change).status_code == 201
    apart = _typed(kept, TEXT.replace("default: 740 mm", "default: 700 mm", 1), 409)
    assert apart["current"] == 2
    assert "default: 700 mm" in apart["merged"]["piece"]
    assert "    rings: flat\n" in apart["merged"]["piece"]
    same = _typed(kept, TEXT.replace("    rings: rift\n", "    rings: quarter\n", 1), 409)
    assert same["merged"] is None
    assert same["clashes"][0]["theirs"] == ["    rings: flat\n"]


def test_what_is_made_at_the_bench_counts_for_what_is_typed(kept: TestClient) -> None:
    """A size measured there is as measured in the draft too."""
    event = {
        "kind": "measured",
        "subject": "top.thickness",
        "written": "23.4 mm",
        "at": "2026-01-05T10:00:00Z",
    }
    answer = kept.post("/api/pieces/1/bench", json=event)
    assert answer.status_code < 300, answer.text
    told = _typed(kept, TEXT + "# a word\n")
    asked = {
        name: kept.get(f"{base}api/shape").json()
        for name, base in (("kept", "/pieces/1/"), ("typed", f"/drafts/{told['draft']}/"))
    }
    sizes = {
        name: next(p["sizes"] for p in shape["parts"] if p["name"] == "top") for name, shape in asked.items()
    }
    assert sizes["typed"] == sizes["kept"]
    assert "(measured; drawn" in str(sizes["typed"])
