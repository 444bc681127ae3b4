"""What a teacher needs around the cooking."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    captions = [caption.text for caption in component.shown.all("caption")]
    assert captions[-2:] == ["What students know, can do and explain", "How the practical work is judged"]
    assert "0 is" in component.html
