"""The page of whoever opens in a browser what cannot be shown: what is in the way, and a way home."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from fastapi import Request, Response

from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing
from scantling.web.guard.door import is_opened
from scantling.web.sent.views import FaultView

__all__ = ["refusal_page", "wants_page"]

_SAID = {
    "unknown_piece": "There is no such piece",
    "unknown_version": "There is no such version",
    "unknown_draft": "This text is no longer held",
    "program_fault": "Something went wrong in the program",
    "records_busy": "The records cannot be opened now",
    "records_full": "The records cannot be opened now",
    "records_closed": "The records cannot be opened now",
    "records_damaged": "The records cannot be opened",
    "records_newer": "The records cannot be opened",
    "records_foreign": "The records cannot be opened",
}
"""What a page says first, by the code of its fault."""
_OTHERWISE = "This cannot be shown"


def wants_page(request: Request) -> bool:
    """Whether somebody opens an address in a browser, and no program or script asks for it."""
    return is_opened(request.method, dict(request.headers))


def refusal_page(request: Request, status: int, faults: Iterable[FaultView]) -> Response:
    """What is refused, in words, with a way home.

    Parameters
    ----------
    request
        What was asked; its app says in ``state.listed`` whether there is a list of pieces to go home to.
    status
        HTTP status.
    faults
        At least one.
    """
    told = list(faults)
    listed = bool(getattr(request.app.state, "listed", False))
    lines = [_words(fault, request.url.path) for fault in told]
    home = ("/pieces", "Your pieces") if listed else ("/", "The piece")
    inside = "".join(f"<p>{escape(line)}</p>" for line in dict.fromkeys(lines))
    inside += f'<p class="ways"><a class="key main" href="{home[0]}">{home[1]}</a></p>'
    said = "There is no such page" if _is_wrong_address(told[0]) else _SAID.get(told[0].code, _OTHERWISE)
    page = leaf("refusal", Standing(base=None if listed else "/", listed=listed), ready=inside, said=said)
    page.status_code = status
    page.headers["cache-control"] = "no-store"
    return page


def _is_wrong_address(fault: FaultView) -> bool:
    """Whether nothing can be at an address: no route, no way to open it, a word where a number stands."""
    return fault.code in {"not_found", "method_not_allowed"} or fault.code.startswith("path_")


def _words(fault: FaultView, path: str) -> str:
    """A fault as a sentence; that of a wrong address names the address alone."""
    if _is_wrong_address(fault):
        return (
            f"Nothing is at {path[:80]}. The address may be mistyped, or of an older version of the program."
        )
    return f"{fault.place} {fault.rule}, got {fault.found}. {fault.remedy}".strip()
