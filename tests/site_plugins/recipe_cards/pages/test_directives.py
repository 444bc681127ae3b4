"""Directives in Markdown pages; which lines are code is CommonMark 0.31.2, 4.4 and 4.5."""

from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.directives import with_directives
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pages.written_directives import directives_in
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

VEIL = RecipePage(
    name="low/veil", key="", handout=False, title="Veil", summary="", family="other", made_for="bowl",
    fat_percent=3.0, fat_text="3 %", cover=None, pictures=(), files=(), slots=(), folder=Path(),
)  # fmt: skip


def replaced(markdown: str, cache: Path, head: str = "") -> str:
    return with_directives(markdown, "page.md", head + markdown, "calculators/map/", [VEIL], PageCache(cache))


def test_a_directive_is_replaced_and_the_lines_around_it_stay(tmp_path: Path) -> None:
    before, _, after = replaced("# Page\n\n<!-- crumbcoat: fat chart -->\n\nEnd\n", tmp_path).partition("<div")
    assert before == "# Page\n\n"
    assert after.endswith("</div>\n\nEnd\n")
    assert 'href="../../low/veil/"' in after


@pytest.mark.parametrize(
    "markdown",
    [
        pytest.param("```\n<!-- crumbcoat: fat chart -->\n```\n", id="in a fence"),
        pytest.param("~~~~ html\n~~~\n<!-- crumbcoat: fat chart -->\n~~~~\n", id="in a longer fence"),
        pytest.param("    <!-- crumbcoat: fat chart -->\n", id="indented as code"),
        pytest.param("Write `<!-- crumbcoat: fat chart -->` on a line.\n", id="within a line"),
    ],
)  # fmt: skip
def test_a_directive_that_is_only_shown_stays(markdown: str, tmp_path: Path) -> None:
    assert directives_in(markdown) == ()
    assert replaced(markdown, tmp_path) == markdown


def test_a_fence_ends_where_it_is_closed() -> None:
    markdown = "```yaml\nfat: 3 %\n```\n<!--  no directive -->\n<!-- crumbcoat:  fat   chart-->\n"
    assert directives_in(markdown) == ("fat chart",)


@pytest.mark.parametrize(
    ("line", "error"),
    [
        pytest.param(
            "<!-- crumbcot: recipe list -->",
            "'<!-- crumbcot: recipe list -->' is not a directive.\n    Fix: write it like `<!-- crumbcoat: recipe list "
            "-->`; the directives are: fat chart, recipe list, groups, models, kinds, card …, "
            "whole card …, by hand from …, ",
            id="misspelt",
        ),
        pytest.param(
            "<!-- crumbcoat recipe list -->",
            "'<!-- crumbcoat recipe list -->' is not a directive.\n    Fix: write it like `<!-- crumbcoat: rec",
            id="without a colon",
        ),
        pytest.param(
            "<!--Crumbcoat: Map from low/veil-->",
            "'<!-- Crumbcoat: Map from low/veil-->' is not a directive.\n    Fix: write it like `<!-- crumbcoat: map",
            id="in capitals",
        ),
        pytest.param(
            "<!-- crumb coat : pies -->", "'<!-- crumb coat : pies -->' is not a directive.", id="in two words"
        ),
        pytest.param("<!-- crumbcoat -->", "'<!-- crumbcoat -->' is not a directive.", id="alone"),
        pytest.param(
            "All recipes: <!-- crumbcoat: recipe list -->",
            "'<!-- crumbcoat: recipe list -->' is in a line with other text.\n    Fix: give it a line of its own.",
            id="inside a line",
        ),
        pytest.param(
            "<!-- crumbcoat: recipe",
            "'<!-- crumbcoat: recipe' has no end in its line.\n    Fix: write all of it in one line, up to `-->`.",
            id="over two lines",
        ),
    ],
)
def test_what_was_meant_for_a_directive_is_an_error(line: str, error: str, tmp_path: Path) -> None:
    with pytest.raises(SourceError) as caught:
        replaced(f"# Page\n\n{line}\n", tmp_path)
    assert str(caught.value).startswith(f"page.md:3: {error}")


@pytest.mark.parametrize(
    "line", ["<!-- crumbs on the board -->", "<!-- a remark on crumbcoat -->", "<!---->", "<!-- Coat: blue -->"]
)
def test_another_comment_stays(line: str, tmp_path: Path) -> None:
    assert replaced(f"{line}\n", tmp_path) == f"{line}\n"


@pytest.mark.parametrize(
    ("words", "error"),
    [
        ("fat chrt", "there is no directive 'fat chrt'.\n    Fix: did you mean 'fat chart'? The others: "),
        (
            "list of pies",
            "there is no directive 'list of pies'.\n    Fix: did you mean 'recipe list'? The others: fat chart, ",
        ),
        (
            "pies",
            "there is no directive 'pies'.\n    Fix: write one of: fat chart, recipe list, ",
        ),
        ("map from", "'map from' names no recipe.\n    Fix: write `map from` and the path of a recipe."),
        ("map from low/veli", "there is no recipe 'low/veli'.\n    Fix: did you mean 'low/veil'?"),
        ("map from veil.yaml", "there is no recipe 'veil.yaml'.\n    Fix: did you mean 'low/veil'?"),
        (
            "map from xyz",
            "there is no recipe 'xyz'.\n    Fix: name a recipe by its path without the ending, such as 'low/veil'.",
        ),
    ],
)
def test_a_wrong_directive_gives_its_line_in_the_file(words: str, error: str, tmp_path: Path) -> None:
    with pytest.raises(SourceError) as caught:
        replaced(f"# Page\n\n<!-- crumbcoat: {words} -->\n", tmp_path, head="---\ntitle: Page\n---\n")
    assert str(caught.value).startswith(f"page.md:6: {error}")
