"""Kinds of the ingredient table, and foods of the three public tables, by the words of their names."""

import unicodedata

from crumbcoat_calc.foods.table import Food, foods, other_names

from crumbcoat_site.food_tables.rows import TABLES, TableFood, rows_of


def find_foods(words: str) -> list[TableFood]:
    """The foods whose English or French name has all these words, or words that begin with them; shortest name first.

    >>> [food.written for food in find_foods("mascarpone")]
    ['cofid 12-490', 'ciqual 19584']
    """
    wanted = _folded(words).split()
    found = []
    for table in TABLES:
        for food in rows_of(table).values():
            names = f" {_folded(food.name)} {_folded(food.also)} "
            if wanted and all(f" {word}" in names for word in wanted):
                found.append(food)
    return sorted(found, key=lambda food: (len(food.name), food.name))


def find_kinds(words: str) -> list[Food]:
    """The kinds of the ingredient table of which a name has all these words, or words that begin with them.

    Those that are called exactly this come first, then the others, shortest name first. Without words, all by name.

    >>> [kind.key for kind in find_kinds("runny honey")], find_kinds("icing sugar")[0].key
    ([], 'sugar_powdered')
    """
    wanted = _folded(words).split()
    found = []
    for kind in foods().values():
        names = [
            _folded(name) for name in (kind.key, kind.name, *[other.name for other in other_names().get(kind.key, ())])
        ]
        fitting = [name for name in names if all(f" {word}" in f" {name}" for word in wanted)]
        if fitting:
            is_exact = any(name.split() == wanted for name in fitting)
            found.append((not is_exact, len(kind.name) if wanted else 0, kind.name.casefold(), kind))
    return [kind for *_, kind in sorted(found, key=lambda one: one[:3])]


def _folded(words: str) -> str:
    """The words in small letters, without accents and signs."""
    letters = unicodedata.normalize("NFKD", words.lower())
    return "".join([letter if letter.isalnum() else " " for letter in letters if not unicodedata.combining(letter)])
