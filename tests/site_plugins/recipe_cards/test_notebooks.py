"""The notebook of a recipe's trials in a site: for its author alone, unless the author makes it public."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from crumbcoat_calc.values.spacing import unbroken
from crumbcoat_site.recipe_cards.handout.trial_sheets import free_codes
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort
from PIL import Image

from .conftest import Element, read_html
from .test_plugin import GOOD, ROOT, build_site, make_site

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

FIRST = """number: 1
date: 2026-03-02
aim: Less *sugar*, <b>please</b>.
changed: {ingredients: {butter: 220 g}}
tests: [{test: keeping, temperature: 4 °C, time: 1 day, did: held}]
pictures: [{file: 1.jpg, shot: rosette}]
did: held
"""
SECOND = "number: 2\ndate: 2026-03-05\nfrom: 1\nchanged: {ingredients: {butter: 200 g}}\ndid: split\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    site = make_site(tmp_path)
    trials = site / "docs" / "milk" / "everyday.trials"
    trials.mkdir()
    (trials / "1.yaml").write_text(FIRST, "utf-8")
    (trials / "2.yaml").write_text(SECOND, "utf-8")
    for name in ("1.jpg", "secret.jpg"):
        Image.new("RGB", (40, 30)).save(trials / name)
    return site


def everything(built: Path) -> dict[str, str]:
    files = [path for path in built.rglob("*") if path.is_file() and "assets" not in path.parts]
    return {path.relative_to(built).as_posix(): path.read_text("utf-8", "replace") for path in files}


def context_of(page: Element) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(
        next(one["context"] for one in page.all("recipe-calculator") if "context" in one.attributes)
    )
    return found


def test_a_plain_build_publishes_nothing_of_a_notebook(folder: Path) -> None:
    found = everything(build_site(folder))
    assert "milk/everyday/index.html" in found
    assert [place for place in found if "trials" in place] == []
    assert [place for place, text in found.items() if "trials/" in text or "Less sugar" in text] == []


@pytest.mark.parametrize("how", ["option", "recipe", "serve"])
def test_the_author_sees_it_and_can_publish_it(folder: Path, how: str) -> None:
    if how == "option":
        config = json.loads((folder / "mkdocs.yml").read_text()) | {"plugins": [{"recipe_cards": {"notebooks": True}}]}
        (folder / "mkdocs.yml").write_text(json.dumps(config))
    if how == "recipe":
        recipe = folder / "docs" / "milk" / "everyday.yaml"
        recipe.write_text(GOOD + "notebook: {show: public, note: Made *by us*.}\n", "utf-8")
    found = everything(build_site(folder, "serve" if how == "serve" else "build"))
    cards = ["milk/everyday/trials/1/index.html", "milk/everyday/trials/2/index.html"] if how == "serve" else []
    assert sorted(place for place in found if "trials" in place) == [
        "milk/everyday.trials/1.jpg",
        *cards,
        "milk/everyday/trials/index.html",
        "milk/everyday/trials/sheets/index.html",
    ]
    card = read_html(found["milk/everyday/index.html"])
    assert [link.text for link in card.all("a", href="trials/")] == ["Notebook of its trials"]
    page = found["milk/everyday/trials/index.html"]
    assert "Less <em>sugar</em>, &lt;b&gt;please&lt;/b&gt;." in page
    assert 'src="../../everyday.trials/1.jpg"' in page
    assert "from trial 1" in page
    assert unbroken("20 g less unsalted butter: 220 g, now 200 g") in page
    assert ("Made <em>by us</em>." in page) == (how == "recipe")
    assert "cc-problems" not in page


def test_a_trial_has_a_card_to_go_on_from_as_it_was_planned(folder: Path) -> None:
    trials = folder / "docs" / "milk" / "everyday.trials"
    (trials / "2.yaml").write_text(SECOND + "weighed: {butter: 197 g}\n", "utf-8")
    (trials / "4-bcdf.yaml").write_text("number: 4\ndate: 2026-03-06\nfrom: 9\n", "utf-8")  # It cannot be used.
    found = everything(build_site(folder, "serve"))
    card = read_html(found["milk/everyday/trials/2/index.html"])
    context = context_of(card)
    assert context["trial"] == {"from": "2", "number": "5"}
    assert context["recipe"]["title"] == "Everyday milk frosting, trial 2"
    assert context["recipe"]["ingredients"]["butter"]["amount"] == "200 g"
    assert card.all("details", class_="cc-kept-trial")[0]["data-folder"] == "everyday.trials"
    assert card.all("recipe-reader")[0]["data-recipe"] == "milk/everyday/trials/2"
    assert "application/ld+json" not in found["milk/everyday/trials/2/index.html"]
    assert '<meta name="robots" content="noindex">' in found["milk/everyday/trials/2/index.html"]
    assert 'name="robots"' not in found["milk/everyday/index.html"]
    notebook, recipe = (read_html(found[f"milk/everyday/{place}index.html"]) for place in ("trials/", ""))
    assert [link["href"] for link in notebook.all("a") if link.text == "Its card, to go on from"] == ["1/", "2/"]
    assert [link["href"] for link in recipe.all("a") if link["href"].startswith("trials/")] == [
        "trials/", "trials/1/", "trials/2/",
    ]  # fmt: skip
    (context, *_) = [
        json.loads(one["context"]) for one in recipe.all("recipe-calculator") if "context" in one.attributes
    ]
    assert context["trial"].keys() == {"recipe", "number"}


def test_what_is_said_of_the_recipe_is_not_said_of_its_trials(folder: Path) -> None:
    found = everything(build_site(folder, "serve"))
    recipe, trial = (found[f"milk/everyday/{place}index.html"] for place in ("", "trials/2/"))
    fields = yaml.safe_load(GOOD)
    for words in (fields["summary"], fields["notes"][0], "layer cakes", fields["storage"][1]["note"]):
        assert words in recipe
        assert words not in trial
    assert "A trial of Everyday milk frosting." in trial
    assert "Less <em>sugar</em>" in found["milk/everyday/trials/1/index.html"]


def test_another_recipe_is_a_column_beside_the_trials(folder: Path, caplog: pytest.LogCaptureFixture) -> None:
    docs = folder / "docs"
    other = (ROOT / "tests" / "golden" / "good-smallest" / "recipe.yaml").read_text("utf-8")
    (docs / "other.yaml").write_text(other, "utf-8")
    (docs / "secret.yaml").write_text("draft: yes\n" + other, "utf-8")
    beside = "notebook: {show: public, beside: [other, secret]}\n"
    (docs / "milk" / "everyday.yaml").write_text(GOOD + beside, "utf-8")
    with pytest.raises(Abort):  # The site is strict.
        build_site(folder)
    assert "milk/everyday.yaml" in caplog.text
    assert "there is no recipe 'secret' in this site to put beside the trials" in caplog.text
    (docs / "milk" / "everyday.yaml").write_text(GOOD + beside.replace(", secret", ""), "utf-8")
    page = read_html(everything(build_site(folder))["milk/everyday/trials/index.html"])
    (table,) = page.all("table", class_="cc-beside-table")
    assert [head.text for head in table.all("th", scope="col")][-4:] == [
        "Trial 1", "Trial 2", "The recipe", "Whipped cream of the smallest recipe",
    ]  # fmt: skip
    (docs / "other.yaml").write_text(other.replace("Whipped cream of the smallest recipe", "Another one", 1), "utf-8")
    assert "Another one" in everything(build_site(folder))["milk/everyday/trials/index.html"]


def test_it_is_not_in_the_navigation(folder: Path) -> None:
    home = read_html(everything(build_site(folder, "serve"))["index.html"])
    assert [link for link in home.all("a") if "trials" in link.attributes.get("href", "")] == []


WRONG = "number: 3\ndate: yesterday\nfrom: 9\nchanged: {ingredients: {butter: 1 l}}\npictures: [{file: lost.jpg}]\n"


def test_problems_are_shown_to_the_author_with_the_trials_that_can_be_used(folder: Path) -> None:
    (folder / "docs" / "milk" / "everyday.trials" / "3.yaml").write_text(WRONG, "utf-8")
    page = read_html(everything(build_site(folder, "serve"))["milk/everyday/trials/index.html"])
    (box,) = page.all("div", class_="cc-problems")
    assert "everyday.trials/3.yaml:2" in box.text
    assert "'yesterday' is not a date" in box.text
    assert "Fix:" in box.text
    assert len(list(page.all("div", class_="cc-trial"))) == 2


def test_problems_are_warnings_of_a_build_that_shows_the_notebook(
    folder: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (folder / "docs" / "milk" / "everyday.trials" / "3.yaml").write_text(WRONG, "utf-8")
    build_site(folder)
    assert "yesterday" not in caplog.text
    recipe = folder / "docs" / "milk" / "everyday.yaml"
    recipe.write_text(GOOD + "notebook: public\n", "utf-8")
    with pytest.raises(Abort):  # The site is strict.
        build_site(folder)
    assert "everyday.trials/3.yaml:2: 'yesterday' is not a date" in caplog.text


def test_a_notebook_without_a_trial_that_can_be_used(folder: Path) -> None:
    for trial in (folder / "docs" / "milk" / "everyday.trials").glob("*.yaml"):
        trial.write_text("number: 1\n", "utf-8")
    page = everything(build_site(folder, "serve"))["milk/everyday/trials/index.html"]
    assert "There is no trial here yet that can be used." in page


def test_a_picture_that_is_not_there_is_a_problem(folder: Path) -> None:
    (folder / "docs" / "milk" / "everyday.trials" / "1.jpg").unlink()
    page = read_html(everything(build_site(folder, "serve"))["milk/everyday/trials/index.html"])
    (box,) = page.all("div", class_="cc-problems")
    assert "everyday.trials/1.yaml:6 there is no picture '1.jpg' beside this file." in box.text


def test_an_unchanged_notebook_is_not_computed_again(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from crumbcoat_site.recipe_cards.pages import render_notebook

    build_site(folder, "serve")
    monkeypatch.delattr(render_notebook, "render_notebook")
    found = everything(build_site(folder, "serve"))
    assert "milk/everyday/trials/index.html" in found


def test_a_saved_trial_is_rendered_again_while_the_site_is_served(folder: Path) -> None:
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command="serve", dirty=True)

    def page() -> str:
        build(load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site")), dirty=True)
        return (folder / "site" / "milk" / "everyday" / "trials" / "index.html").read_text("utf-8")

    assert unbroken("now 200 g") in page()
    (folder / "docs" / "milk" / "everyday.trials" / "2.yaml").write_text(SECOND.replace("200 g", "190 g"), "utf-8")
    assert unbroken("now 190 g") in page()


def sheets(folder: Path) -> Element:
    return read_html(everything(build_site(folder, "serve"))["milk/everyday/trials/sheets/index.html"])


def test_the_notebook_leads_to_sheets_outside_the_theme_and_back(folder: Path) -> None:
    found = everything(build_site(folder, "serve"))
    assert [link.text for link in read_html(found["milk/everyday/trials/index.html"]).all("a", href="sheets/")] == [
        "Sheets to print"
    ]
    page = read_html(found["milk/everyday/trials/sheets/index.html"])
    assert [link["href"] for link in page.all("a")] == ["../"]
    assert page.all("meta", name="robots")[0]["content"] == "noindex"
    assert "md-header" not in found["milk/everyday/trials/sheets/index.html"]
    assert page.all("script") == []
    site = folder / "site" / "milk" / "everyday" / "trials" / "sheets"
    styles = [link["href"] for link in page.all("link")]
    assert [style.rpartition("/")[2] for style in styles] == ["shared.css", "sheets.css"]
    assert [style for style in styles if not (site / style).resolve().is_file()] == []


def test_there_is_a_sheet_to_weigh_each_trial_and_the_recipe_and_one_for_each_test(folder: Path) -> None:
    shown = sheets(folder)
    titles = [section.all("h2")[0].text for section in shown.all("section")]
    assert titles == [
        "Everyday milk frosting, as the recipe is",
        "Everyday milk frosting: trial 2",
        "Everyday milk frosting: trial 1",
        "Keeping test",
        "Piping test",
        "Warm-shelf test",
        "Sun test",
        "Freezing and thawing",
        "Tasting: for the one who serves",
        "Tasting: ballots",
        "Triangle test: for the one who serves",
        "Results of all groups",
    ]
    second = shown.all("section")[1]
    weighed = {row.all("code")[0].text: row.all("td")[1].text for row in second.all("tr") if row.all("code")}
    assert weighed["butter"] == "200 g"
    assert "from 1." in second.text
    assert "20 g less unsalted butter: 220 g, now 200 g" in second.text
    assert {box.text for section in (second,) for box in section.all("code")} >= {
        "date", "who", "weighed", "readings", "mixing", "seen", "chilling", "did", "verdict", "because",
    }  # fmt: skip


def test_a_test_says_once_that_its_pieces_are_not_for_eating_and_a_tasting_has_the_cautions(folder: Path) -> None:
    for section in sheets(folder).all("section"):
        kind = section.attributes.get("data-test", "")
        assert section.text.count("not for eating") == (
            kind in ("keeping", "piping", "warm-shelf", "sun", "freezing")
        ), kind
        tasted = kind in ("tasting", "triangle")
        assert ("Contains milk" in section.text) == tasted, kind
        assert section.text.count("your local food code decides") == tasted, kind


def test_raw_egg_is_on_the_sheets_of_a_tasting(folder: Path) -> None:
    """A trial that is made with raw egg is enough: Salmonella is named as on a card."""
    (folder / "docs" / "milk" / "everyday.trials" / "3.yaml").write_text(
        "number: 3\ndate: 2026-03-09\n"
        "changed: {ingredients: {egg: {kind: egg_white_raw, amount: 30 g, add_at: 3.1}}}\n",
        "utf-8",
    )
    found = [section for section in sheets(folder).all("section") if "Salmonella" in section.text]
    assert [section.all("h2")[0].text for section in found] == [
        "Tasting: for the one who serves",
        "Triangle test: for the one who serves",
    ]


def test_codes_are_the_same_in_every_build_and_none_is_that_of_a_trial(folder: Path) -> None:
    before = free_codes("Cream", [])
    assert before == free_codes("Cream", [])
    assert len({*before}) == 12
    assert all(code.isdecimal() and len(code) == 3 for code in before)
    assert before[0] not in free_codes("Cream", [before[0], None])


def test_text_of_an_author_stays_text_on_a_sheet(folder: Path) -> None:
    page = everything(build_site(folder, "serve"))["milk/everyday/trials/sheets/index.html"]
    assert "Less <em>sugar</em>, &lt;b&gt;please&lt;/b&gt;." in page


def test_batches_of_two_groups_are_one_table_in_the_notebook(folder: Path) -> None:
    trials = folder / "docs" / "milk" / "everyday.trials"
    (trials / "2.yaml").write_text(SECOND + "who: group 1\nreadings: [{ph: 6.4}]\n", "utf-8")
    page = everything(build_site(folder, "serve"))["milk/everyday/trials/index.html"]
    assert "The same batch, made again" not in page
    (trials / "3.yaml").write_text(
        SECOND.replace("number: 2", "number: 3") + "who: group 2\nreadings: [{ph: 6.6}]\n", "utf-8"
    )
    page = everything(build_site(folder, "serve"))["milk/everyday/trials/index.html"]
    assert "The same batch, made 2 times (trials 2 and 3)" in page
    rows = [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in read_html(page).all("tr")]
    assert ["pH", "6.4", "6.6", "6.50", "0.14", "2"] in rows
