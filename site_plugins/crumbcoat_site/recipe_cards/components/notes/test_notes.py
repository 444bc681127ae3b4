"""Notes on the recipe."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [note.text for note in component.shown.all("li")] == [
        "Cold tools help.", "Sweeten to taste.", "Since 3 May 2026: 15 g less sugar. It wept.",
    ]  # fmt: skip
