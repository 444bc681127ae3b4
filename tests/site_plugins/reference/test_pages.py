"""The reference pages are up to date and name everything there is."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from crumbcoat_calc.foods.table import foods, other_names
from crumbcoat_calc.forms.context import published_from
from crumbcoat_site.recipe_cards.card.card import card_from
from crumbcoat_site.recipe_cards.card.card_fields import CARD_FIELDS
from crumbcoat_site.recipe_cards.card.card_json import card_json
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.source.prices import prices_text
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.schema import recipe_schema
from crumbcoat_site.reference.options import PLUGINS, option_rows
from crumbcoat_site.reference.pages import FOLDER, PAGES
from crumbcoat_site.reference.recipe_file import recipe_file_page

RECIPES = Path(__file__).parents[3] / "recipes"


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_what_the_code_gives(name: str) -> None:
    assert (FOLDER / name).read_text(encoding="utf-8") == PAGES[name](), "run `make reference` and commit the result"


def blocks(schema: object) -> Iterator[dict[str, Any]]:
    """Every block of fields in the schema."""
    if isinstance(schema, dict):
        if "properties" in schema:
            yield schema
        for part in schema.values():
            yield from blocks(part)
    elif isinstance(schema, list):
        for part in schema:
            yield from blocks(part)


def test_the_recipe_file_page_names_every_field_with_its_description() -> None:
    page = recipe_file_page()
    fields = [(name, field) for block in blocks(recipe_schema()) for name, field in block["properties"].items()]
    assert len(fields) > 90
    rows = {line.replace("` * |", "` |") for line in page.splitlines()}
    starts = [f"| `{name}` | {field['description']}" for name, field in fields]
    assert [start for start in starts if not any(row.startswith(start) for row in rows)] == []


def test_the_kinds_page_names_every_kind_with_its_measures() -> None:
    page = PAGES["kinds.md"]()
    lines = {line.split("`")[1]: line for line in page.splitlines() if line.startswith("| `")}
    assert lines.keys() == foods().keys()
    assert "US cup, sifted: 100 g" in lines["sugar_powdered"]
    for key, food in foods().items():
        assert all(f"{measure.grams:g} g" in lines[key] for measure in food.measures), key


def test_the_kinds_page_names_every_other_name_and_leads_to_every_group() -> None:
    page = PAGES["kinds.md"]()
    lines = {line.split("`")[1]: line for line in page.splitlines() if line.startswith("| `")}
    for key, others in other_names().items():
        assert [other.name for other in others if other.name not in lines[key]] == [], key
    assert "cornflour (UK)" in lines["cornstarch"]
    assert {line.count(" | ") for line in lines.values()} == {1}, "two columns fit on a phone"
    groups = {food.group for food in foods().values()}
    assert [group for group in groups if f"](#{group.replace(' ', '-')})" not in page] == []
    assert [group for group in groups if f"\n## {group.capitalize()}\n" not in page] == []


def test_every_option_has_a_description() -> None:
    for name, _, config in PLUGINS:
        rows = option_rows(config)
        assert len(rows) == len(config()._schema) > 0, name
        assert all(description.endswith(".") for _, _, description in rows), name


DYNAMIC = {"ingredient_lists": "<market>", "listed": "<origin>", "claims": "<claim>",
           "portions_g": "<portion>", "kept_back_g": "<part>", "figures": "<figure>",
           "per_serving": "<nutrient>", "per_100g": "<nutrient>",
           "per_portion": "<nutrient>"}  # fmt: skip
LEAVES = ("recipe", "texts", "stages[].figures", "total.figures.energy", "label.us.per_100g", "label.eu.per_portion",
          "label.eu.per_100g")  # fmt: skip


def paths(value: object, path: str = "") -> Iterator[str]:
    """The path of every field, with names that differ from card to card replaced; what LEAVES names is not opened."""
    if path in LEAVES or path.endswith("missing"):
        yield path
    elif isinstance(value, dict):
        last = path.rpartition(".")[2].removesuffix("[]")
        for name, field in value.items():
            shown = DYNAMIC[last] if last in DYNAMIC and (last, name) != ("figures", "energy") else name
            yield from paths(field, f"{path}.{shown}" if path else shown)
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for entry in value:
            yield from paths(entry, f"{path}[]")
    else:
        yield path


def test_the_card_json_page_names_the_fields_that_the_files_have() -> None:
    prices = prices_text((RECIPES / "prices.csv").read_bytes(), "prices.csv")
    found: set[str] = set()
    for file in sorted(RECIPES.glob("*/*.yaml")):
        recipe, data = load_recipe(file, file.name)
        source = RecipeFile(path=file, name=file.stem, photos={})
        card = card_from(published_from(data, recipe), source, prices, CardOptions(None, True), False)
        found |= set(paths(json.loads(card_json(card))))
    assert found | {"cost"} == {path for path, _ in CARD_FIELDS}
