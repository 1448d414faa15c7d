"""What each joint bears, and how stiffly: figures with range and source, or none where none is published."""

from scantling.joinery.strength.figure import NONE, Figure, JointStrength, Known

__all__ = ["NONE", "Figure", "JointStrength", "Known"]
