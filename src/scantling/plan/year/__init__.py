"""What the seasons do: to parts, to joints, in this room and in others, and when to build."""

__all__: list[str] = []
