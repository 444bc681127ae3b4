"""Which allergens a kind of ingredient naturally contains, under the laws that list them, and the words for them."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from sys import intern
from types import MappingProxyType

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, foods
from crumbcoat_calc.tables import UNKNOWN, load_rows
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.fields import line, nearest_of

NONE = "none"
"""The entry in allergens.csv for a food that was assessed and contains no allergen."""


_ALSO = {
    "soy": "soya", "soybean": "soya", "soybeans": "soya", "sulfites": "sulphites", "mollusks": "molluscs",
    "oat": "oats", "crustacean": "crustaceans", "dairy": "milk",
}  # fmt: skip
"""Words for allergens that people write besides those of the table."""

_SEVERAL = {
    "nut": ("nuts", "tree nuts"), "tree nut": ("nuts", "tree nuts"), "gluten": ("cereals containing gluten",),
    "shellfish": ("crustaceans", "molluscs"),
}  # fmt: skip
"""Words that people write for several allergens, and the terms of the laws for these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AllergenAssessment:
    """What is known about the allergens of one food under one regime.

    `known` maps each allergen in the food, in the order of the law, to what it comes from (`tree nuts`: `almond`).
    `doubt` is the reason why there may be more; empty if there is no doubt.
    """

    known: Mapping[str, str]
    doubt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AllergenWord:
    """A word for an allergen in a list, and each law's term for it, or None.

    `stem` is what reveals it in a name, several with `|` between them.
    """

    word: str
    stem: str
    by_regime: Mapping[str, str | None]


@cache
def regimes() -> Mapping[str, tuple[str, ...]]:
    """The allergens that each regime lists, in the order of its law.

    Source:
        falcpa-2004, faster-2021 (US, nine) and cfr-101-100 (sulfites); eu-1169-2011, Annex II (EU, fourteen).

    >>> len(regimes()["US"]), len(regimes()["EU"])
    (10, 14)
    """
    listed: dict[str, list[str]] = {}
    for cells in load_rows("allergen_regimes", dict, ("regime", "position")):
        listed.setdefault(cells["regime"], []).append(cells["allergen"])
    return MappingProxyType({regime: tuple(names) for regime, names in listed.items()})


def allergen_assessment(food: Food, regime: str) -> AllergenAssessment | None:
    """What is known about a food's allergens under a regime; None for a food that is not based on a kind of the table.

    Args:
        regime: a key of regimes(), `US` or `EU`.
    """
    return _table().get((food.key, regime))


@cache
def allergen_words() -> Mapping[str, AllergenWord]:
    """The words for allergens, by word."""
    return {word.word: word for word in load_rows("allergen_words", _word_from, ("word",))}


@lru_cache(maxsize=512)
def words_seen_in(name: str, regime: str) -> tuple[str, ...]:
    """The words for allergens that can be seen in a name.

    >>> words_seen_in("skimmed milk powder", "EU"), words_seen_in("pineapple", "US")
    (('milk',), ())
    """
    shown = name.lower()
    return tuple([word.word for word, stem in _stems() if word.by_regime[regime] and stem.search(shown)])


@cache
def _stems() -> tuple[tuple[AllergenWord, re.Pattern[str]], ...]:
    return tuple([(word, re.compile(rf"\b(?:{word.stem})")) for word in allergen_words().values()])


def allergen_word(value: object) -> str:
    """Read a word for an allergen, such as `milk`, `wheat` or `almond`.

    Raises:
        InputError: for a word that the table does not list.

    >>> allergen_word("soya"), allergen_word("Eggs")
    ('soya', 'egg')
    """
    word = line(value)
    found = written_words().get(word.lower())
    if found is None:
        several = _each_of(word)
        if several:
            raise InputError(f"{word!r} can be several allergens", f"list what is in it: {list_text(several, 'or')}")
        remedy = nearest_of(word, allergen_words())
        raise InputError(f"{word[:60]!r} is not an allergen that must be labelled", remedy)
    return found


def words_meant(written: str) -> tuple[str, ...]:
    """The words for allergens that one word of a person means: one, or all that a law's term such as `nuts` is for.

    Raises:
        InputError: for a word that no law of the table lists.

    >>> words_meant("Milk"), words_meant("gluten"), words_meant("sesame seeds")
    (('milk',), ('barley', 'oats', 'rye', 'wheat'), ('sesame',))
    """
    word = line(written).lower()
    if word in written_words():
        return (written_words()[word],)
    terms = [{(law or "").lower() for law in listed.by_regime.values()} for listed in allergen_words().values()]
    named = tuple([known for known, laws in zip(allergen_words(), terms, strict=True) if word in laws])
    return _each_of(word) or named or (allergen_word(word),)


def _each_of(word: str) -> tuple[str, ...]:
    """The allergens that a word such as `nuts` is used for; none for other words."""
    laws = _SEVERAL.get(word.lower().removesuffix("s"), ())
    return tuple(
        listed.word for listed in allergen_words().values() if not {*listed.by_regime.values()}.isdisjoint(laws)
    )


def words_denied(by: str) -> frozenset[str]:
    """The words for allergens that a claim such as nut-free denies: of `allergen` all, of `nut` peanuts as well.

    >>> sorted(words_denied("milk")), len(words_denied("nut"))
    (['milk'], 10)
    """
    if by == "allergen":
        return frozenset(allergen_words())
    return frozenset((*_each_of("nut"), "peanut") if by == "nut" else (by,))


@cache
def written_words() -> Mapping[str, str]:
    """Every way to write a word for an allergen, in small letters, with the plural and other words."""
    words = {word.lower(): word for word in allergen_words()}
    several = {f"{shown}s": word for shown, word in words.items()}
    return {**several, **words, **_ALSO}


@cache
def _table() -> Mapping[tuple[str, str], AllergenAssessment]:
    named: dict[tuple[str, str], dict[str, str]] = {}
    for cells in load_rows("allergens", _row_from, ("food", "regime", "allergen")):
        named.setdefault((intern(cells["food"]), intern(cells["regime"])), {})[cells["allergen"]] = cells["note"]
    table = {}
    alike: dict[tuple[object, str], AllergenAssessment] = {}
    for (key, regime), notes in named.items():
        if NONE in notes and len(notes) > 1:
            raise ValueError(f"allergens.csv lists both {NONE} and an allergen for {key} under {regime}")
        known = {allergen: notes[allergen] for allergen in regimes()[regime] if allergen in notes}
        found = AllergenAssessment(known=MappingProxyType(known), doubt=notes.get(UNKNOWN, ""))
        table[key, regime] = alike.setdefault((tuple(known.items()), found.doubt), found)
    return table


def _row_from(cells: dict[str, str]) -> dict[str, str]:
    if cells["food"] not in foods():
        raise ValueError(f"there is no food {cells['food']!r} in foods.csv")
    if cells["regime"] not in regimes():
        raise ValueError(f"there is no regime {cells['regime']!r} in allergen_regimes.csv")
    if cells["allergen"] not in (*regimes()[cells["regime"]], NONE, UNKNOWN):
        raise ValueError(f"the regime {cells['regime']} lists no {cells['allergen']!r}")
    return cells


def _word_from(cells: dict[str, str]) -> AllergenWord:
    by_regime = {
        regime: None if cells[column] == "-" else cells[column] for regime, column in (("US", "us"), ("EU", "eu"))
    }
    for regime, allergen in by_regime.items():
        if allergen is not None and allergen not in regimes()[regime]:
            raise ValueError(f"the regime {regime} lists no {allergen!r}")
    return AllergenWord(word=cells["word"], stem=cells["stem"], by_regime=by_regime)
