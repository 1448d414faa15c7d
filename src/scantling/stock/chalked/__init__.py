"""From patterns to a layout a maker can chalk on the boards."""

__all__: list[str] = []
