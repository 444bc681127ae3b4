"""The cautions of a class in short: the most important ones, for all recipes that it makes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.label.caution_facts import CautionFacts
from crumbcoat_calc.label.caution_table import READERS, Readers
from crumbcoat_calc.label.cautions import cautions_for, facts_of_cautions
from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.values.region import words_in

MOST_CAUTIONS = 6
"""More are not read by a class (common practice, no source); all of them are on the card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortCaution:
    """One caution in a sentence or two: what is so, by the recipe if not all are alike, and what to do about it."""

    title: str
    facts: tuple[tuple[str, str], ...]
    words: str
    source_text: str


def class_cautions(
    recipes: Sequence[tuple[str, CautionFacts]], readers: Readers = READERS
) -> tuple[tuple[ShortCaution, ...], int]:
    """The most important cautions for a class, the most urgent first, and how many there are in all.

    Args:
        recipes: title and facts of each. A fact that holds for all of them in the same words has no title.

    Source:
        class_cautions.csv, short for the rows of cautions.csv; their order is our choice.
    """
    called = {title: facts_of_cautions(facts, readers) for title, facts in recipes}
    full = {caution.key: caution for _, facts in recipes for caution in cautions_for(facts, readers)}
    found = []
    for key, (fact, words) in _short().items():
        if key not in full:
            continue
        facts = [
            (title, words_in(readers.region, fact.format_map(values[key])))
            for title, values in called.items()
            if key in values
        ]
        if len(facts) == len(recipes) and len({shown for _, shown in facts}) == 1:
            facts = [("", facts[0][1])]
        found.append(
            ShortCaution(
                title=full[key].title,
                facts=tuple(facts),
                words=words_in(readers.region, words),
                source_text=full[key].source_text,
            )
        )
    return tuple(found[:MOST_CAUTIONS]), len(found)


@cache
def _short() -> Mapping[str, tuple[str, str]]:
    rows = load_rows("class_cautions", lambda cells: (cells["key"], cells["fact"], cells["words"]), ("rank",))
    return {key: (fact, words) for key, fact, words in rows}
