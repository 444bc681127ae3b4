"""The list of ingredients on a label: heaviest first, compound ingredients opened, allergens highlighted."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import (
    allergen_assessment,
    allergen_word,
    allergen_words,
    regimes,
    words_seen_in,
)
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.label.legal_names import MARKETS
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.recipe.model import Ingredient, Replacement
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.region import words_in

NOT_ASSESSED = "its composition is stated by the recipe: name what it is made of"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedIngredient:
    """An ingredient as named on a label.

    `inside` are the ingredients of a compound one: heaviest first if all have a mass, else in the order given.
    `allergens` are the author's own words for what it contains, such as `milk` or `almond`; they override the
    ingredient table. If None, the table applies or, without a kind from the table, the words in the name.
    `percent` is printed after the name. `called` is what the recipe calls it, where the list has another name.
    """

    name: str
    mass_g: float | None = None
    food: Food | None = None
    inside: tuple["ListedIngredient", ...] = ()
    allergens: tuple[str, ...] | None = None
    percent: float | None = None
    called: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of the list; an allergen is to be set off from the rest by its type."""

    text: str
    allergen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class IngredientList:
    """The list. `contains` names the allergens in the order of the law; `doubts` says of what others are not known."""

    spans: tuple[Span, ...]
    contains: tuple[str, ...]
    doubts: tuple[tuple[str, str], ...]
    may_contain: tuple[str, ...]

    @property
    def text(self) -> str:
        """The list as plain text, allergens in capitals."""
        return "".join(span.text.upper() if span.allergen else span.text for span in self.spans)


_KEPT_BACK_G = 1e-9
"""The mass by which an ingredient that is only kept back is sorted."""


def listed_ingredients_of(batch: Batch) -> tuple[ListedIngredient, ...]:
    """The ingredients of a batch, with what the recipe declares of each, or of the replacement that goes in for it."""
    return tuple(
        _listed(weighed, ingredient)
        for weighed, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True)
        if weighed.needed_g > 0
    )


def _listed(weighed: WeighedIngredient, ingredient: Ingredient) -> ListedIngredient:
    """What is declared of an ingredient is not true of another that goes in for it.

    What is only kept back is listed too, as the least of all: it may go in, and then it must not be missing.
    """
    mass_g = weighed.inside_g or _KEPT_BACK_G
    declared: tuple[Ingredient | Replacement, ...] = (ingredient, *ingredient.replacements)
    matching = next((part for part in declared if part.food is weighed.food and part.name == weighed.name), None)
    if matching is None:
        return ListedIngredient(name=weighed.name, mass_g=mass_g, food=weighed.food)
    inside = tuple(
        ListedIngredient(name=part.name, percent=None if part.share is None else 100 * part.share)
        for part in matching.made_of
    )
    return ListedIngredient(
        name=weighed.name, mass_g=mass_g, food=weighed.food, inside=inside, allergens=matching.allergens
    )


def ingredient_list(
    entries: Sequence[ListedIngredient], market: str, may_contain: Sequence[str] = ()
) -> IngredientList:
    """The list of ingredients by the masses weighed in; what has the same name and the same allergens is listed once.

    Args:
        entries: the outermost with a mass, zero or more.
        market: `US`, `EU` or `UK`, which has the allergens of the EU.
        may_contain: the author's words for what may get in; nothing is added to them.

    Raises:
        InputError: at `allergens` of an entry or at `may_contain`, for a word that is not an allergen.

    Source:
        cfr-101-4 (descending weight, sub-ingredients in brackets); eu-1169-2011, Arts. 18 to 22, Annexes II and VIII.

    >>> from crumbcoat_calc.foods.table import food
    >>> found = ingredient_list([ListedIngredient(name="sugar", mass_g=5, food=food("sugar_granulated")),
    ...                          ListedIngredient(name="butter", mass_g=9, food=food("butter_unsalted"))], "EU")
    >>> found.text, found.contains
    ('butter (MILK), sugar', ('milk',))
    """
    words_known, regime = allergen_words(), MARKETS[market]
    for position, word in enumerate(may_contain):
        _checked(word, ("may_contain", position))
    spans: list[Span] = []
    found: list[str] = []
    listed = [entry for entry in entries if entry.mass_g is None or entry.mass_g > 0]
    for entry in _in_order(_merged(listed, regime)):
        if spans:
            spans.append(Span(", "))
        spans += _spans(entry, regime, found)
    order = {allergen: position for position, allergen in enumerate(regimes()[regime])}
    contains = sorted(set(found), key=lambda word: (order[words_known[word].by_regime[regime] or ""], word))
    return IngredientList(
        spans=tuple(_joined(spans)),
        contains=tuple(contains),
        doubts=tuple(dict.fromkeys(doubt for entry in _in_order(listed) for doubt in _doubts(entry, regime))),
        may_contain=tuple(may_contain),
    )


def _in_order(entries: Sequence[ListedIngredient]) -> list[ListedIngredient]:
    if any(entry.mass_g is None for entry in entries):
        return list(entries)
    return sorted(entries, key=lambda entry: -(entry.mass_g or 0.0))


def _merged(entries: Sequence[ListedIngredient], regime: str) -> list[ListedIngredient]:
    """Entries of one name as one, unless they are made of different things or hold different allergens."""
    merged: dict[object, ListedIngredient] = {}
    for entry in entries:
        words, _ = _allergens(entry, regime)
        key = entry.name.casefold(), entry.inside, words
        before = merged.get(key)
        if before is None:
            merged[key] = entry
            continue
        mass_g = (entry.mass_g or 0.0) + (before.mass_g or 0.0)
        percents = [percent for percent in (before.percent, entry.percent) if percent is not None]
        merged[key] = replace(before, mass_g=mass_g, percent=fsum(percents) if percents else None)
    return list(merged.values())


def _doubts(entry: ListedIngredient, regime: str) -> Iterator[tuple[str, str]]:
    """What the allergens are not all known of, under the name that the recipe has for it, and why."""
    _, doubt = _allergens(entry, regime)
    if doubt:
        yield entry.called or entry.name, doubt
    for part in _in_order(entry.inside):
        yield from _doubts(part, regime)


def _spans(entry: ListedIngredient, regime: str, found: list[str]) -> list[Span]:
    words, _ = _allergens(entry, regime)
    inner: list[Span] = []
    inside_found: list[str] = []
    for part in _in_order(entry.inside):
        inner += ([Span(", ")] if inner else []) + _spans(part, regime, inside_found)
    found += [*words, *inside_found]
    spans, unnamed = _set_off(entry.name, [word for word in words if word not in inside_found])
    if entry.percent is not None:
        spans.append(Span(f" {_percent_text(entry.percent)}"))
    for word in unnamed:
        inner += ([Span(", ")] if inner else []) + [Span(words_in(regime, word), True)]
    return [*spans, Span(" ("), *inner, Span(")")] if inner else spans


def _percent_text(percent: float) -> str:
    """A share of the food; of what lost water on the way there may be more than the food weighs."""
    return f"{plain_number_text(percent, 1)} %" if percent <= 100 else f"{plain_number_text(percent, 0)} g per 100 g"


def _set_off(name: str, words: Sequence[str]) -> tuple[list[Span], list[str]]:
    """The name with the words in it that show an allergen set off, and the allergens that it does not show."""
    stems = {word: allergen_words()[word].stem for word in words}
    shown = [word for word, stem in stems.items() if re.search(stem, name.lower())]
    if not shown:
        return [Span(name)], list(words)
    pattern = "|".join(rf"\w*(?:{stems[word]})\w*" for word in shown)
    spans = [Span(part, position % 2 == 1) for position, part in enumerate(re.split(f"({pattern})", name, flags=re.I))]
    return [span for span in spans if span.text], [word for word in words if word not in shown]


def _allergens(entry: ListedIngredient, regime: str) -> tuple[tuple[str, ...], str]:
    """The words for what an ingredient holds under a regime, and why there may be more."""
    words = allergen_words()
    if entry.allergens is not None:
        for position, word in enumerate(entry.allergens):
            _checked(word, ("allergens", position))
        return tuple([word for word in entry.allergens if words[word].by_regime[regime]]), ""
    if entry.inside and entry.food is None:
        return (), ""
    known = allergen_assessment(entry.food, regime) if entry.food is not None else None
    if known is None:
        # Inside a compound ingredient the author's list is the pack's; its names speak for themselves.
        return words_seen_in(entry.called or entry.name, regime), "" if entry.food is None else NOT_ASSESSED
    doubt = "" if entry.inside else known.doubt
    return tuple([word for word in known.known.values() if words[word].by_regime[regime]]), doubt


def _checked(word: str, path: tuple[str | int, ...]) -> None:
    try:
        allergen_word(word)
    except InputError as error:
        raise error.within(*path) from None


def _joined(spans: Sequence[Span]) -> list[Span]:
    joined: list[Span] = []
    for span in spans:
        if joined and not span.allergen and not joined[-1].allergen:
            joined[-1] = Span(joined[-1].text + span.text)
        else:
            joined.append(span)
    return joined
