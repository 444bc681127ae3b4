"""Addresses that a recipe had before."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.moved_from import earlier_path


@pytest.mark.parametrize(
    ("written", "path"),
    [
        pytest.param("Old/Lemon.PHP", "Old/Lemon.PHP", id="a page of another kind of site"),
        pytest.param("2019/05/lemon-cream/", "2019/05/lemon-cream/", id="a path stays"),
        pytest.param("/2019/05/lemon-cream", "2019/05/lemon-cream/", id="slashes are put right"),
        pytest.param("lemon no. 1-cream", "lemon no. 1-cream/", id="a point that begins no ending"),
        pytest.param("cakes/lemon.html", "cakes/lemon.html", id="a file stays a file"),
        pytest.param("v1.2/", "v1.2/", id="a folder with a point in its name stays a folder"),
        pytest.param("crème fraîche/", "crème fraîche/", id="letters of any script"),
    ],
)
def test_a_path_is_read(written: str, path: str) -> None:
    assert earlier_path(written) == path
    assert earlier_path(path) == path


@pytest.mark.parametrize(
    ("written", "problem"),
    [
        pytest.param("https://old.example/lemon/", "is a whole address", id="an address"),
        pytest.param("lemon/?p=12", "the character '?'", id="a query, which no static host sees"),
        pytest.param("lemon/#how", "the character '#'", id="a place in a page"),
        pytest.param("..\\lemon", "the character '\\\\'", id="a backslash"),
        pytest.param("%2e%2e/lemon", "the character '%'", id="an escaped path"),
        pytest.param("a/../../lemon", "is not the path of a page", id="a way out of the site"),
        pytest.param("a//b/", "is not the path of a page", id="a folder without a name"),
        pytest.param("/", "is not the path of a page", id="the front page"),
        pytest.param("_headers", "hosts keep for files of their own", id="a file that steers a host"),
        pytest.param("_redirects/x/", "hosts keep for files of their own", id="a folder in its place"),
        pytest.param("a/.htaccess", "hosts keep for files of their own", id="a hidden file"),
        pytest.param("a" * 301, "is not the path of a page", id="too long"),
    ],
)
def test_anything_else_is_refused(written: str, problem: str) -> None:
    with pytest.raises(InputError) as error:
        earlier_path(written)
    assert problem in error.value.problem
    assert error.value.remedy == "write its path alone, such as `2019/05/lemon-cream/`"


@pytest.mark.parametrize("written", ["robots.txt", "feed.xml", "a/sw.js", "a/card.json", "a/site.webmanifest"])
def test_a_file_other_than_a_page_is_refused(written: str) -> None:
    with pytest.raises(InputError) as error:
        earlier_path(written)
    assert error.value.problem == f"{written!r} is not the file of a page"
    assert error.value.remedy == "write the path of a page, such as `old/cream.html`"
