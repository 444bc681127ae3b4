"""The Pearson square: how much of two ingredients gives a content between theirs."""

from crumbcoat_calc.errors import InputError


def pearson_square(high: float, low: float, target: float) -> tuple[float, float]:
    """The shares of a richer and a leaner ingredient that together have the wanted content.

        parts of high = target - low;  parts of low = high - target

    Args:
        high, low, target: contents in the same unit, such as g of fat per 100 g.

    Returns:
        Shares of the mixture, richer first; they add up to 1.

    Raises:
        InputError: at `target`, if it is not between low and high.

    Source:
        guelph-dairy.

    >>> pearson_square(40, 0, 32)
    (0.8, 0.2)
    """
    if low > high:
        raise InputError(f"the higher content, {high:g}, is less than the lower, {low:g}", "swap them", ("high",))
    if not low <= target <= high:
        raise InputError(
            f"no mixture of {low:g} and {high:g} has {target:g}", f"ask for {low:g} to {high:g}", ("target",)
        )
    if high == low:
        return 1.0, 0.0
    return (target - low) / (high - low), (high - target) / (high - low)


def pearson_masses_g(high: float, low: float, target: float, total_g: float) -> tuple[float, float]:
    """Masses of the richer and the leaner ingredient for a total mass, in g.

    Raises:
        InputError: at `target`, if it is not between low and high.

    Source:
        guelph-dairy.

    >>> [round(mass, 2) for mass in pearson_masses_g(39, 6, 30, 170)]
    [123.64, 46.36]
    """
    rich, lean = pearson_square(high, low, target)
    return rich * total_g, lean * total_g


def leaner_to_add_g(high: float, low: float, target: float, high_g: float) -> float:
    """Mass of the leaner ingredient that brings `high_g` of the richer one to the wanted content.

    Raises:
        InputError: at `target`, if it is not between the two contents, or equals the lower one.

    Source:
        guelph-dairy.

    >>> leaner_to_add_g(40, 0, 32, 160)
    40.0
    """
    rich, lean = pearson_square(high, low, target)
    if rich == 0:
        raise InputError(
            f"no amount of {low:g} brings {high:g} down to {target:g}", f"ask for more than {low:g}", ("target",)
        )
    return high_g * lean / rich
