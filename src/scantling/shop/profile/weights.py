"""What counts when boards are laid out, in this shop's money."""

from __future__ import annotations

from pydantic import Field

from scantling.shop.profile.section import ProfileSection

__all__ = ["LayoutWeights"]


class LayoutWeights(ProfileSection):
    """What counts when boards are laid out, all in money, to be held against the boards' price."""

    price: float = Field(default=1.0, ge=0, le=1e6)
    """What a unit of money paid for boards counts; 0 where the wood is paid for."""
    waste: float = Field(default=0.0, ge=0, le=1e6)
    """What a square meter of face counts that is cut and becomes no blank."""
    cut: float = Field(default=0.0, ge=0, le=1e6)
    """What each cut counts: the minutes it takes."""
    offcut: float = Field(default=0.0, ge=0, le=1e6)
    """What a square meter of the largest offcut worth keeping is worth."""
    looks: float = Field(default=1.0, ge=0, le=1e6)
    """What a unit of a wish's worth counts, in the matching of a piece file."""
