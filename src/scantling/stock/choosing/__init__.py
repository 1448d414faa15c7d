"""One pattern a board, chosen together: worths, whole choices, and plans renewed a few boards at a time."""

__all__: list[str] = []
