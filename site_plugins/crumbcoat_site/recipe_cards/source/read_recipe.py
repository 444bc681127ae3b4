"""Recipe files: YAML text -> Recipe; an error's path -> its line."""

from pathlib import Path
from typing import Any

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from

from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds, with_kinds
from crumbcoat_site.recipe_cards.source.short_forms import written_out
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_errors import YamlError
from crumbcoat_site.recipe_cards.source.yaml_text import Document, read_document


def load_recipe(
    source: Path, file: str, own: OwnKinds | None = None, region: str | None = None
) -> tuple[Recipe, dict[str, object]]:
    """The recipe in a file, and its fields as plain data; `file` is the name that errors show.

    Args:
        own: the site's own ingredients.
        region: that of the site, if it has one.

    Raises:
        SourceError: if it is not UTF-8, or as `read_recipe` does.
    """
    return read_recipe(text_of(source, file), file, own, region)


def read_recipe(
    text: str, file: str, own: OwnKinds | None = None, region: str | None = None
) -> tuple[Recipe, dict[str, object]]:
    """The recipe in a YAML text, and its fields as plain data that JSON can carry: mappings, lists and texts.

    In the data every kind has its key, whichever of its names is in the text.

    Args:
        text: the YAML text.
        file: the name that errors show.
        own: the site's own ingredients; the data carry the figures of those that are used.
        region: that of the site, if it has one.

    Raises:
        SourceError: at the first problem.
    """
    return recipe_in(document_in(text, file, region), file, own)


def document_in(text: str, file: str, region: str | None = None) -> Document:
    """What is written in a YAML text, with short forms written out.

    Raises:
        SourceError: if it is not YAML.
    """
    try:
        return written_out(read_document(text), region)
    except YamlError as error:
        raise SourceError(file, error.line, error.problem, error.remedy) from None


def recipe_in(document: Document, file: str, own: OwnKinds | None = None) -> tuple[Recipe, dict[str, object]]:
    """The recipe in a document, and its fields; see `read_recipe`.

    Raises:
        SourceError: at the first problem.
    """
    data, problems = with_kinds(document.data, own or {})
    try:
        if problems:
            raise problems[0]
        recipe = recipe_from(data)
    except InputError as error:
        raise SourceError(file, document.line_of(error.path), error.problem, error.remedy) from None
    assert isinstance(data, dict)
    put_keys(data["ingredients"], recipe)
    return recipe, data


def put_keys(ingredients: dict[str, Any], recipe: Recipe) -> None:
    """Put the key of each kind in the place of its name, so that a calculator in the browser needs no list of names."""
    for ingredient in recipe.ingredients:
        fields = ingredients[ingredient.key]
        uses = [(fields, ingredient.food)]
        uses += [(fields["replacements"][other.key], other.food) for other in ingredient.replacements]
        for use, food in uses:
            if isinstance(use.get("kind"), str) and food.key in foods():
                use["kind"] = food.key
