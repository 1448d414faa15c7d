"""How much of one resource is in use over time, as steps."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

__all__ = ["Profile"]


class Profile:
    """Use of a resource over time, as steps between breakpoints.

    Parameters
    ----------
    capacity
        How much there is. [1]
    """

    __slots__ = ("capacity", "times", "used")

    def __init__(self, capacity: int) -> None:
        self.capacity = capacity
        self.times: list[int] = [-(1 << 60)]
        self.used: list[int] = [0]

    def add(self, start: int, end: int, *, amount: int) -> None:
        """Use an amount from start to end."""
        if end <= start or amount == 0:
            return
        first, last = self._break(start), self._break(end)
        for k in range(first, last):
            self.used[k] += amount

    def _break(self, time: int) -> int:
        k = bisect_left(self.times, time)
        if k == len(self.times) or self.times[k] != time:
            self.times.insert(k, time)
            self.used.insert(k, self.used[k - 1])
        return k

    def earliest(self, start: int, length: int, *, amount: int) -> int:
        """Earliest start, not before ``start``, of a stretch in which the amount is free."""
        times, used, room = self.times, self.used, self.capacity - amount
        k = bisect_right(times, start) - 1
        count, end = len(times), start + length
        while k < count and (times[k] < end or length == 0):
            if length == 0:
                return start
            if used[k] > room:
                start = times[k + 1]  # nothing is in use after the last breakpoint, so there is a next
                end = start + length
            k += 1
        return start

    def latest(self, end: int, length: int, *, amount: int) -> int:
        """Latest end, not after ``end``, of a stretch in which the amount is free."""
        if length == 0:
            return end
        times, used, room = self.times, self.used, self.capacity - amount
        k = bisect_left(times, end) - 1
        start = end - length
        while k >= 0:
            if used[k] > room:
                end = times[k]
                start = end - length
            elif times[k] <= start:
                return end
            k -= 1
        return end
