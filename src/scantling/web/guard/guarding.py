"""What keeps the page to this computer: who may ask, and what the page itself may load."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Callable
from typing import Any

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from scantling.errors import Fault
from scantling.web.guard.door import DOOR_STYLE, door_page, is_opened
from scantling.web.sent.refusing import refusal
from scantling.web.sent.views import as_json

__all__ = ["LOCAL_HOSTS", "Guard", "policy_for"]

LOCAL_HOSTS = frozenset({"127.0.0.1", "localhost"})
"""Names of this computer; a page elsewhere that points its own name here is refused."""
_READING = frozenset({"GET", "HEAD"})
"""Methods that change nothing."""
_NOT_FROM_HERE = "This page cannot be opened from here"
_INLINE = re.compile(r"<script(?![^>]*\ssrc=)[^>]*>(.*?)</script>", re.DOTALL)


def policy_for(page: str) -> str:
    """Content security policy: all from here; inline only the page's import map and the style of the door."""
    scripts = " ".join(["'self'", *map(_digest, _INLINE.findall(page))])
    return (
        f"default-src 'none'; script-src {scripts}; style-src 'self' {_digest(DOOR_STYLE)}; "
        "img-src 'self' data: blob:; "
        "font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )


def _digest(inline: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(inline.encode()).digest()).decode()}'"


class Guard:
    """Refuses requests not meant for this computer, and sends the page's policy with every answer.

    Parameters
    ----------
    app
        What it stands before.
    policy
        Content security policy.
    hosts
        Names under which it is served.
    """

    def __init__(self, app: ASGIApp, policy: str, hosts: frozenset[str] = LOCAL_HOSTS) -> None:
        self._app, self._hosts = app, hosts
        self._headers = [
            (b"content-security-policy", policy.encode()),
            (b"x-content-type-options", b"nosniff"),
            (b"referrer-policy", b"no-referrer"),
            (b"cross-origin-resource-policy", b"same-origin"),
            (b"cross-origin-opener-policy", b"same-origin"),
        ]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        fault = _stranger(scope["method"], headers, self._hosts)
        if fault is None:
            await self._app(scope, receive, self._sending(send))
        else:
            await _refuse(fault, self._sending(send), page=is_opened(scope["method"], headers))

    def _sending(self, send: Send) -> Callable[[Message], Any]:
        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *self._headers]
            await send(message)

        return sending


def _stranger(method: str, headers: dict[str, str], hosts: frozenset[str]) -> Fault | None:
    """What is wrong with where a request comes from, if anything."""
    host = headers.get("host", "")
    if host.rpartition(":")[0 if ":" in host else 2] not in hosts:
        return Fault(
            code="not_this_computer",
            field="host",
            value=host[:100],
            rule="must be 127.0.0.1 or localhost" if hosts == LOCAL_HOSTS else "must be where it was opened",
            remedy="Open the address that the command printed.",
        )
    site, origin = headers.get("sec-fetch-site", ""), headers.get("origin", "")
    foreign = site == "cross-site" and (headers.get("sec-fetch-mode") != "navigate" or method not in _READING)
    if foreign or (method not in _READING and origin and origin.partition("://")[2] != host):
        return Fault(
            code="not_this_page",
            field="sec-fetch-site" if foreign else "origin",
            value="cross-site" if foreign else origin[:100],
            rule="must be asked by the page itself",
            remedy="Open the address that the command printed.",
        )
    return None


async def _refuse(fault: Fault, send: Callable[[Message], Any], *, page: bool) -> None:
    """In words for a browser that opens a page, else in the one body of errors."""
    body = door_page(_NOT_FROM_HERE, fault.remedy) if page else json.dumps(as_json(refusal(421, [fault])))
    kind = b"text/html; charset=utf-8" if page else b"application/json"
    await send({"type": "http.response.start", "status": 421, "headers": [(b"content-type", kind)]})
    await send({"type": "http.response.body", "body": body.encode()})
