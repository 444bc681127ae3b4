"""Floats as decimals, for what must be rounded exactly by a rule: money and labels."""

from decimal import ROUND_HALF_EVEN, Decimal

_NOISE = Decimal("1e-9")


def exact_decimal(value: float) -> Decimal:
    """A float as a decimal with nine decimal places, which removes the noise of float arithmetic.

    >>> exact_decimal(0.1 + 0.2), exact_decimal(47.49999999999999)
    (Decimal('0.300000000'), Decimal('47.500000000'))
    """
    return Decimal(repr(float(value))).quantize(_NOISE, rounding=ROUND_HALF_EVEN)
