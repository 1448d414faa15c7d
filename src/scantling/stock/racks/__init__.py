"""The boards at hand and what the bench noted: parts cut, marks found, boards that stay as laid out."""

__all__: list[str] = []
