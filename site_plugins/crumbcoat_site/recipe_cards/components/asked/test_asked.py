"""What readers asked, and the answers."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [part.text for part in component.shown.all("dt")] == ["Can it be made the day before?"]
    assert [part.text for part in component.shown.all("dd")] == ["Yes: covered, in the refrigerator."]
