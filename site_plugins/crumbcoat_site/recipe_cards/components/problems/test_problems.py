"""What is wrong with the writer's files, while the site is served."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert (
        component.shown.all("li")[0].text
        == "docs/lemon.yaml:7 'tbsp' is ambiguous. Fix: say which one: `US tbsp` or `metric tbsp`."
    )
