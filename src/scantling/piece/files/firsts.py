"""Parts and joints read again that say what ones read before said: those, the same objects, are given out.

A piece is read anew with every size that is tried, and most of its parts and joints come out as they were.
What follows from them is found again by which objects they are, so they have to be the same ones.
"""

from __future__ import annotations

import marshal
from collections.abc import Hashable
from typing import Any

from scantling.piece.model import Finish, JointRequest, Part
from scantling.remembering import Firsts

__all__ = ["first_finish", "first_joint", "first_options", "first_part"]

_PARTS = Firsts[Part](limit=2048)
_JOINTS = Firsts[JointRequest](limit=2048)
_OPTIONS = Firsts[Any](limit=512)
_FINISHES = Firsts[Finish](limit=64)


def first_part(part: Part) -> Part:
    """The part lately read that says the same; this one, where there was none."""
    return _PARTS.of((part, *_noughts(part)), part)


def _noughts(part: Part) -> tuple[Hashable, ...]:
    """What comparing parts does not tell: noughts are equal whatever their sign, and are written with it."""
    f, planes = part.frame, [(trim.plane.point, trim.plane.normal) for trim in part.trims]
    common = marshal.dumps((f.origin, f.grain, f.width, f.thickness, part.start_mm, part.end_mm, planes), 2)
    rare = (part.tapers, part.edges, part.shaping)
    return common, repr(rare) if any(rare) else ""


def first_options(options: Any) -> Any:
    """The options of a joint lately read that say the same; these, where there were none."""
    return _OPTIONS.of(repr(options), options)


def first_joint(joint: JointRequest) -> JointRequest:
    """The joint lately read with these very options that says the same; this one, where there was none."""
    said = (joint.name, joint.like, joint.family, joint.first, joint.second, joint.inch, id(joint.options))
    return _JOINTS.of(said, joint)  # it holds its options, so that no others can have their identity


def first_finish(finish: Finish) -> Finish:
    """The finish lately read that says the same; this one, where there was none."""
    return _FINISHES.of(finish, finish)
