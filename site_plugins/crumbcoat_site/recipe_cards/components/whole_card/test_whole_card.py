"""A whole card on another page: its short form, and the address of the frame that takes its place."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (card,) = component.shown.all("whole-card")
    assert (card["src"], card["data-title"]) == ("butter/embed/", "Butter cream")
    assert "Butter and sugar." in card.text
    assert not component.shown.all("iframe"), "without scripts, only the short form shows"
