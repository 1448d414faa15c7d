"""The layout question as the search sees it: whole thousandths, places to cut, patterns."""

__all__: list[str] = []
