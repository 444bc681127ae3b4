"""Notes beside a step."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [note.text for note in component.shown.all("b")] == ["Look for", "Why", "In another size"]
