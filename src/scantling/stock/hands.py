"""Where long work runs: this process, a pool of processes on this machine, or a cluster by its address."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from importlib import import_module
from typing import Any

from scantling.errors import InputError

__all__ = ["hands"]


def _leave_interrupts() -> None:
    """Ctrl-C is for the process that was asked, not for those that help it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def hands(*, workers: int = 1, cluster: str = "") -> Iterator[Executor | None]:
    """An executor, shut down at the end; None for this process.

    Parameters
    ----------
    workers
        Processes on this machine; 1 for this one alone.
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
        yield from _of_pool(workers)
    else:
        yield None


def _of_pool(workers: int) -> Iterator[Executor]:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    pool = ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_leave_interrupts)
    try:
        yield pool
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


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
