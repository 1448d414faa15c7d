"""The documents for shops and for rooms."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import HTMLResponse

from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing

__all__ = ["profile_pages"]


def profile_pages() -> APIRouter:
    """Where shops and rooms are set."""
    routes = APIRouter()

    @routes.get("/shop", include_in_schema=False)
    def show_shop() -> HTMLResponse:
        return leaf("shop", Standing())

    @routes.get("/rooms", include_in_schema=False)
    def show_rooms() -> HTMLResponse:
        return leaf("rooms", Standing())

    return routes
