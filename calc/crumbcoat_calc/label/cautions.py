"""The cautions that a recipe calls for. They warn and name their source; none of them is ever a clearance."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.ingredient_list import IngredientList, lists_of
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.tables import citations, load_rows, number_in, public_source
from crumbcoat_calc.values.display import celsius_text, duration_text, list_text, number_text
from crumbcoat_calc.values.marks import plain_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution as it is printed: title, words with the recipe's own facts, and the published source."""

    key: str
    title: str
    words: str
    source: str
    where: str

    @property
    def source_text(self) -> str:
        """The work and the place in it."""
        return public_source(f"{citations()[self.source]}: {self.where}")


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionFacts:
    """The facts by which a recipe's cautions are chosen. Names are those of ingredients; temperatures are in °C.

    `eggs` and `flours` are the raw ones, each with the temperature that the recipe heats all of it to, None if to none.
    `hottest_c` is the highest temperature in the recipe. `young`: whether children take part; None if unknown.
    """

    allergens: tuple[str, ...] = ()
    allergens_unknown: tuple[str, ...] = ()
    eggs: tuple[tuple[str, float | None], ...] = ()
    flours: tuple[tuple[str, float | None], ...] = ()
    moist: bool = True
    hottest_c: float | None = None
    out_of_the_cold: tuple[str, ...] = ()
    refrigerated_s: float | None = None
    machines: tuple[str, ...] = ()
    choking: tuple[str, ...] = ()
    honey: tuple[str, ...] = ()
    alcohol: tuple[str, ...] = ()
    alcohol_percent: float | None = None
    hard_or_sharp: tuple[str, ...] = ()
    decorations: tuple[str, ...] = ()
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
    by_hazard: dict[str, list[tuple[str, float | None]]] = {}
    for weighed in inside:
        for hazard in _hazards_of(weighed):
            by_hazard.setdefault(hazard, []).append((weighed.name, heat[weighed.key]))
    words = _words_of(recipe)
    alcohol = tuple(weighed.name for weighed in inside if weighed.food.content("alcohol_g"))
    steps = [step for stage in recipe.stages for step in stage.steps]
    return CautionFacts(
        allergens=_distinct(word for found in lists for word in (*found.contains, *found.may_contain)),
        allergens_unknown=_distinct([*(name for found in lists for name, _ in found.doubts), *eaten]),
        eggs=tuple(by_hazard.get("raw egg", ())),
        flours=tuple(by_hazard.get("raw flour", ())),
        moist=batch.total.at_most("water_g") > 0,
        hottest_c=max((step.heat_to_c for step in steps if step.heat_to_c is not None), default=None),
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
        young=young,
    )


def cautions_for(facts: CautionFacts) -> tuple[Caution, ...]:
    """The cautions that the facts call for, in the order in which they are printed.

    If it is not known whether children take part, the cautions for them are included.

    Source:
        that of each caution, see cautions.csv.

    >>> [caution.key for caution in cautions_for(CautionFacts(moist=False, machines=("mixer",)))]
    ['machines']
    """
    limit = limits()
    egg_c = limit["egg_mixture_c"]
    raw = [name for name, t_c in facts.eggs if t_c is None]
    light = [(name, t_c) for name, t_c in facts.eggs if t_c is not None and t_c < egg_c]
    heated = [(name, t_c) for name, t_c in facts.eggs if t_c is not None and t_c >= egg_c]
    flours = [name for name, t_c in facts.flours if t_c is None or t_c < egg_c]
    hot_c = facts.hottest_c if facts.hottest_c is not None else 0.0
    kept_s = facts.refrigerated_s
    children = facts.young is not False
    hot = celsius_text(hot_c)
    chosen: dict[str, Mapping[str, str] | None] = {
        "allergens": _names(facts.allergens, "allergens"),
        "allergens_unknown": _names(facts.allergens_unknown),
        "raw_egg": _names(raw),
        "lightly_heated_egg": _heated(light),
        "heated_egg": _heated(heated),
        "raw_flour": _names(flours),
        "time_and_temperature": {} if facts.moist else None,
        "cooling": {} if facts.moist and hot_c >= limit["hot_holding_c"] else None,
        "out_of_the_cold": _names(facts.out_of_the_cold, "where") if facts.moist else None,
        "date": {} if facts.moist and kept_s is not None else None,
        "date_passed": (
            {"days": duration_text(kept_s)}
            if facts.moist and kept_s is not None and kept_s > 86400 * (limit["days_with_preparation"] - 1)
            else None
        ),
        "water_activity_and_ph": {} if facts.moist else None,
        "hot_syrup": {"temperature": hot} if hot_c > limit["syrup_from_c"] else None,
        "hot_liquid": {"temperature": hot} if limit["scalds_from_c"] <= hot_c <= limit["syrup_from_c"] else None,
        "machines": _names(facts.machines, "tools"),
        "choking": _names(facts.choking) if children else None,
        "honey": {} if facts.honey and children else None,
        "alcohol": _alcohol(facts),
        "hard_or_sharp": _names(facts.hard_or_sharp),
        "decorations": _names(facts.decorations),
    }
    return tuple(_filled(row, values) for row in all_cautions() if (values := chosen[row.key]) is not None)


@cache
def all_cautions() -> tuple[Caution, ...]:
    """All cautions, their words with gaps for the recipe's facts."""
    return load_rows(
        "cautions",
        lambda cells: Caution(
            key=cells["key"], title=cells["title"], words=cells["words"], source=cells["source"], where=cells["where"]
        ),
        ("place",),
    )


def _filled(row: Caution, values: Mapping[str, str]) -> Caution:
    return Caution(key=row.key, title=row.title, words=row.words.format_map(values), source=row.source, where=row.where)


def _names(names: Sequence[str], gap: str = "names") -> Mapping[str, str] | None:
    return {gap: list_text(list(names))} if names else None


def _heated(eggs: Sequence[tuple[str, float]]) -> Mapping[str, str] | None:
    if not eggs:
        return None
    return {
        "names": list_text([name for name, _ in eggs]),
        "temperature": celsius_text(min(t_c for _, t_c in eggs)),
    }


def _alcohol(facts: CautionFacts) -> Mapping[str, str] | None:
    if not facts.alcohol:
        return None
    percent = facts.alcohol_percent
    if percent is None:
        shown = "an unknown part"
    else:
        shown = f"about {number_text(percent, 1)} %" if percent >= 0.1 else "less than 0.1 %"
    return {"names": list_text(list(facts.alcohol)), "percent": shown}


def _distinct(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))


@cache
def limits() -> Mapping[str, float]:
    """The limits by which cautions are chosen, in °C or in days as the name says.

    Source:
        that of each limit, see caution_limits.csv.
    """
    return dict(
        load_rows("caution_limits", lambda cells: (cells["limit"], number_in(cells, "value", 1, 200)), ("limit",))
    )


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
        return hazards_of_foods().get(weighed.food.key, ())
    name = f"{weighed.name} {weighed.food.name}".lower()
    of_foods = {hazard for hazards in hazards_of_foods().values() for hazard in hazards}
    found = [hazard for _, hazard, form in _hazardous_words() if hazard in of_foods and form.search(name)]
    return tuple(dict.fromkeys(found))


def _words_of(recipe: Recipe) -> Mapping[str, tuple[str, ...]]:
    """The words of caution_words.csv that the recipe uses, by hazard."""
    steps = [step for stage in recipe.stages for step in stage.steps]
    decorations = [decoration.what for decoration in recipe.decorations if decoration.eaten]
    texts = [recipe.summary, *recipe.notes, *decorations, *(part for step in steps for part in _texts_of(step))]
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
