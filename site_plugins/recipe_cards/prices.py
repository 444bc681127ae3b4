"""The file of prices: checked where it lies, and carried as text to the calculators."""

from pathlib import Path

from calc.cost import prices_from
from calc.errors import InputError
from site_plugins.recipe_cards.recipe_files import RecipeFileError


def load_prices(source: Path, file: str) -> str | None:
    """The text of a file of prices without its comments; None where there is no such file.

    Args:
        file: the name that errors show.

    Raises:
        RecipeFileError: at the first line that cannot be used.
    """
    if not source.is_file():
        return None
    content = source.read_bytes()
    try:
        text = content.decode("utf-8")
        prices_from(text)
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line holds a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise RecipeFileError(file, line, problem, "save the file as UTF-8") from None
    except InputError as error:
        _, line, *column = error.path
        problem = f"{column[0]}: {error.problem}" if column else error.problem
        raise RecipeFileError(file, int(line), problem, error.remedy) from None
    return "\n".join(line for line in text.splitlines() if line.strip() and not line.startswith("#")) + "\n"
