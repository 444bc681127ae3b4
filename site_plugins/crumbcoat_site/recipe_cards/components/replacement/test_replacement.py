"""What may take an ingredient's place."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    groups = [group["label"] for group in component.shown.all("optgroup")]
    assert groups == ["The recipe suggests", "By composition, not tried"]
