"""The facts of a batch by which cautions are chosen: what it holds, how hot it gets, what its words mention."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from crumbcoat_calc.foods.diets import origin_of
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.ingredient_list import IngredientList
from crumbcoat_calc.label.market_list import lists_of
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.values.marks import plain_text

_OF_SLAUGHTER = "of slaughter"


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionFacts:
    """The facts by which a recipe's cautions are chosen. Names are those of ingredients; temperatures are in °C.

    `eggs` and `flours` are the raw ones, each with the temperature that the recipe heats all of it to, None if to none.
    `hottest_c` is the highest temperature in the recipe. `cooled` is the longest cooling after a step that heats: its
    shortest and longest time in s, and the temperature at its end. `young`: whether children take part; None if
    unknown.
    """

    allergens: tuple[str, ...] = ()
    allergens_by_accident: tuple[str, ...] = ()
    allergens_unknown: tuple[str, ...] = ()
    of_slaughter: tuple[str, ...] = ()
    eggs: tuple[tuple[str, float | None], ...] = ()
    flours: tuple[tuple[str, float | None], ...] = ()
    moist: bool = True
    hottest_c: float | None = None
    cooled: tuple[float, float, float] | None = None
    out_of_the_cold: tuple[str, ...] = ()
    refrigerated_s: float | None = None
    machines: tuple[str, ...] = ()
    choking: tuple[str, ...] = ()
    honey: tuple[str, ...] = ()
    alcohol: tuple[str, ...] = ()
    alcohol_percent: float | None = None
    hard_or_sharp: tuple[str, ...] = ()
    decorations: tuple[str, ...] = ()
    flowers: tuple[str, ...] = ()
    young: bool | None = None


def caution_facts_of(
    batch: Batch,
    young: bool | None = None,
    lists: Sequence[IngredientList] = (),
    heat: Mapping[str, float | None] | None = None,
) -> CautionFacts:
    """The facts of a batch by which cautions are chosen.

    Args:
        young: whether children take part; None if that is not known.
        lists: those of `lists_of`, if they have been made.
        heat: what `highest_temperatures` gives for the recipe, if that is known already.
    """
    recipe = batch.recipe
    heat = highest_temperatures(recipe) if heat is None else heat
    inside = [weighed for weighed in batch.weighed if weighed.needed_g > 0]
    lists = lists or lists_of(batch)
    eaten = [decoration.what for decoration in recipe.decorations if decoration.eaten]
    not_eaten = [decoration.what for decoration in recipe.decorations if not decoration.eaten]
    by_hazard = hazards_of(batch, heat)
    words = _words_of(recipe)
    alcohol = tuple(weighed.name for weighed in inside if weighed.food.content("alcohol_g"))
    steps = [step for stage in recipe.stages for step in stage.steps]
    return CautionFacts(
        allergens=_distinct(word for found in lists for word in found.contains),
        allergens_by_accident=_distinct(word for found in lists for word in found.may_contain),
        allergens_unknown=_distinct([*(name for found in lists for name, _ in found.doubts), *eaten]),
        of_slaughter=tuple(name for name, _ in by_hazard.get(_OF_SLAUGHTER, ())),
        eggs=tuple(by_hazard.get("raw egg", ())),
        flours=tuple(by_hazard.get("raw flour", ())),
        moist=batch.total.at_most("water_g") > 0,
        hottest_c=max((step.heat_to_c for step in steps if step.heat_to_c is not None), default=None),
        cooled=_cooled(steps),
        out_of_the_cold=_distinct(
            place.where for place in recipe.storage if place.where in ("at room temperature", "in a cool room")
        ),
        refrigerated_s=max(
            (place.up_to_s for place in recipe.storage if place.where == "in the refrigerator"), default=None
        ),
        machines=words.get("machine", ()),
        choking=tuple(name for name, _ in by_hazard.get("choking", ())),
        honey=tuple(name for name, _ in by_hazard.get("honey", ())),
        alcohol=alcohol,
        alcohol_percent=(batch.total.percents("alcohol_g") or (None, None))[1],
        hard_or_sharp=_distinct([*words.get("hard or sharp", ()), *not_eaten]),
        decorations=words.get("decorations", ()),
        flowers=words.get("flowers", ()),
        young=young,
    )


def hazards_of(batch: Batch, heat: Mapping[str, float | None]) -> Mapping[str, Sequence[tuple[str, float | None]]]:
    """The ingredients of a batch by hazard, such as `raw egg`, each with the highest temperature that it reaches.

    Args:
        heat: what `highest_temperatures` gives for the recipe.
    """
    found: dict[str, list[tuple[str, float | None]]] = {}
    for weighed in batch.weighed:
        for hazard in _hazards_of(weighed) if weighed.needed_g > 0 else ():
            found.setdefault(hazard, []).append((weighed.name, heat[weighed.key]))
    return found


def _cooled(steps: Sequence[Step]) -> tuple[float, float, float] | None:
    """The cooling that may take longest, of those that come after a step that heats to more than it ends at."""
    hottest_c, found = None, []
    for step in steps:
        if step.heat_to_c is not None:
            hottest_c = max(step.heat_to_c, hottest_c or step.heat_to_c)
        if step.cool_to_c is not None and step.time and hottest_c is not None and hottest_c > step.cool_to_c:
            found.append((step.time.shortest_s, step.time.longest_s, step.cool_to_c))
    return max(found, key=lambda cooling: cooling[1], default=None)


def _distinct(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))


@cache
def hazards_of_foods() -> Mapping[str, tuple[str, ...]]:
    """The hazards of each kind of ingredient that has some, such as `raw egg`, by the key of the kind."""
    hazards: dict[str, tuple[str, ...]] = {}
    for cells in load_rows("caution_foods", dict, ("food", "hazard")):
        if cells["food"] not in foods():
            raise ValueError(f"there is no food {cells['food']!r} in foods.csv")
        hazards[cells["food"]] = (*hazards.get(cells["food"], ()), cells["hazard"])
    return hazards


def _hazards_of(weighed: WeighedIngredient) -> tuple[str, ...]:
    """The hazards of an ingredient; those of one that is not in the ingredient table by the words of its name."""
    if weighed.food.key:
        of_slaughter = (_OF_SLAUGHTER,) if origin_of(weighed.food).meat_or_fish else ()
        return (*hazards_of_foods().get(weighed.food.key, ()), *of_slaughter)
    name = f"{weighed.name} {weighed.food.name}".lower()
    of_foods = {_OF_SLAUGHTER, *(hazard for hazards in hazards_of_foods().values() for hazard in hazards)}
    found = [hazard for _, hazard, form in _hazardous_words() if hazard in of_foods and form.search(name)]
    return tuple(dict.fromkeys(found))


def _words_of(recipe: Recipe) -> Mapping[str, tuple[str, ...]]:
    """The words of caution_words.csv that the recipe uses, by hazard; decorations count, eaten or not."""
    steps = [step for stage in recipe.stages for step in stage.steps]
    decorations = [decoration.what for decoration in recipe.decorations]
    return _words_in(
        (recipe.summary, *recipe.notes, *decorations, *[part for step in steps for part in _texts_of(step)])
    )


@lru_cache(maxsize=64)
def _words_in(texts: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    """The same of the texts of a recipe, which no edit changes."""
    text = plain_text("\n".join(texts)).lower()
    found: dict[str, tuple[str, ...]] = {}
    for word, hazard, form in _hazardous_words():
        if form.search(text):
            found[hazard] = (*found.get(hazard, ()), word)
    return found


@cache
def _hazardous_words() -> tuple[tuple[str, str, re.Pattern[str]], ...]:
    """Each word of the table, its hazard, and the forms that it has in a text."""
    rows = load_rows("caution_words", dict, ("word",))
    return tuple([(row["word"], row["hazard"], re.compile(rf"\b{re.escape(row['word'])}(s|es)?\b")) for row in rows])


def _texts_of(step: Step) -> tuple[str, ...]:
    return tuple(part for part in (step.do, step.tool, step.why, step.look_for, step.when_scaled) if part)
