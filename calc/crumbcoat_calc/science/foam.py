"""Air in a batch: overrun, from the density without air and the measured one."""

from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld

OVERRUN = Model(
    "overrun by definition: volume of air per volume of mix without air",
    "any foam that is not denser than its mix",
    "guelph-dairy",
)


def overrun_percent(mix_density_g_per_ml: Estimated, finished_density_g_per_ml: float) -> Estimated:
    """Overrun in %: the volume of air beaten into 100 volumes of mix.

        overrun = 100 (volume finished - volume of mix) / volume of mix = 100 (density of mix / density finished - 1)

    The band is that of the predicted density of the mix. Withheld if the finished batch is denser than the mix can be.

    Args:
        mix_density_g_per_ml: of the batch without air, as predicted.
        finished_density_g_per_ml: measured, above zero.

    Source:
        guelph-dairy.

    >>> from crumbcoat_calc.science.estimate import Estimate
    >>> mix = Estimate(1.1, 1.1, 1.1, OVERRUN)
    >>> round(overrun_percent(mix, 0.8).value, 1)
    37.5
    """
    if isinstance(mix_density_g_per_ml, Withheld):
        return mix_density_g_per_ml
    finished, mix = finished_density_g_per_ml, mix_density_g_per_ml
    if finished > mix.high:
        return Withheld(
            f"the finished batch has {finished:.3f} g/mL, more than the mix without air ({mix.value:.3f}): "
            "check the tare and the volume of the cup"
        )
    value, low, high = [max(0.0, 100 * (density / finished - 1)) for density in (mix.value, mix.low, mix.high)]
    return Estimate(value, low, high, OVERRUN)


def air_percent(overrun: float) -> float:
    """Air in mL per 100 mL of the finished batch, from an overrun in %.

    >>> air_percent(100)
    50.0
    """
    return 100 * overrun / (100 + overrun)
