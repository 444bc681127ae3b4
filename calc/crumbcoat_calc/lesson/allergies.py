"""Allergies in the room: what of a recipe brings an allergen, and which of its own replacements is known to be free."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.foods.allergens import words_meant
from crumbcoat_calc.label.market_list import allergens_by_ingredient
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Ingredient, Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Bringer:
    """An ingredient that brings allergens in the room.

    `words` are those that it brings. `instead` is the first of its replacements that is known to be free of all
    allergens in the room, as key and name. `doubtful` are the names of those of which that is not known. `optional`:
    it can be left out.
    """

    key: str
    name: str
    words: tuple[str, ...]
    instead: tuple[str, str] | None
    doubtful: tuple[str, ...]
    optional: bool

    @property
    def is_avoidable(self) -> bool:
        return self.optional or self.instead is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class InRoom:
    """What is known of a recipe and the allergens in the room.

    `unknown` are the ingredients, and what is eaten with them, of which it is not known; `by_accident` the allergens in
    the room that the recipe says may get in.
    """

    bringers: tuple[Bringer, ...]
    unknown: tuple[str, ...]
    by_accident: tuple[str, ...]
    replaced: Mapping[str, str] = field(default_factory=dict)
    left_out: frozenset[str] = frozenset()

    @property
    def is_avoidable(self) -> bool:
        """Whether something brings them, and everything that does can be replaced or left out."""
        return bool(self.bringers) and all(one.is_avoidable for one in self.bringers)


def in_room(recipe: Recipe, allergies: Sequence[str]) -> InRoom:
    """What brings the allergens, by what ingredients hold by their nature and what the author states of them.

    What replaces an ingredient counts as free only if all of its allergens are known and none of these is among them.
    An optional ingredient without such a replacement can be left out. `replaced` and `left_out` are empty unless all
    that brings them can be avoided.
    """
    asked = {word for name in allergies for word in words_meant(name)}
    held = allergens_by_ingredient(batch_of(recipe))
    bringers, unknown = [], []
    for ingredient in recipe.ingredients:
        words, doubts = held[ingredient.key]
        if asked & set(words):
            bringers.append(_bringer(recipe, ingredient, [word for word in words if word in asked], asked))
        elif doubts:
            unknown.append(ingredient.name)
    unknown += [decoration.what for decoration in recipe.decorations if decoration.eaten]
    found = InRoom(
        bringers=tuple(bringers),
        unknown=tuple(unknown),
        by_accident=tuple([word for word in recipe.may_contain if word in asked]),
    )
    if not found.is_avoidable:
        return found
    return InRoom(
        bringers=found.bringers,
        unknown=found.unknown,
        by_accident=found.by_accident,
        replaced={one.key: one.instead[0] for one in bringers if one.instead},
        left_out=frozenset([one.key for one in bringers if not one.instead]),
    )


def _bringer(recipe: Recipe, ingredient: Ingredient, words: Sequence[str], asked: set[str]) -> Bringer:
    free, doubtful = [], []
    for other in ingredient.replacements:
        batch = batch_of(recipe, BatchOptions(replaced={ingredient.key: other.key}))
        held, doubts = allergens_by_ingredient(batch)[ingredient.key]
        if asked & set(held):
            continue
        if doubts:
            doubtful.append(other.name)
        else:
            free.append((other.key, other.name))
    return Bringer(
        key=ingredient.key,
        name=ingredient.name,
        words=tuple(words),
        instead=free[0] if free else None,
        doubtful=tuple(doubtful),
        optional=ingredient.optional,
    )
