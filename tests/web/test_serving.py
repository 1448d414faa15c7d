"""The server listens on this computer alone, and says what is wrong with a port."""

from __future__ import annotations

import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from scantling.cli.main import main
from scantling.errors import InputError
from scantling.plan.planner import Planner
from scantling.web.designs.designing import PieceDesigner
from scantling.web.designs.sources import Sources
from scantling.web.serving import bind, serve
from tests.web.specimen import DEMO

_SERVE = (
    "import sys; from pathlib import Path; from scantling.web.serving import serve; "
    "serve(Path(sys.argv[1]), port=0, given={'width': '60 cm'}, "
    "opened=lambda address: print('opened', address, flush=True))"
)


def test_only_this_computer_can_reach_it() -> None:
    """The socket is bound to the loopback address, whatever port it gets."""
    with bind(None) as bound:
        host, port = bound.getsockname()
    assert host == "127.0.0.1"
    assert port > 0


def test_a_taken_port_is_told() -> None:
    """With the port, and what to do."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(InputError, match=f"port: must be free, got {port}.") as caught:
            bind(port)
    assert caught.value.code == "port_taken"


@pytest.mark.parametrize("port", [-1, 65536])
def test_a_port_there_cannot_be_is_told(port: int) -> None:
    """The rule names the range."""
    with pytest.raises(InputError, match=f"port: must lie in 1..65535, got {port}.") as caught:
        bind(port)
    assert caught.value.code == "port_out_of_range"


def test_the_command_serves_until_it_is_stopped() -> None:
    """It prints its address, answers there, and ends without a word more when it is stopped."""
    command = [sys.executable, "-c", _SERVE, str(DEMO)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        lines = [running.stdout.readline() for _ in range(3)]
        address = lines[2].split()[1]
        assert lines[0] == f"reading_table.yaml is on {address}\n"
        assert address.endswith("/?width=60+cm")
        with urllib.request.urlopen(address.replace("?", "api/shape?"), timeout=60) as answer:  # noqa: S310 - our own server
            assert answer.status == 200
        running.terminate()
        _, complaint = running.communicate(timeout=30)
    assert complaint == ""


def test_the_command_hands_on_sizes_and_units(monkeypatch: pytest.MonkeyPatch) -> None:
    """``--set`` and ``--units`` become what the page is opened with."""
    asked: dict[str, object] = {}
    monkeypatch.setattr("scantling.web.serving.serve", lambda _piece, **options: asked.update(options))
    assert main(["serve", str(DEMO), "--set", "width=60 cm", "--units", "in", "--no-browser"]) == 0
    assert asked["given"] == {"width": "60 cm", "units": "in"}


def test_the_page_is_of_what_is_measured_and_in_the_fraction_asked_for(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """``--measured`` and ``--fractions`` count for the page as for the plan: 657 mm is 25 7/8 in."""
    measured = tmp_path / "made.yaml"
    measured.write_text("measured: {top: {width: 657 mm}}\n", encoding="utf-8")
    shown: list[dict[str, tuple[tuple[str, str], ...]]] = []

    class Seen(PieceDesigner):
        def __init__(self, sources: Sources, *, planner: Planner) -> None:
            super().__init__(sources, planner=planner)
            shown.append(dict(self.shape({"units": "in"}).sizes))

    monkeypatch.setattr("scantling.web.designs.designing.PieceDesigner", Seen)
    monkeypatch.setattr("scantling.web.serving._run", lambda *_: None)
    asked = ["serve", str(DEMO), "--no-browser", "--measured", str(measured), "--fractions", "16"]
    assert main(asked) == 0
    assert dict(shown[0]["top"])["Width"].startswith("25 7/8 in")


def test_the_command_opens_one_piece_to_the_network_only_where_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """``--network`` is handed on; without it nobody else is let in."""
    asked: dict[str, object] = {}
    monkeypatch.setattr("scantling.web.serving.serve", lambda _piece, **options: asked.update(options))
    assert main(["serve", str(DEMO), "--no-browser"]) == 0
    assert asked["network"] is False
    assert main(["serve", str(DEMO), "--no-browser", "--network"]) == 0
    assert asked["network"] is True


def test_one_piece_on_the_network_wants_the_key(monkeypatch: pytest.MonkeyPatch) -> None:
    """It listens at both addresses, tells the link with its key, and answers nobody from there without it."""
    monkeypatch.setattr("scantling.web.serving.shop_address", lambda: "127.0.0.2")
    heard: list[str] = []

    def answered(app: object, *listening: socket.socket) -> None:
        heard.extend(each.getsockname()[0] for each in listening)
        heard.extend(str(middleware.cls.__name__) for middleware in app.user_middleware)  # type: ignore[attr-defined]

    monkeypatch.setattr("scantling.web.serving._run", answered)
    serve(DEMO, port=0, network=True, opened=lambda _address: None)
    assert heard[:2] == ["127.0.0.1", "127.0.0.2"]
    assert "Keyed" in heard
    heard.clear()
    serve(DEMO, port=0, opened=lambda _address: None)
    assert heard[0] == "127.0.0.1"
    assert "127.0.0.2" not in heard
    assert "Keyed" not in heard
