"""Layouts by hand rules: one board after the other, one blank after the other."""

__all__: list[str] = []
