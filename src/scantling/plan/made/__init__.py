"""What is made already: boards begun, parts that are cut, sizes measured, and what follows from them."""

__all__: list[str] = []
