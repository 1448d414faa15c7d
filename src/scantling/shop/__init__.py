"""What the shop does to the parts: milling, laminations, strips, saw settings, glue-ups; what it can take."""

__all__: list[str] = []
