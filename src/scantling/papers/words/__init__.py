"""What the plan says in a maker's words, the same on every face."""

__all__: list[str] = []
