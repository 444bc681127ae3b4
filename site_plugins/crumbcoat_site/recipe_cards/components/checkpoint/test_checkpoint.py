"""A checkpoint: signs that it is right, and troubles with their remedies."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [sign.text for sign in component.shown.all("li")] == [
        "The whisk leaves a trail.",
        "The whisk leaves a trail.",
        "Soft peaks bend over.",
    ]
    assert [remedy.text for remedy in component.shown.all("dd")] == [
        "Fold in the cream kept back, by hand. 60 g cream, heavy whipping, 36 % fat, kept back it went in",
        "Fold in a spoonful of cold cream.",
    ]
    assert component.shown.all("input")[0]["name"] == "used.cream.rescue"
