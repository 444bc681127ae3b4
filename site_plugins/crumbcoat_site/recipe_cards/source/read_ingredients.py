"""The text of a list of ingredients -> kinds; an error's path -> its line."""

from collections.abc import Mapping
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.recipe.ingredients import shared_ingredient
from crumbcoat_calc.values.fields import mapping, slug, text

from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.kinds import figures_of
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_errors import YamlError
from crumbcoat_site.recipe_cards.source.yaml_text import read_document


def read_ingredients(source: Path, file: str) -> SiteIngredients:
    """The ingredients in a file as kinds of a recipe's data, and what is wrong with the others."""
    try:
        text = text_of(source, file)
        if all(not line.strip() or line.lstrip().startswith("#") for line in text.splitlines()):
            return SiteIngredients({}, ())
        document = read_document(text)
    except YamlError as error:
        return SiteIngredients({}, (SourceError(file, error.line, error.problem, error.remedy),))
    except SourceError as error:
        return SiteIngredients({}, (error,))
    try:
        listed = mapping(document.data)
    except InputError as error:
        return SiteIngredients({}, (SourceError(file, 1, error.problem, "write `our_paste:` and its fields below it"),))
    kinds: dict[str, Mapping[str, object] | None] = {}
    problems = []
    for name, fields in listed.items():
        try:
            kinds[name] = _kind(name, fields)
        except InputError as error:
            kinds[name] = None
            place = error.within(name)
            problems.append(SourceError(file, document.line_of(place.path), error.problem, error.remedy))
    return SiteIngredients(kinds, tuple(problems))


def _kind(name: str, value: object) -> Mapping[str, object]:
    """The kind of one ingredient, checked as an ingredient of a recipe is.

    Raises:
        InputError: at the first field that cannot be used, or at the ingredient, if it is named like a kind.
    """
    slug(name)
    if name in foods():
        problem = f"the ingredient table has a kind {name!r} already"
        raise InputError(problem, f"give it another name, such as `our_{name}`")
    fields = dict(mapping(value))
    if isinstance(fields.get("kind"), str):
        try:
            fields["kind"] = figures_of(str(fields["kind"]).strip()) or food(text(fields["kind"])).key
        except InputError as error:
            raise error.within("kind") from None
    shared_ingredient(fields)
    return {"written": name, **fields}
