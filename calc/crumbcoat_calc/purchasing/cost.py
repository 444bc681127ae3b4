"""What a batch costs: prices from one file, in decimals; ingredients without a price are listed."""

import csv
import datetime
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import cache, lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import STATED, food, foods
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.exact import exact_decimal
from crumbcoat_calc.values.fields import did_you_mean, text
from crumbcoat_calc.values.units import grams

COLUMNS = ("item", "pack", "price", "currency", "date", "note")
_PRICE = re.compile(r"\d{1,9}(\.\d{1,4})?")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The price of a pack on a date; `item` is a kind of the ingredient table or an ingredient's name."""

    item: str
    pack: str
    pack_g: float
    price: Decimal
    currency: str
    date: str


@dataclass(frozen=True, slots=True)
class Prices:
    """The prices of one file, all in one currency."""

    currency: str
    by_item: Mapping[str, Price]

    def of(self, key: str | None, name: str) -> Price | None:
        """The price of an ingredient: by its name if the file lists it, else by its kind."""
        return self.by_item.get(name.casefold()) or (self.by_item.get(key) if key else None)


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


@cache
def currencies() -> Mapping[str, int]:
    """The number of decimals of each currency.

    >>> currencies()["USD"], currencies()["JPY"]
    (2, 0)
    """
    return dict(
        load_rows(
            "currencies", lambda cells: (cells["currency"], int(number_in(cells, "decimals", 0, 3))), ("currency",)
        )
    )


@lru_cache(maxsize=4)
def prices_from(content: str) -> Prices:
    """Read a file of prices: CSV with the columns item, pack, price, currency, date, note; `#` starts a comment line.

    `item` is a kind of the ingredient table or an ingredient's name. `pack` is a mass (`1 kg`) or, for a kind, a
    measure with a known weight (`1 L`). `price` is a decimal with up to four decimals, `date` a date in ISO 8601. Only
    `note` may be empty.

    Raises:
        InputError: at (`line`, number) and the column, for the first value that cannot be used.

    >>> prices = prices_from("item,pack,price,currency,date,note\\nsugar_granulated,1 kg,1.35,EUR,2026-01-31,\\n")
    >>> prices.by_item["sugar_granulated"].price
    Decimal('1.35')
    """
    lines = [(number, line) for number, line in enumerate(content.lstrip("\ufeff").splitlines(), 1) if _is_row(line)]
    if not lines:
        raise InputError("the file has no prices", f"start it with the line `{','.join(COLUMNS)}`", ("line", 1))
    first, header = lines[0]
    if _cells(header, first) != list(COLUMNS):
        raise InputError(f"{header[:60]!r} is not the header", f"write `{','.join(COLUMNS)}`", ("line", first))
    by_item: dict[str, Price] = {}
    currency = None
    for number, line in lines[1:]:
        price = _price_from(line, number)
        if price.item in by_item:
            raise InputError(f"{price.item!r} already has a price", "keep one of the two", ("line", number, "item"))
        if currency is not None and price.currency != currency:
            raise InputError(
                f"{price.currency!r} is mixed with prices in {currency}",
                f"convert every price to one currency, such as `{currency}`",
                ("line", number, "currency"),
            )
        currency = price.currency
        by_item[price.item] = price
    if currency is None:
        raise InputError("the file has no prices", "add a line below the header", ("line", first))
    return Prices(currency, by_item)


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


def _is_row(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _cells(line: str, number: int) -> list[str]:
    try:
        cells = next(csv.reader(io.StringIO(line), strict=True), [])
    except csv.Error:
        problem = f"{line[:60]!r} has an unclosed quote"
        raise InputError(problem, "add the closing quote", ("line", number)) from None
    return [cell.strip() for cell in cells]


def _price_from(line: str, number: int) -> Price:
    cells = _cells(line, number)
    if len(cells) != len(COLUMNS):
        remedy = "use a decimal point in numbers, and put text with a comma in quotes"
        raise InputError(f"the line has {len(cells)} cells instead of {len(COLUMNS)}", remedy, ("line", number))
    row = dict(zip(COLUMNS, cells, strict=True))
    column = ""
    try:
        column = "item"
        item = text(row["item"])
        known = item in foods()
        column = "pack"
        pack_g = amount_of(food(item), row["pack"]).mass_g if known else grams(row["pack"])
        if pack_g <= 0:
            raise InputError(f"a pack of {row['pack']!r} is empty", "write its contents, such as `1 kg`")
        column = "price"
        price = _money(row["price"])
        column = "currency"
        currency = _currency(row["currency"])
        column = "date"
        date = _day(row["date"])
    except InputError as error:
        raise error.within("line", number, column) from None
    return Price(
        item=item if known else item.casefold(),
        pack=row["pack"],
        pack_g=pack_g,
        price=price,
        currency=currency,
        date=date,
    )


def _money(written: str) -> Decimal:
    if not _PRICE.fullmatch(written):
        raise InputError(f"{written!r} is not a price", "write a number with a decimal point, such as `2.35`")
    return Decimal(written)


def _currency(written: str) -> str:
    if written not in currencies():
        remedy = did_you_mean(written.upper(), currencies(), "write an ISO 4217 code, such as `EUR`")
        raise InputError(f"unknown currency {written!r}", remedy)
    return written


def _day(written: str) -> str:
    try:
        if _DATE.fullmatch(written):
            return datetime.date.fromisoformat(written).isoformat()
    except ValueError:
        pass
    raise InputError(f"{written!r} is not a date", "write it like `2026-03-31` (ISO 8601)")
