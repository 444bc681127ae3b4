"""Pages that mean harm: sizes, nesting, entities, paths, and texts that would be something else in YAML."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_site.bring_in import html_page, saved_pages
from crumbcoat_site.bring_in.addresses import local_file, old_path
from crumbcoat_site.bring_in.draft import Settings, draft_of
from crumbcoat_site.bring_in.found_recipe import FoundRecipe, FoundSection, FoundStep
from crumbcoat_site.bring_in.microdata import microdata_items
from crumbcoat_site.bring_in.pictures import pictures_of
from crumbcoat_site.bring_in.plain_texts import one_line
from crumbcoat_site.bring_in.rdfa import rdfa_items
from crumbcoat_site.bring_in.saved_pages import MOST_RECIPES, read_page
from crumbcoat_site.recipe_cards.source.yaml_text import read_document
from hypothesis import given
from hypothesis import strategies as st

SETTINGS = Settings(author="Lantern Street teaching kitchen", own={})
PNG = b"\x89PNG\r\n\x1a\n" + b"\0" * 40

TEXTS = st.text(st.characters(codec="utf-8"), max_size=60) | st.sampled_from(
    ["a: b", "# c", "- d", "&x", "*y", "!!tag z", "%YAML 1.2", "---", "...", "{a: 1}", "[1]", "'", '"', "`", "| x",
     "> y", "yes", "null", "\x85draft: no", "\u2028title: x", "\r\ntitle: y", "\\", "*a* _b_ `c` [d](javascript:e)",
     "\u202e", "\ufeff"]
)  # fmt: skip


def page_with(folder: Path, *recipes: dict[str, object], html: str = "") -> Path:
    """A saved page with recipes as JSON-LD."""
    scripts = "".join(f'<script type="application/ld+json">{json.dumps(recipe)}</script>' for recipe in recipes)
    path = folder / "page.html"
    path.write_text(f"<html><head>{scripts}</head><body>{html}</body></html>", encoding="utf-8")
    return path


def recipe(**fields: object) -> dict[str, object]:
    return {"@type": "Recipe", "name": "Veil", "recipeIngredient": ["100 g sugar"], **fields}


def test_no_address_of_a_page_has_signs_for_a_terminal(tmp_path: Path) -> None:
    """ECMA-48: a terminal takes what follows ESC, or U+009B, as an order."""
    for link in ('canonical" href', 'x"><meta property="og:url" content'):
        path = tmp_path / "page.html"
        script = f'<script type="application/ld+json">{json.dumps(recipe())}</script>'
        path.write_text(f'<link rel="{link}="https://old.example/?\x1b]0;x\x07\x9b31m">{script}', encoding="utf-8")
        assert [found.addresses for found in read_page(path, "page.html").recipes] == [
            ("https://old.example/?]0;x31m",)
        ]


def test_addresses_beyond_the_first_ten_are_named(tmp_path: Path) -> None:
    urls = [f"https://old.example/{n}/" for n in range(12)]
    draft = draft_of(read_page(page_with(tmp_path, recipe(url=urls)), "page.html").recipes[0], SETTINGS)
    assert draft.moved_from == tuple([f"{n}/" for n in range(10)])
    assert draft.lost_addresses == tuple(urls[10:])


@given(st.lists(TEXTS, min_size=8, max_size=8))
def test_no_text_of_a_page_is_anything_but_text(texts: list[str]) -> None:
    title, summary, author, keyword, line, section, step, other = texts
    found = FoundRecipe(
        title=one_line(title), summary=one_line(summary), authors=(), published="", updated="",
        cuisine=one_line(author), yields=(one_line(keyword),), lines=(f"100 g {one_line(line)}", one_line(line)),
        sections=(FoundSection(title=one_line(section), steps=(FoundStep(text=one_line(step) or "x"),)),),
        keywords=(one_line(keyword) or "k",), category="", pictures=(), addresses=(other,), language="",
        syntax="JSON-LD", others=((one_line(other), one_line(other)),),
    )  # fmt: skip
    draft = draft_of(found, SETTINGS)
    data = read_document(draft.text).data
    assert isinstance(data, dict)
    assert data["draft"] == "yes"
    assert data["title"] == (one_line(title) or "Recipe without a name")
    assert plain_text(data["stages"][0]["steps"][0]["do"]) == (one_line(step) or "x")
    assert data["author"] == SETTINGS.author
    assert "made" not in data


def test_a_page_that_is_too_large_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(saved_pages, "LARGEST", 1000)
    page = read_page(page_with(tmp_path, recipe(description="x" * 2000)), "page.html")
    assert page.recipes == []
    assert [problem.remedy for problem in page.problems] == ["save the page as HTML alone"]


def test_of_many_recipes_only_some_are_taken(tmp_path: Path) -> None:
    page = read_page(page_with(tmp_path, *[recipe(name=f"Veil {n}") for n in range(MOST_RECIPES + 5)]), "page.html")
    assert len(page.recipes) == MOST_RECIPES
    assert [problem.problem for problem in page.problems] == [
        f"the page has more than {MOST_RECIPES} recipes, and 'Veil {MOST_RECIPES}' is left out"
    ]


def test_entities_of_a_page_are_not_expanded(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    levels = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12))
    path.write_text(
        f'<!DOCTYPE html [<!ENTITY a0 "x">{levels}<!ENTITY f SYSTEM "file:///etc/hostname">]><html><body>'
        '<div itemscope itemtype="https://schema.org/Recipe"><p itemprop="name">&a11;&f;</p>'
        '<p itemprop="recipeIngredient">1 g salt</p></div></body></html>',
        encoding="utf-8",
    )
    [found] = read_page(path, "page.html").recipes
    assert len(found.title) < 100
    assert "&" in found.title


@pytest.mark.parametrize(
    "html",
    [
        "<div>" * 20_000,
        '<div itemscope itemprop="a">' * 5000,
        "<" * 50_000,
        '<p id="a">x</p>' * 500 + '<div itemscope itemref="a b"></div>' * 2000,
        f"{'<div itemscope><p itemprop=b>' * 100}{'x' * 200_000}",
    ],
    ids=["deep", "nested items", "no tags", "references", "one text in many properties"],
)
def test_deep_and_broken_html_is_read_to_an_end(tmp_path: Path, html: str) -> None:
    page = read_page(page_with(tmp_path, recipe(), html=html), "page.html")
    assert [found.title for found in page.recipes] == ["Veil"]


@pytest.mark.parametrize(
    "part", ["<a ", "<!--", "</", "<a b='", '<a b="x ', "<a/", "&", "<script>", "<p>a</p>", "1 cup plus ", "1. A "]
)
def test_a_text_that_never_ends_is_read_to_an_end(tmp_path: Path, part: str) -> None:
    endless = part * (100_000 // len(part))
    fields = {"description": endless, "recipeIngredient": [endless], "recipeInstructions": ["Stir.", endless]}
    page = read_page(page_with(tmp_path, recipe(**fields)), "page.html")
    data = read_document(draft_of(page.recipes[0], SETTINGS).text).data
    assert isinstance(data, dict)
    assert data["stages"][0]["steps"][0]["do"] == "Stir."


def test_of_too_many_lines_and_steps_the_draft_says_so(tmp_path: Path) -> None:
    lines = [f"{n} g sugar" for n in range(1, 251)]
    page = read_page(page_with(tmp_path, recipe(recipeIngredient=lines, recipeInstructions=lines)), "page.html")
    text = draft_of(page.recipes[0], SETTINGS).text
    assert "# recipeIngredient: 50 more lines are left out" in text
    assert "# recipeInstructions: only the first 200 steps are here" in text


def referring(kind: str, field: str) -> list[dict[str, object]]:
    """Items of which each refers ten times to the next one, and the last one to the first."""
    return [{"@id": f"#{n}", "@type": kind, field: [{"@id": f"#{(n + 1) % 30}"}] * 10} for n in range(30)]


@pytest.mark.parametrize("kind", ["HowToSection", "ItemList"])
def test_instructions_that_refer_to_each_other_are_read_once(tmp_path: Path, kind: str) -> None:
    items = [*referring(kind, "itemListElement"), {"@id": "#5", "@type": "HowToStep", "text": "Stir."}]
    [found] = read_page(
        page_with(tmp_path, {"@graph": [recipe(recipeInstructions=[{"@id": "#0"}, {"@id": "#5"}]), *items]}),
        "page.html",
    ).recipes
    assert [step.text for section in found.sections for step in section.steps] == []
    steps = [{"@id": "#s", "@type": "HowToStep", "text": "Stir."}, {"@id": "#s"}, "Stir.", "Stir."]
    [found] = read_page(page_with(tmp_path, recipe(recipeInstructions=steps)), "page.html").recipes
    assert [step.text for section in found.sections for step in section.steps] == ["Stir."] * 3


def test_other_properties_that_refer_to_each_other_are_shown_once(tmp_path: Path) -> None:
    items = [one | {f"p{n}": one["p"] for n in range(20)} for one in referring("Thing", "p")]
    others = {f"q{n}": "x" for n in range(300)}
    [found] = read_page(
        page_with(tmp_path, {"@graph": [recipe(of={"@id": "#0"}, **others), *items]}), "page.html"
    ).recipes
    shown = dict(found.others)
    assert len(shown["of"]) <= 2000
    assert len(shown) == 201
    assert shown["properties"] == "101 more are left out"


@pytest.mark.parametrize(("syntax", "name"), [("microdata", "itemprop"), ("RDFa", "property")])
def test_a_text_in_many_elements_is_not_copied_without_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, syntax: str, name: str
) -> None:
    monkeypatch.setattr(html_page, "MOST_LETTERS_OF_PAGE", 50_000)
    nested = f"{f'<div {name}=b>' * 100}{'x' * 900}{'</div>' * 100}" * 20
    scope = 'itemscope itemtype="https://schema.org/Recipe"' if name == "itemprop" else 'vocab="https://schema.org/"'
    kind = "" if name == "itemprop" else ' typeof="Recipe"'
    path = tmp_path / "page.html"
    path.write_text(f"<div {scope}{kind}><p {name}=name>Veil</p><p {name}=recipeIngredient>1 g salt</p>{nested}</div>")
    root = html_page.html_page(path.read_bytes()).root  # type: ignore[union-attr]
    [item] = (microdata_items if name == "itemprop" else rdfa_items)(root)
    assert item.properties["name"] == ["Veil"]
    assert sum(len(value) for value in item.properties["b"] if isinstance(value, str)) < 100_000
    assert [found.syntax for found in read_page(path, "page.html").recipes] == [syntax]


@pytest.mark.parametrize("content", [b"", b"\0" * 100, b"\xff\xfe\xff", b"<html></html>", b"GIF89a"])
def test_a_file_without_a_recipe_is_a_problem(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(content)
    page = read_page(path, "page.html")
    assert page.recipes == []
    assert len(page.problems) == 1
    assert str(page.problems[0]).startswith("page.html: ")


def test_a_page_of_another_encoding_is_read(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    html = '<html><head><meta charset="iso-8859-1"></head><body><div itemscope itemtype="https://schema.org/Recipe">'
    path.write_bytes(
        f'{html}<p itemprop="name">Crème</p><p itemprop="recipeIngredient">1 g salt</p></div>'.encode("latin-1")
    )
    assert [found.title for found in read_page(path, "page.html").recipes] == ["Crème"]


@pytest.mark.parametrize(
    "address",
    ["../secret.png", "a/../../secret.png", "..\\secret.png", "%2e%2e/secret.png", "file:///secret.png", "link.png",
     "https://x.example/secret.png", "data:image/png;base64,AAAA", "a\0b.png", "page_files", "x" * 5000],
)  # fmt: skip
def test_no_file_outside_of_the_page_s_folder_is_a_picture(tmp_path: Path, address: str) -> None:
    folder = tmp_path / "saved"
    (folder / "page_files").mkdir(parents=True)
    (tmp_path / "secret.png").write_bytes(PNG)
    (folder / "link.png").symlink_to(tmp_path / "secret.png")
    assert local_file(address, folder / "page.html") is None


def test_a_picture_is_known_by_what_is_in_it(tmp_path: Path) -> None:
    files = {"a.gif": PNG, "b.jpg": b"\xff\xd8\xff\xe0", "c.png": b"<svg>", "d.webp": b"RIFF\0\0\0\0WEBPVP8 "}
    for name, content in files.items():
        (tmp_path / name).write_bytes(content)
    steps = {"1-1": "b.jpg", "1-2": "c.png", "2-1": "d.webp", "2-2": "https://x.example/e.jpg", "2-3": "f.jpg"}
    found = pictures_of("veil", ["a.gif", "b.jpg"], steps, tmp_path / "page.html", [])
    assert {name: path.name for name, path in found.files.items()} == {
        "veil.png": "a.gif", "veil.1-1.jpg": "b.jpg", "veil.2-1.webp": "d.webp",
    }  # fmt: skip
    assert found.remote == ("https://x.example/e.jpg",)
    assert found.unusable == (
        ("b.jpg", "a card has one cover"),
        ("c.png", "not a JPEG, PNG, WebP or AVIF picture"),
        ("f.jpg", "not there"),
    )


@pytest.mark.parametrize(
    ("address", "path"),
    [
        ("https://old.example/a/b", "a/b/"), ("http://old.example/a/b.html#x", "a/b.html"), ("/a/b/", "a/b/"),
        ("https://old.example/", ""), ("https://old.example/?p=1", ""), ("javascript:a/b", ""), ("a/../b", ""),
        ("https://old.example/%2e%2e/b", ""), ("https://old.example/a%00b", ""), ("http://[", ""),
        ("https://old.example/a%5Cb", ""), ("https://old.example/cr%E8me/", ""),
        ("https://old.example/_headers", ""), ("https://old.example/robots.txt", ""),
        ("https://old.example/a%E2%80%AEb/", ""), ("https://old.example/a%C2%85b/", ""),
        ("/".join("a" * 20), ""), ("https://old.example/cr%C3%A8me/", "crème/"),
    ],
)  # fmt: skip
def test_the_path_of_an_old_address(address: str, path: str) -> None:
    assert old_path(address) == path
