"""A site is built from recipe files: pages, card.json, every problem of every file, and the cache."""

import json
import os
import re
import shutil
from pathlib import Path

import pytest
from crumbcoat_calc.values.spacing import unbroken
from crumbcoat_site.recipe_cards.pages import render_recipe as rendering
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort
from PIL import Image

from .conftest import read_html

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

ROOT = Path(__file__).parents[3]
GOOD = re.sub(
    "^moved_from: .*\n",
    "",
    (ROOT / "recipes" / "milk-emulsions" / "everyday-milk-frosting.yaml").read_text(encoding="utf-8"),
    flags=re.MULTILINE,
)
"""Without the addresses that it had before: a copy of it in the same site cannot be there too."""
HOME = "# Home\n\n<!-- crumbcoat: fat chart -->\n\n<!-- crumbcoat: recipe list -->\n"


def make_site(tmp_path: Path) -> Path:
    """A folder with mkdocs.yml and one good recipe; the site goes to `site`."""
    (tmp_path / "docs" / "milk").mkdir(parents=True)
    (tmp_path / "docs" / "milk" / "everyday.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "docs" / "index.md").write_text(
        "# Home\n\n<!-- crumbcoat: fat chart -->\n\n<!-- crumbcoat: recipe list -->"
    )
    config = {
        "site_name": "Small",
        "docs_dir": "docs",
        "strict": True,
        "theme": {"name": "material", "font": False},
        "plugins": ["recipe_cards"],
        "markdown_extensions": ["attr_list"],
    }
    (tmp_path / "mkdocs.yml").write_text(json.dumps(config))
    return tmp_path


@pytest.fixture(scope="module")
def computed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a build of it keeps, so that the recipe is not computed for each test."""
    folder = make_site(tmp_path_factory.mktemp("computed"))
    build_site(folder)
    return folder / ".cache"


@pytest.fixture
def site(tmp_path: Path, computed: Path) -> Path:
    """A folder with mkdocs.yml and one good recipe that was computed before; the site goes to `site`."""
    shutil.copytree(computed, tmp_path / ".cache")
    return make_site(tmp_path)


def build_site(folder: Path, command: str = "build") -> Path:
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command=command, dirty=False)
    build(config)
    return folder / "site"


def test_a_recipe_becomes_one_folder_with_a_page_and_card_json(site: Path) -> None:
    built = build_site(site)
    assert (built / "milk" / "everyday" / "index.html").is_file()
    card = json.loads((built / "milk" / "everyday" / "card.json").read_text(encoding="utf-8"))
    assert card["format"] == 1
    assert card["title"] == "Everyday milk frosting"
    assert not (built / "milk" / "everyday.yaml").exists()
    home = (built / "index.html").read_text(encoding="utf-8")
    assert 'href="milk/everyday/"' in home
    assert unbroken(card["texts"]["fat.percent"]) in home


def test_all_parts_of_a_page_mean_the_same_spoon(site: Path) -> None:
    """A site for the UK: the lines for search engines, those to copy, and the column beside the grams."""
    config = json.loads((site / "mkdocs.yml").read_text())
    config |= {"site_url": "https://lantern.example/", "plugins": [{"recipe_cards": {"region": "UK", "embed": True}}]}
    (site / "mkdocs.yml").write_text(json.dumps(config))
    recipe = site / "docs" / "milk" / "everyday.yaml"
    text = recipe.read_text(encoding="utf-8")
    assert "amount: 22 g" in text
    recipe.write_text(text.replace("amount: 22 g", "amount: 2 1/2 tbsp"), encoding="utf-8")
    built = build_site(site) / "milk" / "everyday"
    page = (built / "index.html").read_text(encoding="utf-8") + (built / "embed" / "index.html").read_text(
        encoding="utf-8"
    )
    card = json.loads((built / "card.json").read_text(encoding="utf-8"))
    assert page.count("2½ metric tbsp") + page.count("2 1/2 metric tbsp") > 2
    assert not re.search("US (cup|tbsp|tsp)", re.sub("<option.*?</option>", "", page))
    assert any("metric" in str(text) for name, text in card["texts"].items() if name.startswith("household."))


def test_page_handout_and_card_json_have_the_cautions_of_the_region(site: Path) -> None:
    """Food Safety and Hygiene (England) Regulations 2013, Schedule 4, 2: 8 °C; US Food Code 3-501.16: 57 °C."""
    config = json.loads((site / "mkdocs.yml").read_text())
    config["plugins"] = [{"recipe_cards": {"region": "UK"}}]
    (site / "mkdocs.yml").write_text(json.dumps(config))
    (site / "docs" / "class.md").write_text("# Class\n\n<!-- crumbcoat: handout -->\n")
    built = build_site(site)
    milk = built / "milk" / "everyday"
    pages = [(place / "index.html").read_text(encoding="utf-8") for place in (milk, milk / "handout", built / "class")]
    # A handout has six cautions in short, and leads to the card for the law.
    assert unbroken("8 °C (46 °F) or below by law") in pages[0]
    assert all("your local food code says how soon" in page for page in pages[1:])
    for page in pages:
        assert unbroken("57 °C") not in page
        (calculator, *_) = [one for one in read_html(page).all("recipe-calculator") if "context" in one.attributes]
        assert json.loads(calculator["context"])["region"] == "UK"
    card = json.loads((milk / "card.json").read_text(encoding="utf-8"))
    assert card["region"] == "UK"
    printed = read_html(pages[0]).all("tbody", data_rows="cautions")[0].text
    for note in card["cautions"]["notes"]:
        assert " ".join(note["words"].split()) in " ".join(printed.split())


def test_a_site_without_handouts_has_the_cautions_of_a_home(site: Path) -> None:
    """US guidance for homes: 2 hours out of the refrigerator; the model code's 4 hours need a written procedure."""
    for handouts in (True, False):
        config = json.loads((site / "mkdocs.yml").read_text())
        config["plugins"] = [{"recipe_cards": {"region": "US", "handouts": handouts}}]
        (site / "mkdocs.yml").write_text(json.dumps(config))
        page = (build_site(site) / "milk" / "everyday" / "index.html").read_text(encoding="utf-8")
        assert ("written procedure" in page) == handouts
        assert (unbroken("not more than 2 hours") + " out of the refrigerator" in page) != handouts
        assert ("at home, keep to them or to stricter ones" in page) != handouts


@pytest.mark.parametrize(
    ("option", "command", "offers"),
    [(None, "build", False), (None, "serve", True), (True, "build", True), (False, "serve", False)],
)
def test_a_batch_can_be_kept_as_a_trial_by_the_author_alone_or_where_the_site_wants_that(
    site: Path, option: bool | None, command: str, offers: bool
) -> None:
    config = json.loads((site / "mkdocs.yml").read_text())
    config["plugins"] = [{"recipe_cards": {} if option is None else {"trials": option}}]
    (site / "mkdocs.yml").write_text(json.dumps(config))
    page = read_html((build_site(site, command) / "milk" / "everyday" / "index.html").read_text(encoding="utf-8"))
    assert bool(page.all("details", class_="cc-kept-trial")) == offers
    (calculator, *_) = [one for one in page.all("recipe-calculator") if "context" in one.attributes]
    assert ("trial" in json.loads(calculator["context"])) == offers


def test_a_handout_gets_the_style_sheets_and_module_scripts_of_every_page_but_none_for_cards(site: Path) -> None:
    config = json.loads((site / "mkdocs.yml").read_text())
    config["extra_css"] = ["brand.css", "https://fonts.example/serif.css"]
    config["extra_javascript"] = ["classic.js", "modern.mjs", {"path": "module.js", "type": "module"}]
    (site / "mkdocs.yml").write_text(json.dumps(config))
    for name in ("brand.css", "classic.js", "modern.mjs", "module.js"):
        (site / "docs" / name).write_text("")
    built = build_site(site)
    head = read_html((built / "milk" / "everyday" / "handout" / "index.html").read_text(encoding="utf-8"))
    styles = [link["href"] for link in head.all("link")]
    assert [style.rpartition("/")[2] for style in styles] == ["shared.css", "brand.css", "serif.css", "handout.css"]
    assert styles[1:3] == ["../../../brand.css", "https://fonts.example/serif.css"]
    *own, last = [script["src"] for script in head.all("script")]
    assert own == ["../../../modern.mjs", "../../../module.js"]
    assert last.rpartition("/")[2] == "handout.js"


def test_the_build_says_what_handouts_need_and_their_readers_are_not_bothered(
    site: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level("INFO", "mkdocs"):
        built = build_site(site)
    assert caplog.text.count("mkdocs.yml: site_url: the site has no address, so ") == 1
    assert "Fix: give the address of the finished site, such as `site_url: https://example.org/`." in caplog.text
    handout = read_html((built / "milk" / "everyday" / "handout" / "index.html").read_text(encoding="utf-8"))
    assert "site_url" not in handout.text
    assert not handout.all(class_="cc-address")


def links(page: Path) -> dict[str, str]:
    found = read_html(page.read_text(encoding="utf-8")).all("a")
    return {link.text: link["href"] for link in found if "href" in link.attributes}


def test_a_card_and_its_handout_link_to_the_pages_that_the_site_has(site: Path) -> None:
    """The demo's pages have other names; what makes the page is its directive."""
    card, handout = (site / "site" / "milk" / "everyday" / place for place in ("index.html", "handout/index.html"))
    build_site(site)
    assert "How the figures are made" not in links(card)
    assert "Several recipes on one handout" not in links(handout)
    (site / "docs" / "about").mkdir()
    (site / "docs" / "about" / "models.md").write_text("# Models\n\n<!-- crumbcoat: models -->\n")
    (site / "docs" / "class.md").write_text("# Class\n\n<!-- crumbcoat: handout from milk/everyday -->\n")
    build_site(site)
    assert links(card)["How the figures are made"] == "../../about/models/"
    assert links(handout)["Several recipes on one handout"] == "../../../class/"


def test_the_figures_of_card_json_are_those_of_its_ingredients(site: Path) -> None:
    card = json.loads((build_site(site) / "milk" / "everyday" / "card.json").read_text(encoding="utf-8"))
    weighed = sum(one["mass_g"] for one in card["ingredients"])
    total = card["total"]
    assert total["mass_g"] == pytest.approx(weighed - total["water_lost_g"])
    fat = total["figures"]["fat"]
    assert fat["percent"] == pytest.approx(100 * fat["mass_g"] / total["mass_g"])
    assert card["stages"][-1]["mass_g"] == pytest.approx(total["mass_g"])


def test_all_problems_of_all_files_are_reported_in_one_build(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    (site / "docs" / "empty.yaml").write_text("")
    (site / "docs" / "typo.yaml").write_text(GOOD.replace("summary:", "sumary:"), encoding="utf-8")
    (site / "docs" / "milk" / "bytes.yaml").write_bytes(b"title: \xff\n")
    with pytest.raises(Abort):
        build_site(site)
    message = caplog.text
    for name in ("empty.yaml", "typo.yaml", "bytes.yaml"):
        path = os.path.relpath(site / "docs" / ("milk" if name == "bytes.yaml" else ".") / name)
        assert f"{os.path.normpath(path)}:" in message
    assert message.count("Fix:") == 3
    assert "did you mean 'summary'?" in message
    assert "Traceback" not in message


def test_all_wrong_directives_of_all_pages_are_reported_in_one_build(
    site: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (site / "docs" / "one.md").write_text("---\ntitle: One\n---\n# One\n\n<!-- crumbcoat: fat chrt -->\n")
    (site / "docs" / "two.md").write_text("# Two\n\n<!-- crumbcoat: map from milk/everyda -->\n")
    with pytest.raises(Abort):
        build_site(site)
    docs = os.path.relpath(site / "docs")
    assert f"{docs}/one.md:6: there is no directive 'fat chrt'.\n    Fix: did you mean 'fat chart'?" in caplog.text
    assert f"{docs}/two.md:3: there is no recipe 'milk/everyda'.\n    Fix: did you mean 'milk/everyday'?" in caplog.text
    assert "Traceback" not in caplog.text


DRAFTS = {
    "says": GOOD.replace("family:", "draft: yes\nfamily:", 1).replace("title: Everyday", "title: Secret"),
    "unfinished": "title: Secret unfinished\ndraft: true   # not yet\nstages: nothing\n",
    "later": re.sub("(?m)^published:.*", "published: 2026-05-03", GOOD).replace("title: Everyday", "title: Secret"),
}


@pytest.fixture
def with_drafts(site: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The site with drafts of each kind beside the good recipe, their pictures, and a navigation that names them."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1777680000")  # 2 May 2026, 0:00 UTC
    for name, text in DRAFTS.items():
        (site / "docs" / "milk" / f"{name}.yaml").write_text(text, encoding="utf-8")
    for name in ("says.jpg", "later.1-1.png", "everyday.jpg"):
        Image.new("RGB", (40, 30)).save(site / "docs" / "milk" / name)
    config = json.loads((site / "mkdocs.yml").read_text()) | {"plugins": ["search", "recipe_cards"]}
    config["site_url"] = "https://example.org/"
    config["nav"] = [
        {"Home": "index.md"},
        {"Milk": ["milk/everyday.md", {"Soon": "milk/later.md"}, "milk/says.yaml"]},
        {"Drafts": ["milk/unfinished.md"]},
    ]
    (site / "mkdocs.yml").write_text(json.dumps(config))
    return site


def test_drafts_are_nowhere_in_the_published_site(with_drafts: Path, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level("INFO", "mkdocs"):
        built = build_site(with_drafts)
    assert "Drafts, not in this site: milk/later, milk/says, milk/unfinished" in caplog.text
    places = [path.relative_to(built).as_posix() for path in built.rglob("*") if path.is_file()]
    assert "milk/everyday/index.html" in places
    assert [place for place in places if place.endswith("/everyday-40.jpg")]
    assert [place for place in places if re.search("says|later|unfinished", place)] == []
    texts = {
        path: path.read_text(encoding="utf-8") for path in built.rglob("*") if path.suffix in (".html", ".json", ".xml")
    }
    assert any("Everyday milk" in text for text in texts.values())
    assert [path for path, text in texts.items() if re.search("Secret|milk/(says|later|unfinished)", text)] == []


def test_a_draft_is_published_on_its_day(with_drafts: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1777766400")  # 3 May 2026, 0:00 UTC
    built = build_site(with_drafts)
    page = (built / "milk" / "later" / "index.html").read_text(encoding="utf-8")
    assert "cc-draft" not in page
    assert 'href="milk/later/"' in (built / "index.html").read_text(encoding="utf-8")


def test_the_author_sees_drafts_with_a_mark(with_drafts: Path) -> None:
    (with_drafts / "docs" / "milk" / "unfinished.yaml").unlink()
    config = json.loads((with_drafts / "mkdocs.yml").read_text())
    config["nav"] = [{"Home": "index.md"}, "milk/everyday.md", {"Soon": "milk/later.md"}, "milk/says.md"]
    (with_drafts / "mkdocs.yml").write_text(json.dumps(config))
    built = build_site(with_drafts, command="serve")
    marks = {
        name: [mark.text for mark in read_html((built / place / "index.html").read_text("utf-8")).all(class_=kind)]
        for name, place, kind in (
            ("later", "milk/later", "cc-draft"), ("says", "milk/says", "cc-draft"),
            ("everyday", "milk/everyday", "cc-draft"), ("list", ".", "cc-list-mark"),
        )
    }  # fmt: skip
    only = "Only you see this card: it is not in the published site."
    assert marks == {
        "later": [f"Draft until 3 May 2026 {only}"],
        "says": [f"Draft {only}"],
        "everyday": [],
        "list": ["Draft until 3 May 2026", "Draft"],
    }


def test_a_mistake_in_a_draft_is_for_its_author_alone(with_drafts: Path) -> None:
    config = json.loads((with_drafts / "mkdocs.yml").read_text())
    del config["nav"]
    (with_drafts / "mkdocs.yml").write_text(json.dumps(config))
    built = build_site(with_drafts, command="serve")
    pages = [page for page in built.rglob("unfinished/index.html") if "cc-problems" in page.read_text("utf-8")]
    assert len(pages) == 1


def test_a_directive_that_names_a_draft_says_so(with_drafts: Path, caplog: pytest.LogCaptureFixture) -> None:
    (with_drafts / "docs" / "index.md").write_text("# Home\n\n<!-- crumbcoat: map from milk/later -->\n")
    with pytest.raises(Abort):
        build_site(with_drafts)
    assert "index.md:3: the recipe 'milk/later' is a draft, so it is not in this site." in caplog.text


def test_an_unchanged_recipe_is_not_computed_again(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = build_site(site)
    before = (first / "milk" / "everyday" / "index.html").read_bytes()
    shutil.copy(site / "docs" / "milk" / "everyday.yaml", site / "docs" / "milk" / "second.yaml")
    rendered = []
    read = rendering.recipe_in
    monkeypatch.setattr(rendering, "recipe_in", lambda *args: (rendered.append(Path(args[1]).name), read(*args))[1])
    second = build_site(site)
    assert rendered == ["second.yaml"]
    assert b"Everyday milk frosting" in (second / "milk" / "second" / "index.html").read_bytes()
    assert json.loads((second / "milk" / "everyday" / "card.json").read_text())["title"] == "Everyday milk frosting"
    assert before.count(b"data-text") == (second / "milk" / "everyday" / "index.html").read_bytes().count(b"data-text")


def test_a_changed_recipe_or_a_new_picture_is_computed_again(site: Path) -> None:
    build_site(site)
    file = site / "docs" / "milk" / "everyday.yaml"
    file.write_text(GOOD.replace("Everyday milk frosting", "Weekday milk frosting"), encoding="utf-8")
    assert b"Weekday milk frosting" in (build_site(site) / "milk" / "everyday" / "index.html").read_bytes()
    Image.new("RGB", (40, 30)).save(site / "docs" / "milk" / "everyday.1-1.jpg")
    assert b"everyday-1-1-40.jpg" in (build_site(site) / "milk" / "everyday" / "index.html").read_bytes()


def test_a_change_to_the_list_of_ingredients_makes_the_pages_that_use_it_again(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    listed = site / "docs" / "ingredients.yaml"
    butter = "our_butter:\n  name: butter of the farm\n  kind: butter_unsalted\n  composition: {fat: 84 %}\n"
    listed.write_text(butter, encoding="utf-8")
    own = GOOD.replace("kind: butter_unsalted", "kind: our_butter", 1)
    assert own != GOOD
    (site / "docs" / "milk" / "own.yaml").write_text(own, encoding="utf-8")
    built = build_site(site)
    assert not [path for path in built.rglob("*") if "ingredients" in path.name]
    before = json.loads((built / "milk" / "own" / "card.json").read_text(encoding="utf-8"))
    rendered = []
    read = rendering.recipe_in
    monkeypatch.setattr(rendering, "recipe_in", lambda *args: (rendered.append(Path(args[1]).name), read(*args))[1])
    listed.write_text(butter.replace("84 %", "82 %"), encoding="utf-8")
    after = json.loads((build_site(site) / "milk" / "own" / "card.json").read_text(encoding="utf-8"))
    assert rendered == ["own.yaml"]
    assert after["total"]["figures"]["fat"]["percent"] < before["total"]["figures"]["fat"]["percent"]


def test_a_mistake_in_the_list_of_ingredients_stops_the_build(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    (site / "docs" / "ingredients.yaml").write_text("our_butter:\n  name: butter\n  kind: buttr\n", encoding="utf-8")
    with pytest.raises(Abort):
        build_site(site)
    assert re.search(r"ingredients\.yaml:3: the ingredient table has no kind 'buttr'\.\n    Fix: ", caplog.text)


def test_a_cut_short_cache_file_is_made_again(site: Path) -> None:
    build_site(site)
    kept = list((site / ".cache").rglob("*.json"))
    assert kept
    for file in kept:
        file.write_text(file.read_text(encoding="utf-8")[:40], encoding="utf-8")
    card = json.loads((build_site(site) / "milk" / "everyday" / "card.json").read_text(encoding="utf-8"))
    assert card["title"] == "Everyday milk frosting"


@pytest.mark.full
def test_a_recipe_of_two_thousand_ingredients_becomes_a_page(site: Path) -> None:
    names = [f"sugar{number}" for number in range(2000)]
    ingredients = "".join(f"  {name}: {{kind: sugar_granulated, amount: 1 g}}\n" for name in names)
    (site / "docs" / "long.yaml").write_text(
        "title: Long\nsummary: Very.\nauthor: Lantern Street teaching kitchen\nfamily: other\n"
        f"yield: {{portions: 1, of: heap}}\ningredients:\n{ingredients}"
        f"stages:\n  - title: Heap\n    steps:\n      - do: Pour.\n        add: [{', '.join(names)}]\n",
        encoding="utf-8",
    )
    card = json.loads((build_site(site) / "long" / "card.json").read_text(encoding="utf-8"))
    assert card["total"]["mass_g"] == pytest.approx(2000)
    assert len(card["ingredients"]) == 2000


def test_a_site_without_material_is_warned(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    config = json.loads((site / "mkdocs.yml").read_text())
    (site / "mkdocs.yml").write_text(json.dumps({**config, "theme": "mkdocs", "strict": False}))
    build_site(site)
    assert "theme: cards are made for Material.\n    Fix: write `theme: {name: material" in caplog.text


def test_colours_of_the_site_that_cannot_be_read_are_warned_of(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    config = json.loads((site / "mkdocs.yml").read_text())
    palette = {"scheme": "default", "primary": "custom", "accent": "custom"}
    theme = {"name": "material", "font": False, "palette": palette}
    colours = {"extra_css": ["own.css"], "strict": False, "theme": theme}
    (site / "mkdocs.yml").write_text(json.dumps({**config, **colours}))
    sheet = site / "docs" / "own.css"
    sheet.write_text(
        '[data-md-color-scheme="default"] { --md-typeset-a-color: #ffe9a0; --md-primary-fg-color: #ffc0cb }'
    )
    build_site(site)
    # By hand, WCAG 2.2: #ffe9a0 has a luminance of 0.825, so on white (1.05) / (0.825 + 0.05) = 1.2.
    assert "links have a contrast of 1.2 to 1" in caplog.text
    assert "the words of the header have a contrast of 1.5 to 1" in caplog.text
    caplog.clear()
    sheet.write_text('[data-md-color-scheme="default"] { --md-typeset-a-color: #0b5c8a }')
    build_site(site)
    assert "contrast" not in caplog.text


def test_a_claim_that_the_figures_do_not_bear_out_is_warned_of_in_each_build(
    site: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """21 CFR 101.62(b)(2): 3 g of fat in 50 g; the recipe has 12 g. A page from the cache is warned of as well."""
    config = json.loads((site / "mkdocs.yml").read_text())
    (site / "mkdocs.yml").write_text(json.dumps({**config, "strict": False}))
    (site / "docs" / "milk" / "everyday.yaml").write_text(GOOD.replace("title: ", "title: Low-fat ", 1))
    for _ in range(2):
        caplog.clear()
        build_site(site)
        assert re.search(
            r"everyday\.yaml:2: “Low-fat” is a claim: .*, and this has 12\.\d g .*\n    Fix: ", caplog.text
        )
