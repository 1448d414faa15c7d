"""Working an expression out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeAlias

from scantling.errors import InputError
from scantling.piece.expressions.functions import FUNCTIONS
from scantling.piece.expressions.problems import ExpressionError, Span
from scantling.piece.expressions.quantity import TRUTH, Quantity, kind_of
from scantling.piece.expressions.tree import (
    Call,
    Chain,
    Choice,
    Expression,
    Literal,
    Minus,
    Name,
    Node,
    Not,
    Power,
)
from scantling.piece.expressions.values import Refusal, Value, as_kind, combined, compared, negative, raised
from scantling.reading import did_you_mean
from scantling.units import Dimension

__all__ = ["Lookup", "evaluate"]

Lookup: TypeAlias = Mapping[str, Quantity] | Callable[[str], Quantity]
"""What names stand for. A callable raises ``KeyError`` or an ``InputError`` of its own for unknown ones."""
_COMPARISONS = frozenset({"<", "<=", ">", ">=", "=", "!="})


def evaluate(
    expression: Expression, lookup: Lookup, *, default_unit: str, want: Dimension | None = None
) -> Quantity:
    """Work an expression out.

    Parameters
    ----------
    expression
        A parsed expression.
    lookup
        What its names stand for; only the branch taken of a choice is asked for.
    default_unit
        The file's unit of length, ``mm``, ``cm`` or ``in``: a bare number beside a length is in it.
    want
        The dimension the result must have; a bare number is then taken as such. None takes a length,
        an angle or a number, as it comes.

    Returns
    -------
    Quantity
        A length in mm, an angle in degrees, or a number.

    Raises
    ------
    ExpressionError
        ``unknown_name``, ``wrong_dimension``, ``division_by_zero``, ``out_of_domain``, ``too_large``,
        or what ``lookup`` raised, with the place in the text.

    Examples
    --------
    >>> from scantling.piece.expressions import parse
    >>> given = {"overhang": Quantity(50.8, Dimension.LENGTH)}
    >>> evaluate(parse("28 3/4 in - 2 * overhang"), given, default_unit="in").value
    628.65
    >>> evaluate(parse("2 * 3"), {}, default_unit="in", want=Dimension.LENGTH).value
    152.4
    """
    root = expression.root
    value = _Evaluator(lookup, default_unit).work(root)
    if want is not None:
        kind = kind_of(want)
        if kind is not None:
            try:
                value = as_kind(value, kind, unit=default_unit)
            except Refusal as refusal:
                raise _at(root.span, refusal) from None
        if value.kind != kind:
            raise _at(
                root.span,
                Refusal(
                    "wrong_dimension",
                    f"must come to {'an' if want is Dimension.ANGLE else 'a'} {want.value}, not {value.kind}",
                    f"Multiply it by 1 {default_unit}." if want is Dimension.LENGTH else "",
                ),
            )
    dimension = value.kind.dimension
    if dimension is None:
        raise _at(
            root.span,
            Refusal("wrong_dimension", f"must come to a length, an angle or a number, not {value.kind}"),
        )
    return Quantity(value.value, dimension)


class _Evaluator:
    def __init__(self, lookup: Lookup, unit: str) -> None:
        self._lookup, self._unit = lookup, unit

    def work(self, node: Node) -> Value:
        """Value of a node."""
        if isinstance(node, Literal):
            bare = node.kind.dimension is Dimension.NUMBER
            return Value(node.value, node.kind, bare, _fraction(node) if bare else "")
        if isinstance(node, Name):
            return self._name(node)
        if isinstance(node, Chain):
            return self._chain(node)
        try:
            return self._other(node)
        except Refusal as refusal:
            raise _at(node.span, refusal) from None

    def _other(self, node: Minus | Not | Power | Call | Choice) -> Value:
        if isinstance(node, Call):
            values = [self.work(argument) for argument in node.arguments]
            return FUNCTIONS[node.function].apply(values, self._unit)
        if isinstance(node, Choice):
            return self.work(node.this if self._yes(node.condition) else node.that)
        if isinstance(node, Not):
            return Value(float(not self._yes(node.inner)), TRUTH)
        if isinstance(node, Power):
            return raised(self.work(node.base), node.exponent)
        return negative(self.work(node.inner))

    def _chain(self, node: Chain) -> Value:
        left, span = self.work(node.first), node.first.span
        for sign, member in node.rest:
            span = span.joined(member.span)
            if sign in ("and", "or") and left.kind == TRUTH and bool(left.value) == (sign == "or"):
                continue
            right = self.work(member)
            join = compared if sign in _COMPARISONS else combined
            try:
                left = join(left, sign, right, unit=self._unit)
            except Refusal as refusal:
                raise _at(span, refusal) from None
        return left

    def _yes(self, node: Node) -> bool:
        value = self.work(node)
        if value.kind != TRUTH:
            raise _at(
                node.span,
                Refusal("wrong_dimension", f"must be a comparison, not {value.kind}", "Write A > B."),
            )
        return bool(value.value)

    def _name(self, node: Name) -> Value:
        try:
            found = self._lookup(node.name) if callable(self._lookup) else self._lookup[node.name]
        except KeyError:
            known = self._lookup if isinstance(self._lookup, Mapping) else ()
            raise ExpressionError(
                code="unknown_name",
                span=node.span,
                rule="must be a name that stands for something",
                remedy=did_you_mean(node.name, known, otherwise="Define it under parameters or values."),
            ) from None
        except InputError as error:
            fault = error.fault
            raise ExpressionError(
                code=fault.code, span=node.span, rule=fault.rule, remedy=fault.remedy, value=fault.value
            ) from error
        kind = kind_of(found.dimension)
        if kind is None:
            raise ExpressionError(
                code="wrong_dimension",
                span=node.span,
                rule=f"must be a length, an angle or a number, not a {found.dimension.value}",
            )
        return Value(found.value, kind)


def _fraction(node: Literal) -> str:
    """A literal as written if it is a fraction (``1 1/2``, ``½``); empty for other figures."""
    written = node.span.text[node.span.at : node.span.end]
    return written if "/" in written or not written.isascii() else ""


def _at(span: Span, refusal: Refusal) -> ExpressionError:
    return ExpressionError(
        code=refusal.code, span=span, rule=refusal.rule, remedy=refusal.remedy, value=refusal.value
    )
