"""Foods of the three tables by the words of their names."""

import unicodedata

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


def _folded(words: str) -> str:
    """The words in small letters, without accents and signs."""
    letters = unicodedata.normalize("NFKD", words.lower())
    return "".join([letter if letter.isalnum() else " " for letter in letters if not unicodedata.combining(letter)])
