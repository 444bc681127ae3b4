"""The page of a recipe: HTML Living Standard, schema.org (release 30.0) and WCAG 2.2 are the outside standards."""

import functools
import html
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from PIL import Image

from .conftest import ROOT, Element, read_html

pytestmark = pytest.mark.no_cover  # Built pages are read here; what writes them is measured part by part.

RECIPES = ROOT / "recipes"
NAMES = [path.relative_to(RECIPES).with_suffix("").as_posix() for path in sorted(RECIPES.glob("*/*.yaml"))]
HOSTILE = {
    "markup": '<img src=x onerror="alert(1)"><script>alert(2)</script>',
    "entity": "&lt;b&gt; &amp;amp; & AT&T",
    "quotes": "\"double\" 'single' `tick`",
    "markdown": "*em* **open _em_ [link] (javascript:alert(3)) ![i](x) # head {: .c } <!-- crumbcoat: fat chart -->",
    "marks": 'e *<b>em</b>* **strong** `co*de*` [li"nk](https://example.org/?a="1"&b=2) 2 * 3 \\*no\\* [p](../page/)',
    "template": "{{ config.site_name }} {% raw %} {# note #}",
    "end of script": "</script><!--",
    "numbered": "1. one 2) two - three + four > five | six ~ seven",
}
PROSE = "SRPDFWZCXYKQ"
"""The texts of the hostile recipe that may have marks, by their first letter."""


@functools.cache
def page(site: Path, name: str) -> Element:
    return read_html((site / name / "index.html").read_text(encoding="utf-8"))


def article(site: Path, name: str) -> Element:
    (found,) = page(site, name).all("article")
    return found


def one_line(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("name", NAMES)
def test_the_page_holds_every_word_of_the_recipe_without_a_script(demo: Path, name: str) -> None:
    recipe, _ = load_recipe(RECIPES / f"{name}.yaml", name)
    shown = article(demo, name)
    words = [recipe.title, recipe.summary, recipe.author.name, recipe.family, *recipe.notes, recipe.yields.of]
    for ingredient in recipe.ingredients:
        words += [ingredient.name, ingredient.role or "", ingredient.preparation or ""]
        words += [portion.key.replace("_", " ").replace("-", " ") for portion in ingredient.portions]
        words += [replacement.name for replacement in ingredient.replacements]
    for stage in recipe.stages:
        words.append(stage.title)
        for step in stage.steps:
            words += [step.do, step.tool or "", step.speed or "", step.look_for or "", step.why or ""]
            words += [step.when_scaled or "", *(photo.shows or "" for photo in step.photos)]
            if step.checkpoint:
                words += step.checkpoint.passes
                words += [word for trouble in step.checkpoint.troubles for word in (trouble.sign, trouble.remedy)]
    for place in recipe.storage:
        words += [place.where, place.note or ""]
    text = shown.text
    assert [word for word in words if one_line(plain_text(word)) not in text] == []
    assert shown.all("script") == []


def test_a_decoration_is_eaten_unless_the_recipe_says_otherwise(demo: Path) -> None:
    [line] = article(demo, "buttercreams/swiss-meringue-buttercream").all("p", class_="cc-decorations")
    assert line.text == "On the finished cake: sugar pearls, fresh flowers on wire (not eaten, taken off first)."


@pytest.mark.parametrize("name", NAMES)
def test_steps_are_in_order_and_have_the_ids_that_links_point_to(demo: Path, name: str) -> None:
    recipe, _ = load_recipe(RECIPES / f"{name}.yaml", name)
    shown = [
        (element["id"], element.all("p", class_="cc-do")[0].text)
        for element in article(demo, name).all("li", class_="cc-task")
    ]
    expected = [
        (f"step-{s}-{n}", ("optional " if step.optional else "") + one_line(plain_text(step.do)))
        for s, stage in enumerate(recipe.stages, 1)
        for n, step in enumerate(stage.steps, 1)
    ]
    assert shown == expected


@pytest.mark.parametrize("name", NAMES)
def test_each_stage_is_a_chapter_of_the_method(demo: Path, name: str) -> None:
    """WCAG 2.2, 1.3.1: headings are headings, each of its own."""
    recipe, _ = load_recipe(RECIPES / f"{name}.yaml", name)
    shown = [
        (element.name, element.text.removesuffix("¶"))
        for element in article(demo, name).walk()
        if element.name in ("h1", "h2", "h3")
    ]
    assert shown[0] == ("h1", recipe.title)
    assert ("h2", "Ingredients") in shown
    method = shown.index(("h2", "Method")) + 1
    stages = [("h3", f"Stage {number}: {stage.title}") for number, stage in enumerate(recipe.stages, 1)]
    assert shown[method : method + len(stages)] == stages
    assert shown[method + len(stages)][0] == "h2"


@pytest.mark.parametrize("name", NAMES)
def test_every_printed_text_is_the_calculators(demo: Path, name: str) -> None:
    shown = article(demo, name)
    # What a card has for a class only is in a template, until a link of a class opens it.
    for_a_class = {id(part) for template in shown.all("template") for part in template.walk()}
    calculators = [element for element in shown.all("recipe-calculator") if id(element) not in for_a_class]
    assert [element["name"] for element in calculators] == ["batch", "cake", "label"]
    assert [calculator["name"] for calculator in calculators if "context" in calculator.attributes] == ["batch"]
    context = context_from(json.loads(calculators[0]["context"]))
    texts = {calculator["name"]: run(calculator["name"], context)[1] for calculator in calculators}
    owners = {id(part): element["name"] for element in shown.all("recipe-calculator") for part in element.walk()}

    def texts_for(element: Element) -> dict[str, object]:
        """What is outside every calculator's element belongs to the one calculator that has such a text."""
        inside = texts.get(owners.get(id(element), ""))
        return dict(inside) if inside is not None else {**texts["cake"], **texts["label"], **texts["batch"]}

    outputs = [
        (element["data-text"], element.text, texts_for(element))
        for element in shown.all()
        if "data-text" in element.attributes
    ]
    assert len(outputs) > 50
    assert [name for name, text, known in outputs if text != one_line(str(known[name]))] == []
    for field in shown.all("input"):
        if field.attributes.get("type", "text") == "text" and field.attributes.get("form") in texts:
            assert field["value"] == texts[field["form"]][field["name"]]
    for field in shown.all("select"):
        if field.attributes.get("form") in texts:
            chosen = [option["value"] for option in field.all("option") if "selected" in option.attributes]
            assert (chosen or [field.all("option")[0]["value"]]) == [texts[field["form"]][field["name"]]]
    tables = [element for element in shown.all("tbody") if "data-rows" in element.attributes]
    assert tables
    for table in tables:
        cells = [[" ".join(cell.text.split()) for cell in (*row.all("th"), *row.all("td"))] for row in table.all("tr")]
        expected = texts_for(table)[table["data-rows"]]
        assert isinstance(expected, list)
        assert cells == [[one_line(cell) for cell in row] for row in expected], table["data-rows"]
    pictures = [element for element in shown.all() if "data-picture" in element.attributes]
    assert pictures
    assert [element["data-picture"] for element in pictures if element["data-picture"] not in texts_for(element)] == []


@pytest.mark.parametrize("name", NAMES)
def test_every_amount_that_goes_in_is_at_its_step(demo: Path, name: str) -> None:
    recipe, _ = load_recipe(RECIPES / f"{name}.yaml", name)
    tasks = article(demo, name).all("li", class_="cc-task")
    steps = [step for stage in recipe.stages for step in stage.steps]
    assert [len(task.all("ul", class_="cc-goes-in")) for task in tasks] == [int(bool(step.uses)) for step in steps]
    for task, step in zip(tasks, steps, strict=True):
        kept_back = sum(len(trouble.adds) for trouble in step.checkpoint.troubles) if step.checkpoint else 0
        assert len(task.all("span", class_="cc-amount")) == len(step.uses) + kept_back


@pytest.mark.parametrize("name", NAMES)
def test_every_field_has_a_name_and_a_place_for_its_problem(demo: Path, name: str) -> None:
    """WCAG 2.2: 4.1.2 name, role, value; 3.3.1 error identification; HTML: ids are unique."""
    shown_page = page(demo, name)
    ids = [element["id"] for element in shown_page.all() if "id" in element.attributes]
    assert sorted(set(ids)) == sorted(ids)
    shown = article(demo, name)
    problems = {element["data-problem"] for element in shown.all() if "data-problem" in element.attributes}
    assert "" in problems
    inside = [field for label in shown.all("label") for field in (*label.all("input"), *label.all("select"))]
    for field in [
        element for element in (*shown.all("input"), *shown.all("select")) if element.attributes.get("form", "batch")
    ]:
        if field.attributes.get("type") == "hidden":
            continue
        assert field.attributes.get("aria-label") or field in inside
        if "aria-describedby" in field.attributes:
            assert field["aria-describedby"] in ids
            assert field["name"] in problems


def test_structured_data_have_the_longest_time_and_the_page_has_a_range(demo: Path) -> None:
    """By hand from the file: 1, 5, 7, 2, 2, 1440, 5, 6, 5, 3 and 30 min at most; 1440, 5 and 30 of them unattended.

    The 7 min are at the stove.
    """
    shown_page = page(demo, "milk-emulsions/silk-milk-frosting")
    (script,) = shown_page.all("script", type="application/ld+json")
    data = json.loads("".join(str(child) for child in script.children))
    assert (data["totalTime"], data["prepTime"], data["cookTime"]) == ("P1DT1H6M", "PT24M", "PT7M")
    shown = {
        element["data-text"]: element.text for element in shown_page.all("span") if "data-text" in element.attributes
    }
    assert shown["time"] == "8 h 50 min to 25 h"


def test_structured_data_name_the_tools_of_the_steps_and_the_equipment_besides(demo: Path) -> None:
    """By hand from the file: the sieve is in its list `equipment` alone."""
    (script,) = page(demo, "buttercreams/cooked-flour-buttercream").all("script", type="application/ld+json")
    data = json.loads("".join(str(child) for child in script.children))
    assert [tool["name"] for tool in data["tool"]] == [
        "saucepan and whisk", "shallow tray", "stand mixer, whisk", "a fine sieve, in case of lumps",
    ]  # fmt: skip


def hostile_recipe(text: str) -> dict[str, object]:
    return {
        "title": f"T {text}",
        "summary": f"S {text}",
        "author": f"A {text}",
        "family": "ganache",
        "yield": {"portions": 4, "of": f"O {text}"},
        "ingredients": {
            "cream": {
                "kind": "cream_heavy_whipping",
                "amount": "100 g",
                "name": f"N {text}",
                "role": f"R {text}",
                "preparation": f"P {text}",
                "replacements": {"other": {"kind": "milk_whole", "name": f"I {text}", "note": f"J {text}"}},
            }
        },
        "stages": [
            {
                "title": f"G {text}",
                "steps": [
                    {
                        "do": f"D {text}",
                        "add": ["cream"],
                        "tool": f"L {text}",
                        "look_for": f"F {text}",
                        "why": f"W {text}",
                        "photo": f"H {text}",
                        "when_scaled": f"Z {text}",
                        "checkpoint": {
                            "passes": [f"C {text}"],
                            "troubles": [{"sign": f"X {text}", "remedy": f"Y {text}"}],
                        },
                    }
                ],
            }
        ],
        "storage": [{"where": "in the refrigerator", "up_to": "2 days", "note": f"K {text}"}],
        "notes": [f"Q {text}"],
    }


@pytest.fixture(scope="session")
def hostile(built: Callable[[Path], Path], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of recipes whose every text is hostile; JSON is YAML (YAML 1.2.2, 1.3)."""
    recipes = tmp_path_factory.mktemp("hostile")
    for number, text in enumerate(HOSTILE.values()):
        (recipes / f"r{number}.yaml").write_text(json.dumps(hostile_recipe(text)), encoding="utf-8")
    (recipes / "index.md").write_text("# Home\n\n<!-- crumbcoat: recipe list -->\n\n<!-- crumbcoat: fat chart -->\n")
    return built(recipes)


@pytest.mark.parametrize(("number", "text"), list(enumerate(HOSTILE.values())), ids=HOSTILE)
def test_a_hostile_text_is_shown_letter_for_letter_and_does_nothing(hostile: Path, number: int, text: str) -> None:
    shown = article(hostile, f"r{number}")
    (head,) = shown.all("h1")
    assert head.text.removesuffix("¶") == f"T {one_line(text)}"
    for letter in "SAONRPIGDLFWHZCXYKQ":
        words = plain_text(text) if letter in PROSE else text
        assert f"{letter} {one_line(words)}" in shown.text, letter
    assert [element for element in shown.all("img") if "onerror" in element.attributes] == []
    assert shown.all("script") == []
    assert [element for element in shown.all("a") if element.attributes.get("href", "").startswith("javascript:")] == []
    (calculator,) = shown.all("recipe-calculator", name="batch")
    assert json.loads(calculator["context"])["recipe"]["title"] == f"T {text}"
    (script,) = page(hostile, f"r{number}").all("script", type="application/ld+json")
    assert json.loads("".join(str(child) for child in script.children))["name"] == f"T {text}"
    listed = article(hostile, ".").text
    assert listed.count(f"T {one_line(text)}") == 2
    assert f"S {one_line(plain_text(text))}" in listed


def test_marks_are_elements_in_prose_and_nowhere_else(hostile: Path) -> None:
    """Emphasis, code and links on the card and its handout; from the handout a path would lead elsewhere."""
    name = f"r{list(HOSTILE).index('marks')}"
    page_shown = article(hostile, name)
    handout = read_html((hostile / name / "handout" / "index.html").read_text(encoding="utf-8"))
    group = handout.all("article", class_="cc-group")[1]  # The first is the template.
    address = 'https://example.org/?a="1"&b=2'
    for shown, letters in ((page_shown, PROSE), (group, "D")):
        for letter in letters:
            around = [element for element in shown.walk() if f"{letter} e <b>em</b> strong co*de*" in element.text][-1]
            assert {element.text for element in around.all("em")} == {"<b>em</b>"}
            assert {element.text for element in around.all("code")} == {"co*de*"}
            linked = {link["href"] for link in around.all("a")}
            expected = {address} if shown is group else set() if letter == "P" else {address, "../page/"}
            assert linked == expected, letter
    for letter in "TAONIGLH":
        assert f"{letter} {one_line(HOSTILE['marks'])}" in page_shown.text
    for letter in "PFXY":
        words = f"{letter} {one_line(plain_text(HOSTILE['marks']))}"
        assert any(words in sheet.text for sheet in handout.all("article", class_="cc-group")), letter
        assert f"{letter} e *" not in handout.text


def test_search_engines_and_search_get_the_words_without_marks(hostile: Path) -> None:
    name = f"r{list(HOSTILE).index('marks')}"
    words = plain_text(HOSTILE["marks"])
    (script,) = page(hostile, name).all("script", type="application/ld+json")
    data = json.loads("".join(str(child) for child in script.children))
    assert data["description"] == f"S {words}"
    assert data["recipeInstructions"][0]["itemListElement"][0]["text"] == f"D {words}"
    (description,) = page(hostile, name).all("meta", name="description")
    assert description["content"] == f"S {words}"
    index = json.loads((hostile / "search" / "search_index.json").read_text(encoding="utf-8"))
    texts = [html.unescape(entry["text"]) for entry in index["docs"] if entry["location"].startswith(f"{name}/")]
    assert [text for text in texts if f"D {words}" in one_line(text)] != []
    assert [text for text in texts if "D e *" in text] == []


def test_a_picture_of_the_right_name_takes_the_place_of_the_drawing(
    built: Callable[[Path], Path], tmp_path_factory: pytest.TempPathFactory
) -> None:
    recipes = tmp_path_factory.mktemp("pictures")
    source = hostile_recipe("plain")
    source["stages"][0]["steps"].append({"do": "Rest.", "photo": "A second shot"})  # type: ignore[index]
    (recipes / "cream.yaml").write_text(json.dumps(source), encoding="utf-8")
    (recipes / "index.md").write_text("# Home\n\n<!-- crumbcoat: recipe list -->\n")
    before = article(built(recipes), "cream")
    assert [element["data-file"] for element in before.all("figure", class_="cc-photo-wanted")] == [
        "cream.1-1.jpg",
        "cream.1-2.jpg",
    ]
    for name in ("cream.1-1.jpg", "cream.webp"):
        Image.new("RGB", (300, 200), "white").save(recipes / name)
    site = built(recipes)
    after = article(site, "cream")
    assert [element["data-file"] for element in after.all("figure", class_="cc-photo-wanted")] == ["cream.1-2.jpg"]
    sources = {element["alt"]: element["src"] for element in after.all("img")}
    assert {alt: source.rpartition("/")[2] for alt, source in sources.items()} == {
        "H plain": "cream-1-1-300.jpg",
        "T plain": "cream-300.jpg",
    }
    for source_name in (*sources.values(), article(site, ".").all("img")[0]["src"]):
        assert (site / "cream" / source_name).resolve().exists() or (site / source_name).resolve().exists()
