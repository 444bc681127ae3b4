"""Tips of the author."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [tip.text for tip in component.shown.all("li")] == [
        "Warm the bowl first.", "A cold spoon shows whether it is done.",
    ]  # fmt: skip
