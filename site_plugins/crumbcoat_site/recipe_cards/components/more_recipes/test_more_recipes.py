"""Other recipes below a card, and its groups."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("nav")[0]["aria-label"] == "Near this one"
    assert [link.text for link in component.shown.all("a")] == [
        "Everyday milk frosting as rich, no egg listed", "Silk milk frosting", "ganache",
    ]  # fmt: skip
