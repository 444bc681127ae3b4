"""Air in a batch: overrun and finished density, from a weighed cup or from densities."""

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld

OVERRUN = Model(
    "overrun by definition: volume of air per volume of unaerated mix",
    "any foam that is not denser than its mix",
    "guelph-dairy",
)


def overrun_percent(mix_g: float, finished_g: float) -> Answer:
    """Overrun in % from the same cup weighed full of mix and full of finished product, both net.

        overrun = 100 (mix - finished) / finished

    The two may be densities as well. Withheld if the finished product weighs more than the mix.

    Args:
        mix_g: net mass of a cup of mix without air, above zero.
        finished_g: net mass of the same cup of finished product, above zero.

    Source:
        guelph-dairy.

    >>> round(overrun_percent(110, 80).value, 1)
    37.5
    """
    if mix_g <= 0 or finished_g <= 0:
        return Withheld("a cup that holds nothing says nothing of the air")
    if finished_g > mix_g * (1 + constants("foam")["weighing"]):
        return Withheld(
            f"the finished cup, {finished_g:.4g}, is heavier than the mix without air, {mix_g:.4g}: check the tare"
        )
    percent = max(0.0, 100 * (mix_g - finished_g) / finished_g)
    return Estimate(percent, percent, percent, OVERRUN)


def overrun_from_volumes_percent(mix_ml: float, finished_ml: float) -> Answer:
    """Overrun in % from the volume before and after whipping; both above zero.

        overrun = 100 (finished - mix) / mix

    Source:
        guelph-dairy.

    >>> overrun_from_volumes_percent(1000, 1500).value
    50.0
    """
    return overrun_percent(finished_ml, mix_ml)


def overrun_from_density_percent(mix: Answer, cup_g: float, cup_ml: float) -> Answer:
    """Overrun in % from the predicted density of the mix in g/mL and one weighed cup of the finished product, net.

    The band is that of the predicted density. Withheld if the cup is denser than the mix can be.

    Source:
        guelph-dairy.
    """
    if isinstance(mix, Withheld):
        return mix
    if cup_g <= 0 or cup_ml <= 0:
        return Withheld("a cup that holds nothing says nothing of the air")
    finished = cup_g / cup_ml
    if finished > mix.high:
        return Withheld(
            f"the cup holds {finished:.3f} g/mL, more than mix without air, {mix.value:.3f}: check tare and volume"
        )
    value, low, high = [max(0.0, 100 * (density / finished - 1)) for density in (mix.value, mix.low, mix.high)]
    return Estimate(value, low, high, OVERRUN)


def finished_density_g_per_ml(mix_density_g_per_ml: float, overrun: float) -> float:
    """Density of the finished product in g/mL, from the mix's density and an overrun in %, zero or more.

        rho = rho_mix / (1 + overrun / 100)

    Source:
        guelph-dairy.

    >>> round(finished_density_g_per_ml(1.05, 40), 3)
    0.75
    """
    return mix_density_g_per_ml / (1 + overrun / 100)


def air_percent(overrun: float) -> float:
    """Air in mL per 100 mL of finished product, from an overrun in %.

    >>> air_percent(100)
    50.0
    """
    return 100 * overrun / (100 + overrun)


def cup_of_foam_g(mix_g: float, tare_g: float, overrun: float) -> float:
    """What a cup should weigh with its tare at an overrun in %, when it holds `mix_g` of mix without air.

    >>> cup_of_foam_g(110, 30, 10)
    130.0
    """
    return tare_g + mix_g / (1 + overrun / 100)
