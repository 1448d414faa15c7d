"""Looking for a good order of work: priority rules first, then many orders bred and pushed back and forth.

References
----------
.. [1] S. Hartmann, "A competitive genetic algorithm for resource-constrained project scheduling",
   *Naval Research Logistics* 45, 1998, 733-750: two-point crossover of lists.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence

from scantling.schedule.bound import finish_bound, latest_ends
from scantling.schedule.project import Plan, Project
from scantling.schedule.serial import _feasible, as_early, justified
from scantling.schedule.stopping import Stop

__all__ = ["improve", "priority_orders"]

_CROWD = 60
"""Plans kept. [1]"""
_BLURS = (0.05, 0.1, 0.2, 1.0)
"""How much chance weighs in a first order, as a share of the longest tail. [1]"""
_MOVED = 0.06
"""Share of the tasks moved in a child. [1]"""


def priority_orders(project: Project) -> list[list[int]]:
    """Orders by the usual rules: latest end, latest start, most to follow, longest drying, as given."""
    far = project.calendar.clock_at_start(0) + 2 * (sum(project.hands) * 7 + sum(project.wait) + 14 * 1440)
    ends = latest_ends(project, far)
    follow = _followers(project)
    tail = _tails(project)
    rules: list[Callable[[int], tuple[int, int]]] = [
        lambda k: (ends[k], k),
        lambda k: (ends[k] - project.hands[k], k),
        lambda k: (-tail[k], k),
        lambda k: (-len(follow[k]), k),
        lambda k: (-project.wait[k], k),
        lambda k: (k, k),
    ]
    return [_by_rule(project, rule) for rule in rules]


def _by_rule(project: Project, rule: Callable[[int], tuple[int, int]]) -> list[int]:
    """Repeatedly the best task of those whose needs are placed."""
    missing = [len(needs) for needs in project.before]
    ready = [k for k in range(project.size) if not missing[k]]
    order: list[int] = []
    while ready:
        task = min(ready, key=rule)
        ready.remove(task)
        order.append(task)
        for other in project.after[task]:
            missing[other] -= 1
            if not missing[other]:
                ready.append(other)
    return order


def _followers(project: Project) -> list[set[int]]:
    follow: list[set[int]] = [set() for _ in range(project.size)]
    for k in reversed(range(project.size)):
        for other in project.after[k]:
            follow[k] |= {other} | follow[other]
    return follow


def _tails(project: Project) -> list[int]:
    """Longest time from each task's start to the end, by the clock without nights. [min]"""
    tail = [0] * project.size
    for k in reversed(range(project.size)):
        tail[k] = project.hands[k] + project.wait[k] + max((tail[j] for j in project.after[k]), default=0)
    return tail


def improve(project: Project, *, stop: Stop, seed: int = 1) -> Iterator[tuple[Plan, int]]:
    """Better and better plans, each with the proven bound; ends early when they meet.

    The first is by the priority rules; same seed and tries, same plans.
    """
    over = stop.starting()
    rng = random.Random(seed)
    crowd = sorted(
        (_pushed(project, order) for order in priority_orders(project)), key=lambda plan: plan.finish
    )
    best = crowd[0]
    bound = finish_bound(project, best.finish)
    yield best, bound
    made = len(crowd)
    while best.finish > bound and not over(made):
        made += 1
        bred = made > _CROWD // 2
        child = _pushed(project, _child(project, crowd, rng) if bred else _sampled(project, rng))
        _join(crowd, child, rng)
        if child.finish < best.finish:
            best = child
            yield best, bound


def _pushed(project: Project, order: Sequence[int]) -> Plan:
    return justified(project, as_early(project, order))


def _order(project: Project, plan: Plan) -> list[int]:
    return sorted(range(project.size), key=lambda k: (plan.start[k], plan.worked[k], k))


def _child(project: Project, crowd: list[Plan], rng: random.Random) -> list[int]:
    """Two-point crossover of two good orders, then a few tasks moved elsewhere."""
    mother, father = (_order(project, _picked(crowd, rng)) for _ in range(2))
    low, high = sorted(rng.randrange(project.size + 1) for _ in range(2))
    head = mother[:low]
    first = set(head)
    middle = [k for k in father if k not in first][: high - low]
    used = first | set(middle)
    wanted = head + middle + [k for k in mother if k not in used]
    moves = max(sum(rng.random() < _MOVED for _ in range(project.size)), 1)
    for _ in range(moves):
        task = wanted.pop(rng.randrange(project.size))
        wanted.insert(rng.randrange(project.size), task)
    return _feasible(project, wanted)


def _sampled(project: Project, rng: random.Random) -> list[int]:
    """Order by the longest time to follow, blurred now less, now more."""
    tail = _tails(project)
    worst = max(tail, default=1) or 1
    blur = rng.choice(_BLURS)
    keys = [tail[k] / worst + blur * rng.random() for k in range(project.size)]
    return _by_rule(project, lambda k: (-round(keys[k] * 1e6), k))


def _picked(crowd: list[Plan], rng: random.Random) -> Plan:
    return min(rng.choice(crowd), rng.choice(crowd), key=lambda plan: plan.finish)


def _join(crowd: list[Plan], child: Plan, rng: random.Random) -> None:
    """The child joins; a full crowd loses its worst, and no plan is there twice."""
    if any(plan.worked == child.worked for plan in crowd):
        return
    crowd.append(child)
    if len(crowd) > _CROWD:
        worst = max(plan.finish for plan in crowd)
        losers = [k for k, plan in enumerate(crowd) if plan.finish == worst]
        crowd.pop(rng.choice(losers))
