"""The file of prices: checked where it lies, and carried as text to the calculators."""

from pathlib import Path

from crumbcoat_calc.errors import InputError

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


def load_prices(source: Path, file: str, cache: PageCache) -> str | None:
    """The text of a file of prices without its comments; None where there is no such file.

    Args:
        file: the name that errors show.
        cache: where it is kept that a file was found good.

    Raises:
        SourceError: at the first line that cannot be used.
    """
    if not source.is_file():
        return None
    content = source.read_bytes()
    key = cache.key(content, "prices")
    kept = cache.get(key)
    if kept is None:
        kept = {"text": prices_text(content, file)}
        cache.put(key, kept, {})
    return str(kept["text"])


def prices_text(content: bytes, file: str) -> str:
    """The text of a file of prices without its comments, checked; errors are those of `load_prices`."""
    # Only here, since a build that finds the file as it was need not load calc and pint.
    from crumbcoat_calc.purchasing.cost import prices_from

    try:
        text = content.decode("utf-8")
        prices_from(text)
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line has a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise SourceError(file, line, problem, "save the file as UTF-8") from None
    except InputError as error:
        _, row, *column = error.path
        problem = f"{column[0]}: {error.problem}" if column else error.problem
        raise SourceError(file, int(row), problem, error.remedy) from None
    return "\n".join(line for line in text.splitlines() if line.strip() and not line.startswith("#")) + "\n"
