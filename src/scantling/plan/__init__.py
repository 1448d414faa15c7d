"""The plan: all about one piece, from the packages below; :mod:`~scantling.plan.planner` makes it."""

__all__: list[str] = []
