"""The form of a trial: every field that the calculator reads is there once, here or at a checkpoint."""

from crumbcoat_calc.forms.trial_notes import PREFIX, note_fields
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.pages.examples import SAMPLE
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    fields = [field["name"] for kind in ("input", "select") for field in component.shown.all(kind)]
    own = [name.removeprefix(PREFIX) for name in fields if name.startswith(PREFIX)]
    path = COMPONENTS / f"{SAMPLE}.yaml"
    recipe = recipe_from(load_recipe(path, path.name)[1])
    assert sorted(own) == sorted(name for name in note_fields(recipe) if not name.startswith(("right.", "seen.")))
    assert {name for name in fields if not name.startswith(PREFIX)} == {
        "cup",
        "cup_weighs",
        "ph",
        "chilled_from",
        "chilled_to",
        "chilled_minutes",
        "cold_temperature",
    }


def test_nothing_of_it_is_there_without_scripts_or_open_at_first(component: Component) -> None:
    around = component.shown.all("details", class_="cc-kept-trial")[0]
    assert around["data-needs"] == "calculator"
    assert "open" not in around.attributes
