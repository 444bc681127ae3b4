"""Marks of diet: only where every ingredient is certain."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from crumbcoat_calc.foods.allergens import allergen_words, words_in
from crumbcoat_calc.foods.diets import FoodOrigin, origin_of
from crumbcoat_calc.label.ingredient_list import ListedIngredient

_OF_ANIMALS = frozenset({"milk (including lactose)", "eggs", "fish", "crustaceans", "molluscs"})
_OF_SLAUGHTER = frozenset({"fish", "crustaceans", "molluscs"})
_GLUTEN = frozenset({"cereals containing gluten"})


@dataclass(frozen=True, slots=True, kw_only=True)
class DietMark:
    """A diet of schema.org's RestrictedDiet: the ingredients that it rules out, and those that are not certain."""

    diet: str
    label: str
    against: tuple[str, ...]
    unsure: tuple[str, ...]

    @property
    def suitable(self) -> bool:
        """Whether the mark may be shown."""
        return not self.against and not self.unsure


def diet_marks(entries: Sequence[ListedIngredient], may_contain: Sequence[str] = ()) -> tuple[DietMark, ...]:
    """The marks vegan, vegetarian and gluten-free, each with what speaks against it.

    A mark is shown only if every ingredient is known to allow it, and the author's `may contain` names nothing that it
    rules out. Where the author states the allergens of an ingredient, they decide about gluten.

    Source:
        schema-org, RestrictedDiet; definition (what the ingredients are made of).

    >>> from crumbcoat_calc.foods.table import food
    >>> marks = diet_marks([ListedIngredient(name="butter", mass_g=9, food=food("butter_unsalted"))])
    >>> [(mark.label, mark.suitable) for mark in marks]
    [('vegan', False), ('vegetarian', True), ('gluten-free', True)]
    """
    return (
        _mark("VeganDiet", "vegan", "of_animal_origin", _OF_ANIMALS, entries, may_contain),
        _mark("VegetarianDiet", "vegetarian", "meat_or_fish", _OF_SLAUGHTER, entries, may_contain),
        _mark("GlutenFreeDiet", "gluten-free", "gluten", _GLUTEN, entries, may_contain),
    )


def _mark(
    diet: str,
    label: str,
    fact: str,
    ruled_out: frozenset[str],
    entries: Sequence[ListedIngredient],
    may_contain: Sequence[str],
) -> DietMark:
    against, unsure = [], []
    for entry in entries:
        if entry.mass_g is not None and entry.mass_g <= 0:
            continue
        holds = _holds(fact, ruled_out, entry)
        if holds:
            against.append(entry.name)
        elif holds is None:
            unsure.append(entry.name)
    unsure += [f"may contain {word}" for word in may_contain if ruled_out & _eu([word])]
    return DietMark(diet=diet, label=label, against=tuple(against), unsure=tuple(unsure))


def _holds(fact: str, ruled_out: frozenset[str], entry: ListedIngredient) -> bool | None:
    """Whether an ingredient holds what the diet rules out; None if that is not certain."""
    inside = [_holds(fact, ruled_out, part) for part in entry.inside]
    named = words_in(entry.name, "EU") if entry.food is None and entry.allergens is None else entry.allergens or ()
    if ruled_out & _eu(named) or True in inside:
        return True
    if fact == "gluten" and entry.allergens is not None:
        return False
    if entry.food is None:
        return None
    return _fact(fact, origin_of(entry.food))


def _fact(fact: str, known: FoodOrigin) -> bool | None:
    answers = {
        "of_animal_origin": known.of_animal_origin,
        "meat_or_fish": known.meat_or_fish,
        "gluten": known.gluten,
    }
    return answers[fact]


def _eu(words: Iterable[str]) -> set[str]:
    """The allergens that words name, as EU law calls them."""
    known = allergen_words()
    return {allergen for word in words if word in known and (allergen := known[word].by_regime["EU"])}
