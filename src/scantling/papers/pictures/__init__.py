"""Pictures of figures: the year, a room, how much to ask for, the days of the work."""

__all__: list[str] = []
