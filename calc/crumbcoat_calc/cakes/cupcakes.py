"""The frosting that cupcakes need, by use."""

import math
from dataclasses import dataclass

from crumbcoat_calc.cakes.frosting_volumes import FrostingVolumes, with_loss
from crumbcoat_calc.cakes.solids import MM3_PER_ML, cap_ml, cone_ml
from crumbcoat_calc.errors import InputError

TOPS = ("flat", "domed", "swirl")
"""How a cupcake is topped: spread level, spread to a dome, or piped to a cone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cupcakes:
    """A number of cupcakes of one kind.

    Args:
        top_mm: diameter covered by the frosting.
        topping: one of TOPS.
        height_mm: of the frosting, at its highest point.
        core_mm, core_depth_mm: diameter and depth of a hole that is filled; zero for none.
        loss_share: the share of the total that stays in bowl and bag.
    """

    count: int
    top_mm: float
    topping: str
    height_mm: float
    core_mm: float = 0.0
    core_depth_mm: float = 0.0
    loss_share: float = 0.0


def cupcake_volumes(cupcakes: Cupcakes) -> FrostingVolumes:
    """The frosting for all the cupcakes, by use, in mL.

        flat: pi r^2 h; domed: pi h (3 r^2 + h^2) / 6; swirl: pi r^2 h / 3, as piping; core: pi (d / 2)^2 * depth

    Raises:
        InputError: at the field that is out of range.

    Source:
        derivation.

    >>> round(cupcake_volumes(Cupcakes(count=12, top_mm=64, topping="swirl", height_mm=50)).piping_ml, 1)
    643.4
    """
    _check(cupcakes)
    each = {
        "flat": math.pi * cupcakes.top_mm**2 / 4 * cupcakes.height_mm / MM3_PER_ML,
        "domed": cap_ml(cupcakes.top_mm, cupcakes.height_mm),
        "swirl": cone_ml(cupcakes.top_mm, cupcakes.height_mm),
    }[cupcakes.topping]
    core = math.pi * cupcakes.core_mm**2 / 4 * cupcakes.core_depth_mm / MM3_PER_ML
    piped = cupcakes.topping == "swirl"
    used = FrostingVolumes(
        filling_ml=cupcakes.count * core,
        final_coat_ml=0.0 if piped else cupcakes.count * each,
        piping_ml=cupcakes.count * each if piped else 0.0,
    )
    return with_loss(used, cupcakes.loss_share)


def _check(cupcakes: Cupcakes) -> None:
    if cupcakes.topping not in TOPS:
        raise InputError(f"unknown topping {cupcakes.topping!r}", f"use one of: {', '.join(TOPS)}", ("topping",))
    if not 1 <= cupcakes.count <= 10_000:
        raise InputError(f"{cupcakes.count} is not a possible number of cupcakes", "use 1 to 10000", ("count",))
    ranges = {
        "top": (cupcakes.top_mm, 10, 200),
        "height": (cupcakes.height_mm, 0, 150),
        "core": (cupcakes.core_mm, 0, cupcakes.top_mm),
        "core_depth": (cupcakes.core_depth_mm, 0, 100),
    }
    for name, (length, lowest, highest) in ranges.items():
        if not lowest <= length <= highest:
            raise InputError(
                f"{length:g} mm is outside {lowest:g} to {highest:g} mm", "check the length and its unit", (name,)
            )
