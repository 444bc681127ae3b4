"""The card of a group of a class: what it found, which the script shows on a phone that is in a group."""

from crumbcoat_site.recipe_cards.build.environment import component as html_of
from crumbcoat_site.recipe_cards.pages.examples import example
from markupsafe import Markup

from tests.site_plugins.recipe_cards.component_checks import Component, check
from tests.site_plugins.recipe_cards.conftest import read_html


def test_the_example(component: Component) -> None:
    check(component)
    names = [field["data-found"] for kind in ("input", "select", "textarea") for field in component.shown.all(kind)]
    assert {"mass", "t_c", "cup", "cup_weighs", "note"} < set(names)


def test_nothing_of_it_shows_until_a_link_was_opened() -> None:
    class Recipe:
        title = 'Lemon & "lime"'

    shown = read_html(str(Markup(html_of("class_card", recipe=Recipe))))
    (template,) = shown.all("template")
    assert template.all("details", class_="cc-class-card")[0]["data-title"] == Recipe.title
    assert [part for part in shown.children if part is not template and str(part).strip()] == []
    assert "Group" in str(example("class_card"))
