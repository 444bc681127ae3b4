"""What a batch costs: prices from one file, decimals throughout, what has no price named."""

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
from crumbcoat_calc.recipe.batch import Batch
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
    """What a pack of something cost on a day; `item` is a kind of the ingredient table or an ingredient's name."""

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
        """The price of an ingredient: by its name if the file has it, else by its kind."""
        return self.by_item.get(name.casefold()) or (self.by_item.get(key) if key else None)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """What an ingredient costs, unrounded; None where it has no price."""

    name: str
    mass_g: float
    cost: Decimal | None
    price: Price | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What a batch costs, unrounded. Where `missing` names ingredients without a price, it costs at least so much."""

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
    """The decimals of each currency's minor unit.

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
    """The prices of a file: CSV with the columns item, pack, price, currency, date, note; `#` begins a comment line.

    `item` is a kind of the ingredient table or an ingredient's name, `pack` a mass (`1 kg`) or, for a kind, a measure
    that it has a weight for (`1 L`), `price` a decimal of at most four digits behind the point, `date` a day of
    ISO 8601. Only `note` may be empty.

    Raises:
        InputError: at (`line`, number) and the column, for the first value that cannot be.

    >>> prices = prices_from("item,pack,price,currency,date,note\\nsugar_granulated,1 kg,1.35,EUR,2026-01-31,\\n")
    >>> prices.by_item["sugar_granulated"].price
    Decimal('1.35')
    """
    lines = [(number, line) for number, line in enumerate(content.lstrip("\ufeff").splitlines(), 1) if _is_row(line)]
    if not lines:
        raise InputError("there are no prices in it", f"begin with the line `{','.join(COLUMNS)}`", ("line", 1))
    first, header = lines[0]
    if _cells(header, first) != list(COLUMNS):
        raise InputError(f"{header[:60]!r} is not the header", f"write `{','.join(COLUMNS)}`", ("line", first))
    by_item: dict[str, Price] = {}
    currency = None
    for number, line in lines[1:]:
        price = _price_from(line, number)
        if price.item in by_item:
            raise InputError(f"{price.item!r} has a price already", "keep one of the two", ("line", number, "item"))
        if currency is not None and price.currency != currency:
            raise InputError(
                f"{price.currency!r} stands among prices in {currency}",
                "give every price in one currency; rates are not ours to choose",
                ("line", number, "currency"),
            )
        currency = price.currency
        by_item[price.item] = price
    if currency is None:
        raise InputError("there are no prices in it", "add a line below the header", ("line", first))
    return Prices(currency, by_item)


def cost_of(batch: Batch, prices: Prices, cake_g: float | None = None) -> Cost:
    """What a batch costs by what goes into it, without work, energy and what is left in the packs.

        cost = sum of price * mass / pack

    Args:
        cake_g: what goes onto one cake, in g, above zero; None if there is no cake.

    Raises:
        InputError: at `cake`, if it is not above zero.

    Source:
        definition.
    """
    if cake_g is not None and not cake_g > 0:
        raise InputError(f"a cake of {cake_g:g} g has no cost", "give more than 0 g", ("cake",))
    lines = tuple(
        _line(one.name, one.mass_g, prices.of(None if one.food.source == STATED else one.food.key, one.name))
        for one in batch.weighed
        if one.mass_g > 0 and one.food.key not in FREE
    )
    total = sum((line.cost for line in lines if line.cost is not None), Decimal(0))
    per_g = total / exact_decimal(batch.total.mass_g)
    dates = sorted(line.price.date for line in lines if line.price is not None)
    return Cost(
        currency=prices.currency,
        lines=lines,
        batch=total,
        per_kg=1000 * per_g,
        per_portion=total / (batch.recipe.yields.portions * exact_decimal(batch.factor)),
        per_cake=None if cake_g is None else per_g * exact_decimal(cake_g),
        missing=tuple(line.name for line in lines if line.cost is None),
        oldest=dates[0] if dates else None,
        newest=dates[-1] if dates else None,
    )


FREE = frozenset({"water_tap"})
"""Kinds that come at no price worth naming."""


def money_text(amount: Decimal, currency: str) -> str:
    """An amount of money in the currency's minor unit, halves up.

    Source:
        iso-4217, from memory.

    >>> money_text(Decimal("2.345"), "EUR"), money_text(Decimal("1234.5"), "JPY")
    ('2.35 EUR', '1235 JPY')
    """
    smallest = Decimal(1).scaleb(-currencies()[currency])
    return f"{amount.quantize(smallest, rounding=ROUND_HALF_UP):f} {currency}"


def _line(name: str, mass_g: float, price: Price | None) -> CostLine:
    cost = None if price is None else price.price * exact_decimal(mass_g) / exact_decimal(price.pack_g)
    return CostLine(name=name, mass_g=mass_g, cost=cost, price=price)


def _is_row(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _cells(line: str, number: int) -> list[str]:
    try:
        cells = next(csv.reader(io.StringIO(line), strict=True), [])
    except csv.Error:
        raise InputError(f"{line[:60]!r} has a quote that does not close", "close it", ("line", number)) from None
    return [cell.strip() for cell in cells]


def _price_from(line: str, number: int) -> Price:
    cells = _cells(line, number)
    if len(cells) != len(COLUMNS):
        remedy = "write a decimal with a point, and put a text with a comma into quotes"
        raise InputError(f"the line has {len(cells)} cells, not {len(COLUMNS)}", remedy, ("line", number))
    row = dict(zip(COLUMNS, cells, strict=True))
    column = ""
    try:
        column = "item"
        item = text(row["item"])
        known = item in foods()
        column = "pack"
        pack_g = amount_of(food(item), row["pack"]).mass_g if known else grams(row["pack"])
        if pack_g <= 0:
            raise InputError(f"a pack of {row['pack']!r} holds nothing", "give what is in it, such as `1 kg`")
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
        raise InputError(f"{written!r} is not a price", "write digits with a point, such as `2.35`")
    return Decimal(written)


def _currency(written: str) -> str:
    if written not in currencies():
        remedy = did_you_mean(written.upper(), currencies(), "write a code of ISO 4217, such as `EUR`")
        raise InputError(f"{written!r} is no currency known here", remedy)
    return written


def _day(written: str) -> str:
    try:
        if _DATE.fullmatch(written):
            return datetime.date.fromisoformat(written).isoformat()
    except ValueError:
        pass
    raise InputError(f"{written!r} is not a date", "write it like `2026-03-31` (ISO 8601)")
