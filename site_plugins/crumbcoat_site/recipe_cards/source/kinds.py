"""Kinds that are not in the ingredient table: rows of the three food tables, and ingredients of the site's own."""

from collections.abc import Mapping

from crumbcoat_calc.errors import InputError, Path
from crumbcoat_calc.foods.table import foods

from crumbcoat_site.food_tables.kinds import kind_of
from crumbcoat_site.food_tables.rows import names_a_row

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
        kind = _own(name, own) if name in own else figures_of(name)
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


def _own(name: str, own: OwnKinds) -> Mapping[str, object]:
    kind = own[name]
    if kind is None:
        raise InputError(f"{name!r} is one of the site's ingredients and has a mistake", "put it right in their list")
    return kind
