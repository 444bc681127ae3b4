"""The cake: its tiers, cupcakes and coats, cut open."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("fieldset", class_="cc-tier")) == 13
    assert [picture["data-picture"] for picture in component.shown.all("div", class_="cc-picture")]
