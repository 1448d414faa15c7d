"""Versions of a piece: listed, opened, saved, stepped along, brought back."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Request, Response

from scantling.store.bench_log import bench_states
from scantling.store.pieces import PieceRecord, find_piece
from scantling.store.versions import content_at, list_versions, redo, restore, save, undo
from scantling.web.answering import kept
from scantling.web.bodies import ContentBody, MovedOnBody
from scantling.web.desk import Desk
from scantling.web.picture import picture_of
from scantling.web.piece_bodies import (
    PieceOpen,
    Restoring,
    Stepping,
    VersionBody,
    VersionList,
    VersionNew,
    VersionOpen,
    piece_body,
)

__all__ = ["version_routes"]

Number = Annotated[int, Path(ge=1, le=2**31 - 1, description="Number of the piece.")]
Version = Annotated[int, Path(ge=1, le=2**31 - 1, description="Number of the version.")]
_MOVED: dict[int | str, dict[str, Any]] = {
    409: {"model": MovedOnBody, "description": "Another version is the current one, or there is no step."}
}


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
    def list_all(number: Number) -> VersionList:
        """Every version there has been, the newest first."""
        with desk.reading() as records:
            piece, listed = find_piece(records, number), list_versions(records, number)
        return VersionList(versions=[VersionBody.of(version, piece) for version in listed])

    @routes.get("/versions/{version}")
    def open_version(number: Number, version: Version) -> VersionOpen:
        """One version with what it holds."""
        with desk.reading() as records:
            content = content_at(records, number, version)
            piece, listed = find_piece(records, number), list_versions(records, number)
        found = next(one for one in listed if one.number == version)
        return VersionOpen(version=VersionBody.of(found, piece), content=ContentBody.of(content))

    @routes.get("/versions/{version}/picture.svg", response_class=_Picture)
    def show_picture(number: Number, version: Version, request: Request) -> Response:
        """The piece as it stands, in lines; a piece with faults has none, and they are told."""
        with desk.reading() as records:
            key = content_at(records, number, version).digest
        return kept(request, key, lambda: _Picture(picture_of(desk, number, version)))


def _saving(routes: APIRouter, desk: Desk) -> None:
    def told(piece: PieceRecord) -> PieceOpen:
        with desk.reading() as records:
            content, bench = content_at(records, piece.number, piece.current), bench_states(records)
        return PieceOpen(piece=piece_body(piece, bench.get(piece.number)), content=ContentBody.of(content))

    @routes.post("/versions", status_code=201, responses=_MOVED)
    def save_version(number: Number, new: VersionNew) -> PieceOpen:
        """Keep a content as the next version; one that is as it was makes none."""
        with desk.writing() as records:
            piece = save(
                records, number, new.content.content(), parent=new.parent, now=desk.now(), why=new.why
            )
        return told(piece)

    @routes.post("/undo", responses=_MOVED)
    def step_back(number: Number, step: Stepping) -> PieceOpen:
        """Go back to the version the current one was made from."""
        with desk.writing() as records:
            piece = undo(records, number, parent=step.parent, now=desk.now())
        return told(piece)

    @routes.post("/redo", responses=_MOVED)
    def step_forward(number: Number, step: Stepping) -> PieceOpen:
        """Go forward again to where the last step back came from."""
        with desk.writing() as records:
            piece = redo(records, number, parent=step.parent, now=desk.now())
        return told(piece)

    @routes.post("/restore", status_code=201, responses=_MOVED)
    def bring_back(number: Number, back: Restoring) -> PieceOpen:
        """Bring an older version back, as a new one."""
        with desk.writing() as records:
            piece = restore(records, number, back.version, parent=back.parent, now=desk.now(), why=back.why)
        return told(piece)
