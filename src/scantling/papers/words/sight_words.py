"""The sight line of a leaning hole in words, for every face."""

from __future__ import annotations

from scantling.joinery.work import Mark
from scantling.units import show_angle

__all__ = ["sight_words"]

_ALONG_DEG = 0.05


def sight_words(mark: Mark) -> str:
    """Where a leaning bit is sighted from and which way it leans; empty for a cut that has no sight line.

    Parameters
    ----------
    mark
        Of a hole.

    Returns
    -------
    str
        As in ``sight line 33.5° off the length, leaning toward left and front``.
    """
    if not mark.toward:
        return ""
    base = "width" if mark.on_end else "length"
    if mark.angle_deg < _ALONG_DEG:
        line = f"along the {base}"
    elif mark.angle_deg > 90.0 - _ALONG_DEG:
        line = f"square to the {base}"
    else:
        line = f"{show_angle(mark.angle_deg)} off the {base}"
    return f"sight line {line}, leaning toward {' and '.join(way.value for way in mark.toward)}"
