"""Whole eggs for a mass of egg, white or yolk: how many to break, and what to weigh off."""

from dataclasses import dataclass
from functools import cache

from calc.display import mass_text
from calc.errors import InputError
from calc.fields import did_you_mean
from calc.foods import AS_IT_COMES, food, grams_of

KINDS = {"whole": "egg_whole_raw", "white": "egg_white_raw", "yolk": "egg_yolk_raw"}
"""The parts of an egg, each with its kind in the ingredient table."""

LEAST_SPARE_G = 0.5
"""What no kitchen scale of 1 g shows is not worth measuring off: half of its step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eggs:
    """So many eggs of one size: what they give, and what is left when the wanted mass is weighed off."""

    part: str
    size: str
    count: int
    each_g: float
    wanted_g: float

    @property
    def given_g(self) -> float:
        """What the eggs give, in g."""
        return self.count * self.each_g

    @property
    def spare_g(self) -> float:
        """What is left over, in g; zero or more."""
        return max(0.0, self.given_g - self.wanted_g)

    @property
    def measured(self) -> bool:
        """Whether the wanted mass has to be weighed off, since whole eggs give more."""
        return self.spare_g >= LEAST_SPARE_G

    @property
    def eggs_text(self) -> str:
        """What to break: `3 large egg whites`."""
        noun = {"whole": "egg", "white": "egg white", "yolk": "egg yolk"}[self.part]
        return f"{self.count} {self.size.replace('_', ' ')} {noun}{'s' if self.count != 1 else ''}"

    @property
    def measure_text(self) -> str | None:
        """How to come to the wanted mass: `beat, then measure 120 g; 12 g are left`; None if whole eggs are right."""
        if not self.measured:
            return None
        return f"beat, then measure {mass_text(self.wanted_g)}; about {mass_text(self.spare_g)} are left"


def sizes(part: str) -> tuple[str, ...]:
    """The sizes of egg whose weight is known for a part, the lightest first.

    >>> sizes("whole"), sizes("yolk")
    (('small', 'medium', 'large', 'extra_large', 'jumbo'), ('large',))
    """
    weighed = [measure for measure in food(_kind(part)).measures if measure.how == AS_IT_COMES]
    known = [measure for measure in weighed if measure.unit in _SIZES]
    return tuple([measure.unit for measure in sorted(known, key=lambda measure: measure.grams)])


_SIZES = frozenset({"small", "medium", "large", "extra_large", "jumbo"})


@cache
def each_g(part: str, size: str = "large") -> float:
    """What one egg, white or yolk weighs without its shell, in g.

    Raises:
        InputError: at `part` or `size`, if it is not known.

    Source:
        usda-sr28 (household weights).

    >>> each_g("white"), each_g("yolk"), each_g("whole")
    (33.0, 17.0, 50.0)
    """
    known = sizes(part)
    if size not in known:
        remedy = did_you_mean(size, known, f"the sizes with a known weight are {', '.join(known)}")
        raise InputError(f"there is no weight for a {size.replace('_', ' ')} egg ({part})", remedy, ("size",))
    return grams_of(food(_kind(part)), 1, size)


def eggs_for(mass_g: float, part: str = "whole", size: str = "large") -> Eggs:
    """The fewest eggs that give a mass, to within half a gram.

        count = ceil(mass / each)

    Args:
        mass_g: zero or more.
        part: one of KINDS.
        size: one of `sizes(part)`.

    Raises:
        InputError: at `part`, `size` or `mass`, if it cannot be.

    Source:
        usda-sr28 (household weights); derivation.

    >>> three = eggs_for(120)
    >>> three.eggs_text, three.measure_text
    ('3 large eggs', 'beat, then measure 120 g; about 30 g are left')
    """
    if mass_g < 0:
        raise InputError(f"{mass_g:g} g is negative", "give zero or more", ("mass",))
    each = each_g(part, size)
    count = -int(-(mass_g - LEAST_SPARE_G) // each) if mass_g > LEAST_SPARE_G else int(mass_g > 0)
    return Eggs(part=part, size=size, count=count, each_g=each, wanted_g=mass_g)


def factors_for_whole_eggs(mass_g: float, part: str = "whole", size: str = "large") -> tuple[float, ...]:
    """The factors next to 1 by which a batch with this much egg must be scaled to need whole eggs: one down, one up.

        factor = count * each / mass

    Returns:
        one factor if whole eggs are right already or if less than one egg is needed, else two.

    Raises:
        InputError: as `eggs_for`; at `mass` if it is zero.

    Source:
        derivation.

    >>> factors_for_whole_eggs(120)
    (0.8333333333333334, 1.25)
    """
    if mass_g <= 0:
        raise InputError("there is no egg in this batch", "scale it by something else", ("mass",))
    eggs = eggs_for(mass_g, part, size)
    counts = (eggs.count,) if not eggs.measured or eggs.count == 1 else (eggs.count - 1, eggs.count)
    return tuple([count * eggs.each_g / mass_g for count in counts])


def _kind(part: str) -> str:
    if part not in KINDS:
        raise InputError(
            f"there is no part {part!r} of an egg", did_you_mean(part, KINDS, f"use {', '.join(KINDS)}"), ("part",)
        )
    return KINDS[part]
