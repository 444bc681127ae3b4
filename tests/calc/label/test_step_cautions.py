"""Where in the method a caution is shown.

Burns: Moritz and Henriques, Studies of thermal injury II, American Journal of Pathology 23 (1947), 695-720: deep burns
within about 5 seconds at 60 °C (as restated). Egg: US FDA Food Code, 3-401.11 and 3-302.13, and 71 °C from guidance
on egg mixtures.
"""

from collections.abc import Mapping
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.label.caution_facts import caution_facts_of
from crumbcoat_calc.label.cautions import cautions_for
from crumbcoat_calc.label.step_cautions import titles_by_step
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.reading import recipe_from

RECIPES = sorted((Path(__file__).parents[3] / "recipes").glob("*/*.yaml"))


def batch(heat: str | None) -> Batch:
    steps: list[dict[str, object]] = [{"do": "Whisk both.", "add": ["yolk", "sugar"]}]
    if heat is not None:
        steps.append({"do": "Heat, stirring.", "heat_to": heat})
    data = {
        "title": "Yolk base", "summary": "A base.", "author": "A kitchen", "family": "egg-yolk buttercream",
        "yield": {"portions": "4", "of": "spoonfuls"},
        "ingredients": {
            "yolk": {"name": "yolks", "kind": "egg_yolk_raw", "amount": "60 g"},
            "sugar": {"name": "sugar", "kind": "sugar_granulated", "amount": "100 g"},
        },
        "stages": [{"title": "Base", "steps": steps}],
    }  # fmt: skip
    return batch_of(recipe_from(data), BatchOptions())


def titles_of(made: Batch) -> Mapping[tuple[int, int], tuple[str, ...]]:
    return titles_by_step(made, highest_temperatures(made.recipe))


@pytest.mark.parametrize(
    ("heat", "expected"),
    [
        (None, {(0, 0): ("Raw egg",)}),
        ("55 °C", {(0, 0): ("Lightly heated egg",), (0, 1): ()}),
        ("65 °C", {(0, 0): ("Lightly heated egg",), (0, 1): ("Hot liquid and steam",)}),
        ("71 °C", {(0, 0): (), (0, 1): ("Hot liquid and steam",)}),
        ("118 °C", {(0, 0): (), (0, 1): ("Hot syrup",)}),
    ],
)
def test_the_step_that_scalds_and_the_step_where_raw_egg_goes_in(
    heat: str | None, expected: dict[tuple[int, int], tuple[str, ...]]
) -> None:
    assert titles_of(batch(heat)) == expected


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_step_shows_no_caution_that_the_recipe_does_not_list(path: Path) -> None:
    whole = batch_of(recipe_from(yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)), BatchOptions())
    listed = {caution.title for caution in cautions_for(caution_facts_of(whole))}
    shown = {title for titles in titles_of(whole).values() for title in titles}
    # The list has one caution for the hottest step; a cooler one beside it may only scald.
    assert shown <= listed | ({"Hot liquid and steam"} if "Hot syrup" in listed else set())
    assert listed & {"Raw egg", "Lightly heated egg", "Hot syrup", "Hot liquid and steam"} <= shown
