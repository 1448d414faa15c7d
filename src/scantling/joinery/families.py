"""The joint families: every class of this folder that answers as one, so that a new file is enough."""

from __future__ import annotations

import pkgutil
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from inspect import getmembers, isclass
from typing import cast

from pydantic import BaseModel

from scantling.joinery.work import JointFamily

__all__ = ["joint_families", "option_models"]

_FOLDER = __name__.rpartition(".")[0]


@cache
def joint_families() -> dict[str, JointFamily]:
    """Every family by its name in a piece file, in the order of their names."""
    found = {family.name: family for family in _written()}
    return dict(sorted(found.items()))


def _written() -> Iterator[JointFamily]:
    """One of each class in the files of this folder that has a name in piece files and options."""
    for file in pkgutil.iter_modules(import_module(_FOLDER).__path__):
        module = import_module(f"{_FOLDER}.{file.name}")
        for _, kind in getmembers(module, isclass):
            own = kind.__module__ == module.__name__ and not kind.__name__.startswith("_")
            if own and hasattr(kind, "options_model") and kind is not JointFamily:
                yield cast("JointFamily", kind())


def option_models() -> dict[str, type[BaseModel]]:
    """Options model of each family, for reading piece files."""
    return {name: family.options_model for name, family in joint_families().items()}
