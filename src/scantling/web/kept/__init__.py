"""Pieces, notes and pictures that are kept, and how a change to them is tried and told."""

__all__: list[str] = []
