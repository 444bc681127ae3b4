"""The handout as a page: complete before any script, outside the theme, and without a word of clearance."""

import functools
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
import segno
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import Context, context_from, published_from
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_site.recipe_cards.handout.handout import address, handout_html, kinds_bought
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.calc.forms.test_class_results import code

from ..conftest import ROOT, Element, read_html

NAMES = [
    path.relative_to(ROOT / "recipes").with_suffix("").as_posix()
    for path in sorted((ROOT / "recipes").glob("*/*.yaml"))
]
CLEARANCE = re.compile(
    r"\bsafe\b|safely|no risk|risk[- ]free|harmless|approv|certif|guarant|permitted|no danger|sterile|complie|comply",
    re.IGNORECASE,
)
"""Words that read as a clearance; those of the recipes themselves are not looked at."""


@functools.cache
def handout(site: Path, name: str) -> Element:
    return read_html((site / name / "handout" / "index.html").read_text(encoding="utf-8"))


def one_line(text: str) -> str:
    return " ".join(text.split())


def cells(table: Element) -> list[list[str]]:
    return [[one_line(cell.text) for cell in row.children if isinstance(cell, Element)] for row in table.all("tr")]


def expected(rows: object) -> list[list[str]]:
    assert isinstance(rows, list)
    return [[one_line(plain_text(cell)) for cell in row] for row in rows]


def having(elements: list[Element], attribute: str) -> list[Element]:
    return [element for element in elements if attribute in element.attributes]


def fields_in(element: Element) -> list[Element]:
    return [*element.all("input"), *element.all("select"), *element.all("textarea")]


def calculators(shown: Element) -> list[tuple[str, list[Element]]]:
    """The calculators of a handout by name, with what shows their texts: that of the results is in one element."""
    (results,) = shown.all("class-results")
    (reader,) = results.all("recipe-calculator")
    (planner,) = [one for one in shown.all("recipe-calculator") if one is not reader]
    inside = results.all()
    return [
        (planner["name"], [element for element in shown.all() if element not in inside]),
        (reader["name"], inside),
    ]


def context_of(shown: Element) -> Context:
    """That of the one calculator that has one: the other takes it as well (calculators/context.js)."""
    (calculator,) = having(shown.all("recipe-calculator"), "context")
    return context_from(json.loads(calculator["context"]))


@pytest.mark.no_cover  # A built page is read here.
@pytest.mark.parametrize("name", NAMES)
def test_the_page_prints_what_the_calculators_compute(demo: Path, name: str) -> None:
    shown = handout(demo, name)
    page = (demo / name / "handout" / "index.html").read_text(encoding="utf-8")
    for calculator, elements in calculators(shown):
        texts = run(calculator, context_of(shown))[1]
        assert_printed(elements, texts)
        for picture in having(elements, "data-picture"):
            svg = str(texts[picture["data-picture"]])
            assert svg in page
            assert len(picture.all("svg")) == bool(svg)


def assert_printed(elements: list[Element], texts: Texts) -> None:
    for output in having(elements, "data-text"):
        assert output.text == one_line(str(texts[output["data-text"]])), output["data-text"]
    for table in having(elements, "data-rows"):
        assert cells(table) == expected(texts[table["data-rows"]])
    for field in elements:
        if field.name == "input" and field.attributes.get("type") != "file":
            assert field["value"] == texts[field["name"]]
        if field.name == "textarea":
            assert field.text == texts[field["name"]]
        if field.name == "select":
            (chosen,) = [option for option in field.all("option") if "selected" in option.attributes]
            assert chosen["value"] == texts[field["name"]]
    for place in having(elements, "data-sections"):
        sections = texts[place["data-sections"]]
        template, *copies = [element for element in place.children if isinstance(element, Element)]
        assert template.name == "template"
        assert len(copies) == len(sections)
        for copy, section in zip(copies, sections, strict=True):
            assert isinstance(section, dict)
            for part in having(copy.all(), "data-part"):
                content = section[part["data-part"]]
                if isinstance(content, list):
                    assert cells(part) == expected(content), part["data-part"]
                else:
                    assert part.text == one_line(content), part["data-part"]


def test_each_template_has_a_place_for_every_text_of_a_section(demo: Path) -> None:
    shown = handout(demo, NAMES[0])
    context = context_of(shown)
    title = context.recipes["recipe"].recipe.title.replace(" ", "_")
    states = {"handout": {}, "class_results": {"codes": code(title=title)}}
    for calculator, elements in calculators(shown):
        texts = run(calculator, context, {}, states[calculator])[1]
        for place in having(elements, "data-sections"):
            template = place.all("template")[0]
            parts = {element["data-part"] for element in having(template.all(), "data-part")}
            section = texts[place["data-sections"]][0]
            assert isinstance(section, dict)
            assert parts == set(section), place["data-sections"]


@pytest.mark.parametrize("name", NAMES)
def test_the_handout_is_linked_and_is_not_a_page_of_the_theme(demo: Path, name: str) -> None:
    card = (demo / name / "index.html").read_text(encoding="utf-8")
    assert 'href="handout/"' in card
    source = (demo / name / "handout" / "index.html").read_text(encoding="utf-8")
    assert "md-header" not in source
    shown = handout(demo, name)
    made_by_script = [link for phones in shown.all("", data_needs="calculator") for link in phones.all("a")]
    for link in [*shown.all("link"), *shown.all("a")]:
        if "href" not in link.attributes:  # HTML 4.5.1: a place where a link will be.
            assert link in made_by_script
            assert link.text == ""
            continue
        target = (demo / name / "handout" / link["href"]).resolve()
        assert target.exists(), link["href"]
    index = json.loads((demo / "search" / "search_index.json").read_text(encoding="utf-8"))
    assert not any(f"{name}/handout" in entry["location"] for entry in index["docs"])


@pytest.mark.parametrize("name", NAMES)
def test_every_field_has_a_label_and_a_place_for_its_problem(demo: Path, name: str) -> None:
    """WCAG 2.2: 4.1.2 name, role, value; 3.3.1 error identification; HTML: ids are unique."""
    shown = handout(demo, name)
    for form in shown.all("form"):
        problems = {place["data-problem"] for place in having(form.all(), "data-problem")}
        assert "" in problems
        labels = {id(field): label for label in form.all("label") for field in fields_in(label)}
        for field in fields_in(form):
            label = labels[id(field)]
            if field.attributes.get("type") == "file":
                # Without a name no calculator takes it; the script that reads the files says what is wrong with them.
                assert "name" not in field.attributes
                assert having(label.all(), "data-problem")
            else:
                assert field.name == "select" or field["name"] in problems
    assert len(fields_in(shown)) == sum(len(fields_in(form)) for form in shown.all("form"))
    ids = [element["id"] for element in shown.all() if "id" in element.attributes]
    assert len(ids) == len(set(ids))


@pytest.mark.no_cover  # A built page is read here.
@pytest.mark.parametrize("name", NAMES)
def test_no_caution_and_no_panel_reads_as_a_clearance(demo: Path, name: str) -> None:
    card = read_html((demo / name / "index.html").read_text(encoding="utf-8"))
    panels = [element.text for kind in ("cc-cautions", "cc-label", "cc-cost") for element in card.all("", class_=kind)]
    panels += [element.text for element in handout(demo, name).all("", class_="cc-cautions-sheet")]
    assert len(panels) == 4
    for words in panels:
        assert not CLEARANCE.search(words), CLEARANCE.search(words)
    assert panels[0].count("your local food code decides") == 1
    assert panels[3].count("your local food code decides") == 1


def test_a_word_of_clearance_would_be_found() -> None:
    for words in ("It is safe to eat.", "no risk", "approved for sale", "This complies with the code."):
        assert CLEARANCE.search(words)


def test_the_code_holds_the_address_of_the_card() -> None:
    """ISO/IEC 18004 by segno: the same modules as a code made of the address, and as many as its version has."""
    shown = str(address("https://lantern.example/milk-emulsions/silk/"))
    made = segno.make("https://lantern.example/milk-emulsions/silk/", error="m", micro=False)
    side = made.symbol_size(border=2)[0]
    assert f'viewBox="0 0 {side} {side}"' in shown
    path = re.search(r' d="([^"]+)"', shown)
    assert path
    dark = sum(int(run_) for run_ in re.findall(r"h(\d+)", path[1]))
    assert dark == sum(sum(row) for row in made.matrix)
    assert ">https://lantern.example/milk-emulsions/silk/</a>" in shown


def test_a_handout_leads_to_its_card() -> None:
    recipe, data = load_recipe(ROOT / "recipes" / f"{NAMES[0]}.yaml", NAMES[0])
    shell = HandoutShell(
        styles=(), scripts=(), language="en", site_url="https://lantern.example/cards/", several_url=None
    )
    shown = handout_html(published_from(data, recipe), "milk-emulsions/silk", shell)
    assert str(address("https://lantern.example/cards/milk-emulsions/silk/")) in shown


def test_without_an_address_there_is_nothing_for_readers_and_a_hostile_one_is_text() -> None:
    assert address("") == ""
    assert "<script>" not in address("https://x.example/<script>/")


def test_a_handout_can_be_switched_off(built: Callable[[Path], Path], tmp_path: Path) -> None:
    recipe, data = load_recipe(ROOT / "recipes" / f"{NAMES[0]}.yaml", NAMES[0])
    shell = HandoutShell(styles=("a.css",), scripts=("b.js",), language="en", site_url="", several_url=None)
    shown = read_html(handout_html(published_from(data, recipe), "one/two", shell))
    assert [link["href"] for link in shown.all("link")] == ["../../../a.css"]
    assert [script["src"] for script in shown.all("script")] == ["../../../b.js"]
    assert json.loads(shown.all("recipe-calculator")[0]["context"])["recipe"]["title"] == recipe.title


def test_what_is_bought_by_the_piece_or_flows_from_the_tap_has_no_pack() -> None:
    assert kinds_bought(["egg_white_raw", "water_tap", "", "salt_table"]) == [("salt_table", "salt")]
