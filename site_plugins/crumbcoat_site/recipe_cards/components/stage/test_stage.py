"""A stage: its number in the heading, its steps, and what is in the bowl after it."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("h3")[0].text == "Stage 2: Whip"
    assert [step["id"] for step in component.shown.all("li", class_="cc-task")] == ["step-2-1", "step-2-2"]
