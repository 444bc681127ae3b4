"""The recipe model: frozen, checked, in g, s and °C; amounts are those of one batch as published."""

from dataclasses import dataclass

from crumbcoat_calc.foods.table import Food

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
"""The families of frosting and filling, in the trade's words (common practice, no source)."""

SPEEDS = ("by hand", "low", "medium-low", "medium", "medium-high", "high")
PLACES = ("at room temperature", "in a cool room", "in the refrigerator", "in the freezer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """An amount as it is written, and its mass; `unit` is a unit of units.txt or a word for a piece."""

    written: str
    mass_g: float
    unit: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """A part of an ingredient that goes in at a place of its own; the portions add up to the ingredient."""

    key: str
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SubIngredient:
    """What a compound ingredient is made of, as its pack lists it; `share` of it, where the pack tells."""

    name: str
    share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replacement:
    """Another kind that may stand for an ingredient, with the mass that replaces 1 g of it.

    `made_of` and `allergens` are as those of an ingredient.
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
    """An ingredient of one batch; `temperature_c` is that which it has when it goes in, None if not stated.

    `made_of` opens a compound ingredient, the most first. `allergens` is the author's word for what it holds and stands
    instead of the ingredient table; None leaves it to the table.
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
    replacements: tuple[Replacement, ...] = ()
    made_of: tuple[SubIngredient, ...] = ()
    allergens: tuple[str, ...] | None = None

    @property
    def mass_g(self) -> float:
        return self.amount.mass_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What goes in: an ingredient or what an earlier stage made, by its key, and which portion of it, if divided."""

    what: str
    portion: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A sign that something went wrong, and what mends it."""

    sign: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Checkpoint:
    """Where a batch is judged and can still be rescued."""

    passes: tuple[str, ...]
    troubles: tuple[Trouble, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Time:
    """A time or a range of times, in s."""

    shortest_s: float
    longest_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do; `water_lost_g` is what boils off in it, `heat_to_c` the temperature that it is heated to."""

    do: str
    uses: tuple[Use, ...] = ()
    additions: int = 1
    tool: str | None = None
    speed: str | None = None
    time: Time | None = None
    look_for: str | None = None
    why: str | None = None
    photo: str | None = None
    checkpoint: Checkpoint | None = None
    optional: bool = False
    water_lost_g: float = 0.0
    heat_to_c: float | None = None
    cool_to_c: float | None = None
    unattended: bool = False
    when_scaled: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Steps that belong together. `makes` names what is set aside in a vessel of its own; `shares` divides it."""

    title: str
    steps: tuple[Step, ...]
    makes: str | None = None
    shares: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage:
    """How the finished batch keeps."""

    where: str
    up_to_s: float
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Yield:
    """What one batch is good for: so many of something."""

    portions: int
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoration:
    """What goes onto the finished cake; what is not `eaten` is taken off before."""

    what: str
    eaten: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What was measured on a finished batch; None where it was not."""

    density_g_per_ml: float | None = None
    ph: float | None = None
    water_activity: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """A recipe: one batch as published. `tried` is the smallest and largest number of batches made at once.

    `may_contain` is the author's word for allergens that may get in.
    """

    title: str
    summary: str
    author: str
    family: str
    yields: Yield
    ingredients: tuple[Ingredient, ...]
    stages: tuple[Stage, ...]
    published: str | None = None
    keywords: tuple[str, ...] = ()
    storage: tuple[Storage, ...] = ()
    notes: tuple[str, ...] = ()
    measured: Measured = Measured()
    tried: tuple[float, float] | None = None
    may_contain: tuple[str, ...] = ()
    decorations: tuple[Decoration, ...] = ()
