"""Recipe files: YAML text -> Recipe; an error's path -> its line."""

from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from

from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_errors import YamlError
from crumbcoat_site.recipe_cards.source.yaml_text import read_document


def load_recipe(source: Path, file: str) -> tuple[Recipe, dict[str, object]]:
    """The recipe in a file, and its fields as plain data; `file` is the name that errors show.

    Raises:
        SourceError: if it is not UTF-8, or as `read_recipe` does.
    """
    return read_recipe(text_of(source, file), file)


def text_of(source: Path, file: str) -> str:
    """The text of a file; `file` is the name that errors show.

    Raises:
        SourceError: if it is not UTF-8.
    """
    content = source.read_bytes()
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line has a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise SourceError(file, line, problem, "save the file as UTF-8") from None


def read_recipe(text: str, file: str) -> tuple[Recipe, dict[str, object]]:
    """The recipe in a YAML text, and its fields as plain data that JSON can carry: mappings, lists and texts.

    Args:
        text: the YAML text.
        file: the name that errors show.

    Raises:
        SourceError: at the first problem.
    """
    try:
        document = read_document(text)
    except YamlError as error:
        raise SourceError(file, error.line, error.problem, error.remedy) from None
    try:
        recipe = recipe_from(document.data)
    except InputError as error:
        raise SourceError(file, document.line_of(error.path), error.problem, error.remedy) from None
    assert isinstance(document.data, dict)
    return recipe, document.data
