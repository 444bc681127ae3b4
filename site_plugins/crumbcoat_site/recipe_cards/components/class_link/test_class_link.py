"""Links and codes for phones: a place for each group, which the script fills."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("class-links")) == 1
    # One in the template that the script copies, one of the group.
    assert [link.attributes.get("href") for link in component.shown.all("a", class_="cc-phone-link")] == [None] * 2


def test_it_is_folded_and_there_only_with_scripts(component: Component) -> None:
    around = component.shown.all("details", class_="cc-phones")[0]
    assert around["data-needs"] == "calculator"
    assert "open" not in around.attributes
