"""Sizes on the way back from the finished part to the rough blank: strips, seams, layers, stock."""

__all__: list[str] = []
