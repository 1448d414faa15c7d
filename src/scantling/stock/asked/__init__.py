"""What is asked of the boards: blanks, panels of free width, wishes between them, and how this shop cuts."""

__all__: list[str] = []
