"""Everything wrong with what was given, told at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from scantling.errors.exceptions import FileFaults, InputError
from scantling.errors.faults import Fault

__all__ = ["Telling"]

Read = TypeVar("Read")


class Telling:
    """Tries one thing after the other and keeps what is wrong with each.

    Examples
    --------
    >>> from scantling.units import parse_length_mm
    >>> telling = Telling()
    >>> telling.tried(lambda: parse_length_mm("3 kg")), telling.tried(lambda: parse_length_mm("3 mm"))
    (None, 3.0)
    >>> len(telling.faults)
    1
    """

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def tried(self, read: Callable[[], Read]) -> Read | None:
        """What could be read; None, and its faults kept, where it could not."""
        try:
            return read()
        except FileFaults as error:
            self.faults.extend(error.faults)
        except InputError as error:
            self.faults.append(error.fault)
        return None

    def refuse(self) -> None:
        """Raise FileFaults with every fault kept, if there is one."""
        if self.faults:
            raise FileFaults(self.faults)
