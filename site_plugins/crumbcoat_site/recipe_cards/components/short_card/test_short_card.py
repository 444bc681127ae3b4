"""A card on another page: the amounts of one batch, and the way to the whole card."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [link["href"] for link in component.shown.all("a")] == ["butter/"] * 3
    rows = [[cell.text for cell in row.all() if cell.name in ("th", "td")] for row in component.shown.all("tr")]
    assert rows == [["butter", "250 g", "1 1/8 cups"], ["icing sugar", "320 g", ""]]
