"""Serving the page to this computer, and to nobody else."""

from __future__ import annotations

import os
import secrets
import socket
import threading
import webbrowser
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from scantling.errors import InputError, ScantlingError
from scantling.web.designs.session import Session
from scantling.web.guard.network import Network, code_text, shop_address

if TYPE_CHECKING:
    from fastapi import FastAPI

__all__ = ["PORT", "bind", "serve", "serve_kept"]

PORT = 8417
"""Tried first where no port is given; any free one is taken where it is in use."""
_RUNS = 2**30
"""Numbers to begin the steps of the notes with: more than there will be steps of a run."""


def serve(  # noqa: PLR0913 - one for each option of the command
    piece: Path,
    *,
    rack: Path | None = None,
    shop: Path | None = None,
    room: str | Path | None = None,
    measured: Path | None = None,
    fractions: int | None = None,
    given: Mapping[str, str] | None = None,
    port: int | None = None,
    network: bool = False,
    opened: Callable[[str], object] = webbrowser.open,
) -> None:
    """Serve the page until it is stopped with Ctrl+C.

    Parameters
    ----------
    piece, rack, shop, room
        As in :class:`~scantling.web.designs.session.Session`.
    measured, fractions
        As in :class:`~scantling.web.designs.sources.FileSources`.
    given
        Parameters the page is opened with, and ``units`` to show lengths in; its address carries them.
    port
        Port; None takes one that is free.
    network
        Whether phones on the shop's network may come in, with a key.
    opened
        Called with the address once it answers; ``lambda address: None`` opens nothing.

    Raises
    ------
    InputError
        ``port_taken``, ``port_out_of_range``, ``no_network``.
    """
    from scantling.plan.planner import Planner
    from scantling.web.app import create_app
    from scantling.web.designs.designing import PieceDesigner
    from scantling.web.designs.sources import FileSources
    from scantling.web.kept.desk import desk_of
    from scantling.web.kept.notes_keeping import FileNotes

    with bind(port) as listening:
        address = f"http://127.0.0.1:{listening.getsockname()[1]}/"
        address += f"?{urlencode(given)}" if given else ""
        on_network = _network(listening) if network else None
        desk = desk_of(os.environ)
        sources = FileSources(
            piece,
            rack=rack,
            shop=shop,
            room=room,
            stockroom=desk.rack,
            measured=measured,
            fractions=fractions,
        )
        planner = Planner()
        session = Session(piece, designer=PieceDesigner(sources, planner=planner))
        notes = FileNotes(piece, sources, planner=planner, first=secrets.randbelow(_RUNS))
        app = create_app(session, desk, network=on_network, notes=notes)

        def ready(address: str) -> None:
            threading.Thread(target=_prepare, args=(session, given or {}), daemon=True).start()
            opened(address)

        told = f"{piece.name} is on {address}"
        _begin(app, listening, on_network, told=told, address=address, opened=ready)


def serve_kept(
    *, port: int | None = None, network: bool = False, opened: Callable[[str], object] = webbrowser.open
) -> None:
    """Serve the pieces that are kept, beginning with their list, until stopped.

    Parameters
    ----------
    port, opened
        As in :func:`serve`.
    network
        Whether phones on the shop's network may come in, with a key.

    Raises
    ------
    InputError
        As :func:`serve`, and ``no_network``.
    """
    from scantling.web.app import create_app
    from scantling.web.kept.desk import desk_of

    with bind(port) as listening:
        address = f"http://127.0.0.1:{listening.getsockname()[1]}/pieces"
        on_network = _network(listening) if network else None
        app = create_app(None, desk_of(os.environ), network=on_network)
        told = f"Your pieces are on {address}"
        _begin(app, listening, on_network, told=told, address=address, opened=opened)


def _network(listening: socket.socket) -> Network:
    return Network(shop_address(), listening.getsockname()[1])


def _begin(
    app: FastAPI,
    listening: socket.socket,
    network: Network | None,
    *,
    told: str,
    address: str,
    opened: Callable[[str], object],
) -> None:
    """Say where it is, open it, and answer until it is stopped."""
    listening.listen(64)
    if network is None:
        print(f"{told}\nOnly this computer can see it. Ctrl+C stops it.", flush=True)
        opened(address)
        _run(app, listening)
        return
    with bind(network.port, host=network.host) as outside:
        outside.listen(64)
        print(_words_of(network, address), flush=True)
        opened(address)
        _run(app, listening, outside)


def _words_of(network: Network, address: str) -> str:
    return (
        f"{code_text(network.link)}\nScan this with a phone on the shop's network, or open {network.link}\n"
        f"It holds the key; the code is on http://127.0.0.1:{network.port}/phone too. What goes over\n"
        f"the network is not encrypted: use one you trust. On this computer: {address}. Ctrl+C stops it."
    )


def _run(app: FastAPI, *listening: socket.socket) -> None:
    import uvicorn

    config = uvicorn.Config(app, log_level="warning", lifespan="off", timeout_graceful_shutdown=2)
    uvicorn.Server(config).run(sockets=list(listening))


def bind(port: int | None, *, host: str = "127.0.0.1") -> socket.socket:
    """A socket on this computer alone, unless another of its addresses is named."""
    if port is not None and not 0 <= port <= 65535:
        raise InputError(
            code="port_out_of_range",
            field="port",
            value=port,
            rule="must lie in 1..65535",
            remedy="Leave it out and a free one is taken.",
        )
    for tried in (PORT, 0) if port is None else (port,):
        bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            bound.bind((host, tried))
        except OSError:
            bound.close()
        else:
            return bound
    raise InputError(
        code="port_taken",
        field="port",
        value=port,
        rule="must be free",
        remedy="Another program listens there: give another port, or none.",
    )


def _prepare(session: Session, given: Mapping[str, str]) -> None:
    """Draw up the first design while the browser starts; its faults are told when it is asked for."""
    try:
        session.scene(given)
        session.design(given)
    except ScantlingError:
        return
