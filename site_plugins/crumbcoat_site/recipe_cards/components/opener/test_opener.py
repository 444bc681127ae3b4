"""The opening of a card: plate and family before the title, then summary and byline."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("p", class_="cc-family")[0].text == "whipped cream"
    assert component.shown.all("time")[0]["datetime"] == "2026-03-31"
    assert component.shown.all("p", class_="cc-byline")[0].text.endswith("Worked out, not yet made")
