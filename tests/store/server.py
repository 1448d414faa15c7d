"""A PostgreSQL server of the test's own: its files go with it, and only this machine reaches it."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["running_server"]


def _program(name: str) -> str:
    """A program of the server; Debian keeps them off the PATH."""
    found = shutil.which(name) or next(
        (str(path) for path in sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))), None
    )
    assert found is not None, f"{name} is not on this machine: apt-get install postgresql"
    return found


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


@contextmanager
def running_server() -> Iterator[str]:
    """A server with an empty database; its address. It refuses to run as root: then it runs as its user."""
    folder = Path(tempfile.mkdtemp(prefix="scantling-pg-"))
    prefix = []
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
        prefix = ["setpriv", "--reuid=postgres", "--regid=postgres", "--init-groups"]
    port, data = _free_port(), folder / "data"
    ours = [*prefix, _program("pg_ctl"), "-D", str(data), "-w"]
    made = [*prefix, _program("initdb"), "-D", data, "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8"]
    listens = f"-p {port} -k {folder} -c listen_addresses=127.0.0.1 -c fsync=off"
    try:
        subprocess.run([*made, "--no-sync", "-U", "maker"], check=True, capture_output=True, cwd=folder)
        begun = [*ours, "-o", listens, "-l", str(folder / "log"), "start"]
        subprocess.run(begun, check=True, stdout=subprocess.DEVNULL, cwd=folder)
        yield f"postgresql://maker@127.0.0.1:{port}/postgres"
    finally:
        subprocess.run([*ours, "-m", "immediate", "stop"], check=False, capture_output=True, cwd=folder)
        shutil.rmtree(folder, ignore_errors=True)
