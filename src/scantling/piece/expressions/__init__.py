"""Sizes worked out from other sizes: a small grammar for piece files, that never runs code.

::

    28 3/4 in      2' 4-1/2"      730 mm      7/8 in      7 deg      7°
    top.length - 2 * overhang
    (height - 3/4 in) / cos(splay)
    sqrt(rise ^ 2 + run ^ 2)
    if height > 600 then 48 else 38
    round_to(width / 3, 1/8 in)

Signs are ``+ - * / ^`` and brackets; comparisons ``< <= > >= = !=``, joined by ``and``, ``or``, ``not``,
choose in ``if ... then ... else ...``. Functions are those of :data:`FUNCTIONS`; angles are in degrees.
``^`` takes a whole number from 0 to 6.

Kinds are watched over: a length and a plain number do not add. The one exception is said in one
sentence: *a bare number beside a length is in the file's unit* (beside an angle, in degrees). So
``overhang + 20`` is fine, ``2 * overhang`` is twice the overhang, and ``overhang + count`` is a fault.

A hyphen or slash without spaces belongs to the inches it stands in: ``28-3/4 in`` is a mixed number,
``28 - 3/4 in`` a subtraction; ``4-1/2`` without inches and ``a / 3/4`` are refused as readable both ways.

::

    expression = parse("top.length - 2 * overhang")     # cached; frozen
    expression.names()                                   # frozenset({"top.length", "overhang"})
    evaluate(expression, names, default_unit="in", want=Dimension.LENGTH)   # Quantity(mm, LENGTH)
    resolve({"a": parse("b + 1"), "b": parse("2 mm")}, given, default_unit="mm")

Everything wrong is an :class:`ExpressionError` (an ``InputError``) whose ``fault.column`` and ``pointer``
show the place; :func:`scantling.reading.faults_for` moves it to its line in the file.
"""

from scantling.piece.expressions.evaluating import Lookup, evaluate
from scantling.piece.expressions.functions import FUNCTIONS, Function
from scantling.piece.expressions.parsing import MAX_EXPONENT, MAX_NESTING, parse
from scantling.piece.expressions.problems import ExpressionError, Span
from scantling.piece.expressions.quantity import Quantity
from scantling.piece.expressions.resolving import resolve
from scantling.piece.expressions.tokens import MAX_LENGTH
from scantling.piece.expressions.tree import Expression

__all__ = [
    "FUNCTIONS",
    "MAX_EXPONENT",
    "MAX_LENGTH",
    "MAX_NESTING",
    "Expression",
    "ExpressionError",
    "Function",
    "Lookup",
    "Quantity",
    "Span",
    "evaluate",
    "parse",
    "resolve",
]
