"""Which machine or hand tool does an operation, and the usual cautions at it."""

__all__: list[str] = []
