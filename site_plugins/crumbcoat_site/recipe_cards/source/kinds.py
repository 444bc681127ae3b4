"""Kinds that are not in the ingredient table: rows of the three food tables, and ingredients of the site's own."""

from collections.abc import Mapping

from crumbcoat_calc.errors import InputError, Path
from crumbcoat_calc.foods.names import FoodName, Names
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.values.display import list_text

from crumbcoat_site.food_tables.kinds import kind_of
from crumbcoat_site.food_tables.rows import names_a_row
from crumbcoat_site.recipe_cards.source.own_ingredients import letters_of, names_of

OwnKinds = Mapping[str, Mapping[str, object] | None]
"""The site's own ingredients by name, as a recipe's data carry them; None for one that cannot be used."""

_ANY = "water_tap"
_OF_THE_INGREDIENT = ("made_of", "allergens")
"""What a recipe's ingredient has from its kind, unless it says so itself."""


def with_kinds(data: object, own: OwnKinds) -> tuple[object, list[InputError]]:
    """The data of a recipe with the figures of such kinds in them, so that nothing else need be read; and problems.

    A kind that cannot be used is some other one, so that the rest of the recipe can be read.
    """
    problems: list[InputError] = []
    if not isinstance(data, Mapping) or not isinstance(data.get("ingredients"), Mapping):
        return data, problems
    ingredients = {}
    for key, fields in data["ingredients"].items():
        path: Path = ("ingredients", key)
        found = _with_kind(fields, own, path, problems)
        if isinstance(found, Mapping) and isinstance(found.get("replacements"), Mapping):
            replacements = {
                name: _with_kind(other, own, (*path, "replacements", name), problems)
                for name, other in found["replacements"].items()
            }
            found = {**found, "replacements": replacements}
        ingredients[key] = found
    return {**data, "ingredients": ingredients}, problems


def figures_of(written: str) -> Mapping[str, object] | str | None:
    """The kind that a table and a number name, or its key; None if they are not what is written.

    Raises:
        InputError: if the table has no such number.
    """
    return kind_of(written) if names_a_row(written) else None


def _with_kind(fields: object, own: OwnKinds, path: Path, problems: list[InputError]) -> object:
    if not isinstance(fields, Mapping) or "kind" not in fields:
        return fields
    written = fields["kind"]
    try:
        if not isinstance(written, str):
            raise InputError("a kind is a name, and not a block or a list", "write `kind: butter_unsalted`")
        name = written.strip()
        key = _own_key(name, own)
        kind = figures_of(name) if key is None else _own(key, own)
        if kind is None:
            _propose_own(name, own)
    except InputError as error:
        problems.append(error.at((*path, "kind")))
        return {**fields, "kind": _ANY}
    if kind is None:
        # Whoever writes "icing sugar" for a kind of the table calls it so on the page as well.
        return fields if "name" in fields or name in foods() else {**fields, "name": name}
    if isinstance(kind, str):
        return {**fields, "kind": kind}
    inherited = {field: kind[field] for field in _OF_THE_INGREDIENT if field in kind and field not in fields}
    return {**fields, "kind": {field: kind[field] for field in kind if field not in _OF_THE_INGREDIENT}, **inherited}


def _own_key(written: str, own: OwnKinds) -> str | None:
    """The key of the site's own ingredient with this key or name; a key of the ingredient table is none."""
    if written in own:
        return written
    if written in foods() or names_a_row(written):
        return None
    letters = letters_of(written)
    keys = [key for key, kind in own.items() if letters in map(letters_of, names_of(key, kind))]
    if len(keys) > 1:
        listed = list_text([f"`{key}`" for key in keys], "or")
        raise InputError(f"{written!r} is the name of several of the site's ingredients", f"write {listed}")
    return keys[0] if keys else None


def _propose_own(written: str, own: OwnKinds) -> None:
    """Refuse a name that no kind has, or several have, and that comes near one of the site's own ingredients."""
    try:
        food(written)
    except InputError as error:
        printed = {key: names_of(key, kind)[-1] for key, kind in own.items()}
        keys = [FoodName(food=key, name=key.replace("_", " "), region="both") for key in own]
        near = Names(printed, keys).near(written)
        if not near.keys:
            return
        listed = list_text([f"`{key}` ({printed[key]})" for key in near.keys], "or")
        raise InputError(error.problem, f"did you mean the site's own {listed}? If not, {error.remedy}") from None


def _own(name: str, own: OwnKinds) -> Mapping[str, object]:
    kind = own[name]
    if kind is None:
        raise InputError(f"{name!r} is one of the site's ingredients and has a mistake", "put it right in their list")
    return kind
