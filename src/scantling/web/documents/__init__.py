"""The documents of the page: frame, places, modules, what is kept for opening without the server."""

__all__: list[str] = []
