"""What a card says to programs, against the vocabulary of schema.org; dates and durations by isodate (ISO 8601)."""

import json
from datetime import timedelta
from functools import cache
from pathlib import Path
from typing import Any

import isodate
import pytest
from crumbcoat_calc.forms.context import published_from
from crumbcoat_site.recipe_cards.build.addresses import Place
from crumbcoat_site.recipe_cards.card.card import card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.card.json_ld import json_ld
from crumbcoat_site.recipe_cards.pictures.ready import Ready
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile

from tests.schema_org import breaches, context, kinds

ROOT = Path(__file__).parents[4]
FULL = ROOT / "tests" / "golden" / "good-every-field" / "recipe.yaml"
FILES = [*sorted((ROOT / "recipes").glob("*/*.yaml")), FULL]
READY = Ready(key="0123456789abcdef", width=1080, height=810, colour="#eee", widths=(240, 480, 1080), shapes={})
IMAGES = tuple(f"https://lantern.example/assets/cream-{shape}.jpg" for shape in ("1x1", "4x3", "16x9"))


@cache
def data_of(path: Path, region: str = "EU", site_url: str = "https://lantern.example/", version: str = "") -> Any:
    recipe, data = load_recipe(path, path.name)
    photos = {f"{path.stem}.1-1.HEIC": READY, "IMG_2041.jpg": READY}
    file = RecipeFile(path=path, name=f"creams/{path.stem}", photos=photos)
    card = card_from(published_from(data, recipe, region), file, None, CardOptions(None, False, region), False)
    place = Place(site_url, file.name)
    found = json_ld(card, place, IMAGES if site_url else (), region=region, language="en", version=version or None)
    return json.loads(json.dumps(found))


def steps(data: Any) -> list[Any]:
    return [step for section in data["recipeInstructions"] for step in section["itemListElement"]]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.parent.name + "/" + path.stem)
def test_every_term_is_one_of_schema_org_and_holds_what_it_may(path: Path) -> None:
    data = data_of(path)
    assert list(breaches(data)) == []
    assert data["url"] == data["mainEntityOfPage"] == f"https://lantern.example/creams/{path.stem}/"
    assert data["image"] == list(IMAGES)
    assert data["isAccessibleForFree"] is True


def test_a_wrong_term_a_replaced_one_and_a_wrong_value_would_be_found() -> None:
    """schema.org: `ingredients` is superseded by `recipeIngredient`; a Person has no `recipeYield`."""
    wrong = {
        "@type": "Recipe",
        "ingredients": "milk",
        "author": {"@type": "Person", "recipeYield": "2"},
        "cookTime": "7 min",
        "datePublished": "soon",
        "nutrition": {"@type": "NutritionInformation", "fatContent": "less than 1 g"},
        "url": "../veil/",
    }
    found = [breach.partition(": ")[0].rpartition("/")[2] for breach in breaches(wrong)]
    assert found == [
        "Recipe.ingredients",
        "Person.recipeYield",
        "Recipe.cookTime",
        "Recipe.datePublished",
        "NutritionInformation.fatContent",
        "Recipe.url",
    ]
    assert kinds("HowToStep") == {"HowToStep", "CreativeWork", "ItemList", "ListItem", "Thing"}


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.parent.name + "/" + path.stem)
def test_all_of_it_is_expanded_and_no_address_stays_relative(path: Path) -> None:
    """By pyld, a processor of JSON-LD 1.1, with a context that is here: nothing is fetched."""
    from pyld import jsonld

    def loaded(url: str, options: object) -> dict[str, object]:
        assert url == "https://schema.org"
        return {"contextUrl": None, "documentUrl": url, "document": {"@context": context()}}

    data = data_of(path)
    (expanded,) = jsonld.expand(data, {"documentLoader": loaded})

    def terms(node: Any) -> set[str]:
        if isinstance(node, list):
            return set().union(*map(terms, node))
        if not isinstance(node, dict):
            return set()
        return {key.rpartition("/")[2] for key in node if key[0] != "@"}.union(*map(terms, node.values()))

    assert terms(expanded) == terms(data)
    (image,) = expanded["https://schema.org/image"][:1]
    assert image == {"@id": IMAGES[0]}
    assert expanded["@type"] == ["https://schema.org/Recipe"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.parent.name + "/" + path.stem)
def test_the_times_are_true(path: Path) -> None:
    """The sums of the steps' longest times; preparing and cooking are parts of the whole, and no step is in both."""
    recipe, _ = load_recipe(path, path.name)
    data = data_of(path)
    times = {name: isodate.parse_duration(data.get(name, "PT0S")) for name in ("prepTime", "cookTime", "totalTime")}
    assert times["prepTime"] + times["cookTime"] <= times["totalTime"]
    all_steps = [step for stage in recipe.stages for step in stage.steps]
    longest = timedelta(seconds=sum(step.time.longest_s for step in all_steps if step.time))
    assert times["totalTime"] == longest
    assert ("cookTime" in data) == any(step.time and (step.heat_to_c or step.water_lost_g) for step in all_steps)
    stated = [
        found for step in steps(data) for found in step.get("itemListElement", ()) if found["@type"] != "HowToTip"
    ]
    lengths = [isodate.parse_duration(part.get("performTime") or part.get("totalTime") or "PT0S") for part in stated]
    assert sum(lengths, timedelta()) == longest


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.parent.name + "/" + path.stem)
def test_each_step_has_its_words_a_name_and_a_place_on_the_page(path: Path) -> None:
    recipe, _ = load_recipe(path, path.name)
    data = data_of(path)
    assert [section["name"] for section in data["recipeInstructions"]] == [stage.title for stage in recipe.stages]
    expected = [f"{s}-{n}" for s, stage in enumerate(recipe.stages, 1) for n in range(1, len(stage.steps) + 1)]
    assert [step["url"] for step in steps(data)] == [f"{data['url']}#step-{place}" for place in expected]
    assert [step for step in steps(data) if not step["text"].startswith(step["name"])] == []
    assert [step["image"] for step in steps(data) if "image" in step] == [
        f"https://lantern.example/assets/pictures/0123456789ab/{path.stem}-1-1-1080.jpg"
    ]


def test_amounts_are_in_the_words_of_the_author() -> None:
    assert data_of(FULL)["recipeIngredient"] == [
        "300 g milk, whole, 3.25 % fat",
        "30 g milk, whole, 3.25 % fat, kept back for a rescue",
        "1 US cup sugar, granulated, sifted",
        "12 g cornstarch (cornflour)",
        "1/2 lb butter, 84 % fat",
        "1 US tsp vanilla paste, optional",
        "2 US tbsp sugar, powdered (icing sugar), unsifted, optional",
    ]
    assert data_of(FULL, "US")["recipeIngredient"][2] == "1 cup sugar, granulated, sifted"
    supplies = [supply for step in steps(data_of(FULL)) for supply in step["itemListElement"][0].get("supply", ())]
    assert "2 US tbsp sugar, powdered (icing sugar), unsifted" in supplies


def test_a_step_says_how_warm_how_long_and_with_what() -> None:
    first, second = steps(data_of(FULL))[:2]
    assert first["itemListElement"] == [
        {
            "@type": "HowToDirection",
            "text": "Heat to 96 °C (205 °F), 5 to 7 min.",
            "performTime": "PT7M",
            "supply": ["250 g milk, whole, 3.25 % fat", "1 US cup sugar, granulated", "12 g cornstarch (cornflour)"],
            "tool": "saucepan",
        },
        {"@type": "HowToTip", "text": "slow, thick bubbles"},
    ]
    assert second["itemListElement"] == [
        {"@type": "HowToDirection", "text": "Cool to 20 °C (68 °F), 2 h.", "totalTime": "PT2H"}
    ]
    in_us = steps(data_of(FULL, "US"))[0]["itemListElement"][0]["text"]
    assert in_us == "Heat to 205 °F (96 °C), 5 to 7 min."


def test_author_dates_cuisine_and_video_are_what_the_recipe_says() -> None:
    data = data_of(FULL, version="3")
    assert data["author"] == {"@type": "Person", "name": "Mira Quill", "url": "https://lantern.example/mira/"}
    assert (data["datePublished"], data["dateModified"], data["version"]) == ("2026-03-31", "2026-04-02", "3")
    assert (data["recipeCuisine"], data["recipeCategory"]) == ("French", "emulsified milk frosting")
    assert data["video"] == {
        "@type": "VideoObject",
        "name": "Whipping the *cold* base",
        "description": data["description"],
        "contentUrl": "https://lantern.example/whipping.mp4",
        "uploadDate": "2026-04-01",
        "thumbnailUrl": "https://lantern.example/whipping.jpg",
        "duration": "PT3M20S",
    }


def test_what_a_recipe_does_not_say_is_not_there() -> None:
    data = data_of(ROOT / "tests" / "golden" / "good-smallest" / "recipe.yaml")
    assert {"recipeCuisine", "dateModified", "version", "video", "suitableForDiet", "cookTime"} & data.keys() == set()
    assert data["author"]["@type"] == "Organization"


def test_without_an_address_of_the_site_addresses_are_as_links_on_the_page_have_them() -> None:
    data = data_of(FULL, site_url="")
    assert (data["url"], steps(data)[0]["url"]) == ("./", "#step-1-1")
    assert steps(data)[0]["image"] == "../../assets/pictures/0123456789ab/recipe-1-1-1080.jpg"
    assert "image" not in data
