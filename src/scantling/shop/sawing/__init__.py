"""Saw settings: angles, reach, set-ups, tapers, notches."""

__all__: list[str] = []
