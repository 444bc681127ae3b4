"""A job in whole minutes: what follows what, and what hangs together."""

from collections.abc import Sequence
from itertools import permutations
from math import inf

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.plan import Job

MINUTE_S = 60.0
_BLOCKS = 3
"""Of this number of long blocks every order is tried."""


class Work:
    """A job in whole minutes, with what placing it needs to know again and again."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.hands = job.hands
        keys = [task.key for task in job.tasks]
        self.place = {key: number for number, key in enumerate(keys)}
        if len(self.place) < len(keys):
            key = next(key for key in keys if keys.count(key) > 1)
            raise InputError(f"two tasks have the key {key!r}", "use a different key for each", ("tasks",))
        self.lasts = [minutes(task.duration_s) for task in job.tasks]
        self.attended = [task.attended for task in job.tasks]
        self.before: list[list[int]] = []
        self.next: list[list[tuple[int, float]]] = [[] for _ in keys]
        for number, task in enumerate(job.tasks):
            unknown = [follows.key for follows in task.after if follows.key not in self.place]
            if unknown:
                raise InputError(f"{task.key!r} follows {unknown[0]!r}, which is not there", "name a task", ("tasks",))
            self.before.append([self.place[follows.key] for follows in task.after])
            for follows in task.after:
                limit = inf if follows.longest_wait_s is None else follows.longest_wait_s // MINUTE_S
                self.next[self.place[follows.key]].append((number, limit))
        self.holds = [
            (hold.tool, tuple(self.place[key] for key in hold.tasks), minutes(hold.then_s)) for hold in job.holds
        ]
        self.holds_of: list[list[int]] = [[] for _ in keys]
        for number, (_, tasks, _) in enumerate(self.holds):
            for task_number in tasks:
                self.holds_of[task_number].append(number)
        self.chains = self._chains()
        self.chain = max(self.chains, default=0)
        self.blocks = self._blocks()

    def _chains(self) -> list[int]:
        """The least minutes from the start of the job to the end of each task."""
        chains: dict[int, int] = {}
        left = list(range(len(self.lasts)))
        while left:
            done = [number for number in left if all(need in chains for need in self.before[number])]
            if not done:
                key = self.job.tasks[left[0]].key
                raise InputError(f"{key!r} waits for itself", "take one `after` away", ("tasks",))
            for number in done:
                chains[number] = self.lasts[number] + max((chains[need] for need in self.before[number]), default=0)
            left = [number for number in left if number not in chains]
        return [chains[number] for number in range(len(self.lasts))]

    def _blocks(self) -> list[tuple[int, ...]]:
        """What hangs together, since something may not wait for ever or keeps a tool; in the order of the work."""
        block = list(range(len(self.lasts)))
        for number, nexts in enumerate(self.next):
            for after, limit in nexts:
                if limit < inf:
                    block = [block[number] if one == block[after] else one for one in block]
        for _, tasks, _ in self.holds:
            for task in tasks[1:]:
                block = [block[tasks[0]] if one == block[task] else one for one in block]
        members = {one: tuple(number for number, other in enumerate(block) if other == one) for one in block}
        needs = {
            one: {block[need] for task in tasks for need in self.before[task]} - {one} for one, tasks in members.items()
        }
        ordered: list[tuple[int, ...]] = []
        done: set[int] = set()
        while len(done) < len(members):
            ready = [one for one in members if one not in done and needs[one] <= done]
            if not ready:  # They wait for each other, so they hang together as well.
                ordered.append(tuple(sorted(task for one in members if one not in done for task in members[one])))
                break
            ordered += [members[one] for one in ready]
            done.update(ready)
        return ordered

    def block_orders(self) -> list[tuple[int, ...]]:
        """The orders in which the blocks may come, what comes first before what follows it."""
        of_task = {task: number for number, tasks in enumerate(self.blocks) for task in tasks}
        before = [[need for task in tasks for need in self.before[task]] for tasks in self.blocks]
        needs = [{of_task[need] for need in tasks} - {number} for number, tasks in enumerate(before)]
        long = [number for number, tasks in enumerate(self.blocks) if len(tasks) > 1][:_BLOCKS]
        orders = []
        for some in permutations(long):
            order: list[int] = []
            for number in (*some, *range(len(self.blocks))):
                _add(number, needs, order)
            orders.append(tuple(order))
        return list(dict.fromkeys(orders))

    @property
    def upper(self) -> int:
        """Minutes in which a group certainly is done, if it can be done at all."""
        return sum(self.lasts) + sum(then for _, _, then in self.holds)


def minutes(time_s: float) -> int:
    """Whole minutes, rounded up."""
    return int(-(-time_s // MINUTE_S))


def _add(number: int, needs: Sequence[set[int]], order: list[int]) -> None:
    """Add a block to an order, after what it needs."""
    if number not in order:
        for need in sorted(needs[number]):
            _add(need, needs, order)
        order.append(number)
