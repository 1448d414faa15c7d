"""What is sent to a browser and read from it: bodies with their limits, shown values, refusals."""

__all__: list[str] = []
