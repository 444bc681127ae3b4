"""What a reader changed on a card: the typed changes, and the form state that they are kept in."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache, partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.bowls import tools
from crumbcoat_calc.kitchen.density import CUPS, density_of_measure
from crumbcoat_calc.kitchen.eggs import USUAL_SIZE, egg_sizes
from crumbcoat_calc.kitchen.household import SYSTEMS
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.recipe.batch import BatchOptions
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.moved import has_moved
from crumbcoat_calc.recipe.reading import LARGEST_BATCH, SMALLEST_BATCH
from crumbcoat_calc.recipe.replacing import replacement_of
from crumbcoat_calc.values.fields import did_you_mean, yes_no
from crumbcoat_calc.values.form_fields import choice_from, number_from, read_field, state_number
from crumbcoat_calc.values.units import number

UNITS = ("grams", "ounces", *SYSTEMS)
"""The units for amounts: grams, ounces, or the cups and spoons of a system."""

BATCHES = f"{SMALLEST_BATCH} to {LARGEST_BATCH} batches"
_SMALLEST_BOWL_L, _LARGEST_BOWL_L = 0.1, 500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What a reader changed: the batch, and how it is shown and measured.

    `scale` is a key of `scales`, or empty. `eggs` is the size of the eggs on hand, `have_g` the mass of ingredients on
    hand, `bowl_l` the bowl's volume, and `cup_g` the weight of a level `cup` of the frosting.
    """

    options: BatchOptions = field(default_factory=BatchOptions)
    units: str = UNITS[0]
    scale: str = ""
    eggs: str = USUAL_SIZE
    have_g: Mapping[str, float] = field(default_factory=dict)
    bowl_l: float | None = None
    tool: str = "whisk"
    cup: str = CUPS[0]
    cup_g: float | None = None

    @property
    def step_g(self) -> float | None:
        """The step of the reader's scale, in g."""
        return float(scales()[self.scale].step_g) if self.scale else None

    def density_g_per_ml(self, recipe: Recipe) -> float | None:
        """The density of the frosting: from the reader's weighed cup, else as the recipe states it for such a batch."""
        if self.cup_g is not None:
            return density_of_measure(self.cup_g, self.cup)
        stated = recipe.measured.density_g_per_ml
        return None if stated is None or has_moved(recipe, self.options) else stated


def changes_from(recipe: Recipe, state: Mapping[str, str], units: str = UNITS[0]) -> Changes:
    """The changes in a form state. Its numbers have no unit: g for one batch, g on hand, L for the bowl.

    Args:
        units: what amounts are shown in unless the form state says otherwise.

    Raises:
        InputError: at the field that cannot be used.
    """
    ingredients = {ingredient.key: ingredient for ingredient in recipe.ingredients}
    plain: dict[str, str] = {"units": units, "eggs": eggs_of(recipe)}
    amounts_g: dict[str, float] = {}
    have_g: dict[str, float] = {}
    left_out, replaced, skipped, used = set(), {}, set(), set()
    factor, bowl_l, cup_g = 1.0, None, None
    for name, value in state.items():
        head, _, key = name.partition(".")
        if name == "factor":
            factor = read_field(name, value, factor_from)
        elif name == "bowl":
            bowl_l = read_field(name, value, _bowl_l) if value else None
        elif name == "cup_weighs":
            cup_g = read_field(name, value, _more_than_zero) if value else None
        elif name in _words():
            plain[name] = read_field(name, value, partial(choice_from, known=_words()[name], what=name))
        elif head == "skip":
            if read_field(name, value, _yes):
                skipped.add(_skipped(recipe, name))
        elif head == "used":
            if read_field(name, value, _yes):
                used.add(_kept_back(recipe, name))
        elif head not in _OF_AN_INGREDIENT or key not in ingredients:
            remedy = did_you_mean(name, (*ingredients, *_words(), "factor", "bowl", "cup_weighs"), "leave it out")
            raise InputError(f"unknown field {name!r}", remedy, (name,))
        elif head == "amount":
            amounts_g[key] = read_field(name, value, number_from)
            if ingredients[key].is_all_kept_back:
                problem = f"all of the {ingredients[key].name} is kept back, and no step adds it"
                raise InputError(problem, "say at its checkpoint that it went in", ("amount", key))
        elif head == "have":
            if value:
                have_g[key] = read_field(name, value, _more_than_zero)
        elif head == "instead":
            read_field(name, value, partial(replacement_of, ingredients[key]))
            replaced[key] = value
        elif read_field(name, value, partial(_leaves_out, ingredients[key])):
            left_out.add(key)
    if cup_g is not None:
        cup, weighed_g = plain.get("cup", CUPS[0]), cup_g
        read_field("cup_weighs", "", lambda _: density_of_measure(weighed_g, cup))
    options = BatchOptions(
        factor=factor,
        amounts_g=amounts_g,
        left_out=frozenset(left_out),
        replaced=replaced,
        skipped=frozenset(skipped),
        used=frozenset(used),
    )
    return Changes(options=options, have_g=have_g, bowl_l=bowl_l, cup_g=cup_g, **plain)


def eggs_of(recipe: Recipe) -> str:
    """The size in which a recipe counts its eggs; the usual one if it counts none."""
    return next((one.amount.unit for one in recipe.ingredients if one.amount.unit in egg_sizes()), USUAL_SIZE)


_OF_AN_INGREDIENT = ("amount", "have", "instead", "without")


def state_from_changes(recipe: Recipe, changes: Changes, units: str = UNITS[0]) -> dict[str, str]:
    """The differences from the recipe as published in these units, with one spelling for each value."""
    options = changes.options
    state = {} if options.factor == 1 else {"factor": state_number(options.factor)}
    published = {"units": units, "eggs": eggs_of(recipe)}
    for name in _words():
        value = getattr(changes, name)
        if value != published.get(name, getattr(UNCHANGED, name)):
            state[name] = value
    if changes.bowl_l is not None:
        state["bowl"] = state_number(changes.bowl_l)
    if changes.cup_g is not None:
        state["cup_weighs"] = state_number(changes.cup_g)
    for ingredient in recipe.ingredients:
        key = ingredient.key
        if key in options.amounts_g:
            amount = state_number(options.amounts_g[key])
            if amount != state_number(ingredient.mass_g):
                state[f"amount.{key}"] = amount
        if key in options.left_out:
            state[f"without.{key}"] = "yes"
        if options.replaced.get(key):
            state[f"instead.{key}"] = options.replaced[key]
        if key in changes.have_g:
            state[f"have.{key}"] = state_number(changes.have_g[key])
    for stage, step in sorted(options.skipped):
        state[f"skip.{stage}.{step}"] = "yes"
    for key, part in sorted(options.used):
        state[f"used.{key}.{part}"] = "yes"
    return state


UNCHANGED = Changes()
"""The page as published."""


def factor_from(written: object) -> float:
    """How many batches: a number from SMALLEST_BATCH to LARGEST_BATCH.

    >>> factor_from("1/2")
    0.5
    """
    value = float(number(str(written)))
    if not SMALLEST_BATCH <= value <= LARGEST_BATCH:
        raise InputError(f"{value:g} is not a possible number of batches", f"use {BATCHES}")
    return value


def skippable(recipe: Recipe, stage_number: int, step_number: int) -> bool:
    """Whether a step can be left out: it is optional, and adds nothing that an earlier stage made."""
    made = {stage.makes for stage in recipe.stages}
    chosen = recipe.stages[stage_number].steps[step_number]
    return chosen.optional and not any(use.what in made for use in chosen.uses)


@cache
def _words() -> Mapping[str, tuple[str, ...]]:
    return {
        "units": UNITS,
        "scale": ("", *scales()),
        "eggs": tuple(egg_sizes()),
        "tool": tuple(tools()),
        "cup": CUPS,
    }


def _more_than_zero(written: str) -> float:
    value = number_from(written)
    if value <= 0:
        raise InputError("the amount is zero", "enter more than zero, or leave the field empty")
    return value


def _bowl_l(written: str) -> float:
    value = number_from(written)
    if not _SMALLEST_BOWL_L <= value <= _LARGEST_BOWL_L:
        problem = f"a bowl of {value:g} L is outside {_SMALLEST_BOWL_L:g} to {_LARGEST_BOWL_L:g} L"
        raise InputError(problem, "enter its volume to the rim, such as `4.8 L`")
    return value


def _yes(written: str) -> bool:
    """Whether a box is ticked; a form sends an empty text for one that is not."""
    return yes_no(written) if written else False


def _leaves_out(ingredient: Ingredient, written: str) -> bool:
    leaves_out = _yes(written)
    if leaves_out and not ingredient.optional:
        raise InputError(f"{ingredient.name} is not optional", "set its amount instead")
    return leaves_out


def _kept_back(recipe: Recipe, name: str) -> tuple[str, str]:
    _, key, part = (*name.split(".", 2), "", "")[:3]
    known = [(ingredient.key, kept.key) for ingredient in recipe.ingredients for kept in ingredient.kept_back]
    if (key, part) not in known:
        raise InputError("nothing of this name is kept back", "choose a part that the recipe keeps back", (name,))
    return key, part


def _skipped(recipe: Recipe, name: str) -> tuple[int, int]:
    path = tuple(name.split("."))
    numbers = [int(part) if part.isdecimal() and len(part) < 5 else -1 for part in path[1:]]
    if len(numbers) != 2 or not (0 <= numbers[0] < len(recipe.stages)):
        raise InputError("the recipe has no such step", "choose one of its steps", path)
    stage, step = numbers
    if not 0 <= step < len(recipe.stages[stage].steps):
        raise InputError("the recipe has no such step", "choose one of its steps", path)
    if not skippable(recipe, stage, step):
        raise InputError("this step cannot be left out", "leave out only optional steps", path)
    return stage, step
