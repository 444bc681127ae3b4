"""A card in a page of another site, and the lines that put it there."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (card,) = component.shown.all("div", class_="cc-embedded")
    assert [heading.text for heading in card.all("h2")][:2] == ["Ingredients", "Method"]
    assert card.all("recipe-calculator", name="label"), "cautions follow from what the reader changes"
    (line,) = component.shown.all("code", class_="cc-line")
    assert line.text == '<iframe src="https://example.org/veil/embed/"></iframe>'
