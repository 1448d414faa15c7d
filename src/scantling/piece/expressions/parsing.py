"""From words to a tree, by precedence climbing."""

from __future__ import annotations

from functools import lru_cache

from scantling.piece.expressions.functions import FUNCTIONS
from scantling.piece.expressions.problems import ExpressionError, Span
from scantling.piece.expressions.quantity import NUMBER
from scantling.piece.expressions.tokens import KEYWORDS, Sort, Token, tokens
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
from scantling.reading import did_you_mean

__all__ = ["MAX_EXPONENT", "MAX_NESTING", "parse"]

MAX_NESTING = 30
"""Most brackets, functions and choices within one another. [1]"""
MAX_EXPONENT = 6
"""Greatest power. [1]"""
_RANKS: dict[str, int] = {
    "or": 1,
    "and": 2,
    "<": 4,
    "<=": 4,
    ">": 4,
    ">=": 4,
    "=": 4,
    "!=": 4,
    "+": 5,
    "-": 5,
    "*": 6,
    "/": 6,
}
_NOT_RANK = 3
_COMPARISON_RANK = 4


@lru_cache(maxsize=4096)
def parse(text: str) -> Expression:
    """Parse an expression; the same text gives the same object.

    Parameters
    ----------
    text
        The expression, as a maker writes it.

    Returns
    -------
    Expression
        Its tree.

    Raises
    ------
    ExpressionError
        ``expression_empty``, ``expression_form``, ``unknown_function``, ``wrong_arguments``,
        ``exponent_not_allowed``, ``expression_too_deep``, and those of
        :func:`~scantling.piece.expressions.tokens.tokens`.

    Examples
    --------
    >>> sorted(parse("top.length - 2 * overhang").names())
    ['overhang', 'top.length']
    """
    return Expression(text, _Parser(tokens(text)).whole())


class _Parser:
    def __init__(self, words: tuple[Token, ...]) -> None:
        self._words, self._at, self._depth = words, 0, 0

    @property
    def _word(self) -> Token:
        return self._words[self._at]

    def _take(self) -> Token:
        word = self._word
        self._at += 1
        return word

    def _takes(self, sign: str) -> bool:
        if self._word.word == sign:
            self._at += 1
            return True
        return False

    def whole(self) -> Node:
        """The tree of all words."""
        if self._word.sort is Sort.END:
            raise _wrong(self._word, "expression_empty", "must say something", "Write a size or a formula.")
        node = self._any()
        if self._at < len(self._words) - 1:
            raise self._unexpected()
        return node

    def _any(self) -> Node:
        self._depth += 1
        if self._depth > MAX_NESTING:
            raise _wrong(
                self._word,
                "expression_too_deep",
                f"must nest at most {MAX_NESTING} deep",
                "Give parts of it names under values.",
            )
        node = self._choice() if self._word.word == "if" else self._climb(1)
        self._depth -= 1
        return node

    def _choice(self) -> Choice:
        begin = self._take()
        condition = self._any()
        self._expect("then", begin)
        this = self._any()
        self._expect("else", begin)
        that = self._any()
        return Choice(begin.span.joined(that.span), condition, this, that)

    def _expect(self, word: str, begin: Token) -> None:
        if not self._takes(word):
            opened = "(" if word == ")" else begin.word
            raise _wrong(
                self._word,
                "expression_form",
                f"must have '{word}' here, to go with '{opened}'",
                "Write if A > B then C else D." if word in KEYWORDS else "Close the bracket.",
            )

    def _climb(self, least: int) -> Node:
        left = self._prefix()
        rank = _RANKS.get(self._word.word, 0)
        while rank >= least:
            rest: list[tuple[str, Node]] = []
            first = left
            while _RANKS.get(self._word.word, 0) == rank:
                sign = self._take()
                if rank == _COMPARISON_RANK and rest:
                    raise _wrong(sign, "expression_form", "must compare two values", "Write A < B and B < C.")
                rest.append((sign.word, self._climb(rank + 1)))
            left = Chain(first.span.joined(rest[-1][1].span), first, tuple(rest))
            rank = _RANKS.get(self._word.word, 0)
        return left

    def _prefix(self) -> Node:
        word = self._word
        if word.word not in ("-", "not", "+"):
            return self._power()
        self._at += 1
        self._depth += 1
        if self._depth > MAX_NESTING:
            raise _wrong(word, "expression_too_deep", f"must nest at most {MAX_NESTING} deep", "")
        inner = self._climb(_NOT_RANK + 1) if word.word == "not" else self._prefix()
        self._depth -= 1
        if word.word == "+":
            return inner
        span = word.span.joined(inner.span)
        return Not(span, inner) if word.word == "not" else Minus(span, inner)

    def _power(self) -> Node:
        base = self._atom()
        if not self._takes("^"):
            return base
        word = self._take()
        whole = word.sort is Sort.LITERAL and word.kind is NUMBER and word.value.is_integer()
        if not whole or not 0 <= word.value <= MAX_EXPONENT or self._word.word == "^":
            raise _wrong(
                word,
                "exponent_not_allowed",
                f"must be a whole number from 0 to {MAX_EXPONENT}",
                "For roots there is sqrt().",
            )
        return Power(base.span.joined(word.span), base, int(word.value))

    def _atom(self) -> Node:
        word = self._word
        if word.sort is Sort.LITERAL:
            self._at += 1
            return Literal(word.span, word.value, word.kind)
        if word.sort is Sort.NAME and word.word not in KEYWORDS:
            self._at += 1
            return self._call(word) if self._word.word == "(" else Name(word.span, word.word)
        if self._takes("("):
            node = self._any()
            self._expect(")", word)
            return node
        raise self._unexpected()

    def _call(self, name: Token) -> Call:
        known = FUNCTIONS.get(name.word)
        if known is None:
            raise _wrong(
                name,
                "unknown_function",
                f"must be one of {', '.join(sorted(FUNCTIONS))}",
                did_you_mean(name.word, FUNCTIONS, otherwise="To multiply, write *."),
            )
        bracket = self._take()
        arguments: list[Node] = []
        if not self._takes(")"):
            arguments.append(self._any())
            while self._takes(","):
                arguments.append(self._any())
            self._expect(")", bracket)
        span = Span(name.span.text, name.span.at, self._words[self._at - 1].span.end)
        if not known.least <= len(arguments) <= known.most:
            raise ExpressionError(
                code="wrong_arguments",
                span=span,
                rule=f"must be written {known.form}",
                remedy=known.about,
            )
        return Call(span, name.word, tuple(arguments))

    def _unexpected(self) -> ExpressionError:
        word = self._word
        before = self._words[self._at - 1] if self._at else None
        if word.word == "if":
            remedy = "Put the whole if ... then ... else ... in brackets."
        elif before is not None and before.sort is Sort.LITERAL and word.sort is Sort.NAME:
            units = "mm, cm, m, in, ft or deg"
            remedy = f"If {word.word!r} is a unit, write {units}; if a name, put a sign before it."
        elif before is not None and before.sort is Sort.LITERAL and word.word == ",":
            remedy = "Write decimals with a point."
        elif before is not None and before.sort is Sort.LITERAL and word.sort is Sort.LITERAL:
            remedy = "Write one size, such as 28 3/4 in, or put a sign between the two."
        elif before is not None and _is_value(before, ")") and _is_value(word, "("):
            remedy = "Put a sign between the two values, such as * or +."
        elif word.sort is Sort.END:
            remedy = "Something is missing at the end."
        else:
            remedy = "Check the signs and brackets around it."
        return _wrong(
            word, "expression_form", "must be a size, a name or a formula such as a - 2 * b", remedy
        )


def _is_value(word: Token, bracket: str) -> bool:
    """Whether a word, or the bracket named, stands for a value."""
    named = word.sort is Sort.NAME and word.word not in KEYWORDS
    return named or word.sort is Sort.LITERAL or word.word == bracket


def _wrong(word: Token, code: str, rule: str, remedy: str) -> ExpressionError:
    return ExpressionError(code=code, span=word.span, rule=rule, remedy=remedy)
