"""Every module says what it is for and what it offers, and its examples are true."""

from __future__ import annotations

import ast
import doctest
import importlib
from pathlib import Path

import pytest

from tests.repo.sources import PACKAGE, modules, tree

MODULES = [path for path in modules() if path.name != "__main__.py"]
WITH_EXAMPLES = [path for path in MODULES if ">>> " in path.read_text(encoding="utf-8")]


def _name(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_a_module_says_what_it_is_for_and_what_it_offers(path: Path) -> None:
    """It opens with a docstring and, unless it is that alone, lists its public names in ``__all__``."""
    module = tree(path)
    assert ast.get_docstring(module)
    if len(module.body) > 1:
        offered = _offered(module)
        assert offered is not None, "write __all__ = [...]"
        assert len(set(offered)) == len(offered)


def _offered(module: ast.Module) -> list[str] | None:
    for node in module.body:
        targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
        if any(isinstance(target, ast.Name) and target.id == "__all__" for target in targets):
            assert isinstance(node, ast.Assign | ast.AnnAssign)
            assert node.value is not None
            return list(ast.literal_eval(node.value))
    return None


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=_name)
def test_the_examples_of_a_module_give_what_they_say(path: Path) -> None:
    """Each ``>>>`` line of its docstrings is run and its answer compared."""
    heard: list[str] = []
    runner = doctest.DocTestRunner(verbose=False)
    for example in doctest.DocTestFinder(exclude_empty=True).find(importlib.import_module(_name(path))):
        runner.run(example, out=heard.append)
    assert runner.tries > 0
    assert heard == [], "".join(heard)
