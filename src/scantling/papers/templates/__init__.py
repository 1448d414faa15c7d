"""Full-size paper: templates of faces and arcs, story sticks, and how they are tiled."""

__all__: list[str] = []
