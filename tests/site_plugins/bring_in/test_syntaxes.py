"""JSON-LD, microdata and RDFa give the same items; RDFa as pyRdfa3 reads it, which is not ours."""

import io
import json
import warnings
from email.message import EmailMessage
from pathlib import Path

import pytest
from crumbcoat_site.bring_in.html_page import html_page
from crumbcoat_site.bring_in.items import Item, everything_in, short_name, with_references
from crumbcoat_site.bring_in.json_items import JsonProblem, items_of_json
from crumbcoat_site.bring_in.microdata import microdata_items
from crumbcoat_site.bring_in.plain_texts import plain
from crumbcoat_site.bring_in.rdfa import rdfa_items
from crumbcoat_site.bring_in.saved_pages import read_page

PAGES = Path(__file__).parent / "pages"

JSON = """
{"@context": "https://schema.org", "@type": "Recipe", "name": "Veil",
 "author": {"@type": "Person", "name": "Ada"}, "recipeIngredient": ["1 cup cream", "2 tbsp sugar"],
 "datePublished": "2020-02-03", "image": "veil.jpg", "url": "https://loft.example/veil"}
"""
MICRODATA = """
<div itemscope itemtype="https://schema.org/Recipe"><b itemprop="name">Veil</b>
<i itemprop="author" itemscope itemtype="https://schema.org/Person"><span itemprop="name">Ada</span></i>
<p itemprop="recipeIngredient">1 cup cream</p><p itemprop="recipeIngredient">2 tbsp <b>sugar</b></p>
<time itemprop="datePublished" datetime="2020-02-03">3 Feb</time><img itemprop="image" src="veil.jpg">
<a itemprop="url" href="https://loft.example/veil">here</a></div>
"""
RDFA = """
<div vocab="http://schema.org/" typeof="Recipe"><b property="name">Veil</b>
<i property="author" typeof="Person"><span property="name">Ada</span></i>
<p property="recipeIngredient">1 cup cream</p><p property="recipeIngredient">2 tbsp <b>sugar</b></p>
<time property="datePublished" datetime="2020-02-03">3 Feb</time><img property="image" src="veil.jpg">
<a property="url" href="https://loft.example/veil">here</a></div>
"""
RDFA_WITH_PREFIX = RDFA.replace(
    'vocab="http://schema.org/" typeof="Recipe"', 'prefix="s: https://schema.org/" typeof="s:Recipe"'
).replace('property="', 'property="s:').replace('typeof="Person"', 'typeof="s:Person"')  # fmt: skip


def plain_item(value: "str | Item") -> object:
    """An item as plain data."""
    if isinstance(value, str):
        return plain(value)
    properties = {name: [plain_item(one) for one in values] for name, values in value.properties.items()}
    return {"type": list(value.types), **properties}


def root_of(html: str) -> object:
    page = html_page(f"<html><body>{html}</body></html>".encode())
    assert page is not None
    return page.root


def test_the_three_syntaxes_say_the_same() -> None:
    [expected] = [plain_item(item) for item in items_of_json(JSON)]
    assert [plain_item(item) for item in microdata_items(root_of(MICRODATA))] == [expected]
    assert [plain_item(item) for item in rdfa_items(root_of(RDFA))] == [expected]
    assert [plain_item(item) for item in rdfa_items(root_of(RDFA_WITH_PREFIX))] == [expected]


@pytest.mark.parametrize("html", [RDFA, RDFA_WITH_PREFIX, (PAGES / "rdfa.html").read_text(encoding="utf-8")])
def test_rdfa_is_as_pyrdfa_reads_it(html: str) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # Both libraries use what Python deprecates.
        from pyRdfa import pyRdfa
        from rdflib import Graph
        from rdflib.namespace import RDF

        graph = pyRdfa(media_type="text/html").graph_from_source(io.StringIO(html), graph=Graph())
    theirs = {
        (short_name(str(predicate)), " ".join(str(value).split()))
        for subject, predicate, value in graph
        if predicate != RDF.type and not str(value).startswith("N") and "schema.org" in str(predicate)
    }
    ours = {
        (name, plain(value))
        for item in everything_in(rdfa_items(root_of(html)))
        for name, values in item.properties.items()
        for value in values
        if isinstance(value, str) and name[0] != "o"
    }
    assert {(name, value.rpartition("/")[2]) for name, value in ours} == {
        (name, value.rpartition("/")[2]) for name, value in theirs
    }
    assert len(ours) > 5


def test_a_page_in_one_file_is_read(tmp_path: Path) -> None:
    message = EmailMessage()
    message["Snapshot-Content-Location"] = "https://loft.example/2020/veil/"
    message.set_content("a page in one file")
    message.add_related(b"\x89PNG", "image", "png")
    message.add_related(f"<html><body>{MICRODATA}</body></html>", "html", cte="quoted-printable")
    path = tmp_path / "veil.mhtml"
    path.write_bytes(message.as_bytes())
    [found] = read_page(path, "veil.mhtml").recipes
    assert (found.title, found.published, found.lines) == ("Veil", "2020-02-03", ("1 cup cream", "2 tbsp sugar"))
    assert found.addresses == ("https://loft.example/veil", "https://loft.example/2020/veil/")


@pytest.mark.parametrize("name", ["Veil", "Veil – Loft"])
def test_a_recipe_in_two_syntaxes_is_one(tmp_path: Path, name: str) -> None:
    path = tmp_path / "page.html"
    script = f'<script type="application/ld+json">{JSON.replace("Veil", name)}</script>'
    path.write_text(f"<html><body>{script}{MICRODATA}{RDFA}</body></html>", encoding="utf-8")
    assert [found.syntax for found in read_page(path, "page.html").recipes] == ["JSON-LD"]


def test_microdata_follows_itemref_and_stops_at_items() -> None:
    html = """<div itemscope itemtype="http://schema.org/Recipe" itemref="a b a"><p itemprop="name headline">Veil</p>
    <div itemscope><p itemprop="name">not the recipe's</p></div></div>
    <p id="a" itemprop="keywords">x</p><div id="b"><p itemprop="keywords">y</p></div>"""
    recipe, other = microdata_items(root_of(html))
    assert {name: [plain_item(one) for one in values] for name, values in recipe.properties.items()} == {
        "name": ["Veil"], "headline": ["Veil"], "keywords": ["x", "y"],
    }  # fmt: skip
    assert other.types == ()


def test_an_item_that_refers_to_itself_comes_to_an_end() -> None:
    html = '<div id="a" itemscope itemref="a" itemtype="https://schema.org/Recipe"><p itemprop="name">x</p></div>'
    assert [item.properties for item in microdata_items(root_of(html))] == [{"name": ["x"]}]
    items = with_references(items_of_json('[{"@id": "#a", "@type": "Recipe", "isPartOf": {"@id": "#a"}}]'))
    assert len(list(everything_in(items))) == 1


@pytest.mark.parametrize(
    ("text", "names"),
    [
        pytest.param('<!-- {"@type": "Recipe", "name": "a"} -->', ["a"], id="in an HTML comment"),
        pytest.param('//<![CDATA[\n{"@type": "Recipe", "name": "a"}\n//]]>', ["a"], id="in CDATA"),
        pytest.param('{"@type": "Recipe", "name": "a",}', ["a"], id="a comma too many"),
        pytest.param('{"@type": "Recipe", "name": "a, }"};', ["a, }"], id="a comma in a text stays"),
        pytest.param('{"@type": "Recipe", "name": "a\nb"}', ["a\nb"], id="a line break in a text"),
        pytest.param(
            '{"@type": "Recipe", "name": {"@value": "a", "@language": "en"}}', ["a"], id="a value with a language"
        ),
        pytest.param('{"@type": "Recipe", "name": {"@list": ["a", "b"]}}', ["a", "b"], id="an ordered list"),
        pytest.param('{"@type": "Recipe", "name": 7}', ["7"], id="a number"),
        pytest.param('{"@type": "Recipe", "name": null}', [], id="nothing"),
    ],
)
def test_json_as_pages_have_it(text: str, names: list[str]) -> None:
    [item] = items_of_json(text)
    assert item.values("name") == names


@pytest.mark.parametrize(
    "text", ["{", "not JSON", '{"a": }', "[" * 100_000, '{"n": ' + "9" * 5000 + "}"], ids=lambda text: text[:8]
)
def test_json_that_cannot_be_read(text: str) -> None:
    with pytest.raises(JsonProblem):
        items_of_json(text)


def test_what_is_nested_too_deeply_is_not_read() -> None:
    data: object = {"@type": "Recipe", "name": "deep"}
    for _ in range(60):
        data = {"@type": "Thing", "mainEntity": data}
    found = list(everything_in(items_of_json(json.dumps(data))))
    assert 10 < len(found) < 60
    assert not any(item.is_a("Recipe") for item in found)
