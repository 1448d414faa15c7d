"""The page of the boards: drawings, a part put down, marks, and the search."""

__all__: list[str] = []
