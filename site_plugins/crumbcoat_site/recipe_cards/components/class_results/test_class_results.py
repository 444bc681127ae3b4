"""The results of a class: a place for codes and files; the rest follows from them."""

from typing import Any

from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.pages.examples import SAMPLE
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.calc.forms.test_class_results import code
from tests.site_plugins.recipe_cards.component_checks import Component, check

_, RECIPE = load_recipe(COMPONENTS / f"{SAMPLE}.yaml", f"{SAMPLE}.yaml")
CODE = code(title=str(RECIPE["title"]).replace(" ", "_"))


def test_the_example(component: Component) -> None:
    check(component)
    assert [field["name"] for field in component.shown.all("textarea")] == ["codes"]
    assert component.shown.all("class-results")[0]["data-needs"] == "calculator"


def test_the_table_has_a_head_for_each_column(component: Component) -> None:
    texts: Any = run("class_results", context_from({"recipe": RECIPE}), {}, {"codes": CODE})[1]
    (section,) = texts["results"]
    (row,) = component.shown.all("article", class_="cc-result")[0].all("thead")[0].all("tr")
    assert len(row.children) == len(section["table"][0])
