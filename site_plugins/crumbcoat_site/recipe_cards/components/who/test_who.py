"""Who makes what, and a table to compare it in."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert next(cell.text for cell in component.shown.all("caption")) == "Who makes what"
    compared = next(table for table in component.shown.all("table", class_="cc-compared"))
    assert [len(row.all("td")) + len(row.all("th")) for row in compared.all("tr")] == [10, 10]
