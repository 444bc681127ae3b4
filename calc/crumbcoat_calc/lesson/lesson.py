"""A lesson: who makes how much with what equipment, and how its handout is printed."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from crumbcoat_calc.purchasing.shopping import Pack

SHEETS = ("same", "different")
ANSWERS = ("print", "leave out")
PAPERS = ("A4", "Letter")
PRINT_SIZES = ("normal", "large")
COOKS = ("children too", "adults only")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What a teacher chooses; amounts are per group.

    `mixers` is None if every group has its own; `bowl_ml` and `available_s` are None if they are left blank.
    `packs` are the packs sold in the teacher's shop, by kind.
    """

    students: int = 12
    groups: int = 4
    batches: float = 1.0
    bowl_ml: float | None = None
    mixers: int | None = None
    available_s: float | None = None
    start_s: float = 9 * 3600.0
    seed: str = "1"
    sheets: str = SHEETS[0]
    answers: str = ANSWERS[0]
    paper: str = PAPERS[0]
    print_size: str = PRINT_SIZES[0]
    cooks: str = COOKS[0]
    packs: Mapping[str, Pack] = field(default_factory=dict)

    @property
    def hands(self) -> int:
        """How many tasks one group can attend to at a time: one for every two students in the smallest group."""
        return max(1, self.students // self.groups // 2)

    @property
    def group_sizes(self) -> tuple[int, ...]:
        """How many students each group has, the larger groups first."""
        small, larger = divmod(self.students, self.groups)
        return tuple([small + (number < larger) for number in range(self.groups)])

    @property
    def seeds(self) -> tuple[str, ...]:
        """One seed for all sheets, or one for each group."""
        if self.sheets == SHEETS[0]:
            return (self.seed,)
        return tuple([f"{self.seed}/{number}" for number in range(1, self.groups + 1)])
