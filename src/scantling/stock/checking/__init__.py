"""What is wrong: named before a search and after it, and layouts checked from nothing."""

__all__: list[str] = []
