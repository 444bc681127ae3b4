"""Headings and islands of a page: CommonMark 0.31.2 says what a heading is and what a backslash escapes."""

from crumbcoat_calc.forms.context import published_from
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_parts import PageParts, join
from crumbcoat_site.recipe_cards.card.card import card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from markdown import markdown
from markupsafe import Markup

from ..conftest import ROOT

SILK = "milk-emulsions/silk-milk-frosting"


def page_of(*parts: tuple[int, str] | str) -> PageParts:
    page = PageParts()
    for part in parts:
        if isinstance(part, str):
            page.html(Markup(part))
        else:
            page.heading(*part)
    return page


def test_html_between_two_headings_is_one_island_whatever_it_was_made_of() -> None:
    page = page_of("<p>before</p>", (1, "Veil"), "<p>one</p>\n", "", "<p>two</p>", (2, "Method"))
    assert page.markdown == '<p data-island="0">before</p>\n\n# Veil\n\n<p data-island="1">one two</p>\n\n## Method\n\n'
    assert join('<p data-island="1">one two</p>', page.islands) == "<p>one</p>\n<p>two</p>"


def test_only_prose_is_searched() -> None:
    page = page_of("<p>Fat <svg><text>12</text></svg><select><option>g</option></select>rises</p>")
    assert page.markdown == '<p data-island="0">Fat rises</p>\n\n'


def test_a_title_is_a_heading_in_one_line_and_shown_letter_for_letter() -> None:
    title = "1. *Veil*\n# [no](x) <b> `&amp;`"
    page = page_of((2, title))
    shown = "1. *Veil* # [no](x) &lt;b&gt; `&amp;amp;`"
    assert markdown(page.markdown) == f"<h2>{shown}</h2>"


def test_a_section_without_html_has_no_heading() -> None:
    page = PageParts()
    page.section(2, "Keeping", Markup(" "))
    page.section(2, "Notes", Markup("<p>one</p>"), before=Markup("<b>1</b>"))
    assert page.markdown == '## <b>1</b> Notes\n\n<p data-island="0">one</p>\n\n'


def test_a_component_whose_folder_is_gone_shows_nothing() -> None:
    assert component("no_such_component", texts={}) == ""


def test_a_card_prints_nothing_outside_its_parts() -> None:
    file = RecipeFile(path=ROOT / "recipes" / f"{SILK}.yaml", name=SILK, photos={})
    recipe, data = load_recipe(file.path, file.shown)
    card = card_from(published_from(data, recipe), file, None, CardOptions(None, True), True)
    page = PageParts()
    assert not component("card", page=page, card=card, recipe=card.recipe, texts=card.texts)
    assert page.islands.count("cc-stage") >= len(card.recipe.stages)
