"""What to buy: how much to ask for without a rack, and boards judged as they are lifted in the yard."""

__all__: list[str] = []
