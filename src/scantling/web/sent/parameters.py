"""Parameters as the page offers them: words to read, and numbers in the piece's unit for a slider."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.words.naming import label_of
from scantling.piece.model import ParameterValue, Piece
from scantling.units import MM_PER_INCH, LengthStyle, show_length, show_number
from scantling.units.sentences import sentence_in_style
from scantling.web.sent.views import ParameterView

__all__ = ["measurable", "parameter_views"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    """How a slider shows one dimension: its unit, what one of it is inside, and its step."""

    unit: str
    inside: float
    step: float


_DEGREES = _Scale(unit="deg", inside=1.0, step=0.5)
_PLAIN = _Scale(unit="", inside=1.0, step=1.0)
_LENGTHS = {
    "mm": _Scale(unit="mm", inside=1.0, step=1.0),
    "in": _Scale(unit="in", inside=float(MM_PER_INCH), step=1.0 / 16.0),
}


def parameter_views(piece: Piece) -> tuple[ParameterView, ...]:
    """Every parameter of a piece, in the order of the file."""
    return tuple(_view(parameter, piece.style) for parameter in piece.parameters)


def measurable(piece: Piece) -> tuple[tuple[str, str, str], ...]:
    """Parameters that are lengths and can be measured: name, label, and as they are shown."""
    return tuple(
        (each.name, label_of(each.name), show_length(each.value, piece.style))
        for each in piece.parameters
        if each.dimension == "length"
    )


def _view(parameter: ParameterValue, style: LengthStyle) -> ParameterView:
    lead, *others = style.styles
    scale = _scale(parameter, "in" if lead.inch else "mm")
    least, most = parameter.least, parameter.most
    return ParameterView(
        name=parameter.name,
        label=label_of(parameter.name),
        about=sentence_in_style(parameter.about, style),
        dimension=parameter.dimension,
        shown=_shown(parameter.value, parameter.dimension, lead),
        shown_default=_shown(parameter.default, parameter.dimension, lead),
        shown_least="" if least is None else _shown(least, parameter.dimension, lead),
        shown_most="" if most is None else _shown(most, parameter.dimension, lead),
        shown_other="".join(
            _shown(parameter.value, parameter.dimension, other)
            for other in others
            if parameter.dimension == "length"
        ),
        unit=scale.unit,
        value=_number(parameter.value, scale),
        default=_number(parameter.default, scale),
        least=None if least is None else _number(least, scale),
        most=None if most is None else _number(most, scale),
        step=scale.step,
    )


def _scale(parameter: ParameterValue, units: str) -> _Scale:
    if parameter.dimension == "length":
        return _LENGTHS[units]
    return _DEGREES if parameter.dimension == "angle" else _PLAIN


def _number(value: float, scale: _Scale) -> float:
    return round(value / scale.inside, 6)


def _shown(value: float, dimension: str, style: LengthStyle) -> str:
    if dimension == "length":
        return show_length(value, style)
    return show_number(value, digits=2) + ("°" if dimension == "angle" else "")
