"""The model of a trial: frozen, checked, in g, s, °C and mm. Nothing computed is in it."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.recipe.trial_words import NOT_MADE as NOT_MADE
from crumbcoat_calc.recipe.trial_words import OUTCOMES as OUTCOMES
from crumbcoat_calc.recipe.trial_words import TESTS as TESTS
from crumbcoat_calc.recipe.trial_words import VERDICTS as VERDICTS

COMPARISONS = ("triangle", "paired")
"""How two batches are tasted blind: find the odd one of three samples, or choose one of two (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in the method: the position of the stage, and of the step in it, from 0; None for the whole stage."""

    stage: int
    step: int | None = None

    @property
    def written(self) -> str:
        """As it is written in a trial file, counted from 1: `2` or `2.3`."""
        return str(self.stage + 1) if self.step is None else f"{self.stage + 1}.{self.step + 1}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """The differences from the trial before it, or from the recipe: fields as a recipe file has them.

    `ingredients` has, by key, the fields that differ, those of a new ingredient with the place where it goes in under
    `add_at`, or NOT_MADE. `steps` has the fields that differ of a step, or NOT_MADE.
    """

    ingredients: Mapping[str, Mapping[str, object] | str]
    steps: Mapping[Place, Mapping[str, object] | str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was read off an instrument; `at` is None for the finished batch, all else None where it was not read."""

    at: Place | None
    temperature_c: float | None = None
    mass_g: float | None = None
    density_g_per_ml: float | None = None
    ph: float | None = None
    brix_percent: float | None = None
    water_activity: float | None = None
    spread_mm: float | None = None
    penetration_mm: float | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Warming:
    """What a mixer did to the temperature of a batch at a step."""

    at: Place | None
    from_c: float
    to_c: float
    time_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Chilling:
    """How a batch cooled in its bowl in a cold place of `cold_c`."""

    from_c: float
    to_c: float
    time_s: float
    cold_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What was seen at a checkpoint: the sign, the remedy if one was tried, and whether it worked."""

    at: Place
    sign: str
    remedy: str | None = None
    worked: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchTest:
    """A test of the finished batch, a word of TESTS, its conditions, and what it did, a word of OUTCOMES."""

    test: str
    did: str
    where: str | None = None
    temperature_c: float | None = None
    time_s: float | None = None
    weeping_mm: float | None = None
    height_lost_mm: float | None = None
    rosettes: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tasting:
    """The marks that people gave for one attribute on a scale from 1 to 9 or 1 to 5; `code` if it was blind."""

    attribute: str
    scale: int
    marks: tuple[int, ...]
    code: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """People who tasted this batch blind against the one of trial `against`, a word of COMPARISONS.

    Of `people` in all, `count` found the odd one of three samples, or chose this batch of the two. `asked` is what
    they were asked.
    """

    test: str
    against: int
    people: int
    count: int
    asked: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture beside the trial file; pictures of the same `shot` are compared across trials."""

    file: str
    shot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One batch of a recipe as it was made.

    `came_from` is the number of the trial that it changes, or an earlier version of the recipe such as `v1`; None for
    the recipe as it is. `recipe_mark` is the mark of that recipe when the trial was begun. `weighed` is what was really
    weighed, by ingredient, as written, where it differs. `plan` is the number of the plan that it is a point of, and
    `code` the one under which it is tasted blind. `did` is what the finished batch did, a word of OUTCOMES.
    """

    number: int
    date: str
    who: str | None = None
    came_from: str | None = None
    recipe_mark: str | None = None
    aim: str | None = None
    plan: int | None = None
    code: str | None = None
    changed: Changed
    weighed: Mapping[str, str]
    readings: tuple[Reading, ...] = ()
    mixing: tuple[Warming, ...] = ()
    chilling: tuple[Chilling, ...] = ()
    seen: tuple[Seen, ...] = ()
    tests: tuple[BatchTest, ...] = ()
    tasted: tuple[Tasting, ...] = ()
    compared: tuple[Comparison, ...] = ()
    pictures: tuple[Picture, ...] = ()
    did: str | None = None
    verdict: str | None = None
    because: str | None = None

    @property
    def was_made(self) -> bool:
        """Whether anything is noted of the batch; a trial that is only planned has nothing yet."""
        noted = (self.weighed, self.readings, self.mixing, self.chilling, self.seen, self.tests, self.tasted)
        return any((*noted, self.compared, self.pictures, self.did, self.verdict, self.because))

    @property
    def from_trial(self) -> int | None:
        """The number of the trial that it changes, if it does not change the recipe or a version of it."""
        return int(self.came_from) if self.came_from and self.came_from.isdecimal() else None
