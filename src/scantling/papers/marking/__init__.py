"""Drawings to mark out by: faces, sections, views, and where their figures stand."""

__all__: list[str] = []
