"""What goes into the piece beside boards: glue, clamps, cauls, hardware, finish, and the minutes of each."""

__all__: list[str] = []
