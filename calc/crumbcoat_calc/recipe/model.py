"""The recipe model: frozen, checked, in g, s and °C. Amounts are for one batch as published."""

from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.asked import Asked
from crumbcoat_calc.recipe.claims import Claim
from crumbcoat_calc.recipe.credits import Author, Video
from crumbcoat_calc.recipe.photo import Photo

FAMILIES = (
    "emulsified milk frosting",
    "meringue buttercream",
    "egg-yolk buttercream",
    "custard buttercream",
    "cooked-flour buttercream",
    "condensed-milk buttercream",
    "sugar-and-butter frosting",
    "cream-cheese frosting",
    "whipped cream",
    "ganache",
    "curd or custard filling",
    "glaze or icing",
    "other",
)
"""The families of frostings and fillings, in the terms of the trade (common practice, no source)."""

SPEEDS = ("by hand", "low", "medium-low", "medium", "medium-high", "high")
PLACES = ("at room temperature", "in a cool room", "in the refrigerator", "in the freezer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """An amount as written, and its mass; `unit` is a unit in units.txt or a word for a piece."""

    written: str
    mass_g: float
    unit: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """A part of an ingredient that goes in at a separate place, or is kept back; portions add up to the amount."""

    key: str
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SubIngredient:
    """A part of a compound ingredient, as listed on its pack; `share` only if the pack states it."""

    name: str
    share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replacement:
    """Another kind that can replace an ingredient; `ratio` g of it replace 1 g.

    `made_of` and `allergens` are as in `Ingredient`.
    """

    key: str
    name: str
    food: Food
    ratio: float
    note: str | None
    made_of: tuple[SubIngredient, ...] = ()
    allergens: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """An ingredient of one batch; `temperature_c` is its temperature when it goes in, None if not stated.

    `kept_back` is extra to the amount, for a rescue at a checkpoint: it is not in the batch unless it is used there.
    `made_of` lists the parts of a compound ingredient, the largest share first. `allergens` is the author's statement,
    which overrides the ingredient table; None means that the table applies.
    """

    key: str
    name: str
    food: Food
    amount: Amount
    role: str | None = None
    preparation: str | None = None
    temperature_c: float | None = None
    optional: bool = False
    portions: tuple[Portion, ...] = ()
    kept_back: tuple[Portion, ...] = ()
    replacements: tuple[Replacement, ...] = ()
    made_of: tuple[SubIngredient, ...] = ()
    allergens: tuple[str, ...] | None = None

    @property
    def mass_g(self) -> float:
        return self.amount.mass_g

    @property
    def is_all_kept_back(self) -> bool:
        """Whether the batch as published has none of it."""
        return not self.amount.mass_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What goes in at a step: the key of an ingredient or of what an earlier stage made, and the portion if divided."""

    what: str
    portion: str | None = None

    @property
    def written(self) -> str:
        """As a recipe file has it: `cream` or `cream/start`."""
        return f"{self.what}/{self.portion}" if self.portion else self.what


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A sign that something went wrong, and how to put it right; `adds` is what is kept back for it."""

    sign: str
    remedy: str
    adds: tuple[Use, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Checkpoint:
    """Where a batch is judged and can still be rescued."""

    passes: tuple[str, ...]
    troubles: tuple[Trouble, ...]

    @property
    def adds(self) -> tuple[Use, ...]:
        """What is kept back for it, each part once."""
        return tuple(dict.fromkeys(use for trouble in self.troubles for use in trouble.adds))


@dataclass(frozen=True, slots=True, kw_only=True)
class Time:
    """A time or a range of times, in s."""

    shortest_s: float
    longest_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do; `water_lost_g` boils off, and `heat_to_c` is the temperature that the vessel is heated to.

    `additions` says of each of the `uses` in how many parts it goes in; it is empty if none is divided. `may_wait_s` is
    how long what it made may wait for the next step, 0 for not at all, None if the recipe does not say.
    """

    do: str
    uses: tuple[Use, ...] = ()
    additions: tuple[int, ...] = ()
    tool: str | None = None
    speed: str | None = None
    time: Time | None = None
    look_for: str | None = None
    why: str | None = None
    photos: tuple[Photo, ...] = ()
    checkpoint: Checkpoint | None = None
    optional: bool = False
    water_lost_g: float = 0.0
    heat_to_c: float | None = None
    cool_to_c: float | None = None
    unattended: bool = False
    may_wait_s: float | None = None
    when_scaled: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Steps that belong together. `makes` names what is set aside in a separate vessel; `shares` divides it."""

    title: str
    steps: tuple[Step, ...]
    makes: str | None = None
    shares: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage:
    """Where and how long the finished batch keeps."""

    where: str
    up_to_s: float
    note: str | None = None


LARGEST_PORTION_G = 125.0
"""Up to this mass a portion of frosting can be one person's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yield:
    """What one batch yields: a number of portions of something, each for a number of `people`, None if not said."""

    portions: int
    of: str
    people: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoration:
    """What goes onto the finished cake; if it is not `eaten`, it is taken off first."""

    what: str
    eaten: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Measurements of a finished batch; None if not measured."""

    density_g_per_ml: float | None = None
    ph: float | None = None
    water_activity: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnNotebook:
    """What the author says of the recipe's notebook: whether all may read it, a note for its head, the map's axes.

    `beside` names other recipes of the site that are shown beside the trials.
    """

    is_public: bool = False
    note: str | None = None
    axes: tuple[str, str] | None = None
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """A recipe: one batch as published. `tried` is the smallest and largest number of batches made at once.
    `made`: how many batches were made as written, 0 for a recipe that is only worked out, None if that is not said.

    A `draft`, or a recipe whose `published` is to come, is not in the site yet. `moved_from` are earlier addresses.
    `may_contain` is the author's statement of allergens that may get in by accident, `claims` what the author claims of
    the food and answers for.
    """

    title: str
    summary: str
    author: Author
    family: str
    yields: Yield
    ingredients: tuple[Ingredient, ...]
    stages: tuple[Stage, ...]
    published: str | None = None
    updated: str | None = None
    draft: bool = False
    keywords: tuple[str, ...] = ()
    cuisine: str | None = None
    video: Video | None = None
    storage: tuple[Storage, ...] = ()
    notes: tuple[str, ...] = ()
    tips: tuple[str, ...] = ()
    equipment: tuple[str, ...] = ()
    asked: tuple[Asked, ...] = ()
    made: int | None = None
    measured: Measured = Measured()
    tried: tuple[float, float] | None = None
    may_contain: tuple[str, ...] = ()
    decorations: tuple[Decoration, ...] = ()
    claims: tuple[Claim, ...] = ()
    notebook: OwnNotebook = OwnNotebook()
    moved_from: tuple[str, ...] = ()
    cover: Photo | None = None

    @property
    def portion_g(self) -> float:
        """The mass of one portion of the batch as published, in g.

        portion = (ingredients - water lost) / portions
        """
        lost_g = fsum(step.water_lost_g for stage in self.stages for step in stage.steps)
        return (fsum(ingredient.mass_g for ingredient in self.ingredients) - lost_g) / self.yields.portions

    @property
    def person_g(self) -> float | None:
        """What one person eats of the batch as published, in g; None if a portion may be for several people.

        Source:
            cfr-101-12, (b) Table 2, from memory: 125 g are the most that it counts as one slice of cake with its
            frosting. A larger portion of frosting alone is a person's only where the author says so.
        """
        if self.yields.people is not None:
            return self.portion_g / self.yields.people
        return self.portion_g if self.portion_g <= LARGEST_PORTION_G else None
