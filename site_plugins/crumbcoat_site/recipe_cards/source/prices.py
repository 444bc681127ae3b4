"""The file of prices: checked line by line, and handed to the calculators as text."""

import csv
import io
from pathlib import Path

from crumbcoat_calc.errors import InputError

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.source.source_errors import SourceError, SourceErrors


def load_prices(source: Path, file: str, cache: PageCache, region: str | None = None) -> str | None:
    """The text of a file of prices for the calculators; None if the file does not exist, or has only its header yet.

    Args:
        file: the name that errors show.
        cache: where the result of the check is kept.
        region: that of the site, if it has one.

    Raises:
        SourceErrors: with every line that cannot be used.
    """
    if not source.is_file():
        return None
    content = source.read_bytes()
    key = cache.key(content, "prices", region or "")
    kept = cache.get(key)
    if kept is None:
        kept = {"text": prices_text(content, file, region)}
        cache.put(key, kept, {})
    return str(kept["text"]) or None


def prices_text(content: bytes, file: str, region: str | None = None) -> str:
    """The checked text of a file of prices without its comments, with the key of each kind; empty without a price.

    Raises the errors of `load_prices`.
    """
    # Imported here because a build with unchanged prices need not load calc and pint.
    from crumbcoat_calc.purchasing.prices import COLUMNS, COLUMNS_WITH_KIND, read_prices

    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line has a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise SourceErrors([SourceError(file, line, problem, "save the file as UTF-8")]) from None
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    if lines == [",".join(COLUMNS)]:
        return ""
    prices, problems = read_prices(text, region)
    if prices is None:
        raise SourceErrors([_at_its_line(file, problem) for problem in problems])
    written = io.StringIO()
    rows = csv.writer(written, lineterminator="\n")
    rows.writerow(COLUMNS_WITH_KIND)
    for price in prices.by_item.values():
        rows.writerow((price.item, price.pack, f"{price.price:f}", price.currency, price.date, "", price.kind or ""))
    return written.getvalue()


def _at_its_line(file: str, error: InputError) -> SourceError:
    _, row, *column = error.path
    problem = f"{column[0]}: {error.problem}" if column else error.problem
    return SourceError(file, int(row), problem, error.remedy)
