"""What a shop has, charges and allows, as its profile says it."""

__all__: list[str] = []
