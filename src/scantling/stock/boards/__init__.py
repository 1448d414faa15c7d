"""Boards as they stand: their sizes and marks, one line of a rack, the tally, what a grade usually gives."""

__all__: list[str] = []
