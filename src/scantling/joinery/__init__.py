"""Joints: one file per family; each joint knows everything a joint knows."""

from scantling.joinery.families import joint_families, option_models
from scantling.joinery.joining import (
    join,
    joint_faults,
    lengths_in,
    load_piece,
    load_piece_text,
    look_at,
    look_at_text,
)
from scantling.joinery.work import JointContext, JointFamily, JointWork

__all__ = [
    "JointContext",
    "JointFamily",
    "JointWork",
    "join",
    "joint_families",
    "joint_faults",
    "lengths_in",
    "load_piece",
    "load_piece_text",
    "look_at",
    "look_at_text",
    "option_models",
]
