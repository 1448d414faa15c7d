"""The work step by step: what is done, how long it takes, what it waits for, and on which day."""

__all__: list[str] = []
