"""What a class has to do with which tools, and a plan of it: data only."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Follows:
    """A task that comes first, and how long what it made may wait, in s; None: without limit."""

    key: str
    longest_wait_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing that a group does. `attended`: somebody stays with it, from beginning to end."""

    key: str
    duration_s: float
    attended: bool = True
    after: tuple[Follows, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """One of a shared tool, from the start of the first of these tasks to the end of the last, and `then_s` more."""

    tool: str
    tasks: tuple[str, ...]
    then_s: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """All that one group does, with `hands`: how many attended tasks at a time."""

    tasks: tuple[Task, ...]
    holds: tuple[Hold, ...] = ()
    hands: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """When a group does a task, in s from the start; groups are counted from 1."""

    group: int
    task: str
    start_s: float
    end_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """When a group has a shared tool, in s from the start, its time to be washed or handed over included.

    `unit` says which one, counted from 1; `tasks` what it is for.
    """

    group: int
    tool: str
    unit: int
    start_s: float
    end_s: float
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The turns of all groups, the earliest first, and who has which shared tool."""

    turns: tuple[Turn, ...]
    holdings: tuple[Holding, ...]

    @property
    def length_s(self) -> float:
        return max((turn.end_s for turn in self.turns), default=0.0)
