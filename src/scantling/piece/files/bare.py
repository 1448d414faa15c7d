"""Parameters and values written without a unit and used as sizes: told where the unit is missing.

A name that stands for a plain number is not taken for a length or an angle, since it could as well be a count
or a share. Where an expression cannot be worked out for that reason, this finds the names that would need a
unit, so that each is told once, at its own place, and not at every place that uses it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import combinations, product

from scantling.errors import InputError
from scantling.piece.expressions import Expression, ExpressionError, Quantity, evaluate, parse
from scantling.units import MM_PER_INCH, Dimension

__all__ = ["figures_alone", "units_missing"]

_MOST_NAMES = 6
"""Most names without a unit in one expression that are tried together. [1]"""
_SIZES = (Dimension.LENGTH, Dimension.ANGLE)


def figures_alone(written: str | float | None) -> float | None:
    """The number of a text or figure that is made of figures without units only; None for anything else."""
    try:
        expression = parse(written if isinstance(written, str) else repr(written))
        found = None if expression.names() else evaluate(expression, {}, default_unit="mm")
    except InputError:
        return None
    return found.value if found is not None and found.dimension is Dimension.NUMBER else None


def units_missing(
    expression: Expression,
    *,
    written: Mapping[str, str | float],
    known: Callable[[str], Quantity],
    unit: str,
    want: Dimension | None,
    blamed: Mapping[str, Dimension],
) -> dict[str, Dimension]:
    """What the names without a unit would have to be for an expression to come out.

    Parameters
    ----------
    expression
        One that mixes kinds.
    written
        How the parameters and values are written, by name.
    known
        The value of any other name, or of one with a unit.
    unit
        The file's unit of length.
    want
        The dimension the expression must have.
    blamed
        Names already found to want a unit, and what they are then.

    Returns
    -------
    dict
        A dimension for each name to blame, those already found among them; empty where no names, or more
        than one choice of them, would do.
    """
    figures = {name: value for name in written if (value := figures_alone(written[name])) is not None}
    suspects = sorted((_reached(expression, written) & figures.keys()) - blamed.keys())
    if len(suspects) > _MOST_NAMES:
        return {}
    for count in range(len(suspects) + 1):
        found = [
            guess
            for guess in _guesses(suspects, count, blamed)
            if _comes_out(expression, _Supposed(guess, figures, written, known, unit), unit=unit, want=want)
        ]
        if found:
            return found[0] if len(found) == 1 else {}
    return {}


def _guesses(
    suspects: list[str], count: int, blamed: Mapping[str, Dimension]
) -> Iterator[dict[str, Dimension]]:
    for names in combinations(suspects, count):
        for sizes in product(_SIZES, repeat=count):
            yield {**blamed, **dict(zip(names, sizes, strict=True))}


def _reached(expression: Expression, written: Mapping[str, str | float]) -> set[str]:
    """Names an expression asks for, and those that they ask for in turn."""
    reached: set[str] = set()
    waiting = list(expression.names())
    while waiting:
        name = waiting.pop()
        if name in reached:
            continue
        reached.add(name)
        text = written.get(name)
        if isinstance(text, str):
            try:
                waiting.extend(parse(text).names())
            except ExpressionError:
                continue
    return reached


class _Supposed:
    """Values of names, some of them supposed to be sizes."""

    def __init__(
        self,
        guess: Mapping[str, Dimension],
        figures: Mapping[str, float],
        written: Mapping[str, str | float],
        known: Callable[[str], Quantity],
        unit: str,
    ) -> None:
        self._guess, self._figures, self._written, self._known = guess, figures, written, known
        self._unit = unit
        self._asking: set[str] = set()

    def __call__(self, name: str) -> Quantity:
        """The value of a name under the guess."""
        if name in self._guess:
            inch = self._guess[name] is Dimension.LENGTH and self._unit == "in"
            return Quantity(self._figures[name] * (float(MM_PER_INCH) if inch else 1.0), self._guess[name])
        text = self._written.get(name)
        if not isinstance(text, str) or name in self._asking:
            return self._known(name)
        self._asking.add(name)
        try:
            return evaluate(parse(text), self, default_unit=self._unit)
        finally:
            self._asking.discard(name)


def _comes_out(expression: Expression, supposed: _Supposed, *, unit: str, want: Dimension | None) -> bool:
    try:
        evaluate(expression, supposed, default_unit=unit, want=want)
    except InputError:
        return False
    return True
