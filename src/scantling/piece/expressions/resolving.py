"""Working out many named expressions, each after those it depends on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from scantling.errors import Fault, FileFaults
from scantling.piece.expressions.evaluating import evaluate
from scantling.piece.expressions.problems import ExpressionError
from scantling.piece.expressions.quantity import Quantity
from scantling.piece.expressions.tree import Expression
from scantling.reading import did_you_mean
from scantling.units import Dimension

__all__ = ["resolve"]


def resolve(
    expressions: Mapping[str, Expression],
    given: Mapping[str, Quantity],
    *,
    default_unit: str,
    want: Mapping[str, Dimension] | None = None,
) -> dict[str, Quantity]:
    """Work out named expressions in the order of their dependence.

    Parameters
    ----------
    expressions
        By name.
    given
        Values that expressions may use beside one another. A name that is also an expression's has this
        value and no other (a size as it was really milled).
    default_unit
        The file's unit of length.
    want
        Dimensions that some of them must have.

    Returns
    -------
    dict[str, Quantity]
        Value of each expression, in their own order.

    Raises
    ------
    FileFaults
        Every fault at once, ``fault.field`` being the expression's name: ``cycle``, ``unknown_name``,
        and those of :func:`evaluate`. What only follows from another fault is not told.

    Examples
    --------
    >>> from scantling.piece.expressions import parse
    >>> found = resolve({"a": parse("b / 2"), "b": parse("30 mm + 12")}, {}, default_unit="mm")
    >>> found["a"].value
    21.0
    """
    order = _Order({name: tree for name, tree in expressions.items() if name not in given})
    faults = order.faults
    known = dict(given)
    allowed = [*given, *expressions]
    for name in order.names:
        expression = expressions[name]
        missing = sorted(asked for asked in expression.names() if asked not in known)
        faults.extend(
            _unknown(name, expression, asked, allowed) for asked in missing if asked not in expressions
        )
        if missing:
            continue
        try:
            known[name] = evaluate(expression, known, default_unit=default_unit, want=(want or {}).get(name))
        except ExpressionError as error:
            faults.append(replace(error.fault, field=name))
    if faults:
        raise FileFaults(faults)
    return {name: known[name] for name in expressions}


def _unknown(name: str, expression: Expression, asked: str, allowed: list[str]) -> Fault:
    return Fault(
        code="unknown_name",
        field=name,
        value=asked,
        rule="must be a name that stands for something",
        remedy=did_you_mean(asked, allowed, otherwise="Define it under parameters or values."),
        column=expression.find(asked).at + 1,
    )


class _Order:
    """Names so that each comes after those it asks for; those caught in cycles are left out.

    The stack is our own, so that a chain of any length is followed.
    """

    def __init__(self, expressions: Mapping[str, Expression]) -> None:
        self.names: list[str] = []
        self.faults: list[Fault] = []
        self._expressions = expressions
        self._done: set[str] = set()
        self._knotted: set[str] = set()
        for start in expressions:
            self._visit(start)

    def _visit(self, start: str) -> None:
        chain: dict[str, None] = {}
        waiting: list[tuple[str, bool]] = [(start, False)]
        while waiting:
            name, leaving = waiting.pop()
            if leaving:
                del chain[name]
                self._done.add(name)
                if name not in self._knotted:
                    self.names.append(name)
            elif name in chain:
                self._knot(list(chain), name)
            elif name not in self._done:
                chain[name] = None
                waiting.append((name, True))
                asked = sorted(self._expressions[name].names(), reverse=True)
                waiting.extend((further, False) for further in asked if further in self._expressions)

    def _knot(self, chain: list[str], name: str) -> None:
        knot = chain[chain.index(name) :]
        if not self._knotted.issuperset(knot):
            self.faults.append(_cycle([*knot, name]))
        self._knotted.update(knot)


def _cycle(chain: list[str]) -> Fault:
    return Fault(
        code="cycle",
        field=chain[0],
        value=" -> ".join(chain),
        rule="must not depend on itself",
        remedy="Give one of these a plain size.",
    )
