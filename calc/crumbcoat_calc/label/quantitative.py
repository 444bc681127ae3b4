"""Quantities beside ingredients: what the name of the food shows has its percentage in lists of the EU and the UK."""

import re
from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.foods.table import other_names
from crumbcoat_calc.label.legal_names import legal_name
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient

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
    r"^(?:(?:unsalted|salted|whole|semi skimmed|skimmed|full fat|low fat|fat reduced|reduced fat|fat free|nonfat|fresh|"
    r"cold|warm|cultured|sweetened|unsweetened|caster|granulated|plain|powdered|dark|double|single|whipping|mild|fine|natural|"
    r"pasteurised|alkalised|dutched|greek|greek style|thick|canned|frozen|dried|wild|raw) )+"
)
_SPELLINGS = (("yoghurt", "yogurt"), ("soya", "soy"), ("gelatine", "gelatin"), ("caramelized", "caramelised"))
_PLURALS = (
    (re.compile(r"ies?\b"), "y"), (re.compile(r"oes\b"), "o"), (re.compile(r"(ch|sh|x)es\b"), r"\1"),
    (re.compile(r"(?<=[^\Ws])s\b"), ""),
)  # fmt: skip
"""Endings that make all forms of a word one: `strawberries` and `strawberry`, `cookies` and `cookie`."""

_SHORT = 4
"""Below this length a word is looked for as a whole: there are oats in an oat cream, and none in an oath."""

_USUAL = {"ganache": "chocolate"}
"""What a reader expects in a food of that name. Source: eu-1169-2011, Art. 22(1)(a)."""


def percents_due(batch: Batch) -> Mapping[str, float]:
    """The percentage of each ingredient, by the author's name, that the title of the recipe shows.

        percent = 100 * ingredient / all ingredients as mixed; or / the finished food, if it lost water

    Source:
        eu-1169-2011, Art. 22 and Annex VIII; that a picture or other words emphasise an ingredient is not seen here.
    """
    mixed_g = fsum(weighed.inside_g for weighed in batch.weighed)
    whole_g = min(mixed_g, batch.total.mass_g)
    title = _one_form(batch.recipe.title)
    title = " ".join([title, *[usual for word, usual in _USUAL.items() if word in title]])
    found: dict[str, float] = {}
    inside = [weighed for weighed in batch.weighed if weighed.inside_g > 0]
    words_of = {weighed.name: _words(weighed) for weighed in inside}
    for word in sorted(frozenset().union(*words_of.values()), key=lambda word: (-len(word), word)):
        form = re.compile(rf"\b{re.escape(word)}" + (r"\b" if len(word) < _SHORT else "(?!milk|scotch|nut)"))
        if form.search(title):
            title = form.sub("…", title)
            for other in inside:
                if word in words_of[other.name]:
                    found[other.name] = 100 * other.inside_g / whole_g
    return {
        weighed.name: found[weighed.name]
        for weighed in inside
        if weighed.name in found and not (weighed.food.group in _FLAVOURINGS and found[weighed.name] < _SMALL_PERCENT)
    }


def _words(weighed: WeighedIngredient) -> frozenset[str]:
    """The words by which a title shows an ingredient: `icing sugar` and `sugar`, `lemon juice` and `lemon`.

    They are those of the author's name, of the kind's names, and of its names in law.
    """
    names = {weighed.name, *[legal_name(weighed.food.key, weighed.name, market)[0] for market in ("EU", "UK")]}
    others: set[str] = set()
    if weighed.food.key:
        names.add(weighed.food.name)
        others = {other.name for other in other_names().get(weighed.food.key, ())}
    words = set()
    for name in names | others:
        plain = _DESCRIBES.sub("", _one_form(name.partition(",")[0]))
        words |= {plain} if name in others else {plain, plain.rpartition(" ")[2]}
        if weighed.food.group in _BY_FIRST_WORD or plain.startswith("buttermilk "):
            words.add(plain.partition(" ")[0])
    return frozenset(words - _SAYS_NO_FOOD)


def _one_form(text: str) -> str:
    """A text in small letters, its words in the singular and in one spelling.

    >>> _one_form("Strawberries"), _one_form("Yoghurt-cream"), _one_form("glass")
    ('strawberry', 'yogurt cream', 'glass')
    """
    text = text.lower().replace("-", " ")
    for written, spelling in _SPELLINGS:
        text = re.sub(rf"\b{written}\b", spelling, text)
    for ending, singular in _PLURALS:
        text = ending.sub(singular, text)
    return text
