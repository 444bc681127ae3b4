"""The ingredient table: what 100 g of each kind of ingredient contains, and what a household measure of it weighs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from sys import intern

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, INDEX
from crumbcoat_calc.foods.names import FoodName, Names, Near, load_names
from crumbcoat_calc.foods.stated_composition import contents_with
from crumbcoat_calc.tables import UNKNOWN, load_rows
from crumbcoat_calc.values.units import factor, is_volume

OWN = "own composition"
"""The group of a food whose complete composition is stated by a recipe."""

STATED = "stated"
"""The source of a composition that is stated by a recipe."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What one household measure of a food weighs, such as a US cup, sifted.

    `unit` is a unit of volume (`us_cup`) or a word for a piece (`stick`, `large`). `how` is the way it is measured,
    such as `sifted`, or `as it comes`.
    """

    unit: str
    how: str
    grams: float

    @property
    def text(self) -> str:
        """The measure as a recipe writes it after a number, such as `US cup, sifted`."""
        return _written(self.unit, self.how)


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """A kind of ingredient and its composition per 100 g, in the order of COMPONENTS; None where a content is unknown.

    `key` is empty for a food that a recipe states without basing it on a kind of the table. `ranges` has the lowest
    and the highest content where a source leaves some room, as the rounded figures of a pack do. `note` says where the
    figures are from, and `assumed` whether they rest on more than what a source says. `less_energy` is by how many kcal
    and kJ its polyols have less than other carbohydrate.
    """

    key: str
    name: str
    group: str
    per_100g: tuple[float | None, ...]
    measures: tuple[Measure, ...] = ()
    source: str
    ranges: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    note: str = ""
    assumed: bool = False
    less_energy: tuple[float, float] = (0.0, 0.0)

    def __hash__(self) -> int:
        """Hashes the name only: hashing forty numbers at every cache lookup would be slow."""
        return hash(self.name)

    def content(self, component: str) -> float | None:
        """The content of one component per 100 g, in the unit of its name."""
        return self.per_100g[INDEX[component]]


AS_IT_COMES = "as it comes"


@cache
def foods() -> Mapping[str, Food]:
    """The ingredient table by key.

    >>> foods()["milk_whole"].content("water_g")
    88.13
    """
    measures: dict[str, list[Measure]] = {}
    for key, measure in load_rows("measures", _measure_from, ("food", "unit", "how")):
        measures.setdefault(key, []).append(measure)
    lines = dict(load_rows("foods", _line_from, ("key",)))
    strangers = measures.keys() - lines.keys()
    if strangers:
        raise ValueError(f"measures.csv lists foods that are not in foods.csv: {sorted(strangers)}")
    return _Foods(lines, measures)


_COLUMNS = ("key", "name", "group", "source", *COMPONENTS)
_TAB = "\t"


class _Foods(Mapping[str, Food]):
    """The rows of foods.csv, each made when it is first asked for.

    A recipe needs a dozen of them, and a line of text takes a third of the room in a memory image.
    """

    def __init__(self, lines: Mapping[str, str], measures: Mapping[str, list[Measure]]) -> None:
        self._lines, self._measures = lines, measures
        self._made: dict[str, Food] = {}

    def __getitem__(self, key: str) -> Food:
        found = self._made.get(key)
        if found is None:
            found = self._made[key] = _food_from(self._lines[key], self._measures.get(key, []))
        return found

    def __contains__(self, key: object) -> bool:
        return key in self._lines

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)


@cache
def other_names() -> Mapping[str, tuple[FoodName, ...]]:
    """The other names of each kind that has any."""
    found: dict[str, tuple[FoodName, ...]] = {}
    for other in load_names():
        if other.food not in foods():
            raise ValueError(f"food_names.csv names {other.food!r}, which is not in foods.csv")
        found[other.food] = (*found.get(other.food, ()), other)
    return found


@cache
def kind_names() -> Names:
    """The index of all names of all kinds."""
    printed = {food.key: food.name for food in foods().values()}
    return Names(printed, tuple([name for names in other_names().values() for name in names]))


def food(written: str) -> Food:
    """The kind of ingredient with this key, or with this name if no other kind has it.

    Raises:
        InputError: if no kind has that name, or several do.

    >>> food("cornstarch").key, food("Cornflour").key
    ('cornstarch', 'cornstarch')
    """
    table = foods()
    if written in table:
        return table[written]
    meant = kind_names().meant_by(written)
    if len(meant) == 1:
        return table[meant[0]]
    if meant:
        raise InputError(f"{written!r} is the name of several kinds", f"write one of: {_listed(meant)}")
    raise InputError(f"the ingredient table has no kind {written!r}", remedy_of(kind_names().near(written)))


def remedy_of(near: Near) -> str:
    """What to write instead of a name that no kind has, by the kinds that come near it."""
    if not near.keys:
        return "look for another name in the list of kinds, or state its `composition`"
    if near.slip and not near.part:
        listed = _listed(near.keys)
        return f"did you mean {listed}?" if len(near.keys) == 1 else f"did you mean: {listed}?"
    if near.part:
        return f"state its `composition`, or use one of these only if it is the same food: {_listed(near.keys)}"
    return f"use one of these if it is the same food: {_listed(near.keys)}; otherwise state its `composition`"


MOST_LISTED = 6
_TELLING = (("fat_g", "% fat"), ("sugars_g", "% sugars"))
_FAR_APART = 1.0


def _listed(keys: tuple[str, ...]) -> str:
    """Kinds with their names, and with the fat or the sugars where these differ."""
    shown = [foods()[key] for key in keys[:MOST_LISTED]]
    figures = [""] * len(shown)
    for component, words in _TELLING:
        contents = [kind.content(component) for kind in shown]
        known = [content for content in contents if content is not None]
        if known and max(known) - min(known) >= _FAR_APART:
            figures = [
                "" if content is None or words in kind.name else f", {content:.0f} {words}"
                for kind, content in zip(shown, contents, strict=True)
            ]
            break
    listed = [f"`{kind.key}` ({kind.name}{figure})" for kind, figure in zip(shown, figures, strict=True)]
    more = len(keys) - len(shown)
    return "; ".join(listed) + (f"; and {more} more in the list of kinds" if more else "")


def food_with(base: Food | None, *, name: str, stated: Mapping[str, float]) -> Food:
    """A food with a composition stated by a recipe: stated contents are fixed, the rest follows from a kind.

    The other proximates keep their ratios to each other and fill the rest of the total; the parts of a component
    follow it. Without a kind as its base, a content that is not stated is unknown, unless the stated proximates add up
    to 100 g.

    Args:
        base: the most similar kind, or None; its key, group and household measures are kept.
        name: what it is called.
        stated: contents per 100 g by component, in the unit of the component's name, as composition_from returns them.

    Raises:
        InputError: at a component, by its name in a recipe file (`fat`), if the stated contents contradict each other.

    Source:
        derivation (mass balance).

    >>> butter = food_with(food("butter_unsalted"), name="butter, 84 % fat", stated={"fat_g": 84.0})
    >>> round(butter.content("water_g"), 1)
    15.2
    """
    contents = contents_with(base.per_100g if base else None, stated)
    if base:
        return replace(base, name=name, per_100g=contents, source=STATED, ranges={})
    return Food(key="", name=name, group=OWN, per_100g=contents, source=STATED)


def grams_of(food: Food, number: float, unit: str, how: str = AS_IT_COMES) -> float:
    """What a number of household measures of a food weighs, in g.

    The table's weight of this measure of this food is used if there is one, else the weight of the food's largest
    measure of volume, scaled by the ratio of the volumes. Another food's weight is never used.

    Args:
        number: how many, zero or more.
        unit: a unit of volume, or a word for a piece.
        how: the way the food is measured, such as `sifted`.

    Raises:
        InputError: if the food has no weight for the measure.

    Source:
        usda-sr28 (household weights); definition (ratio of volumes).

    >>> round(grams_of(food("butter_unsalted"), 2, "us_tablespoon"), 1)
    28.4
    """
    fitting = [measure for measure in food.measures if measure.how == how]
    for measure in fitting:
        if measure.unit == unit:
            return number * measure.grams
    if is_volume(unit):
        volumes = [measure for measure in fitting if is_volume(measure.unit)]
        if volumes:
            largest = max(volumes, key=lambda measure: factor(measure.unit, "millilitre"))
            return number * factor(unit, "millilitre") * largest.grams / factor(largest.unit, "millilitre")
    known = "; ".join(measure.text for measure in food.measures)
    remedy = f"write grams, or a measure with a known weight: {known}" if known else "write grams, such as `250 g`"
    raise InputError(f"no weight is known for {_written(unit, how)!r} of {food.name}", remedy)


def _written(unit: str, how: str) -> str:
    return written_unit(unit) + ("" if how == AS_IT_COMES else f", {how}")


def written_unit(unit: str) -> str:
    """A measure as people write it.

    >>> written_unit("us_cup")
    'US cup'
    """
    words = unit.replace("us_", "US ", 1) if unit.startswith("us_") else unit
    return words.replace("_", " ")


def _measure_from(cells: dict[str, str]) -> tuple[str, Measure]:
    grams = float(cells["grams"])
    if not 0 < grams < 5000:
        raise ValueError(f"{grams:g} g is not a possible weight for a {cells['unit']}")
    return cells["food"], Measure(unit=intern(cells["unit"]), how=intern(cells["how"]), grams=grams)


def _line_from(cells: dict[str, str]) -> tuple[str, str]:
    return cells["key"], _TAB.join([cells[column] for column in _COLUMNS])


def _food_from(line: str, measures: list[Measure]) -> Food:
    key, name, group, source, *contents = line.split(_TAB)
    values = tuple([None if content == UNKNOWN else float(content) for content in contents])
    for component, value in zip(COMPONENTS, values, strict=True):
        if value is not None and (value < 0 or (component.endswith("_g") and value > 100)):
            raise ValueError(f"{key}: {component} is {value:g} per 100 g")
    return Food(key=key, name=name, group=group, per_100g=values, measures=tuple(measures), source=source)
