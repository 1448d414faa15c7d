"""The best pattern of every board for given worths of the blanks."""

__all__: list[str] = []
