"""What no layout can cost less than."""

__all__: list[str] = []
