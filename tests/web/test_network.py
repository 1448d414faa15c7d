"""Opened to the shop's network: who is refused, who comes in, and that none does unasked."""

from __future__ import annotations

import re
import socket
from collections.abc import Callable
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.errors import InputError
from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.guard import network as networks
from scantling.web.guard.bounding import MOST_BYTES
from scantling.web.guard.keyed import COOKIE
from scantling.web.guard.network import Network, Paced, code_svg, code_text, shop_address
from scantling.web.kept.desk import Desk
from scantling.web.serving import bind
from tests.store.clock import Clock
from tests.web.matrix_code import modules_of, read_code, version_needed

__all__: list[str] = []

_SHOP = Network("192.168.7.5", 8417)
_PHONE = ("192.168.7.20", 50_000)
Visit = Callable[..., TestClient]


@pytest.fixture
def visit(tmp_path: Path) -> Visit:
    """Somebody who comes from an address to an address of the computer."""
    place = Place(file=tmp_path / "records.db")
    app = create_app(None, Desk(lambda: open_records(place), now=Clock()), network=_SHOP)

    def visiting(
        client: tuple[str, int] = _PHONE, to: str = "http://192.168.7.5:8417", *, came_in: bool = False
    ) -> TestClient:
        made = TestClient(app, base_url=to, client=client, follow_redirects=False)
        if came_in:
            assert made.get(f"/enter?key={_SHOP.key}").status_code == 303
        return made

    return visiting


def test_without_the_key_nothing_is_told_and_nothing_done(visit: Visit) -> None:
    """Neither page, file, answer nor change; a browser reads why in words, a program in the one body."""
    phone = visit()
    for path in ("/", "/pieces", "/api/health", "/static/js/main.js", "/api/openapi.json", "/phone"):
        refused = phone.get(path)
        assert refused.status_code == 401
        assert refused.json()["errors"][0]["code"] == "no_key"
    assert phone.post("/api/pieces", json={"form": "reading-table"}).status_code == 401
    words = phone.get("/pieces", headers={"accept": "text/html"})
    assert "asks for a key" in words.text
    assert visit(came_in=True).get("/api/pieces").json()["pieces"] == []


def test_the_link_of_the_code_lets_a_phone_in_until_the_program_stops(visit: Visit) -> None:
    """A cookie no script reads and no other site sends, which is not the key; another run knows it not."""
    phone = visit()
    entered = phone.get(f"/enter?key={_SHOP.key}")
    assert (entered.status_code, entered.headers["location"]) == (303, "/")
    cookie = entered.headers["set-cookie"]
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= {part.strip() for part in cookie.split(";")}
    assert _SHOP.key not in cookie
    assert phone.get("/pieces").status_code == 200
    assert phone.post("/api/pieces", json={"form": "reading-table"}).status_code == 201
    assert not Network("192.168.7.5", 8417).is_pass(phone.cookies[COOKIE])


def test_a_program_tells_the_key_in_a_header(visit: Visit) -> None:
    """The right one is answered, a wrong one is not, nor a cookie made up."""
    phone = visit()
    assert phone.get("/api/pieces", headers={"x-scantling-key": _SHOP.key}).status_code == 200
    assert phone.get("/api/pieces", headers={"x-scantling-key": "no"}).status_code == 401
    assert phone.get("/api/pieces", headers={"cookie": f"{COOKIE}={_SHOP.key}"}).status_code == 401
    assert phone.get("/api/pieces", headers={"cookie": f"{COOKIE}=é".encode("latin-1")}).status_code == 401


def test_after_five_wrong_keys_not_even_the_right_one_is_looked_at(visit: Visit) -> None:
    """One address waits a minute, told how long; another is not held up by it."""
    phone = visit()
    for _ in range(5):
        guessed = phone.get("/enter?key=guess", headers={"accept": "text/html"})
        assert guessed.status_code == 401
        assert "The key is not the one of this run" in guessed.text
    held = phone.get(f"/enter?key={_SHOP.key}")
    assert held.status_code == 429
    assert 0 < int(held.headers["retry-after"]) <= 60
    told = phone.get(f"/enter?key={_SHOP.key}", headers={"accept": "text/html"})
    assert "The key was sent too often in a minute" in told.text
    assert phone.get("/api/pieces", headers={"x-scantling-key": _SHOP.key}).status_code == 429
    assert visit(("192.168.7.21", 50_000)).get(f"/enter?key={_SHOP.key}").status_code == 303


def test_another_name_or_another_site_is_refused_even_with_the_key(visit: Visit) -> None:
    """A name pointed at this computer, and a page elsewhere that sends what it should not."""
    renamed = visit(to="http://evil.example:8417")
    assert renamed.get(f"/enter?key={_SHOP.key}").status_code == 421
    phone = visit(came_in=True)
    for origin in ("http://evil.example", "http://192.168.7.5:9000", "null"):
        sent = phone.post("/api/pieces", json={"form": "reading-table"}, headers={"origin": origin})
        assert sent.status_code == 421
    own = phone.post(
        "/api/pieces", json={"form": "reading-table"}, headers={"origin": "http://192.168.7.5:8417"}
    )
    assert own.status_code == 201


def test_what_is_sent_is_bounded_in_size_and_in_number(visit: Visit) -> None:
    """Over the bound it is refused; past 240 a minute it waits; reading goes on."""
    phone = visit(came_in=True)
    assert phone.post("/api/pieces", content=b"x" * (MOST_BYTES + 1)).status_code == 413
    answers = [phone.post("/api/pieces", json={}).status_code for _ in range(240)]
    assert set(answers[:239]) == {422}
    assert answers[239] == 429
    assert phone.get("/api/pieces").status_code == 200


def test_this_computer_needs_no_key_by_its_own_name_and_shows_the_code(visit: Visit) -> None:
    """From here to here; a phone that calls itself so is still asked, and never sees the code."""
    here = visit(("127.0.0.1", 50_000), "http://127.0.0.1:8417")
    assert here.get("/pieces").status_code == 200
    shown = here.get("/phone")
    assert "<svg" in shown.text
    assert "style=" not in shown.text
    assert shown.headers["cache-control"] == "no-store"
    assert visit(to="http://127.0.0.1:8417").get("/pieces").status_code == 401
    phone = visit(came_in=True)
    for host in ("192.168.7.5:8417", "localhost:8417", "127.0.0.1:8417"):
        carried = {"host": host, "cookie": f"{COOKIE}={_SHOP.pass_word}"}
        assert phone.get("/phone", headers=carried).status_code == 404


def test_unless_asked_for_it_is_this_computer_only(tmp_path: Path) -> None:
    """The socket is bound to 127.0.0.1, an address of the network is refused, and there is no code."""
    with bind(0) as listening:
        assert listening.getsockname()[0] == "127.0.0.1"
    place = Place(file=tmp_path / "records.db")
    app = create_app(None, Desk(lambda: open_records(place), now=Clock()))
    assert TestClient(app, base_url="http://192.168.7.5:8417").get("/pieces").status_code == 421
    assert TestClient(app, base_url="http://127.0.0.1").get("/phone").status_code == 404
    assert TestClient(app, base_url="http://127.0.0.1").get("/enter?key=x").status_code == 404


def test_the_code_holds_the_link() -> None:
    """Read by another program, in the terminal and on the page, and in the least version that holds it."""
    modules = modules_of(code_text(_SHOP.link))
    assert len(modules) == 17 + 4 * version_needed(len(_SHOP.link))
    assert read_code(modules) == _SHOP.link
    assert _dark_in(code_svg(_SHOP.link)) == modules
    spoilt = [
        [not dark if (r, c) == (10, 10) else dark for c, dark in enumerate(row)]
        for r, row in enumerate(modules)
    ]
    with pytest.raises(AssertionError, match="check words"):
        read_code(spoilt)


def test_one_sign_changed_makes_another_code() -> None:
    """A code of another key is read as that."""
    changed = _SHOP.link[:-1] + ("B" if _SHOP.link[-1] == "A" else "A")
    modules = modules_of(code_text(changed))
    assert modules != modules_of(code_text(_SHOP.link))
    assert read_code(modules) == changed


def test_the_key_is_in_the_link_and_new_in_each_run() -> None:
    """And not in what is logged of the network."""
    assert _SHOP.key in _SHOP.link
    assert _SHOP.key not in repr(_SHOP)
    assert len({Network("192.168.7.5", 1).key for _ in range(50)}) == 50


def _dark_in(drawn: str) -> list[list[bool]]:
    """Dark modules of the drawing, its rows drawn as strokes from the left, without the border of four."""
    side = int(re.search(r'width="(\d+)"', drawn)[1]) // 6 - 8
    strokes = re.search(r'<path[^>]*stroke="#000"[^>]* d="([^"]+)"', drawn)[1]
    dark = [[False] * side for _ in range(side)]
    x, y = 0, 0
    for letter, told in re.findall(r"([Mmh])([^Mmh]+)", strokes):
        first, *second = (int(float(figure)) for figure in re.findall(r"-?[\d.]+", told))
        if letter == "h":
            dark[y - 4][x - 4 : x - 4 + first] = [True] * first
        x = first if letter == "M" else x + first
        y = second[0] if letter == "M" else y + sum(second)
    return dark


def test_pace_is_counted_over_the_span() -> None:
    """The third in ten seconds waits until the first is ten seconds old."""
    at = [0.0]
    paced = Paced(2, 10, now=lambda: at[0])
    paced.note("a")
    at[0] = 4
    paced.note("a")
    assert paced.wait_s("a") == 6
    assert paced.wait_s("b") == 0
    at[0] = 10
    assert paced.wait_s("a") == 0


def test_no_network_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """A computer on none says so, and what to do."""

    class Nowhere(socket.socket):
        def connect(self, address: object) -> None:
            raise OSError

    monkeypatch.setattr(networks.socket, "socket", Nowhere)
    with pytest.raises(InputError, match="network this computer is on"):
        shop_address()
