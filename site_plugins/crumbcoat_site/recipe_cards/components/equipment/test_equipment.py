"""What is needed for a recipe."""

from dataclasses import replace

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.card.equipment import equipment_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    words = "Equipment saucepan and whisk; stand mixer, whisk; a piping bag with a star tube"
    assert component.shown.all("p")[0].text == words


def test_the_tools_of_the_steps_are_listed_once_and_no_addition_repeats_them() -> None:
    recipe, _ = load_recipe(COMPONENTS / "sample.yaml", "sample.yaml")
    tools = [step.tool for stage in recipe.stages for step in stage.steps if step.tool]
    assert equipment_of(recipe).tools[0] == tools[0]
    assert sorted(equipment_of(recipe).tools) == sorted(set(tools))
    more = replace(recipe, equipment=(tools[0], "a sieve"))
    assert equipment_of(more).added == ("a sieve",)
