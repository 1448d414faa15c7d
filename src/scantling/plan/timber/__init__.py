"""What the piece asks of the boards, and where every part comes from."""

__all__: list[str] = []
