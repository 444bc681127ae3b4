"""What a card says besides "Why this holds": each sentence with its condition, where it is, and for which families."""

import csv
from functools import cache
from pathlib import Path
from typing import NamedTuple

_FILE = Path(__file__).parent / "card_sentences.csv"


class Said(NamedTuple):
    """A sentence: the part of the card, its name among the texts, the words with gaps in brackets, and when."""

    part: str
    key: str
    sentence: str
    when: str
    families: str


@cache
def other_sentences() -> tuple[Said, ...]:
    """The table of sentences, in its order."""
    with _FILE.open(encoding="utf-8", newline="") as file:
        return tuple([Said(**row) for row in csv.DictReader(file)])
