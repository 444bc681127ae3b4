"""What can hold a frosting together: the tables of it, and from which amount it does."""

from dataclasses import dataclass
from enum import Enum
from functools import cache, lru_cache

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.tables import load_rows


class Carries(Enum):
    """What can hold a mixture; the value is the name in the tables."""

    WHITE_FOAM = "white foam"
    YOLK_FOAM = "yolk foam"
    EGG_GEL = "egg gel"
    STARCH_GEL = "starch gel"
    GELATINE = "gelatine"
    AGAR = "agar"
    GUM = "gum"
    CLUMPED_FAT = "clumped fat"
    COCOA_BUTTER = "cocoa butter"
    COCONUT_FAT = "coconut fat"
    FAT_FRAME = "fat frame"
    FRESH_CHEESE = "fresh cheese"
    SUGAR_CRYSTALS = "sugar crystals"


@dataclass(frozen=True, slots=True)
class Carrier:
    """Something in a batch that holds it: the figure that says so, in the unit of carriers.csv.

    From `least` on it is counted, and from `alone` on it is enough by itself. `of` are the ingredients that bring it,
    and `heated_c` is the lowest temperature that they were heated to in water.
    """

    carries: Carries
    figure: float
    least: float
    alone: float
    of: tuple[Food, ...] = ()
    heated_c: float | None = None

    @property
    def strength(self) -> float:
        """How far it gets to what is enough by itself."""
        return self.figure / self.alone


@dataclass(frozen=True, slots=True)
class Span:
    """Two temperatures of setting.csv in °C."""

    low_c: float
    high_c: float


@cache
def bands() -> dict[str, tuple[float, float, str, str]]:
    """Of each carrier: from which figure it counts, from which it is enough, its unit and the source."""
    return dict(
        load_rows(
            "carriers",
            lambda row: (row["carrier"], (float(row["low"]), float(row["high"]), row["unit"], row["source"])),
            ("carrier",),
        )
    )


def setting(what: str) -> Span:
    """At which temperatures something sets, swells or melts.

    >>> setting("cocoa butter melts").high_c
    36.0
    """
    return _settings()[what]


@lru_cache(maxsize=1024)
def brings(food: Food) -> str:
    """What a food brings, as carrier_foods.csv names it; gums that a recipe states itself are known by their name.

    >>> from crumbcoat_calc.foods.table import food
    >>> brings(food("cornstarch")), brings(food("milk_whole"))
    ('maize starch', '')
    """
    if food.key:
        return _brought().get(food.key, "")
    return next((what for word, what in _brought().items() if what == "gum" and word in food.name.lower()), "")


@cache
def _settings() -> dict[str, Span]:
    return dict(
        load_rows(
            "setting",
            lambda row: (row["what"], Span(float(row["low_c"]), float(row["high_c"]))),
            ("what",),
        )
    )


@cache
def _brought() -> dict[str, str]:
    return dict(load_rows("carrier_foods", lambda row: (row["food"], row["brings"]), ("food",)))
