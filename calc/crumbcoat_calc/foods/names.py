"""What people call the kinds of the ingredient table: which kinds a written name means, and which come near it."""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import islice, permutations, product

from crumbcoat_calc.tables import load_rows

REGIONS = ("UK", "US", "both")

_SMALL_WORDS = frozenset(("a", "and", "for", "in", "of", "or", "the", "with"))
_SPELLINGS = {
    "alkalised": "alkalized", "cacao": "cocoa", "caramelised": "caramelized", "castor": "caster", "colour": "color",
    "flavour": "flavor", "flavouring": "flavoring", "gelatine": "gelatin", "leaves": "leaf", "liquorice": "licorice",
    "pasteurised": "pasteurized", "skimmed": "skim", "soya": "soy", "whiskey": "whisky", "yoghurt": "yogurt",
}  # fmt: skip
"""Words that are spelled in two ways, or that mean the same before an ingredient."""

_HOW_NOT_WHAT = frozenset((
    "active", "block", "bottled", "brewed", "canned", "chopped", "cold", "cultured", "dark", "double", "dried", "dry",
    "extra", "fat", "flaked", "free", "fresh", "frozen", "full", "ground", "gum", "half", "heavy", "instant", "large",
    "leaf", "light", "liquid", "low", "natural", "no", "organic", "pack", "pasteurized", "plain", "powder", "pure",
    "raw", "reduced", "roasted", "salted", "sheet", "single", "skim", "small", "soft", "sweet", "sweetened", "thick",
    "unsalted", "unsweetened", "white", "whole",
))  # fmt: skip
"""Words that say how a food is, and not what it is: two foods that share only these have nothing in common."""

_LEAST_LIKE = 0.8
"""How like a word of a name must be (by difflib) if the whole then names a kind; `suger` is 0.8 like `sugar`."""

_LEAST_LIKE_ALONE = 0.85
"""How like a word must be if the rest does not fit: `pasta` is 0.8 like `paste`, and is not a slip of it."""

_LEAST_LIKE_BESIDE = 0.75
"""How like a word must be beside known ones, if the whole then names a kind; `peal` is 0.75 like `peel`."""

_SHORTEST_SLIP = 4
_MOST_WORDS, _MOST_CORRECTIONS = 4, 64


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodName:
    """Another name of a kind, and where people use it: `UK`, `US` or `both`."""

    food: str
    name: str
    region: str


@dataclass(frozen=True, slots=True)
class _Candidate:
    """One name of a kind: the words of it, and those before its first comma, which say what it is."""

    key: str
    words: frozenset[str]
    what: frozenset[str]
    head: str


_Rank = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Near:
    """The kinds that come near a written name.

    `slip`: the name fits them if letters are corrected. `part`: they have only a part of the words for what it is.
    """

    keys: tuple[str, ...]
    slip: bool = False
    part: bool = False


def load_names() -> tuple[FoodName, ...]:
    """The other names of the kinds, as people write them in recipes."""
    return load_rows("food_names", _name_from, ("food", "name"))


class Names:
    """Finds kinds by name. Case, punctuation, plurals and the order of the parts between commas do not matter.

    >>> names = Names({"cornstarch": "cornstarch"}, [FoodName(food="cornstarch", name="cornflour", region="UK")])
    >>> names.meant_by("Cornflour"), names.near("cornflower")
    (('cornstarch',), Near(keys=('cornstarch',), slip=True, part=False))
    """

    def __init__(self, printed: Mapping[str, str], others: Iterable[FoodName]) -> None:
        self._meant: dict[str, dict[str, None]] = {}
        self._candidates: list[_Candidate] = []
        named = [(key, name) for key, name in printed.items()]
        named += [(other.food, other.name) for other in others]
        for key, name in [(key, key) for key in printed] + named:
            for written in _readings(name):
                self._meant.setdefault(written, {})[key] = None
        for key, name in named:
            self._candidates.append(_candidate(key, name))
        self._vocabulary = sorted({word for candidate in self._candidates for word in candidate.words})

    def meant_by(self, written: str) -> tuple[str, ...]:
        """The kinds with exactly this name, in the order of the table; usually one."""
        found: dict[str, None] = {}
        for reading in _readings(written):
            found |= self._meant.get(reading, {})
        return tuple(found)

    def near(self, written: str) -> Near:
        """The kinds that come near a name that no kind has: by whole words, and by letters only if no word is known."""
        plain = " ".join(_words(written))
        for corrected in self._corrections(written):
            meant = self.meant_by(corrected) if corrected != plain else ()
            if meant:
                return Near(meant, slip=True)
        near = self._with_words_of(written)
        if near.keys:
            return near
        alone = " ".join([self._like(word, _LEAST_LIKE_ALONE)[0] for word in _words(written)])
        return replace(self._with_words_of(alone), slip=True)

    def _corrections(self, written: str) -> Iterator[str]:
        """A name with its unknown words put right in all likely ways: `lemon peal` as `lemon pea` and `lemon peel`."""
        words = _words(written)
        known = [word in self._vocabulary for word in words]
        least_like = _LEAST_LIKE_BESIDE if any(known) else _LEAST_LIKE
        ways = [self._like(word, least_like) for word in words]
        yield from [" ".join(way) for way in islice(product(*ways), _MOST_CORRECTIONS)]

    def _like(self, word: str, least_like: float) -> list[str]:
        """The known words that a word is likely meant for, the likeliest first; the word itself if there is none."""
        if word in self._vocabulary or len(word) < _SHORTEST_SLIP or word.isdigit():
            return [word]
        return get_close_matches(word, self._vocabulary, n=_MOST_WORDS, cutoff=least_like) or [word]

    def _with_words_of(self, written: str) -> Near:
        """The kinds that share a word for what they are: those that share most, and add fewest words of their own.

        Cocoa butter adds a word to `butter` that says what it is, so it is not listed beside the butters.
        """
        asked = _candidate("", written)
        ranks: dict[str, _Rank] = {}
        of_its_head: set[str] = set()
        shares_all: set[str] = set()
        for candidate in self._candidates:
            if asked.head in candidate.words or candidate.head in asked.words:
                rank = (
                    -len(candidate.words & asked.words),
                    len(candidate.what - asked.words),
                    len(candidate.words - asked.words),
                )
                ranks[candidate.key] = min(ranks.get(candidate.key, rank), rank)
                if asked.what <= candidate.words:
                    shares_all.add(candidate.key)
                if asked.head in candidate.words:
                    of_its_head.add(candidate.key)
        if not ranks:
            return Near(())
        shared, added, _ = min(ranks.values())
        keys = [key for key, rank in ranks.items() if rank[:2] == (shared, added)]
        if len(keys) == 1:
            keys += [key for key in of_its_head if ranks[key][:2] == (shared, added + 1)]
        keys.sort(key=lambda key: (ranks[key], key))
        return Near(tuple(keys), part=keys[0] not in shares_all)


def _words(text: str) -> list[str]:
    """The words of a name in one spelling: `Confectioners’ sugars` gives `confectioner sugar`."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("'", "").replace("’", ""))
    letters = "".join([letter for letter in plain if not unicodedata.combining(letter)])
    return [one_form(word) for word in re.findall("[a-z0-9]+", letters) if word not in _SMALL_WORDS]


def one_form(word: str) -> str:
    """A word in small letters, in the singular and in one spelling: the same for all that mean the same.

    >>> [one_form(word) for word in ("strawberries", "yoghurt", "peaches", "glass")]
    ['strawberry', 'yogurt', 'peach', 'glass']
    """
    word = _SPELLINGS.get(word, word)
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-2] if word.endswith(("oes", "ches", "shes", "xes", "sses")) else word[:-1]
    if len(word) > 4 and word.endswith("ie"):
        word = word[:-2] + "y"
    return _SPELLINGS.get(word, word)


def _readings(name: str) -> Iterator[str]:
    """A name as its parts can be ordered: `cream, heavy` and `heavy cream`."""
    parts = [words for part in re.split("[,()]", name) if (words := " ".join(_words(part)))]
    yield " ".join(parts)
    if 1 < len(parts) <= 4:
        for order in permutations(parts):
            yield " ".join(order)


def _candidate(key: str, name: str) -> _Candidate:
    """The words of a name; its head is the last word before a comma that says what the food is."""
    first, _, _ = name.partition(",")
    words = _words(name)
    what = list(filter(_says_what, _words(first))) or list(filter(_says_what, words))[:1]
    return _Candidate(key=key, words=frozenset(words), what=frozenset(what), head=what[-1] if what else "")


def _says_what(word: str) -> bool:
    return word not in _HOW_NOT_WHAT and not word.isdigit()


def _name_from(cells: dict[str, str]) -> FoodName:
    if cells["region"] not in REGIONS:
        raise ValueError(f"region is {cells['region']!r}; write {', '.join(REGIONS)}")
    return FoodName(food=cells["food"], name=cells["name"], region=cells["region"])
