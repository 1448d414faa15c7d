"""Exceptions: every one a user can cause carries code, field, value and remedy."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.errors.faults import Fault

__all__ = ["FileFaults", "InputError", "ModelError", "ScantlingError"]


class ScantlingError(Exception):
    """Base of all errors raised on purpose."""


class InputError(ScantlingError, ValueError):
    """One fault in what was given.

    Parameters
    ----------
    code, field, value, rule, remedy
        As in :class:`~scantling.errors.Fault`.

    Examples
    --------
    >>> str(InputError(code="mc_out_of_range", field="mc_from_pct", value=0.08,
    ...     rule="must lie in 0..30 %", remedy="Moisture content is in percent: write 8, not 0.08."))
    'mc_from_pct: must lie in 0..30 %, got 0.08. Moisture content is in percent: write 8, not 0.08.'
    """

    def __init__(self, *, code: str, field: str, value: object, rule: str, remedy: str = "") -> None:
        shown = value if isinstance(value, str) else repr(value)
        self.fault = Fault(code=code, field=field, value=shown, rule=rule, remedy=remedy)
        self.code, self.field, self.value, self.hint = code, field, value, remedy
        super().__init__(str(self.fault))


class FileFaults(ScantlingError, ValueError):  # noqa: N818 - it is many faults, not one error
    """All the faults of a file (or of a set of options), found in one reading."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class ModelError(ScantlingError, RuntimeError):
    """An invariant of ours broke: a defect of the program, not of the input."""
