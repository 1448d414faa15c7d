"""Every route answers, and every refusal has the one body."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping

import pytest
from starlette.testclient import TestClient

from scantling.errors import ModelError
from scantling.web.app import create_app
from scantling.web.designs.session import Session
from tests.web.specimen import DEMO

ROUTES = ["/api/shape", "/api/figures", "/api/plan", "/api/scene.glb", "/api/packet.pdf", "/api/export/step"]
"""Routes that take parameters of the piece."""


def _errors(body: Mapping[str, object], status: int) -> list[dict[str, str]]:
    """The errors of a refusal, whose form is asserted."""
    assert list(body) == ["ok", "errors", "status"]
    assert body["ok"] is False
    assert body["status"] == status
    errors = body["errors"]
    assert isinstance(errors, list)
    assert errors
    for error in errors:
        assert list(error) == [
            "code",
            "field",
            "place",
            "message",
            "rule",
            "remedy",
            "value",
            "found",
            "file",
            "line",
            "column",
        ]
        assert error["code"]
        assert error["message"]
    return errors


def test_the_piece_is_told_with_its_sizes(client: TestClient) -> None:
    """Parameters come with words to read and numbers for a slider, in the unit of the file."""
    body = client.get("/api/piece").json()
    assert (body["title"], body["units"]) == ("Reading table with splayed legs", "mm")
    length = body["parameters"][0]
    assert (length["shown"], length["shownLeast"], length["shownMost"]) == ("1370 mm", "1000 mm", "2400 mm")
    assert (length["value"], length["least"], length["most"], length["unit"]) == (
        1370.0,
        1000.0,
        2400.0,
        "mm",
    )


def test_a_changed_size_changes_shape_and_plan(client: TestClient) -> None:
    """Both routes follow the parameter, and say the same of parts and parameters."""
    shape = client.get("/api/shape", params={"length": "1300 mm"}).json()
    plan = client.get("/api/plan", params={"length": "1300 mm"}).json()
    assert shape["parts"] == plan["parts"]
    assert shape["parameters"] == plan["parameters"]
    top = next(part for part in plan["parts"] if part["name"] == "top")
    drawn = next(part for part in client.get("/api/plan").json()["parts"] if part["name"] == "top")
    assert dict(drawn["sizes"])["Length"] != dict(top["sizes"])["Length"]
    assert plan["sheets"][0]["blocks"][1]["kind"] == "table"


def test_lengths_are_shown_in_the_unit_asked_for(client: TestClient) -> None:
    """1370 mm is 53 15/16 in to the nearest sixteenth; the piece itself stays as it is."""
    shown = client.get("/api/shape", params={"units": "in"}).json()
    length = next(each for each in shown["parameters"] if each["name"] == "length")
    assert (shown["units"], length["unit"], length["shown"]) == ("in", "in", "53 15/16 in")
    assert length["value"] * 25.4 == pytest.approx(1370.0)
    refused = client.get("/api/shape", params={"units": "furlong"})
    assert (refused.status_code, refused.json()["errors"][0]["code"]) == (422, "unknown_units")


def test_the_scene_is_binary_gltf(client: TestClient) -> None:
    """It begins with the format's magic word and its own length."""
    answer = client.get("/api/scene.glb")
    assert answer.headers["content-type"] == "model/gltf-binary"
    assert answer.content[:4] == b"glTF"
    assert int.from_bytes(answer.content[8:12], "little") == len(answer.content)


@pytest.mark.parametrize(
    ("kind", "begins", "name"),
    [
        ("glb", b"glTF", "reading-table-with-splayed-legs.glb"),
        ("step", b"ISO-10303-21;", "reading-table-with-splayed-legs.step"),
        ("dxf", b"  0\nSECTION", "reading-table-with-splayed-legs.dxf"),
        ("xlsx", b"PK\x03\x04", "reading-table-with-splayed-legs.xlsx"),
        ("csv", b"", "reading-table-with-splayed-legs-parts.csv"),
        ("hardware-csv", b"", "reading-table-with-splayed-legs-hardware.csv"),
        ("marks-csv", b"", "reading-table-with-splayed-legs-marks.csv"),
    ],
)
def test_files_can_be_taken_away(client: TestClient, kind: str, begins: bytes, name: str) -> None:
    """Each comes whole, under the name of the piece."""
    answer = client.get(f"/api/export/{kind}")
    assert answer.status_code == 200, answer.text
    assert answer.content.startswith(begins)
    assert len(answer.content) > 100
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_packet_can_be_taken_away(client: TestClient, paper: str) -> None:
    """It is a PDF on the paper asked for."""
    import pdfplumber

    answer = client.get("/api/packet.pdf", params={"paper": paper})
    assert answer.status_code == 200, answer.text
    with pdfplumber.open(io.BytesIO(answer.content)) as pdf:
        size = (round(pdf.pages[0].width), round(pdf.pages[0].height))
    assert size == {"a4": (595, 842), "letter": (612, 792)}[paper]


def test_the_offer_can_be_taken_away(client: TestClient) -> None:
    """On the paper asked for, with the client and the price asked; another price is another answer."""
    import pdfplumber

    asked = {"paper": "letter", "client": "A reader", "price": "4,900"}
    answer = client.get("/api/offer.pdf", params=asked)
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.content)) as pdf:
        assert len(pdf.pages) == 2
        first, second = (page.extract_text() for page in pdf.pages)
        assert (round(pdf.pages[0].width), round(pdf.pages[0].height)) == (612, 792)
    assert "For A reader" in first
    assert "4,900 USD" in second
    again = client.get("/api/offer.pdf", params=asked | {"price": "5000"})
    assert again.headers["etag"] != answer.headers["etag"]
    (error,) = _errors(client.get("/api/offer.pdf", params={"price": "much"}).json(), 422)
    assert (error["code"], error["field"]) == ("not_a_price", "price")


@pytest.mark.parametrize("route", [*ROUTES, "/api/piece"])
def test_what_the_browser_holds_is_not_sent_again(client: TestClient, route: str) -> None:
    """Asked again with its own tag, it says 304 and sends nothing; another question has another tag."""
    first = client.get(route)
    again = client.get(route, headers={"if-none-match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    if route != "/api/piece":
        assert client.get(route, params={"width": "640 mm"}).headers["etag"] != first.headers["etag"]


@pytest.mark.parametrize("route", ROUTES)
def test_a_bad_size_is_told_at_its_field(client: TestClient, route: str) -> None:
    """Every route that takes sizes refuses one out of range, with rule and value."""
    answer = client.get(route, params={"length": "3 m"})
    (error,) = _errors(answer.json(), 422)
    assert (answer.status_code, error["code"], error["field"]) == (422, "out_of_range", "length")
    assert error["rule"] == "must be 1000 mm to 2400 mm"
    assert error["value"] == "3 m"


@pytest.mark.parametrize("route", ROUTES)
def test_all_that_is_wrong_is_told_at_once(client: TestClient, route: str) -> None:
    """Two faults give two errors."""
    errors = _errors(client.get(route, params={"length": "12 cows", "lenght": "1 m"}).json(), 422)
    assert {error["field"] for error in errors} == {"length", "lenght"}


@pytest.mark.parametrize("route", ROUTES)
def test_endless_and_doubled_sizes_are_refused(client: TestClient, route: str) -> None:
    """A value of a thousand characters, and one parameter given twice."""
    errors = _errors(client.get(f"{route}?length={'9' * 1000}&width=1&width=2").json(), 422)
    assert {error["code"] for error in errors} == {"too_long", "given_twice"}


@pytest.mark.parametrize(
    "path", ["/nothing", "/api/nothing", "/static/nothing.js", "/static/../app.py", "/fonts/x.ttf"]
)
def test_what_is_not_there_is_told_the_same_way(client: TestClient, path: str) -> None:
    """Also for files of the page and of its fonts."""
    (error,) = _errors(client.get(path).json(), 404)
    assert error["code"] == "not_found"


@pytest.mark.parametrize("route", ["/", "/api/health", "/api/piece", *ROUTES])
def test_nothing_can_be_sent_to_the_server(client: TestClient, route: str) -> None:
    """Every route only answers questions, and says so."""
    answer = client.post(route)
    (error,) = _errors(answer.json(), 405)
    assert (error["code"], error["rule"], answer.headers["allow"]) == (
        "method_not_allowed",
        "must be GET",
        "GET",
    )


@pytest.mark.parametrize("route", ["/", "/static/js/main.js", "/api/health", "/api/piece", *ROUTES])
@pytest.mark.parametrize("host", ["evil.example", "evil.example:8417", "127.0.0.1.evil.example", ""])
def test_a_page_elsewhere_cannot_point_its_name_here(client: TestClient, route: str, host: str) -> None:
    """Only the names of this computer are answered, on every route."""
    (error,) = _errors(client.get(route, headers={"host": host}).json(), 421)
    assert error["code"] == "not_this_computer"


@pytest.mark.parametrize("route", ["/api/health", "/api/piece", *ROUTES])
def test_a_page_elsewhere_cannot_make_the_server_work(client: TestClient, route: str) -> None:
    """A request that another site's page sends is refused."""
    answer = client.get(route, headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"})
    (error,) = _errors(answer.json(), 421)
    assert error["code"] == "not_this_page"


@pytest.mark.parametrize(
    ("route", "code"),
    [("/api/packet.pdf?paper=napkin", "unknown_paper"), ("/api/export/doc", "unknown_export")],
)
def test_unknown_papers_and_files_are_told_with_those_there_are(
    client: TestClient, route: str, code: str
) -> None:
    """The rule lists what may be asked for."""
    (error,) = _errors(client.get(route).json(), 422)
    assert (error["code"], error["rule"].startswith("must be one of ")) == (code, True)


def test_a_defect_is_told_without_a_traceback(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever breaks inside, the page gets the one body."""

    def breaks(*_: object) -> None:
        raise RuntimeError("secret place")

    monkeypatch.setattr(session, "shape_view", breaks)
    broken = TestClient(create_app(session), base_url="http://localhost", raise_server_exceptions=False)
    answer = broken.get("/api/shape?width=601")
    (error,) = _errors(answer.json(), 500)
    assert error["code"] == "program_fault"
    assert "secret place" not in answer.text


def test_a_defect_of_our_own_is_not_told_as_the_users(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An invariant that broke is the server's error, as any other break is."""

    def breaks(*_: object) -> None:
        raise ModelError("two and two")

    monkeypatch.setattr(session, "shape_view", breaks)
    broken = TestClient(create_app(session), base_url="http://localhost", raise_server_exceptions=False)
    (error,) = _errors(broken.get("/api/shape").json(), 500)
    assert error["code"] == "program_fault"


def test_every_answer_carries_the_policy(client: TestClient) -> None:
    """Scripts, styles and pictures come from here alone, also for an answer that refuses."""
    for route in ("/", "/static/js/main.js", "/api/health", "/nothing"):
        headers = client.get(route).headers
        policy = dict(part.split(" ", 1) for part in headers["content-security-policy"].split("; "))
        assert policy["default-src"] == "'none'"
        assert policy["connect-src"] == policy["font-src"] == "'self'"
        assert re.fullmatch(r"'self' 'sha256-[\w+/]+='", policy["style-src"])  # the door's own, and no other
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"
        assert "set-cookie" not in headers


def test_the_page_is_headed_before_anything_is_planned(client: TestClient) -> None:
    """Title and about stand in the page as sent, so that nothing moves when the plan arrives."""
    page = client.get("/").text
    assert "<h1>Reading table with splayed legs</h1>" in page
    assert "{{" not in page


def test_a_piece_with_faults_still_has_a_page(tmp_path_factory: pytest.TempPathFactory) -> None:
    """The page is there to tell what is wrong, by line; words of the file never become markup."""
    piece = tmp_path_factory.mktemp("pieces") / "<b>.yaml"
    text = DEMO.read_text(encoding="utf-8").replace("black cherry", "black cheery")
    for title, heading in (("<i>Desk</i>", "&lt;i&gt;Desk&lt;/i&gt;"), ("[", "&lt;b&gt;.yaml")):
        piece.write_text(text.replace("Reading table with splayed legs", title), encoding="utf-8")
        client = TestClient(create_app(Session(piece)), base_url="http://localhost")
        page = client.get("/")
        assert (page.status_code, f"<h1>{heading}</h1>" in page.text) == (200, True)
    errors = _errors(client.get("/api/plan").json(), 422)
    assert all(".yaml:" in error["message"] for error in errors)


@pytest.mark.parametrize(
    "headers",
    [
        {"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"},
        {"origin": "http://elsewhere.test"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:1"},
    ],
    ids=[
        "a form sent from elsewhere",
        "another site",
        "a page of no site",
        "another program of this computer",
    ],
)
def test_what_changes_something_is_refused_from_elsewhere(
    client: TestClient, headers: dict[str, str]
) -> None:
    """A form or a script of another page cannot write, not even by navigating."""
    answer = client.post("/api/health", headers=headers)
    assert answer.status_code == 421
    assert answer.json()["errors"][0]["code"] == "not_this_page"


def test_the_page_itself_may_ask_to_change_something(client: TestClient) -> None:
    """With its own origin a request comes through to the routes."""
    answer = client.post(
        "/api/health", headers={"origin": "http://127.0.0.1", "sec-fetch-site": "same-origin"}
    )
    assert answer.status_code == 405
