"""What is sent as JSON, and how: the plan of a piece is some 400 kB of it at every size that is tried."""

from __future__ import annotations

import json

from fastapi import Response
from pydantic_core import to_json

from scantling.web.sent.views import as_json

__all__ = ["Sent", "json_bytes"]

_NO_NUMBERS = (b"NaN", b"Infinity")


def json_bytes(view: object) -> bytes:
    r"""A view as it is sent, in UTF-8.

    Parameters
    ----------
    view
        Of :mod:`scantling.web.sent.views`, or plain data.

    Raises
    ------
    ValueError
        For a number that JSON has no word for.

    Examples
    --------
    >>> json_bytes({"sizes": (1.5, None), "words": "5 mm"}).decode()
    '{"sizes":[1.5,null],"words":"5\xa0mm"}'
    """
    told = as_json(view)
    sent = to_json(told)
    if any(word in sent for word in _NO_NUMBERS):
        json.dumps(told, allow_nan=False)
    return sent


class Sent(Response):
    """A view as JSON, written by what reads the requests: six times as soon as the standard library does."""

    media_type = "application/json"

    def __init__(self, view: object, headers: dict[str, str] | None = None) -> None:
        super().__init__(json_bytes(view), headers=headers)
