"""What fits a mixing bowl: the smallest batch that the tool reaches, the largest that stays in, and equal batches."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows, number_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A mixing tool: how full the bowl must be before any air is in, for the tool to reach, and how full it may get."""

    key: str
    name: str
    lowest_share: float
    highest_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bowl:
    """A mixing bowl and its nominal volume to the rim."""

    key: str
    name: str
    volume_ml: float


@cache
def tools() -> Mapping[str, Tool]:
    """The mixing tools by key: common practice, no source.

    >>> tools()["whisk"].highest_share
    0.75
    """

    def row(cells: dict[str, str]) -> Tool:
        lowest = number_in(cells, "lowest_share", 0.001, 0.5)
        highest = number_in(cells, "highest_share", lowest, 1)
        return Tool(key=cells["tool"], name=cells["name"], lowest_share=lowest, highest_share=highest)

    return {tool.key: tool for tool in load_rows("bowl_fill", row, ("tool",))}


@cache
def bowls() -> Mapping[str, Bowl]:
    """Common bowls by key: nominal volumes, common practice.

    >>> bowls()["stand_4_8l"].volume_ml
    4800.0
    """

    def row(cells: dict[str, str]) -> Bowl:
        return Bowl(key=cells["key"], name=cells["name"], volume_ml=number_in(cells, "volume_ml", 100, 500_000))

    return {bowl.key: bowl for bowl in load_rows("bowls", row, ("key",))}


@dataclass(frozen=True, slots=True)
class BowlRange:
    """The range of batches that fit a bowl, in g."""

    smallest_g: float
    largest_g: float


def bowl_range(
    bowl_ml: float,
    lowest_share: float,
    highest_share: float,
    start_g_per_ml: float,
    lightest_g_per_ml: float,
) -> BowlRange:
    """The smallest batch that the tool reaches at the start, and the largest that stays in the bowl when most airy.

        smallest = bowl * lowest share * density at the start
        largest = bowl * highest share * lowest density

    Args:
        bowl_ml: volume to the rim, 100 mL to 500 L.
        lowest_share, highest_share: of the bowl's volume, 0 to 1.
        start_g_per_ml: density at the start of mixing, before any air is in, 0.1 to 2.
        lightest_g_per_ml: density with the most air, 0.1 to 2; capped at the density at the start.

    Raises:
        InputError: at the argument that is out of range.

    Source:
        definition (mass = volume times density).

    >>> bowl_range(4800, 0.05, 0.75, 1.0, 0.5)
    BowlRange(smallest_g=240.0, largest_g=1800.0)
    """
    if not 100 <= bowl_ml <= 500_000:
        raise InputError(
            f"a bowl of {bowl_ml:g} mL is outside 100 mL to 500 L", "check the volume and its unit", ("bowl",)
        )
    if not 0 <= lowest_share < highest_share <= 1:
        raise InputError(
            f"the bowl cannot be filled from {100 * lowest_share:g} to {100 * highest_share:g} %",
            "choose a lower share that is less than the upper one",
            ("lowest_share",),
        )
    for name, density in (("start", start_g_per_ml), ("lightest", lightest_g_per_ml)):
        if not 0.1 <= density <= 2:
            raise InputError(f"a density of {density:g} g/mL is outside 0.1 to 2", "weigh a level cup again", (name,))
    lightest = min(start_g_per_ml, lightest_g_per_ml)
    return BowlRange(bowl_ml * lowest_share * start_g_per_ml, bowl_ml * highest_share * lightest)


@dataclass(frozen=True, slots=True)
class EqualBatches:
    """Equal batches; `reached` if the tool reaches each. If not, `nearest_g` lists the closest totals that fit."""

    batches: int
    each_g: float
    reached: bool
    nearest_g: tuple[float, ...]


def split_equally(mass_g: float, fits: BowlRange) -> EqualBatches:
    """Split a mass into the fewest equal batches that each stay in the bowl.

        batches = ceil(mass / largest)

    If each would then be too small for the tool, no number of equal batches fits. The closest totals that do fit are
    one batch fewer, each at its largest (if any are left), and as many batches at their smallest.

    Args:
        mass_g: more than zero.

    Raises:
        InputError: at `mass` if it is zero or less; at `bowl` if no batch fits the bowl.

    Source:
        derivation.

    >>> split_equally(3000, BowlRange(240, 1800))
    EqualBatches(batches=2, each_g=1500.0, reached=True, nearest_g=())
    """
    if mass_g <= 0:
        raise InputError(f"a batch of {mass_g:g} g cannot be divided", "use more than 0 g", ("mass",))
    if fits.smallest_g > fits.largest_g:
        raise InputError(
            f"the smallest batch that the tool reaches, {fits.smallest_g:.0f} g, would overflow the bowl",
            "choose another bowl or tool",
            ("bowl",),
        )
    count = max(1, math.ceil(mass_g / fits.largest_g * (1 - 1e-12)))
    each = mass_g / count
    reached = each >= fits.smallest_g * (1 - 1e-12)
    less = (count - 1) * fits.largest_g
    nearest = () if reached else tuple([total for total in (less, count * fits.smallest_g) if total > 0])
    return EqualBatches(count, each, reached, nearest)
