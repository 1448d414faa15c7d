"""A layout as it is told: what comes from where, by which cuts, what is left, and how good that is."""

__all__: list[str] = []
