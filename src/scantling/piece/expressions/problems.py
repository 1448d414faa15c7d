"""The error of an expression, which points at the place in its text."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import InputError

__all__ = ["ExpressionError", "Span"]

_SHOWN = 50


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of an expression's text, from ``at`` up to ``end``, counted from 0."""

    text: str
    at: int
    end: int

    def joined(self, other: Span) -> Span:
        """From the beginning of the one to the end of the other."""
        return Span(self.text, min(self.at, other.at), max(self.end, other.end))


class ExpressionError(InputError):
    """One thing wrong with an expression.

    ``fault.column`` counts from 1 within the text, so that
    :func:`~scantling.reading.faults_for` can point into the file.

    Parameters
    ----------
    code, rule, remedy
        As in :class:`~scantling.errors.Fault`.
    span
        What in the text is wrong.
    value
        What was found, where it is not what stands there.
    """

    def __init__(self, *, code: str, span: Span, rule: str, remedy: str = "", value: str = "") -> None:
        super().__init__(code=code, field="expression", value=value or _found(span), rule=rule, remedy=remedy)
        self.span = span
        self.fault = replace(self.fault, column=span.at + 1)

    @property
    def pointer(self) -> str:
        """The text, and under it carets at the place; for a terminal or a monospaced box."""
        flat = "".join(" " if sign.isspace() else sign for sign in self.span.text)
        return f"{flat}\n{' ' * self.span.at}{'^' * max(1, self.span.end - self.span.at)}"


def _found(span: Span) -> str:
    piece = " ".join(span.text[span.at : span.end].split())
    whole = " ".join(span.text.split())
    if not whole:
        return "nothing"
    if len(whole) > _SHOWN:
        begin = max(0, min(span.at - _SHOWN // 2, len(span.text) - _SHOWN))
        cut = " ".join(span.text[begin : begin + _SHOWN].split())
        whole = ("…" if begin else "") + cut + ("…" if begin + _SHOWN < len(span.text) else "")
    if not piece:
        return f"the end of '{whole}'"
    if len(piece) > _SHOWN // 2:
        piece = piece[: _SHOWN // 2 - 1] + "…"
    return piece if piece == whole else f"'{piece}' in '{whole}'"
