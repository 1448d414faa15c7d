"""Who may ask, from where, with which key, and how much."""

__all__: list[str] = []
