"""Versions of a piece: listed, opened, saved, stepped along, brought back."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from scantling.store.pieces import find_piece
from scantling.store.versions import content_at, list_versions, redo, restore, save, undo
from scantling.web.documents.answering import kept
from scantling.web.kept.desk import Desk
from scantling.web.kept.picture import picture_of
from scantling.web.kept.piece_keeping import opened_piece
from scantling.web.sent.bodies import MOVED, ContentBody
from scantling.web.sent.numbers import PieceNumber, VersionNumber
from scantling.web.sent.piece_bodies import (
    PieceOpen,
    Restoring,
    Stepping,
    VersionBody,
    VersionList,
    VersionNew,
    VersionOpen,
)

__all__ = ["version_routes"]


class _Picture(Response):
    media_type = "image/svg+xml"


def version_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its versions.

    Parameters
    ----------
    desk
        Where they are kept.
    """
    routes = APIRouter(tags=["versions"])
    _reading(routes, desk)
    _saving(routes, desk)
    return routes


def _reading(routes: APIRouter, desk: Desk) -> None:
    @routes.get("/versions")
    def list_all(number: PieceNumber) -> VersionList:
        """Every version there has been, the newest first."""
        with desk.reading() as records:
            piece, listed = find_piece(records, number), list_versions(records, number)
        return VersionList(versions=[VersionBody.of(version, piece) for version in listed])

    @routes.get("/versions/{version}")
    def open_version(number: PieceNumber, version: VersionNumber) -> VersionOpen:
        """One version with what it holds."""
        with desk.reading() as records:
            content = content_at(records, number, version)
            piece, listed = find_piece(records, number), list_versions(records, number)
        found = next(one for one in listed if one.number == version)
        return VersionOpen(version=VersionBody.of(found, piece), content=ContentBody.of(content))

    @routes.get("/versions/{version}/picture.svg", response_class=_Picture)
    def show_picture(number: PieceNumber, version: VersionNumber, request: Request) -> Response:
        """The piece as it stands, in lines; a piece with faults has none, and they are told."""
        with desk.reading() as records:
            key = content_at(records, number, version).digest
        return kept(request, key, lambda: _Picture(picture_of(desk, number, version)))


def _saving(routes: APIRouter, desk: Desk) -> None:
    @routes.post("/versions", status_code=201, responses=MOVED)
    def save_version(number: PieceNumber, new: VersionNew) -> PieceOpen:
        """Keep a content as the next version; one that is as it was makes none."""
        content = new.content.content()
        with desk.writing() as records:
            save(records, number, content, parent=new.parent, now=desk.now(), why=new.why)
            return opened_piece(records, number)

    @routes.post("/undo", responses=MOVED)
    def step_back(number: PieceNumber, step: Stepping) -> PieceOpen:
        """Go back to the version the current one was made from."""
        with desk.writing() as records:
            undo(records, number, parent=step.parent, now=desk.now())
            return opened_piece(records, number)

    @routes.post("/redo", responses=MOVED)
    def step_forward(number: PieceNumber, step: Stepping) -> PieceOpen:
        """Go forward again to where the last step back came from."""
        with desk.writing() as records:
            redo(records, number, parent=step.parent, now=desk.now())
            return opened_piece(records, number)

    @routes.post("/restore", status_code=201, responses=MOVED)
    def bring_back(number: PieceNumber, back: Restoring) -> PieceOpen:
        """Bring an older version back, as a new one."""
        with desk.writing() as records:
            restore(records, number, back.version, parent=back.parent, now=desk.now(), why=back.why)
            return opened_piece(records, number)
