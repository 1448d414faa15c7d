"""Asks everybody who does not sit at this computer for the key."""

from __future__ import annotations

import json
import math
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qs

from starlette.types import ASGIApp, Receive, Scope, Send

from scantling.errors import Fault
from scantling.web.guard.door import door_page
from scantling.web.guard.guarding import LOCAL_HOSTS
from scantling.web.guard.network import Network, Paced
from scantling.web.sent.refusing import refusal
from scantling.web.sent.views import as_json

__all__ = ["COOKIE", "HEADER", "Keyed", "is_here"]

COOKIE, HEADER = "scantling-pass", b"x-scantling-key"
"""What a browser carries once it came in; where a program tells the key."""
_HERE = ("127.0.0.1",)
_READING = frozenset({"GET", "HEAD"})
_PLEA = "Scan the code that the program printed, with the camera of this phone."
_NEW = f"{_PLEA} The key is new each time the program is started."
_ASKS = "asks for a key"


class Keyed:
    """Lets in who is at this computer, and from the network who has the key.

    Parameters
    ----------
    app
        What it stands before.
    network
        The key, and where it is asked for.
    wrong
        Paces wrong keys: five a minute from one address; then none is looked at.
    sent
        Paces what is sent to be kept or worked out: 240 a minute from one address.
    """

    def __init__(
        self, app: ASGIApp, network: Network, wrong: Paced | None = None, sent: Paced | None = None
    ) -> None:
        self._app, self._network = app, network
        self._wrong = wrong or Paced(5, 60)
        self._sent = sent or Paced(240, 60)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http" or is_here(scope):
            await self._app(scope, receive, send)
            return
        address = str((scope.get("client") or ("",))[0])
        headers = dict(scope["headers"])
        entering = scope["path"] == "/enter" and scope["method"] == "GET"
        told = _told(scope) if entering else headers.get(HEADER, b"").decode("latin-1")
        if told and (wait_s := self._wrong.wait_s(address)):
            await _refuse(send, headers, 429, _too_many("key", wait_s), wait_s)
        elif entering and self._network.is_key(told):
            await self._let_in(send)
        elif entering or (told and not self._network.is_key(told)):
            self._wrong.note(address)
            await _refuse(
                send,
                headers,
                401,
                _no_key(
                    "is not the one of this run", f"{_PLEA} The key is new each time the program is started."
                ),
            )
        elif told or self._network.is_pass(_carried(headers)):
            await self._paced(scope, receive, send, address)
        else:
            await _refuse(send, headers, 401, _no_key(_ASKS))

    async def _paced(self, scope: Scope, receive: Receive, send: Send, address: str) -> None:
        if scope["method"] not in _READING:
            if wait_s := self._sent.wait_s(address):
                await _refuse(send, dict(scope["headers"]), 429, _too_many("request", wait_s), wait_s)
                return
            self._sent.note(address)
        await self._app(scope, receive, send)

    async def _let_in(self, send: Send) -> None:
        carried = f"{COOKIE}={self._network.pass_word}; HttpOnly; SameSite=Strict; Path=/"
        headers = [(b"location", b"/"), (b"set-cookie", carried.encode()), (b"cache-control", b"no-store")]
        await send({"type": "http.response.start", "status": 303, "headers": headers})
        await send({"type": "http.response.body", "body": b""})


def is_here(scope: Scope) -> bool:
    """Whether it comes from this computer, by this computer's own name for itself."""
    host = dict(scope["headers"]).get(b"host", b"").decode("latin-1").partition(":")[0]
    client: tuple[str, int] = scope.get("client") or ("", 0)
    return client[0] in _HERE and host in LOCAL_HOSTS


def _told(scope: Scope) -> str:
    told: list[str] = parse_qs(str(scope["query_string"], "latin-1")).get("key", [""])
    return told[0][:200]


def _carried(headers: dict[bytes, bytes]) -> str:
    try:
        morsel = SimpleCookie(headers.get(b"cookie", b"").decode("latin-1")).get(COOKIE)
    except CookieError:
        return ""
    return morsel.value if morsel else ""


def _no_key(rule: str, remedy: str = _PLEA) -> Fault:
    return Fault(code="no_key", field="key", value="", rule=rule, remedy=remedy)


def _too_many(field: str, wait_s: float) -> Fault:
    return Fault(
        code="too_often",
        field=field,
        value="",
        rule="was sent too often in a minute",
        remedy=f"Wait {math.ceil(wait_s)} seconds.",
    )


def _heading(fault: Fault) -> str:
    """What is read first by who opened a page and is refused."""
    return f"{'This page' if fault.rule == _ASKS else f'The {fault.field}'} {fault.rule}"


async def _refuse(
    send: Send, headers: dict[bytes, bytes], status: int, fault: Fault, wait_s: float = 0.0
) -> None:
    """In words for a browser that opens a page, else in the one body of errors."""
    body, kind = json.dumps(as_json(refusal(status, [fault]))), b"application/json"
    if b"text/html" in headers.get(b"accept", b""):
        body, kind = door_page(_heading(fault), fault.remedy), b"text/html; charset=utf-8"
    more: list[Any] = [(b"content-type", kind), (b"cache-control", b"no-store")]
    if wait_s:
        more.append((b"retry-after", str(math.ceil(wait_s)).encode()))
    await send({"type": "http.response.start", "status": status, "headers": more})
    await send({"type": "http.response.body", "body": body.encode()})
