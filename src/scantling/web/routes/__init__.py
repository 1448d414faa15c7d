"""What can be asked: addresses of the pieces, shops, rooms, stockroom and bench."""

__all__: list[str] = []
