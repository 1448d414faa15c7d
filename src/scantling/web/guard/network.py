"""The shop's own network: who may come in from a phone, and with what key."""

from __future__ import annotations

import hashlib
import hmac
import secrets
import socket
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from html import escape
from io import BytesIO, StringIO
from time import monotonic

from scantling.errors import InputError

__all__ = ["Network", "Paced", "code_svg", "code_text", "shop_address"]


@dataclass(frozen=True, slots=True)
class Network:
    """Where the page is on the shop's network, and what opens it.

    Parameters
    ----------
    host
        Address of this computer there.
    port
        Port it is bound to.
    key
        What whoever comes from there must know; made anew each time the page is opened so.
    """

    host: str
    port: int
    key: str = field(default_factory=lambda: secrets.token_urlsafe(16), repr=False)

    @property
    def link(self) -> str:
        """The address a phone opens; it holds the key."""
        return f"http://{self.host}:{self.port}/enter?key={self.key}"

    @property
    def pass_word(self) -> str:
        """What a browser that came in carries from then on; the key cannot be had from it."""
        return hmac.new(self.key.encode(), b"came in", hashlib.sha256).hexdigest()

    def is_key(self, told: str) -> bool:
        """Whether it is the key; takes as long for one nearly right as for one all wrong."""
        return hmac.compare_digest(told.encode(), self.key.encode())

    def is_pass(self, told: str) -> bool:
        """Whether it is what a browser that came in carries; as :meth:`is_key`."""
        return hmac.compare_digest(told.encode(), self.pass_word.encode())


class Paced:
    """Counts what each address does, and says when it is too much.

    Parameters
    ----------
    most
        So many in each span.
    span_s
        The span. [s]
    now
        The time. [s]
    """

    _MOST_ADDRESSES = 2000

    def __init__(self, most: int, span_s: float, now: Callable[[], float] = monotonic) -> None:
        self._most, self._span_s, self._now = most, span_s, now
        self._seen: dict[str, deque[float]] = {}

    def note(self, address: str) -> None:
        """It did it once more."""
        if address not in self._seen and len(self._seen) >= self._MOST_ADDRESSES:
            self._seen.pop(next(iter(self._seen)))
        self._seen.setdefault(address, deque(maxlen=self._most)).append(self._now())

    def wait_s(self, address: str) -> float:
        """How long it must wait; 0 if it may go on. [s]"""
        seen = self._seen.get(address, deque())
        if len(seen) < self._most:
            return 0.0
        return max(0.0, seen[0] + self._span_s - self._now())


def shop_address() -> str:
    """Address of this computer on the network it is on; nothing is sent to find it.

    Raises
    ------
    InputError
        ``no_network``.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(("192.0.2.1", 9))  # an address for documents (RFC 5737): it only asks which way out
            host = str(asked.getsockname()[0])
        except OSError:
            host = ""
    if not host or host.startswith("127."):
        raise InputError(
            code="no_network",
            field="--network",
            value="",
            rule="needs a network this computer is on",
            remedy="Join the shop's network, or leave it out: the page is then on this computer only.",
        )
    return host


def code_text(link: str) -> str:
    """A code for a phone's camera, to print in a terminal."""
    import segno

    out = StringIO()
    segno.make_qr(link, error="m").terminal(out, compact=True)
    return out.getvalue()


def code_svg(link: str) -> str:
    """The same as a drawing, black on white in any theme; it holds no style."""
    import segno

    out = BytesIO()
    code = segno.make_qr(link, error="m")
    code.save(out, kind="svg", xmldecl=False, svgns=True, scale=6, dark="#000", light="#fff", nl=False)
    return out.getvalue().decode().replace("<svg ", f'<svg role="img" aria-label="{escape("Code")}" ', 1)
