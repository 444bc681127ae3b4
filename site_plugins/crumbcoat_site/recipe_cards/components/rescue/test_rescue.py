"""From the head of the method to where a batch can be rescued."""

from crumbcoat_site.recipe_cards.build.environment import component as component_html

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [link["href"] for link in component.shown.all("a")] == ["#trouble-2.1-1", "#trouble-2.1-2"]


def test_a_recipe_without_checkpoints_has_no_such_line() -> None:
    assert component_html("rescue", signs=[]).strip() == ""
