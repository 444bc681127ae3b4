"""What a page gives a calculator and its reader does not edit: recipes as published, and the prices of a site."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.our_readings import NO_READINGS, OurReadings, our_readings_from
from crumbcoat_calc.forms.trial_start import NO_START, TrialStart, trial_start_from
from crumbcoat_calc.label.caution_table import VOICES, Readers
from crumbcoat_calc.purchasing.prices import Prices, prices_from
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.values.fields import mapping, one_of, only, take, take_or, text
from crumbcoat_calc.values.region import REGIONS, units_in

SLOTS = ("recipe", "second", "third", "fourth", "a", "b", "c", "d", "e", "f")
"""The fields of a context that hold a recipe: one recipe, the further ones of a handout, those of a comparison."""

MOST_LINES = 30
"""How many ingredients the form of a calculator's own page has room for."""


@dataclass(frozen=True, slots=True, eq=False)
class PublishedRecipe:
    """A recipe as the fields of its file and as the model, its batch, the region of its site if any, our readings."""

    data: Mapping[str, object]
    recipe: Recipe
    batch: Batch
    region: str | None = None
    ours: OurReadings = NO_READINGS
    _latest: list[tuple[BatchOptions, Batch]] = field(default_factory=list, repr=False)

    def batch_with(self, options: BatchOptions) -> Batch:
        """The batch that a reader's options give. The latest is kept: the calculators of a card ask for the same one.

        Raises:
            InputError: if nothing is left in it, or more water would boil off than there is.
        """
        if options == BatchOptions():
            return self.batch
        if not self._latest or self._latest[0][0] != options:
            self._latest[:] = [(options, batch_of(self.recipe, options))]
        return self._latest[0][1]

    @property
    def units(self) -> str:
        """What amounts are shown in at first."""
        return units_in(self.region)

    @property
    def names(self) -> tuple[str, ...]:
        """What the ingredients are called, in order."""
        return tuple([ingredient.name for ingredient in self.recipe.ingredients])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Context:
    """Recipes by slot, the region, if any, and the prices of the site; prices are read by the first that needs them.

    `voice`: whether the cautions are for a class or for a home, one of `VOICES`. `trial`: what a trial that is kept on
    the card begins with.

    Two contexts are equal only if they are the same object.
    """

    recipes: Mapping[str, PublishedRecipe]
    prices_text: str | None = None
    region: str | None = None
    voice: str = VOICES[0]
    trial: TrialStart = NO_START

    @property
    def readers(self) -> Readers:
        """For whom the cautions are."""
        return Readers(region=self.region or REGIONS[0], voice=self.voice)

    @property
    def prices(self) -> Prices | None:
        """The prices, if there are any.

        Raises:
            InputError: at the first that cannot be used.
        """
        if self.prices_text is None:
            return None
        return take({"prices": self.prices_text}, "prices", lambda content: prices_from(text(content)))

    @property
    def published(self) -> PublishedRecipe:
        """The one recipe, in the slot `recipe`.

        Raises:
            InputError: if the slot is empty.
        """
        if "recipe" not in self.recipes:
            raise InputError("there is no recipe to work with", "choose a recipe", ("recipe",))
        return self.recipes["recipe"]

    def in_slots(self, slots: tuple[str, ...]) -> tuple[PublishedRecipe, ...]:
        """The recipes in some of the slots, in the order of the slots; an empty slot is passed over."""
        return tuple([self.recipes[slot] for slot in slots if slot in self.recipes])


def context_from(data: object) -> Context:
    """The context that plain data holds.

    Args:
        data: fields by name: a recipe's fields in each slot of `SLOTS`, or null where none is chosen; the text of a
            file of prices in `prices`; the region of the site, one of `REGIONS`, in `region`, if it has one; one of
            `VOICES` in `voice`; what our own batches say of the recipe in the slot `recipe`, in `readings`; what a
            trial of that recipe begins with, in `trial`.

    Raises:
        InputError: at the field of a recipe that cannot be used.
    """
    fields = mapping(data)
    only(fields, (*SLOTS, "prices", "region", "voice", "readings", "trial"))
    region = take_or(fields, "region", one_of(*REGIONS), None)
    read = partial(_published, region=region)
    recipes = {slot: take(fields, slot, read) for slot in SLOTS if fields.get(slot) is not None}
    if "readings" in fields and "recipe" in recipes:
        recipes["recipe"] = replace(recipes["recipe"], ours=take(fields, "readings", our_readings_from))
    voice = take_or(fields, "voice", one_of(*VOICES), VOICES[0])
    prices, trial = take_or(fields, "prices", str, None), take_or(fields, "trial", trial_start_from, NO_START)
    return Context(recipes=recipes, prices_text=prices, region=region, voice=voice, trial=trial)


def published_from(
    data: Mapping[str, object], recipe: Recipe, region: str | None = None, ours: OurReadings = NO_READINGS
) -> PublishedRecipe:
    """A recipe that has been read from its fields, with its batch as published, on a site for this region, if any."""
    return PublishedRecipe(data, recipe, batch_of(recipe), region, ours)


def with_room(published: PublishedRecipe) -> PublishedRecipe:
    """The recipe, if a form with a line for each ingredient has room for it.

    Raises:
        InputError: if it has more than `MOST_LINES` ingredients.
    """
    if len(published.names) > MOST_LINES:
        problem = f"the recipe has {len(published.names)} ingredients, and this form has room for {MOST_LINES}"
        raise InputError(problem, "choose another recipe", ("recipe",))
    return published


def name_texts(published: PublishedRecipe) -> dict[str, str]:
    """`name.<n>` of every line of a form; empty where the recipe has no more ingredients."""
    names = published.names
    return {f"name.{n}": names[n] if n < len(names) else "" for n in range(MOST_LINES)}


def position(written: str, published: PublishedRecipe) -> int:
    """The position of an ingredient in the recipe, from 0.

    Raises:
        InputError: if the recipe has no ingredient at that position, or none of it is in the batch.
    """
    if not written.isdecimal() or not written.isascii() or int(written[:4]) >= len(published.names):
        raise InputError("the recipe has no such ingredient", "choose one of the list")
    ingredient = published.recipe.ingredients[int(written)]
    if ingredient.is_all_kept_back:
        raise InputError(f"all of the {ingredient.name} is kept back, so the batch has none", "choose another one")
    return int(written)


def _published(value: object, region: str | None) -> PublishedRecipe:
    return published_from(mapping(value), recipe_from(value), region)
