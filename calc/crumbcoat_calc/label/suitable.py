"""What no listed ingredient contains: a fact about the list, and never the claim that a food suits a diet."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from crumbcoat_calc.foods.allergens import allergen_words, words_seen_in
from crumbcoat_calc.foods.diets import FoodOrigin, origin_of
from crumbcoat_calc.label.ingredient_list import ListedIngredient
from crumbcoat_calc.recipe.claims import Claim

_OF_ANIMALS = frozenset({"milk (including lactose)", "eggs", "fish", "crustaceans", "molluscs"})
_OF_SLAUGHTER = frozenset({"fish", "crustaceans", "molluscs"})
_GLUTEN = frozenset({"cereals containing gluten"})

DIETS = {
    "vegan": ("VeganDiet", "of_animal_origin"),
    "vegetarian": ("VegetarianDiet", "meat_or_fish"),
    "gluten-free": ("GlutenFreeDiet", "gluten"),
}
"""Claims of an author, the member of schema.org's RestrictedDiet for each, and what no ingredient may then hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedOrigin:
    """Which listed ingredients hold something, by a fact of FoodOrigin: `inside` do, of `unsure` it is not certain."""

    fact: str
    inside: tuple[str, ...]
    unsure: tuple[str, ...]

    @property
    def none_listed(self) -> bool:
        """Whether it is certain that no listed ingredient holds it."""
        return not self.inside and not self.unsure


def listed_origins(entries: Sequence[ListedIngredient], may_contain: Sequence[str] = ()) -> tuple[ListedOrigin, ...]:
    """Which ingredients are of animal origin, of meat or fish, and hold a cereal with gluten.

    What may get in by accident is not an ingredient; for gluten alone, which is limited in the food as sold, it counts
    as not certain. Where the author states the allergens of an ingredient, they decide about gluten.

    Source:
        definition (what the ingredients are made of).

    >>> from crumbcoat_calc.foods.table import food
    >>> found = listed_origins([ListedIngredient(name="butter", mass_g=9, food=food("butter_unsalted"))])
    >>> [(origin.fact, origin.inside, origin.none_listed) for origin in found]
    [('of_animal_origin', ('butter',), False), ('meat_or_fish', (), True), ('gluten', (), True)]
    """
    return (
        _origin("of_animal_origin", _OF_ANIMALS, entries, ()),
        _origin("meat_or_fish", _OF_SLAUGHTER, entries, ()),
        _origin("gluten", _GLUTEN, entries, may_contain),
    )


def claimed_diets(claims: Iterable[Claim], origins: Iterable[ListedOrigin]) -> list[str]:
    """The diets that the author claims, in the words of schema.org, where no listed ingredient speaks against it.

    Source:
        schema-org, RestrictedDiet; eu-828-2014 and cfr-101-91: a list cannot show that a food is gluten-free.

    >>> claimed_diets([Claim(claim="gluten-free", ground="each batch is tested")], listed_origins([]))
    ['GlutenFreeDiet']
    """
    against = {origin.fact for origin in origins if origin.inside}
    named = [DIETS[claim.claim] for claim in claims if claim.claim in DIETS]
    return [diet for diet, fact in named if fact not in against]


def _origin(
    fact: str, ruled_out: frozenset[str], entries: Sequence[ListedIngredient], may_contain: Sequence[str]
) -> ListedOrigin:
    inside, unsure = [], []
    for entry in entries:
        if entry.mass_g is not None and entry.mass_g <= 0:
            continue
        holds = _holds(fact, ruled_out, entry)
        if holds:
            inside.append(entry.name)
        elif holds is None:
            unsure.append(entry.name)
    unsure += [f"{word} that may get in" for word in may_contain if ruled_out & _eu([word])]
    return ListedOrigin(fact=fact, inside=tuple(inside), unsure=tuple(unsure))


def _holds(fact: str, ruled_out: frozenset[str], entry: ListedIngredient) -> bool | None:
    """Whether an ingredient holds what is asked for; None if that is not certain."""
    inside = [_holds(fact, ruled_out, part) for part in entry.inside]
    named = words_seen_in(entry.name, "EU") if entry.food is None and entry.allergens is None else entry.allergens or ()
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
