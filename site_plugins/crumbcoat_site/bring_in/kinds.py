"""The name of an ingredient -> the kind that it most likely is, how likely that is, and what else it could be."""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from crumbcoat_calc.foods.names import one_form
from crumbcoat_calc.foods.table import Food, foods, kind_names, other_names
from crumbcoat_calc.recipe.own_food import food_from

from crumbcoat_site.bring_in.ingredient_lines import IngredientLine
from crumbcoat_site.food_tables.kinds import kind_of
from crumbcoat_site.food_tables.rows import TABLES, TableFood, rows_of

OwnKinds = Mapping[str, Mapping[str, object] | None]
"""The site's own ingredients by key, as a recipe's data carry them; None for one that cannot be used."""

SURE = 0.9
"""From this confidence on a kind is not marked."""

LEAST = 0.4
"""Below this confidence no kind is written: it would only share a word with the name."""

_OF_NO_ACCOUNT = frozenset((
    "good", "quality", "best", "real", "pure", "organic", "fresh", "freshly", "ripe", "large", "medium", "small",
    "extra", "free", "range", "store", "bought", "homemade", "own", "your", "favourite", "favorite", "cold",
    "warm", "hot", "boiling", "softened", "melted", "room", "temperature", "finely", "coarsely", "chopped",
    "grated", "fine", "about", "plain", "full", "fat", "some", "little", "more", "filtered", "premium",
    "unflavored", "unflavoured", "block", "bar", "brick", "style", "runny", "clear", "set", "unwaxed", "heaped",
    "heaping", "rounded", "scant", "level", "generous", "shop", "supermarket", "local", "squeezy", "decent",
    "proper", "nice", "high", "top", "everyday",
))  # fmt: skip
"""Words that may be left out of a name if no kind has it with them."""

_FORMS = frozenset((
    "paste", "powder", "syrup", "extract", "essence", "sauce", "spread", "flake", "bean", "seed", "liquid", "pod",
))  # fmt: skip
"""Words of a form that many foods have: a kind that shares only these is not near."""

_FIRST_TABLE = {"US": "usda", "UK": "cofid"}
"""The table of a region, of several that have the same food."""

_SLIP, _WORDS, _PART, _SEVERAL, _USUAL = 0.65, 0.6, 0.3, 0.68, 0.7
"""How sure a way of finding a kind is (our judgement, no source; the tests show what it comes to)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindMatch:
    """A kind as a recipe writes it, with its name; empty if none was found. `others` are the two next best."""

    kind: str
    name: str
    confidence: float
    others: tuple[str, ...] = ()

    @property
    def is_sure(self) -> bool:
        """Whether it needs no second look."""
        return self.confidence >= SURE


NONE = KindMatch(kind="", name="", confidence=0.0)


def find_kind(line: IngredientLine, own: OwnKinds, region: str) -> KindMatch:
    """The kind of an ingredient.

    Args:
        own: the site's own ingredients by key, as a recipe's data carry them.
        region: whose word it is, `US`, `UK` or another.

    >>> from crumbcoat_site.bring_in.ingredient_lines import ingredient_line
    >>> found = find_kind(ingredient_line("2 cups confectioners’ sugar"), {}, "US")
    >>> found.kind, found.is_sure
    ('sugar_powdered', True)
    >>> found = find_kind(ingredient_line("1 stick butter"), {}, "US")
    >>> found.kind, found.is_sure, found.others[0]
    ('butter_unsalted', False, 'butter_salted')
    """
    ranked: dict[str, float] = {}
    for kind, confidence in _candidates(line, own, region):
        ranked[kind] = max(ranked.get(kind, 0.0), confidence)
    if not ranked:
        return NONE
    order = sorted(ranked, key=lambda kind: -ranked[kind])
    best = order[0]
    others = [kind for kind in order[1:] if ranked[kind] >= _PART][:2]
    if ranked[best] < LEAST:
        near = [kind for kind in order if _is_neighbour(kind, line.name, own)][:2]
        return KindMatch(kind="", name="", confidence=ranked[best], others=tuple(near))
    return KindMatch(kind=best, name=name_of(best, own), confidence=ranked[best], others=tuple(others))


def _candidates(line: IngredientLine, own: OwnKinds, region: str) -> Iterator[tuple[str, float]]:
    """Kinds with a confidence, the most certain ones first; one that comes again is not better for it."""
    for written, weight in _names_of(line):
        found = list(_called(written, own, region))
        yield from [(kind, weight * confidence) for kind, confidence in found]
        if any(weight * confidence >= SURE for _, confidence in found):
            return
    bare = _without_qualifiers(line.name)
    near = kind_names().near(bare)
    yield from _ordered(near.keys, _SLIP if near.slip and not near.part else _PART if near.part else _WORDS)
    yield from _in_tables(bare, _FIRST_TABLE.get(region, "ciqual"))


def _names_of(line: IngredientLine) -> Iterator[tuple[str, float]]:
    """What an ingredient may be called, and what its kind is then worth: all of its name, or a part of it."""
    yield line.name, 1.0
    for part in line.preparation[:3]:
        yield f"{line.name}, {part}", 1.0
    words = line.name.replace("-", " ").split()
    bare = _without_qualifiers(line.name)
    if bare != line.name:
        yield bare, 0.96
    yield from [(" ".join(words[at:]), 0.75) for at in range(1, len(words) - 1)]
    for joiner in (" or ", "/", " and "):
        first, found, second = line.name.partition(joiner)
        if found:
            yield first, 0.95
            yield f"{first} {second.split()[-1] if second.split() else ''}", 0.9
            yield second, 0.6


def _without_qualifiers(name: str) -> str:
    """The name without words that say nothing of what it is; all of it if nothing else is left.

    >>> _without_qualifiers("good-quality runny honey"), _without_qualifiers("extra fine")
    ('honey', 'extra fine')
    """
    words = name.replace("-", " ").split()
    bare = [word for word in words if one_form(word.lower().strip(",.")) not in _OF_NO_ACCOUNT]
    return " ".join(bare) if bare and bare != words else name


def _called(written: str, own: OwnKinds, region: str) -> Iterator[tuple[str, float]]:
    """The kinds that are called exactly this."""
    plain = _plain(written)
    if not plain:
        return
    yield from [(key, 1.0) for key in own if plain in (_plain(key), _plain(name_of(key, own)))]
    meant = kind_names().meant_by(written)
    usual = _usual().get((plain, region)) or _usual().get((plain, "any"))
    if usual:
        yield usual[0], 0.95 if usual[1] else _USUAL
    yield from _ordered(meant, 1.0 if len(meant) == 1 and not usual else _SEVERAL)


def _is_neighbour(kind: str, name: str, own: OwnKinds) -> bool:
    """Whether one of the kind's names shares a word with a name that says what the food is."""
    names = [name_of(kind, own), *[other.name for other in other_names().get(kind, ())]]
    shared = {word for written in names for word in _words(written)} & set(_words(name))
    return bool(shared - _FORMS - _OF_NO_ACCOUNT)


def _ordered(kinds: tuple[str, ...], confidence: float) -> Iterator[tuple[str, float]]:
    yield from [(kind, confidence - 0.01 * place) for place, kind in enumerate(kinds[:5])]


@cache
def _usual() -> Mapping[tuple[str, str], tuple[str, bool]]:
    """What a plain word in a recipe usually means, where the ingredient table has several kinds of it."""
    with (Path(__file__).parent / "usual_kinds.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {(_plain(cells["words"]), cells["region"]): (cells["kind"], cells["is_sure"] == "yes") for cells in rows}


def _in_tables(name: str, first: str) -> Iterator[tuple[str, float]]:
    """Foods of the three public tables whose names have all the words; the more of its words are ours, the better.

    One that is something else by the words before its first comma, as lemon curd is for lemons, is only a neighbour.
    """
    wanted = frozenset(_words(name)) - _OF_NO_ACCOUNT
    if not wanted or not all(word in _index() for word in wanted):
        return
    found = set.intersection(*[_index()[word] for word in wanted])
    ranked = sorted(
        found,
        key=lambda food: (
            not food[2] <= wanted,
            len(food[1]),
            "raw" not in food[1],
            not food[0].startswith(first),
            food[0],
        ),
    )
    for written, words, what in ranked[:3]:
        kind = kind_of(written)
        share = 0.35 * len(wanted) / max(1, len(words)) if what <= wanted else 0.0
        yield kind if isinstance(kind, str) else written, _PART + share


@cache
def _index() -> Mapping[str, set[tuple[str, frozenset[str], frozenset[str]]]]:
    """The foods of the tables by each word of their names, with these words, and those before the first comma."""
    index: dict[str, set[tuple[str, frozenset[str], frozenset[str]]]] = {}
    for food in _usable():
        for name in (food.name, food.also if food.table == "ciqual" else ""):
            words = frozenset(_words(name))
            what = frozenset(_words(name.partition(",")[0]))
            for word in words:
                index.setdefault(word, set()).add((food.written, words, what))
    return index


def _usable() -> Iterator[TableFood]:
    for table in TABLES:
        yield from [food for food in rows_of(table).values() if food.cells.get("basis", "100 g") == "100 g"]


def food_of(kind: str, own: OwnKinds) -> Food | None:
    """The food that a kind is; None for an empty one, or one of the site's own that cannot be used."""
    if kind in foods():
        return foods()[kind]
    fields = own.get(kind) if kind in own else kind_of(kind) if kind else None
    return food_from({"kind": fields}, None) if fields is not None else None


def name_of(kind: str, own: OwnKinds) -> str:
    """What a kind is called: one of the site's own, of the ingredient table, or of a public table."""
    if kind in own:
        return str((own[kind] or {}).get("name", kind))
    if kind in foods():
        return foods()[kind].name
    table, _, number = kind.partition(" ")
    return rows_of(table)[number].name


def _plain(written: str) -> str:
    return " ".join(_words(written.replace("_", " ")))


def _words(written: str) -> list[str]:
    letters = "".join([sign if sign.isalnum() else "" if sign in "'’" else " " for sign in written.lower()])
    return [one_form(word) for word in letters.split()]
