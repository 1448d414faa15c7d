"""Loops as machine code: compiled when they are first called, and kept where a folder may be written.

References
----------
.. [1] Lam, Pitrou, Seibert, "Numba: a LLVM-based Python JIT compiler", Proceedings of the Second Workshop on
   the LLVM Compiler Infrastructure in HPC (2015), article 7.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import ParamSpec, TypeVar, cast

from numba import njit

__all__ = ["compiled"]

MAXIMA = {"nnan", "nsz"}
"""What may be assumed of floats: none is no number, and zero has no sign. Sums are left in their order."""
Question = ParamSpec("Question")
Answer = TypeVar("Answer")


def compiled(loops: Callable[Question, Answer]) -> Callable[Question, Answer]:
    """The loops as machine code; compiled anew each time where no folder may be written."""
    try:
        kept = njit(cache=True, nogil=True, fastmath=MAXIMA)(loops)
    except RuntimeError:
        kept = njit(nogil=True, fastmath=MAXIMA)(loops)
    return cast("Callable[Question, Answer]", kept)
