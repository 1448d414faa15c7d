"""Parts that joints connect with each other."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.joinery.work import JointWork

__all__ = ["groups"]


def groups(parts: Iterable[str], works: Iterable[JointWork]) -> list[tuple[str, ...]]:
    """Parts that joints connect with each other, in the order of the parts.

    Examples
    --------
    >>> groups(["leg", "rail", "lid"], [])
    [('leg',), ('rail',), ('lid',)]
    """
    of = {name: [name] for name in parts}
    for work in works:
        one, other = of[work.first], of[work.second]
        if one is not other:
            one.extend(other)
            of.update(dict.fromkeys(other, one))
    order = {name: number for number, name in enumerate(of)}
    whole = {id(group): group for group in of.values()}
    return [tuple(sorted(group, key=order.__getitem__)) for group in whole.values()]
