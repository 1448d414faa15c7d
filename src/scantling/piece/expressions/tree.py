"""The parsed form of an expression: small frozen nodes, each knowing its place in the text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from scantling.piece.expressions.problems import Span
from scantling.piece.expressions.quantity import Kind

__all__ = ["Call", "Chain", "Choice", "Expression", "Literal", "Minus", "Name", "Node", "Not", "Power"]


@dataclass(frozen=True, slots=True)
class Literal:
    """A number, length or angle as written."""

    span: Span
    value: float
    kind: Kind


@dataclass(frozen=True, slots=True)
class Name:
    """A name: ``overhang``, ``top.length``."""

    span: Span
    name: str


@dataclass(frozen=True, slots=True)
class Minus:
    """The negative of a value."""

    span: Span
    inner: Node


@dataclass(frozen=True, slots=True)
class Not:
    """The opposite of a yes or no."""

    span: Span
    inner: Node


@dataclass(frozen=True, slots=True)
class Power:
    """A value to a small whole power."""

    span: Span
    base: Node
    exponent: int


@dataclass(frozen=True, slots=True)
class Chain:
    """Values joined by signs of one rank, worked out from left to right: ``a - b + c``.

    ``rest`` holds sign and value of each further member.
    """

    span: Span
    first: Node
    rest: tuple[tuple[str, Node], ...]


@dataclass(frozen=True, slots=True)
class Call:
    """A function of the fixed list, with its arguments."""

    span: Span
    function: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """``if`` condition ``then`` this ``else`` that."""

    span: Span
    condition: Node
    this: Node
    that: Node


Node: TypeAlias = Literal | Name | Minus | Not | Power | Chain | Call | Choice


@dataclass(frozen=True, slots=True)
class Expression:
    """A parsed expression, ready to be worked out again and again.

    Parameters
    ----------
    text
        As written.
    root
        Its outermost node.
    """

    text: str
    root: Node

    def names(self) -> frozenset[str]:
        """Every name the expression asks for, in any branch."""
        return frozenset(node.name for node in self._named())

    def find(self, name: str) -> Span:
        """Where a name first stands; an empty place at the beginning if it does not."""
        spans = [node.span for node in self._named() if node.name == name]
        return min(spans, key=lambda span: span.at, default=Span(self.text, 0, 0))

    def _named(self) -> Iterator[Name]:
        waiting: list[Node] = [self.root]
        while waiting:
            node = waiting.pop()
            if isinstance(node, Name):
                yield node
            waiting.extend(_inside(node))


def _inside(node: Node) -> tuple[Node, ...]:
    match node:
        case Minus(inner=inner) | Not(inner=inner):
            return (inner,)
        case Power(base=base):
            return (base,)
        case Chain(first=first, rest=rest):
            return (first, *(member for _, member in rest))
        case Call(arguments=arguments):
            return arguments
        case Choice(condition=condition, this=this, that=that):
            return (condition, this, that)
        case _:
            return ()
