"""The file of prices: CSV -> what a pack of each ingredient costs, and every wrong line."""

import csv
import datetime
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods, kind_names
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.fields import did_you_mean, text
from crumbcoat_calc.values.units import grams, is_volume, number_and_words, unit_name, units_called

COLUMNS = ("item", "pack", "price", "currency", "date", "note")
COLUMNS_WITH_KIND = (*COLUMNS, "kind")
"""With the key of the kind that an item names, or nothing: what a build writes, so that a browser needs no names."""

_PRICE = re.compile(r"\d{1,9}(\.\d{1,4})?")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The price of a pack on a date; `item` is an ingredient's name, or a kind's, and `kind` the key of that kind."""

    item: str
    kind: str | None
    pack: str
    pack_g: float
    price: Decimal
    currency: str
    date: str


@dataclass(frozen=True, slots=True)
class Prices:
    """The prices of one file, all in one currency: by what the file lists, and by the kinds that this names."""

    currency: str
    by_item: Mapping[str, Price]
    by_kind: Mapping[str, Price]

    def of(self, key: str | None, name: str) -> Price | None:
        """The price of an ingredient: by its name if the file lists it, else by its kind."""
        return self.by_item.get(name.casefold()) or (self.by_kind.get(key) if key else None)


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
    """Read a file of prices, see `read_prices`.

    Raises:
        InputError: at (`line`, number) and the column, for the first value that cannot be used.

    >>> prices = prices_from("item,pack,price,currency,date,note\\nicing sugar,1 kg,1.35,EUR,2026-01-31,\\n")
    >>> prices.by_kind["sugar_powdered"].price
    Decimal('1.35')
    """
    prices, problems = read_prices(content)
    if problems:
        raise problems[0]
    assert prices is not None
    return prices


def read_prices(content: str, region: str | None = None) -> tuple[Prices | None, list[InputError]]:
    """Read a file of prices: CSV with the columns item, pack, price, currency, date, note; `#` starts a comment line.

    `item` is any name of a kind of the ingredient table, or an ingredient's name. `pack` is a mass (`1 kg`) or, for a
    kind, a measure with a known weight (`1 L`). `price` is a decimal with up to four decimals, `date` a date in
    ISO 8601. Only `note` may be empty. A line that has a kind's key is its price, before one that has another name.

    Args:
        region: a plain `fl oz` or `pint` is the usual one there, in the US and the UK.

    Returns:
        The prices, None if there is a problem; and the problem of each wrong line, at (`line`, number) and the column.
    """
    lines = [(number, line) for number, line in enumerate(content.lstrip("\ufeff").splitlines(), 1) if _is_row(line)]
    try:
        columns = _columns(lines)
    except InputError as error:
        return None, [error]
    by_item: dict[str, Price] = {}
    by_name: dict[str, Price] = {}
    currency = None
    problems = []
    for number, line in lines[1:]:
        try:
            price = _price_from(line, number, columns, region)
            _check_new(price, by_item, by_name, number)
            if currency is not None and price.currency != currency:
                raise InputError(
                    f"{price.currency!r} is mixed with prices in {currency}",
                    f"convert every price to one currency, such as `{currency}`",
                    ("line", number, "currency"),
                )
        except InputError as error:
            problems.append(error)
            continue
        currency = price.currency
        by_item[price.item] = price
        if price.kind is not None and price.kind != price.item:
            by_name[price.kind] = price
    if currency is None or problems:
        return None, problems
    by_key = {item: price for item, price in by_item.items() if item == price.kind}
    return Prices(currency, by_item, {**by_name, **by_key}), []


def _columns(lines: Sequence[tuple[int, str]]) -> tuple[str, ...]:
    """The columns that the header names."""
    header = ",".join(COLUMNS)
    if not lines:
        raise InputError("the file has no prices", f"start it with the line `{header}`", ("line", 1))
    first, written = lines[0]
    columns = tuple(_cells(written, first))
    if columns not in (COLUMNS, COLUMNS_WITH_KIND):
        raise InputError(f"{written[:60]!r} is not the header", f"write `{header}`", ("line", first))
    if not lines[1:]:
        raise InputError("the file has no prices", "add a line below the header", ("line", first))
    return columns


def _check_new(price: Price, by_item: Mapping[str, Price], by_name: Mapping[str, Price], number: int) -> None:
    """Refuse a second price of an item, or of a kind by two of its names."""
    place = ("line", number, "item")
    if price.item in by_item:
        raise InputError(f"{price.item!r} already has a price", "keep one of the two", place)
    if price.kind is not None and price.kind != price.item and price.kind in by_name:
        other = by_name[price.kind].item
        raise InputError(
            f"{price.item!r} and {other!r} are the same kind, `{price.kind}`", "keep one of the two", place
        )


def _is_row(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _cells(line: str, number: int) -> list[str]:
    try:
        cells = next(csv.reader(io.StringIO(line), strict=True), [])
    except csv.Error:
        problem = f"{line[:60]!r} has an unclosed quote"
        raise InputError(problem, "add the closing quote", ("line", number)) from None
    return [cell.strip() for cell in cells]


def _price_from(line: str, number: int, columns: Sequence[str], region: str | None) -> Price:
    cells = _cells(line, number)
    if len(cells) != len(columns):
        remedy = "use a decimal point in numbers, and put text with a comma in quotes"
        raise InputError(f"the line has {len(cells)} cells instead of {len(columns)}", remedy, ("line", number))
    row = dict(zip(columns, cells, strict=True))
    column = ""
    try:
        column = "item"
        item = text(row["item"])
        kind = row["kind"] or None if "kind" in row else _kind_called(item)
        column = "pack"
        pack = _of_the_region(row["pack"], region)
        pack_g = _pack_g(kind, item, pack)
        column = "price"
        price = _money(row["price"])
        column = "currency"
        currency = _currency(row["currency"])
        column = "date"
        date = _day(row["date"])
    except InputError as error:
        raise error.within("line", number, column) from None
    return Price(
        item=item if item == kind else item.casefold(),
        kind=kind,
        pack=pack,
        pack_g=pack_g,
        price=price,
        currency=currency,
        date=date,
    )


def _kind_called(item: str) -> str | None:
    """The kind with this key, or with this name if no other kind has it."""
    if item in foods():
        return item
    meant = kind_names().meant_by(item)
    return meant[0] if len(meant) == 1 else None


_SYSTEMS = {"US": "US ", "UK": "imperial "}


def _of_the_region(pack: str, region: str | None) -> str:
    """A pack in a unit that differs between systems, as the unit of the region is called.

    >>> _of_the_region("16 fl oz", "US"), _of_the_region("16 fl oz", None), _of_the_region("1 pint", "UK")
    ('16 US fl oz', '16 fl oz', '1 imperial pint')
    """
    _, words = number_and_words(pack, "1 kg")
    units = units_called(words) if words and region in _SYSTEMS and pack.endswith(words) else ()
    found = [unit for unit in units if unit.startswith(_SYSTEMS[region or ""])]
    return pack.removesuffix(words) + found[0] if found else pack


def _pack_g(kind: str | None, item: str, written: str) -> float:
    if kind is not None:
        return amount_of(foods()[kind], written).mass_g
    _, words = number_and_words(written, "1 kg")
    if words and (units_called(words) or is_volume(unit_name(words) or "")):
        _refuse_measure(item, written)
    pack_g = grams(written)
    if pack_g <= 0:
        raise InputError(f"a pack of {written!r} is empty", "write its contents, such as `1 kg`")
    return pack_g


def _refuse_measure(item: str, written: str) -> None:
    """Refuse a measure of something that is not a known kind, since its weight is not known."""
    meant = kind_names().meant_by(item)
    what = "is the name of several kinds" if meant else "is not in the ingredient table"
    problem = f"{item[:40]!r} {what}, so what {written[:40]!r} of it weighs is not known"
    near = list_text([f"`{key}`" for key in (meant or kind_names().near(item).keys)[:4]], "or")
    remedy = "write the mass of the pack, such as `500 g`"
    raise InputError(problem, f"{remedy}, or a kind as the item, such as {near}" if near else remedy)


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
