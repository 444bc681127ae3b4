"""Quantities beside ingredients: what the name of the food shows has its percentage in lists of the EU and the UK."""

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import fsum

from crumbcoat_calc.foods.names import one_form
from crumbcoat_calc.foods.table import Food, other_names
from crumbcoat_calc.label.ingredient_list import ListedIngredient
from crumbcoat_calc.label.legal_names import legal_name
from crumbcoat_calc.recipe.batch import Batch

_BY_FIRST_WORD = frozenset((
    "fruit", "nut", "chocolate", "confectionery", "preserve", "alcohol", "flavour", "spice", "syrup",
    "plant alternative",
))  # fmt: skip
"""Groups of which a name often has the first word, such as the lemon of lemon juice and the oat of oat drink."""

_SAYS_NO_FOOD = frozenset((
    "", "powder", "juice", "zest", "white", "drink", "syrup", "extract", "paste", "essence", "chip", "golden", "light",
    "brown", "sour", "sweet", "wild", "glacé", "ground", "mixed", "roasted", "toasted", "canned", "frozen", "dried",
    "unsweetened", "natural", "inverted", "invert", "hot", "non", "creamed", "block", "style", "plant", "gold", "blond",
    "free", "fat", "filling", "icing", "frosting",
))  # fmt: skip
"""Words of names that are the same for many foods: a title with one of them shows none."""

_FLAVOURINGS = frozenset(("flavour", "spice"))
_SMALL_PERCENT = 2.0
"""Below this share a flavouring needs no percentage: no figure of the law, usage in the UK. Source: eu-1169-2011."""

_DESCRIBES = re.compile(
    r"^(?:(?:unsalted|salted|whole|semi skim|skim|full fat|low fat|fat reduced|reduced fat|fat free|nonfat|fresh|"
    r"cold|warm|cultured|sweetened|unsweetened|caster|granulated|plain|powdered|dark|double|single|whipping|mild|fine|natural|"
    r"pasteurized|alkalized|dutched|greek|greek style|thick|canned|frozen|dried|wild|raw) )+"
)
"""What describes an ingredient before its name, in the spelling of `one_form`."""

_WORD = re.compile(r"[^\W\d_]+")

_SHORT = 4
"""Below this length a word is looked for as a whole: there are oats in an oat cream, and none in an oath."""

_USUAL = {"ganache": "chocolate"}
"""What a reader expects in a food of that name. Source: eu-1169-2011, Art. 22(1)(a)."""


def with_percents(entries: Sequence[ListedIngredient], batch: Batch) -> tuple[ListedIngredient, ...]:
    """The entries of a batch's list, with the percentage of each ingredient that the title of the recipe shows.

        percent = 100 * ingredient / all ingredients as mixed; or / the finished food, if it lost water

    Args:
        entries: those of `listed_ingredients_of`.

    Source:
        eu-1169-2011, Art. 22 and Annex VIII; that a picture or other words emphasise an ingredient is not seen here.
    """
    mixed_g = fsum(weighed.inside_g for weighed in batch.weighed)
    whole_g = min(mixed_g, batch.total.mass_g)
    inside = tuple([(weighed.name, weighed.food) for weighed in batch.weighed if weighed.inside_g > 0])
    shown = _shown(batch.recipe.title, inside)
    return tuple([_with_percent(entry, whole_g) if entry.name in shown else entry for entry in entries])


def _with_percent(entry: ListedIngredient, whole_g: float) -> ListedIngredient:
    percent = 100 * (entry.mass_g or 0.0) / whole_g
    flavours = entry.food is not None and entry.food.group in _FLAVOURINGS
    return entry if flavours and percent < _SMALL_PERCENT else replace(entry, percent=percent)


@lru_cache(maxsize=64)
def _shown(title: str, inside: tuple[tuple[str, Food], ...]) -> frozenset[str]:
    """The names of the ingredients that a title shows, found by the longest words first; amounts do not change them."""
    title = _one_form(title)
    title = " ".join([title, *[usual for word, usual in _USUAL.items() if word in title]])
    words_of = {name: _words(name, food) for name, food in inside}
    shown: set[str] = set()
    for word in sorted(frozenset().union(*words_of.values()), key=lambda word: (-len(word), word)):
        form = re.compile(rf"\b{re.escape(word)}" + (r"\b" if len(word) < _SHORT else "(?!milk|scotch|nut)"))
        if form.search(title):
            title = form.sub("…", title)
            shown |= {name for name, words in words_of.items() if word in words}
    return frozenset(shown)


def _words(written: str, food: Food) -> frozenset[str]:
    """The words by which a title shows an ingredient: `icing sugar` and `sugar`, `lemon juice` and `lemon`.

    They are those of the author's name, of the kind's names, and of its names in law.
    """
    names = {written, *[legal_name(food.key, written, market)[0] for market in ("EU", "UK")]}
    others: set[str] = set()
    if food.key:
        names.add(food.name)
        others = {other.name for other in other_names().get(food.key, ())}
    words = set()
    for name in names | others:
        plain = _DESCRIBES.sub("", _one_form(name.partition(",")[0]))
        words |= {plain} if name in others else {plain, plain.rpartition(" ")[2]}
        if food.group in _BY_FIRST_WORD or plain.startswith("buttermilk "):
            words.add(plain.partition(" ")[0])
    return frozenset(words - _SAYS_NO_FOOD)


def _one_form(text: str) -> str:
    """A text in small letters, its words in the singular and in one spelling.

    >>> _one_form("Strawberries"), _one_form("Yoghurt-cream"), _one_form("glass")
    ('strawberry', 'yogurt cream', 'glass')
    """
    return _WORD.sub(lambda found: one_form(found[0]), text.lower().replace("-", " "))
