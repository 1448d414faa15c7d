"""Plates and sheets of whole sizes: edge-to-edge cuts, exact where they can be, and stock by the length."""

__all__: list[str] = []
