"""The piece: parts, joints, parameters and shapes, read from piece files; forms are piece files too."""

__all__: list[str] = []
