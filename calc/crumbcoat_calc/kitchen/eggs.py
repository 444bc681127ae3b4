"""Whole eggs for a mass of egg, white or yolk: how many of a size to break, and how much of it to weigh out."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food, grams_of
from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.values.display import mass_text
from crumbcoat_calc.values.fields import nearest_of

EGG_KINDS = {"whole": "egg_whole_raw", "white": "egg_white_raw", "yolk": "egg_yolk_raw"}
"""The parts of an egg and their kinds in the ingredient table."""

EGG_GROUP = "egg"
"""The group of eggs in the ingredient table."""

USUAL_SIZE = "large"
"""The size that recipes mean, unless the reader chooses another."""

LEAST_SPARE_G = 0.5
"""Less than this, half a step of a 1 g scale, is not worth weighing out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EggSize:
    """A size of egg: its name, the market it is sold in, and what an egg weighs in its shell, in words."""

    size: str
    name: str
    market: str
    in_shell: str


@cache
def egg_sizes() -> Mapping[str, EggSize]:
    """The sizes by market, the lightest first. Weights without the shell are measures of the foods.

    Source:
        usda-ams-56; eu-2023-2465.

    >>> list(egg_sizes())
    ['size_s', 'size_m', 'size_l', 'size_xl', 'small', 'medium', 'large', 'extra_large', 'jumbo']
    >>> egg_sizes()["size_m"].in_shell
    '53 to 63 g'
    """
    whole = food(EGG_KINDS["whole"])
    rows = load_rows("egg_sizes", _size_row, ("size",))
    return {row.size: row for row in sorted(rows, key=lambda row: (row.market, grams_of(whole, 1, row.size)))}


@dataclass(frozen=True, slots=True, kw_only=True)
class Eggs:
    """A number of eggs of one size: what they yield, and what is left over from the wanted mass."""

    part: str
    size: str
    count: int
    each_g: float
    wanted_g: float

    @property
    def total_g(self) -> float:
        """The mass of all the eggs, in g."""
        return self.count * self.each_g

    @property
    def spare_g(self) -> float:
        """What is left over, in g; zero or more."""
        return max(0.0, self.total_g - self.wanted_g)

    @property
    def measured(self) -> bool:
        """Whether the wanted mass must be weighed out, because whole eggs yield more."""
        return self.spare_g >= LEAST_SPARE_G

    @property
    def eggs_text(self) -> str:
        """The eggs to break, such as `3 large egg whites`."""
        noun = {"whole": "egg", "white": "egg white", "yolk": "egg yolk"}[self.part]
        return f"{self.count} {egg_sizes()[self.size].name} {noun}{'s' if self.count != 1 else ''}"

    @property
    def measure_text(self) -> str | None:
        """How to get the wanted mass: `beat, then measure 120 g; about 12 g is left`; None if whole eggs are right."""
        if not self.measured:
            return None
        return f"beat, then measure {mass_text(self.wanted_g)}; about {mass_text(self.spare_g)} is left"


@cache
def egg_mass_g(part: str, size: str = USUAL_SIZE) -> float:
    """The mass of one egg, white or yolk without its shell, in g.

    Raises:
        InputError: at `part` or `size`, if it is unknown.

    Source:
        usda-sr28 (household weights: whole eggs, white and yolk of a large one); derivation (the others).

    >>> egg_mass_g("white"), egg_mass_g("yolk"), egg_mass_g("whole"), egg_mass_g("whole", "size_m")
    (33.0, 17.0, 50.0, 51.0)
    """
    if size not in egg_sizes():
        raise InputError(f"unknown egg size {size!r}", nearest_of(size, egg_sizes()), ("size",))
    return grams_of(food(_kind(part)), 1, size)


def eggs_for(mass_g: float, part: str = "whole", size: str = USUAL_SIZE) -> Eggs:
    """The fewest eggs that yield a mass, to within half a gram.

        count = ceil(mass / each)

    Args:
        mass_g: zero or more.
        part: one of EGG_KINDS.
        size: one of `sizes()`.

    Raises:
        InputError: at `part` or `size` if it is unknown, at `mass` if it is negative.

    Source:
        as `egg_mass_g`; derivation.

    >>> three = eggs_for(120)
    >>> three.eggs_text, three.measure_text
    ('3 large eggs', 'beat, then measure 120 g; about 30 g is left')
    """
    if mass_g < 0:
        raise InputError(f"{mass_g:g} g is negative", "use zero or more", ("mass",))
    each = egg_mass_g(part, size)
    count = -int(-(mass_g - LEAST_SPARE_G) // each) if mass_g > LEAST_SPARE_G else int(mass_g > 0)
    return Eggs(part=part, size=size, count=count, each_g=each, wanted_g=mass_g)


def factors_for_whole_eggs(mass_g: float, part: str = "whole", size: str = USUAL_SIZE) -> tuple[float, ...]:
    """The factors closest to 1 that scale a batch with this mass of egg to whole eggs: one down, one up.

        factor = count * each / mass

    Returns:
        one factor if the batch already needs whole eggs or needs less than one egg, else two.

    Raises:
        InputError: as `eggs_for`; at `mass` if it is zero.

    Source:
        derivation.

    >>> factors_for_whole_eggs(120)
    (0.8333333333333334, 1.25)
    """
    if mass_g <= 0:
        raise InputError("this batch contains no egg", "scale it by another ingredient", ("mass",))
    eggs = eggs_for(mass_g, part, size)
    counts = (eggs.count,) if not eggs.measured or eggs.count == 1 else (eggs.count - 1, eggs.count)
    return tuple([count * eggs.each_g / mass_g for count in counts])


def _kind(part: str) -> str:
    if part not in EGG_KINDS:
        raise InputError(
            f"unknown part of an egg {part!r}",
            nearest_of(part, EGG_KINDS),
            ("part",),
        )
    return EGG_KINDS[part]


def _size_row(cells: dict[str, str]) -> EggSize:
    return EggSize(size=cells["size"], name=cells["name"], market=cells["market"], in_shell=cells["in_shell"])
