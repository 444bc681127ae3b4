"""Quantities beside ingredients: what the name of the food shows has its percentage in lists of the EU and the UK."""

import re
from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.label.legal_names import legal_name
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient

_BY_FIRST_WORD = frozenset(("fruit", "nut", "chocolate", "confectionery", "preserve", "alcohol", "flavour", "spice"))
"""Groups of which a name often has the first word, such as the lemon of lemon juice."""

_FLAVOURINGS = frozenset(("flavour", "spice"))
_SMALL_PERCENT = 2.0
"""Below this share a flavouring needs no percentage: no figure of the law, usage in the UK. Source: eu-1169-2011."""

_DESCRIBES = re.compile(
    r"^(?:unsalted|salted|whole|semi-skimmed|skimmed|full-fat|fresh|cold|warm|cultured|sweetened|caster|granulated|plain|"
    r"powdered|dark|double|single|whipping|mild|fine|pasteurised) "
)
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
    title = batch.recipe.title.lower().replace("-", " ")
    title = " ".join([title, *[usual for word, usual in _USUAL.items() if word in title]])
    found: dict[str, float] = {}
    inside = [weighed for weighed in batch.weighed if weighed.inside_g > 0]
    for word in sorted({word for weighed in inside for word in _words(weighed)}, key=lambda word: (-len(word), word)):
        form = re.compile(rf"\b{re.escape(word)}(?!milk|scotch|nut)")
        if form.search(title):
            title = form.sub("…", title)
            for other in inside:
                if word in _words(other):
                    found[other.name] = 100 * other.inside_g / whole_g
    return {
        weighed.name: found[weighed.name]
        for weighed in inside
        if weighed.name in found and not (weighed.food.group in _FLAVOURINGS and found[weighed.name] < _SMALL_PERCENT)
    }


def _words(weighed: WeighedIngredient) -> frozenset[str]:
    """The words by which a title shows an ingredient: `icing sugar` and `sugar`, `lemon juice` and `lemon`."""
    names = {weighed.name.partition(",")[0].lower().replace("-", " ")}
    names |= {legal_name(weighed.food.key, weighed.name, market)[0].lower() for market in ("EU", "UK")}
    words = set()
    for name in names:
        plain = _DESCRIBES.sub("", name.replace("-", " ")).removesuffix("s")
        words |= {plain, plain.rpartition(" ")[2]}
        if weighed.food.group in _BY_FIRST_WORD or plain.startswith("buttermilk "):
            words.add(plain.partition(" ")[0])
    return frozenset(words - {"", "powder", "juice", "zest", "white"})
