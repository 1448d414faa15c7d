"""The page of who is not let in: it says why in words and needs no other file, for none is given out."""

from __future__ import annotations

from html import escape

__all__ = ["DOOR_STYLE", "door_page", "is_opened"]

DOOR_STYLE = (
    ":root{color-scheme:light dark}"
    "body{margin:0 auto;max-width:34rem;padding:2.5rem 1.2rem;font:400 1.15rem/1.5 system-ui,sans-serif;"
    "background:light-dark(#eef1ea,#141915);color:light-dark(#16201a,#eef2ea)}"
    "h1{margin:0 0 .8rem;padding-top:.8rem;border-top:5px solid;font-size:1.6rem;line-height:1.2}"
    "p{margin:0}"
)
"""Written into the page itself; the policy of the server names its digest."""


def is_opened(method: str, headers: dict[str, str]) -> bool:
    """Whether somebody opens an address in a browser, and no program or script asks for it.

    Parameters
    ----------
    method
        HTTP method.
    headers
        By name, in lower case.
    """
    return method == "GET" and "text/html" in headers.get("accept", "")


def door_page(said: str, remedy: str) -> str:
    """The page that tells why, and what to do.

    Parameters
    ----------
    said
        What is in the way, as its heading.
    remedy
        What to do, one sentence.
    """
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Scantling</title>'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<style>{DOOR_STYLE}</style></head>"
        f"<body><main><h1>{escape(said)}</h1><p>{escape(remedy)}</p></main></body></html>"
    )
