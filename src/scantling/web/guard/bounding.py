"""No request is longer than what a piece and all that goes with it can need."""

from __future__ import annotations

import json

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from scantling.errors import Fault
from scantling.web.sent.refusing import refusal
from scantling.web.sent.views import as_json

__all__ = ["MOST_BYTES", "Bounded"]

MOST_BYTES = 6_000_000
"""Longest body read: a piece, a shop, a rack and a room of the longest kind, as JSON. [bytes]"""


class Bounded:
    """Reads a body whole before it is looked at, and refuses one without an end.

    Parameters
    ----------
    app
        What it stands before.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http" or scope["method"] in {"GET", "HEAD"}:
            await self._app(scope, receive, send)
            return
        body, more = b"", True
        while more and len(body) <= MOST_BYTES:
            message = await receive()
            if message["type"] != "http.request":
                return  # whoever asked has gone
            body += message.get("body", b"")
            more = message.get("more_body", False)
        if len(body) > MOST_BYTES:
            await _refuse(send)
            return
        await self._app(scope, _again(body, receive), send)


def _again(body: bytes, receive: Receive) -> Receive:
    """Gives the body once more, then whatever comes."""
    told = False

    async def receiving() -> Message:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return receiving


async def _refuse(send: Send) -> None:
    fault = Fault(
        code="too_big",
        field="body",
        value=f"more than {MOST_BYTES / 1e6:g} MB",
        rule=f"must be at most {MOST_BYTES / 1e6:g} MB",
        remedy="A piece, shop, rack or room is a few pages of text: is this the right file?",
    )
    body = json.dumps(as_json(refusal(413, [fault]))).encode()
    headers = [(b"content-type", b"application/json"), (b"connection", b"close")]
    await send({"type": "http.response.start", "status": 413, "headers": headers})
    await send({"type": "http.response.body", "body": body})
