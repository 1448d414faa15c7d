"""Glue-ups: stages, clamps, wedges, glue and minutes."""

__all__: list[str] = []
