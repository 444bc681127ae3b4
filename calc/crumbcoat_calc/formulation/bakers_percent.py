"""Baker's percentages: every ingredient in parts by weight per 100 of a base."""

from collections.abc import Sequence


def base_of(published_g: Sequence[float], masses_g: Sequence[float]) -> int:
    """The position of the ingredient that counts as 100.

    It is the one that the recipe as published has most of, among equals the first: so the base stays the same while
    amounts are changed. Where a batch goes without it, the next one takes its place.

    Args:
        published_g: the recipe's amounts, above zero.
        masses_g: what is weighed in for each, in the same order; zero or more, not all zero.

    Source:
        common-practice (bakers take the flour; elsewhere a formula names its main ingredient as 100).

    >>> base_of([227, 340, 30], [227, 200, 30]), base_of([227, 340, 30], [227, 0, 30])
    (1, 0)
    """
    there = [position for position, mass_g in enumerate(masses_g) if mass_g > 0]
    return max(there, key=lambda position: published_g[position])


def bakers_percents(masses_g: Sequence[float], base: int) -> tuple[float, ...]:
    """Baker's percentages of weighed ingredients.

        percent = 100 mass / mass of the base

    Args:
        masses_g: zero or more each.
        base: the position of the base, of which there is more than zero.

    Source:
        common-practice (bakers' percentages).

    >>> bakers_percents([40, 23], base=0)
    (100.0, 57.5)
    """
    return tuple([100 * mass_g / masses_g[base] for mass_g in masses_g])
