"""A server with empty records for a browser, and the flags the browser is started with."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn

from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.guard.network import Network
from scantling.web.kept.desk import Desk
from scantling.web.serving import bind
from tests.store.clock import Clock

__all__ = ["FLAGS", "kept_server"]

FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]


@contextmanager
def kept_server(folder: Path) -> Iterator[str]:
    """Where a server of kept pieces is; its records lie in a folder, and a phone could be let in."""
    place = Place(file=folder / "records.db")
    elsewhere = Network("192.0.2.7", 8417)  # an address for documents (RFC 5737): nobody comes from there
    app = create_app(None, Desk(lambda: open_records(place), now=Clock()), network=elsewhere)
    with bind(0) as listening:
        listening.listen(16)
        server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off", timeout_keep_alive=60))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=10)
