"""What is drawn up of a piece while the server runs: shape, plan, year, and what can be taken away."""

__all__: list[str] = []
