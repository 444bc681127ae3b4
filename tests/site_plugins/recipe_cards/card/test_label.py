"""The label on the card and for programs; terms are those of schema.org release 30.0."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc.forms.context import published_from
from crumbcoat_calc.purchasing.prices import prices_from
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.card.card import Card, card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.card.label import json_ld_of, label_figures
from crumbcoat_site.recipe_cards.source.prices import load_prices, prices_text
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.source_errors import SourceErrors

FOLDER = Path(__file__).parents[4] / "recipes"
FILES = sorted(FOLDER.glob("*/*.yaml"))
PRICES = prices_text((FOLDER / "prices.csv").read_bytes(), "prices.csv")

# Properties of NutritionInformation and members of RestrictedDiet. Source: schema.org 30.0, from memory.
NUTRITION = {
    "calories", "carbohydrateContent", "cholesterolContent", "fatContent", "fiberContent", "proteinContent",
    "saturatedFatContent", "servingSize", "sodiumContent", "sugarContent", "transFatContent", "unsaturatedFatContent",
}  # fmt: skip
DIETS = {"VeganDiet", "VegetarianDiet", "GlutenFreeDiet"}

HEAD = b"item,pack,price,currency,date,note\n"


def card(path: Path, prices: str | None = PRICES) -> Card:
    recipe, data = load_recipe(path, path.name)
    return card_from(
        published_from(data, recipe),
        RecipeFile(path=path, name=path.stem, photos={}),
        prices,
        CardOptions(None, True),
        False,
    )


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_json_ld_has_the_terms_of_schema_org(path: Path) -> None:
    found = json_ld_of(card(path).label.label)
    nutrition = found["nutrition"]
    assert isinstance(nutrition, dict)
    assert nutrition.pop("@type") == "NutritionInformation"
    assert {"servingSize", "calories"} <= nutrition.keys() <= NUTRITION
    assert all(isinstance(value, str) and "not known" not in value for value in nutrition.values())
    diets = found.get("suitableForDiet", [])
    assert isinstance(diets, list)
    assert {diet.removeprefix("https://schema.org/") for diet in diets} <= DIETS


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_figures_for_programs_are_json_and_those_of_the_card(path: Path) -> None:
    made = card(path)
    figures = json.loads(json.dumps(label_figures(made.label)))
    printed = {row[0].strip(): row for row in made.label_texts["label.eu"]}
    fat = figures["label"]["eu"]["per_100g"]["fat"]
    assert printed["Fat"][1] == f"{fat['declared']} {fat['unit']}"
    assert figures["label"]["us"]["serving_g"] > 0
    assert figures["allergens"]["not_known_of"] == []
    assert figures["cost"]["missing"] == []
    assert any(row[1] == f"{float(figures['cost']['batch']):.2f} EUR" for row in made.label_texts["cost.sums"])


def test_what_the_list_shows_is_for_programs_and_a_diet_only_where_the_author_claims_it() -> None:
    """A list cannot show that a food is gluten-free: EU 828/2014 and 21 CFR 101.91 limit the food as sold."""
    listed = {path.stem: label_figures(card(path).label) for path in FILES}
    none = {"inside": [], "not_certain": []}
    assert listed["stabilised-whipped-cream"]["listed"]["gluten"] == none
    assert listed["stabilised-whipped-cream"]["listed"]["meat_or_fish"]["inside"] == ["powdered gelatine"]
    assert listed["cooked-flour-buttercream"]["listed"]["gluten"]["inside"] == ["plain flour"]
    assert listed["condensed-milk-buttercream"]["listed"]["meat_or_fish"] == none
    assert listed["plant-based-cocoa-frosting"]["listed"]["of_animal_origin"]["not_certain"][:1] == [
        "plant block, 75 % fat"
    ]
    diets = {name: figures["suitable_for"] for name, figures in listed.items() if figures["suitable_for"]}
    assert diets == {"plant-based-cocoa-frosting": ["VeganDiet"]}
    assert listed["plant-based-cocoa-frosting"]["claims"].keys() == {"vegan"}


def test_without_a_file_of_prices_there_is_no_cost(tmp_path: Path) -> None:
    assert load_prices(tmp_path / "prices.csv", "prices.csv", PageCache(tmp_path)) is None
    made = card(FILES[0], None)
    assert made.label.cost is None
    assert label_figures(made.label)["cost"] is None
    assert made.label_texts["cost.dates"] == "There is no file of prices."


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"item,pack\n", "prices.csv:1: 'item,pack' is not the header."),
        (b"# ours\n" + HEAD + b"salt_table,1 kg,free,EUR,2026-01-01,\n", "prices.csv:3: price: "),
        (HEAD + b"salt_table,1 kg,1\xff,EUR,2026-01-01,\n", "prices.csv:2: the line has"),
        (b"", "prices.csv:1: the file has no prices."),
    ],
)  # fmt: skip
def test_a_wrong_price_file_is_reported_by_its_line(tmp_path: Path, content: bytes, message: str) -> None:
    file = tmp_path / "prices.csv"
    file.write_bytes(content)
    with pytest.raises(SourceErrors) as caught:
        load_prices(file, "prices.csv", PageCache(tmp_path))
    assert str(caught.value).startswith(message)
    assert "\n    Fix: " in str(caught.value)


def test_a_reader_gets_the_keys_of_what_the_file_names(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """So that a browser need not have the list of names: it reads the text without it."""
    content = HEAD + b"heavy cream,473 mL,2.79,USD,2026-01-31,our shop\nHouse Butter,1 kg,13.00,USD,2026-01-31,\n"
    text = prices_text(content, "prices.csv")
    assert text.splitlines()[1:] == [
        "heavy cream,473 mL,2.79,USD,2026-01-31,,cream_heavy_whipping",
        "house butter,1 kg,13.00,USD,2026-01-31,,",
    ]

    def no_names() -> None:
        raise AssertionError("the names are not in the browser")

    monkeypatch.setattr("crumbcoat_calc.purchasing.prices.kind_names", no_names)
    assert prices_from(text).by_kind["cream_heavy_whipping"].pack == "473 mL"


def test_every_wrong_line_of_a_price_file_is_reported_at_once() -> None:
    with pytest.raises(SourceErrors) as caught:
        prices_text(HEAD + b"salt_table,1 kg,free,EUR,2026-01-01,\nx,1 kg,1,EUR,today,\n", "prices.csv")
    assert [(error.line, error.problem[:5]) for error in caught.value.errors] == [(2, "price"), (3, "date:")]
