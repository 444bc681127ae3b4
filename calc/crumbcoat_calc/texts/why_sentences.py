"""Every sentence about why a mixture holds, with its condition: the rows of why_sentences.csv."""

from dataclasses import dataclass
from functools import cache
from math import inf

from crumbcoat_calc.science.carriers import Carries
from crumbcoat_calc.science.structure import GELS, Outside
from crumbcoat_calc.tables import load_rows

PARTS = ("holds", "carriers", "fat", "syrup", "sugar", "cover", "warmth")
"""The parts in the order in which a page shows them."""

OPEN = {
    "holds": "what holds it",
    "fat": "how closely the fat is packed",
    "syrup": "how strong the syrup is",
    "sugar": "whether all the sugar dissolves",
    "cover": "whether the fat can be covered",
    "warmth": "how firm the fat is",
}
"""What each part is about, for a mixture of which not enough is known; `carriers` is left out there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """A figure whose whole band is from `low` on and below `high`; it is not met where the figure is not known."""

    figure: str
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A template and when it is said: the first of a part that applies, or of each carrier in `holds` and `carriers`.

    It is about `carrier`, none of `unless` may hold the mixture, the phase `outside` must be known, the recipe must be
    of one of `families`, and all of `within` be met. What is None or empty does not matter.
    """

    part: str
    text: str
    source: str
    carrier: Carries | None
    unless: tuple[Carries, ...]
    outside: Outside | None
    families: tuple[str, ...]
    within: tuple[Within, ...]


@cache
def sentences() -> tuple[Sentence, ...]:
    """All sentences, in the order in which they are tried.

    >>> sentences()[0].text
    'a foam of egg white'
    """
    return load_rows("why_sentences", _sentence_from, ("number",))


def _sentence_from(row: dict[str, str]) -> Sentence:
    unless = row["unless"]
    if row["part"] not in PARTS:
        raise ValueError(f"there is no part {row['part']!r}")
    return Sentence(
        part=row["part"],
        text=row["text"],
        source=row["source"],
        carrier=None if row["carrier"] == "any" else Carries(row["carrier"]),
        unless=GELS if unless == "gels" else () if unless == "none" else (Carries(unless),),
        outside=None if row["outside"] == "any" else Outside(row["outside"]),
        families=() if row["family"] == "any" else (row["family"],),
        within=() if row["figures"] == "none" else tuple([_within_from(part) for part in row["figures"].split("; ")]),
    )


def _within_from(written: str) -> Within:
    figure, low, high = written.split(" ")
    return Within(figure=figure, low=-inf if low == "-" else float(low), high=inf if high == "-" else float(high))
