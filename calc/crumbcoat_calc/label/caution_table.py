"""The cautions and their limits: each with the region and the voice that it is for, and its source."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache

from crumbcoat_calc.tables import citations, load_rows, number_in, public_source
from crumbcoat_calc.values.region import REGIONS, words_in

VOICES = ("class", "home")
"""Whom the cautions address; the first is taken where nothing is said."""

_ANY = "any"


@dataclass(frozen=True, slots=True, kw_only=True)
class Readers:
    """For whom the cautions of a site are: one of `REGIONS`, one of `VOICES`."""

    region: str = REGIONS[0]
    voice: str = VOICES[0]


READERS = Readers()
"""For whom the cautions are where nothing is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution as it is printed: title, words with the recipe's own facts, and the published source.

    `region` and `voice`: for whom it is, or `any`. `seen`: whether the text of the source was `found`, was read in a
    `secondary` page that reports it, or is from `memory`.
    """

    key: str
    region: str
    voice: str
    title: str
    words: str
    source: str
    where: str
    seen: str

    @property
    def source_text(self) -> str:
        """The work and the place in it."""
        return public_source(f"{citations()[self.source]}: {self.where}")


@cache
def cautions_of(readers: Readers) -> tuple[Caution, ...]:
    """The cautions of a region and a voice, in its spelling, their words with gaps for the recipe's facts.

    A caution that a region has no row for, such as a number of days, is not given there.
    """
    return tuple(
        replace(row, title=words_in(readers.region, row.title), words=words_in(readers.region, row.words))
        for row in all_cautions()
        if row.region in (readers.region, _ANY) and row.voice in (readers.voice, _ANY)
    )


@cache
def all_cautions() -> tuple[Caution, ...]:
    """All cautions of all regions and voices, their words with gaps for the recipe's facts."""
    return load_rows("cautions", _caution_from, ("place", "region", "voice"))


def _caution_from(cells: dict[str, str]) -> Caution:
    for column, known in (("region", REGIONS), ("voice", VOICES)):
        if cells[column] not in (*known, _ANY):
            raise ValueError(f"{column} is {cells[column]!r}; write {', '.join(known)} or {_ANY}")
    fields = ("key", "region", "voice", "title", "words", "source", "where", "seen")
    return Caution(**{field: cells[field] for field in fields})


@cache
def limits(region: str = REGIONS[0]) -> Mapping[str, float]:
    """The limits by which cautions are chosen in a region, in °C or in days as the name says.

    A limit that neither the region nor all regions have, such as a number of days, is not there.

    Source:
        that of each limit, see caution_limits.csv.
    """
    rows = load_rows(
        "caution_limits",
        lambda cells: (cells["limit"], cells["region"], number_in(cells, "value", 1, 200)),
        ("limit", "region"),
    )
    found = {limit: value for limit, of, value in rows if of == _ANY}
    return found | {limit: value for limit, of, value in rows if of == region}
