"""How a step is done, and the button of its timer."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    signs = {item["class"] for item in component.shown.all("li")}
    assert signs == {
        f"cc-how-{sign}" for sign in ("tool", "speed", "time", "additions", "heat", "curdles", "cool", "lost")
    }
    assert component.shown.all("button")[0]["data-longest"] == "240"
