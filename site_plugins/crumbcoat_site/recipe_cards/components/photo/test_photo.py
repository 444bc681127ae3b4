"""The place of a picture that does not exist yet, with what it must show."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (figure,) = component.shown.all("figure")
    assert figure["data-file"] == "sample.2-1.jpg"
    assert "A soft peak that bends over" in figure.text
