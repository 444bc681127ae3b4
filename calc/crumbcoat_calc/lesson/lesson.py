"""A lesson: who makes how much with what equipment, and how its handout is printed."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from crumbcoat_calc.purchasing.shopping import Pack

SHEETS = ("same", "different")
ANSWERS = ("print", "leave out")
PAPERS = ("A4", "Letter")
PRINT_SIZES = ("normal", "large")
COOKS = ("children too", "adults only")
PAGES = ("everything", "groups' sheets", "teacher's pages")
MIXER, BOWL, HOB, OVEN, SCALES, SHELF = TOOLS = ("mixer", "bowl", "hob", "oven", "scales", "shelf")
"""What groups may share; a bowl is that of a mixer, a shelf one of a refrigerator."""

SEVERAL = {tool: tool if tool == SCALES else "shelves" if tool == SHELF else f"{tool}s" for tool in TOOLS}
"""What several of each tool are called; the fields of a form have these names."""

MOST_GROUPS = 40
MAKES = ("all recipes", "one recipe")
WITHOUT = ("nobody", "all groups", "one group")
"""Who makes a recipe without the allergens in the room, where it can be made without them."""
LEVELS = ("11 to 14", "14 to 16", "16 and over")
"""The ages that goals and exercises are for."""

EXERCISES, GOALS, PREDICTION, TASTING, DIAGNOSIS, RUBRIC, TEST = PARTS = (
    "exercises", "goals", "prediction", "tasting", "diagnosis", "rubric", "test",
)  # fmt: skip
"""What is printed for teaching, besides the cooking; the fields of a form have these names."""

BY_AMOUNT, BY_TEMPERATURE, BY_ADDITIONS = "%", "°C", "additions"
"""What is varied in a class experiment, by the unit of its levels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What a teacher chooses; amounts are per group.

    `tools` has how many of each of TOOLS all groups share; of any other every group has its own. `bowl_ml` and
    `available_s` are None if they are left blank. `makes` says whether each group makes all recipes, or the groups take
    one each in turn; `beforehand` are the stages that the teacher makes, as recipe and stage counted from 0. `talk_s`
    comes before the work, `taste_s` and `clean_s` after it. `not_printed` are those of
    PARTS that are not printed, `packs` the packs sold in the teacher's shop, by kind.

    `allergies` are the allergens that someone in the room has to avoid, in a person's words; `without` says who makes
    the recipes without them, and `apart` which group that is if it is one: the last one if it is None.

    `vary` is the ingredient that a class experiment varies, as a person names it, empty for none; `levels` are how much
    of it the groups take, in the unit `levels_by`.
    `margin` is the share that is bought besides, for what is spilt and what stays in bowls; 5 % is common practice, no
    source. `pages`: what of the handout is printed.
    """

    students: int = 12
    groups: int = 4
    batches: float = 1.0
    bowl_ml: float | None = None
    tools: Mapping[str, int] = field(default_factory=dict)
    makes: str = MAKES[0]
    beforehand: frozenset[tuple[int, int]] = frozenset()
    talk_s: float = 600.0
    weigh_s: float = 600.0
    look_s: float = 60.0
    change_s: float = 120.0
    wash_s: float = 300.0
    taste_s: float = 600.0
    clean_s: float = 900.0
    available_s: float | None = None
    start_s: float = 9 * 3600.0
    seed: str = "1"
    sheets: str = SHEETS[0]
    answers: str = ANSWERS[0]
    level: str = LEVELS[1]
    not_printed: frozenset[str] = frozenset()
    paper: str = PAPERS[0]
    print_size: str = PRINT_SIZES[0]
    pages: str = PAGES[0]
    margin: float = 0.05
    cooks: str = COOKS[0]
    packs: Mapping[str, Pack] = field(default_factory=dict)
    allergies: tuple[str, ...] = ()
    without: str = WITHOUT[0]
    apart: int | None = None
    vary: str = ""
    levels_by: str = BY_AMOUNT
    levels: tuple[float, ...] = ()

    @property
    def hands(self) -> int:
        """How many tasks a group can attend to at a time: half the students of the smallest group, rounded up.

        Common practice, no source: one does, one reads, measures and hands things over.
        """
        return (self.students // self.groups + 1) // 2

    def recipes_of(self, group: int, recipes: int) -> tuple[int, ...]:
        """Which of that many recipes a group makes; groups and recipes are counted from 0."""
        return tuple(range(recipes)) if self.makes == MAKES[0] else (group % recipes,)

    @property
    def groups_without(self) -> frozenset[int]:
        """The groups, counted from 1, that make recipes without the allergens in the room."""
        if not self.allergies or self.without == WITHOUT[0]:
            return frozenset()
        every = range(1, self.groups + 1)
        return frozenset(every if self.without == WITHOUT[1] else [self.apart or self.groups])

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
