"""How the piece stands, carries, is moved, and comes apart."""

__all__: list[str] = []
