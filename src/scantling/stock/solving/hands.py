"""Where long work runs: this process, a pool of processes on this machine, or a cluster by its address."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from importlib import import_module
from typing import Any

from scantling.errors import InputError

__all__ = ["hands", "usual_workers"]


def usual_workers() -> int:
    """Processes that search where nobody says how many: two, or one on a machine of one core."""
    try:
        cores = len(os.sched_getaffinity(0))
    except AttributeError:  # not told on every system
        cores = os.cpu_count() or 1
    return max(1, min(2, cores))


def _helping() -> None:
    """Ctrl-C is for the process that was asked, not for those that help it; they end when it does."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    from multiprocessing import connection, parent_process

    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(0)


@contextmanager
def hands(*, workers: int = 1, cluster: str = "") -> Iterator[Executor | None]:
    """An executor for what this process does not do itself, shut down at the end; None where it works alone.

    Parameters
    ----------
    workers
        Processes on this machine, this one among them; 1 for this one alone.
    cluster
        Address of a scheduler, such as ``tcp://10.0.0.5:8786``; empty for none.

    Raises
    ------
    InputError
        ``no_cluster_extra`` where what speaks to a cluster is not installed, ``cluster_silent`` where the
        address does not answer.
    """
    if cluster:
        yield from _of_cluster(cluster)
    elif workers > 1:
        yield from _of_pool(workers - 1)
    else:
        yield None


def _of_pool(workers: int) -> Iterator[Executor]:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context, parent_process

    pool = ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_helping)
    try:
        yield pool
    finally:
        # a process begun by another ends its queues before its pools: helpers not told by then that all is
        # over wait for work for ever, and it for them; the first process does it the other way about
        pool.shutdown(wait=parent_process() is not None, cancel_futures=True)


def _of_cluster(address: str) -> Iterator[Executor]:
    try:
        distributed: Any = import_module("distributed")
    except ImportError as missing:
        raise InputError(
            code="no_cluster_extra",
            field="--cluster",
            value=address,
            rule="needs the extra 'cluster', which is not installed",
            remedy="Install scantling[cluster], or use --workers on this machine.",
        ) from missing
    try:
        client = distributed.Client(address, timeout="10s", set_as_default=False)
    except (OSError, ValueError, TimeoutError) as silent:
        raise InputError(
            code="cluster_silent",
            field="--cluster",
            value=address,
            rule="must be the address of a scheduler that answers",
            remedy="Write it as the scheduler prints it, such as tcp://10.0.0.5:8786.",
        ) from silent
    try:
        yield client.get_executor()
    finally:
        client.close()
