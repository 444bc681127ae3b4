"""What a batch costs, in decimals; ingredients without a price are listed."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import STATED
from crumbcoat_calc.purchasing.prices import Price, Prices, currencies
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.values.exact import exact_decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """The cost of an ingredient, not rounded; None if it has no price."""

    name: str
    mass_g: float
    cost: Decimal | None
    price: Price | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """The cost of a batch, not rounded. If `missing` lists ingredients without a price, it is a lower bound."""

    currency: str
    lines: tuple[CostLine, ...]
    batch: Decimal
    per_kg: Decimal
    per_portion: Decimal
    per_cake: Decimal | None
    missing: tuple[str, ...]
    oldest: str | None
    newest: str | None


def cost_of(batch: Batch, prices: Prices, cake_g: float | None = None) -> Cost:
    """The cost of the ingredients of a batch, without labour, energy and leftovers in the packs.

        cost = sum of price * mass / pack

    Args:
        cake_g: the frosting on one cake, in g, above zero; None if there is no cake.

    Raises:
        InputError: at `cake`, if it is not above zero.

    Source:
        definition.
    """
    if cake_g is not None and not cake_g > 0:
        raise InputError(f"{cake_g:g} g of frosting has no cost", "use more than 0 g", ("cake",))
    lines = tuple(
        _line(ingredient, prices)
        for ingredient in batch.weighed
        if ingredient.inside_g > 0 and ingredient.food.key not in FREE
    )
    total = sum((line.cost for line in lines if line.cost is not None), Decimal(0))
    per_g = total / exact_decimal(batch.total.mass_g)
    dates = sorted(line.price.date for line in lines if line.price is not None)
    return Cost(
        currency=prices.currency,
        lines=lines,
        batch=total,
        per_kg=1000 * per_g,
        per_portion=per_g * exact_decimal(batch.recipe.portion_g),
        per_cake=None if cake_g is None else per_g * exact_decimal(cake_g),
        missing=tuple(line.name for line in lines if line.cost is None),
        oldest=dates[0] if dates else None,
        newest=dates[-1] if dates else None,
    )


FREE = frozenset({"water_tap"})
"""Kinds that cost nothing worth counting."""


def money_text(amount: Decimal, currency: str) -> str:
    """An amount of money, rounded to the currency's decimals, halves up.

    Source:
        iso-4217, from memory.

    >>> money_text(Decimal("2.345"), "EUR"), money_text(Decimal("1234.5"), "JPY")
    ('2.35 EUR', '1235 JPY')
    """
    smallest = Decimal(1).scaleb(-currencies()[currency])
    return f"{amount.quantize(smallest, rounding=ROUND_HALF_UP):f} {currency}"


def _line(ingredient: WeighedIngredient, prices: Prices) -> CostLine:
    key = None if ingredient.food.source == STATED else ingredient.food.key
    price = prices.of(key, ingredient.name)
    cost = None if price is None else price.price * exact_decimal(ingredient.inside_g) / exact_decimal(price.pack_g)
    return CostLine(name=ingredient.name, mass_g=ingredient.inside_g, cost=cost, price=price)
