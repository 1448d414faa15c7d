"""The search as a whole: anytime, with a bound, on one process, on two, or on many."""

__all__: list[str] = []
