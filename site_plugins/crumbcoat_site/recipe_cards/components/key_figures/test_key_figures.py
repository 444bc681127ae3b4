"""What a reader wants to know first."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("dt")[0].text == "Fat"
    assert component.shown.all("span", data_text="fat.percent")


def test_every_figure_is_live(component: Component) -> None:
    figures = {
        name.text: [output["data-text"] for output in figure.all() if "data-text" in output.attributes]
        for name, figure in zip(component.shown.all("dt"), component.shown.all("dd"), strict=True)
    }
    assert figures == {
        "Fat": ["fat.percent"],
        "Makes": ["finished_cups", "finished_mass", "portions_of"],
        "Time": ["time", "time.attended"],
    }
