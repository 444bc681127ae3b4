"""A batch is kept as a trial on its card: at the bench, without a network and after a reload, to the file."""

import json
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.trials.notebook import notebook_of
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.yaml_text import read_document
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, Page, expect

from tests.browser.test_offline import ready
from tests.chromium import visit
from tests.python_host import serving_python
from tests.site_plugins.command.conftest import run

ROOT = Path(__file__).parents[2]
RECIPE = ROOT / "recipes" / "creams-and-ganache" / "stabilised-whipped-cream.yaml"
LIVE = 30_000
KEEP = ".cc-kept-trial > summary"


def private_kitchen(folder: Path, serve: Callable[[Path], str]) -> str:
    """The address of a new site of one card in a folder, on which a batch can be kept as a trial."""
    address = serve(folder / "site")
    (folder / "docs").mkdir()
    (folder / "docs" / "index.md").write_text("# Kitchen\n")
    shutil.copy(RECIPE, folder / "docs" / "cream.yaml")
    plugins = [
        {"recipe_cards": {"trials": True, "notebooks": True}},
        {"calculators": {"cache": str(ROOT / ".cache" / "crumbcoat")}},
        {"offline_pages": {"large_files": ["assets/runtime/*"],
                           "large_files_in_use": "recipe-calculator[data-state=live]"}},
    ]  # fmt: skip
    theme = {"name": "material", "font": False}
    (folder / "mkdocs.yml").write_text(json.dumps({"site_name": "Kitchen", "theme": theme, "plugins": plugins}))
    build_again(folder, address)
    return address


def build_again(folder: Path, address: str) -> None:
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"), site_url=address)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)


@pytest.fixture(scope="session")
def private_site(runtime: Artefacts, serve: Callable[[Path], str], tmp_path_factory: pytest.TempPathFactory) -> str:
    return private_kitchen(tmp_path_factory.mktemp("private"), serve)


@pytest.fixture
def kitchen(runtime: Artefacts, browser: Browser, tmp_path: Path) -> Iterator[tuple[Path, str, Page]]:
    """A site of its own, its address and a page for a visitor; it is about files, so Python need not be Pyodide."""
    (tmp_path / "site").mkdir()
    with serving_python(tmp_path / "site") as address, visit(browser, address) as page:
        private_kitchen(tmp_path, lambda _: address)
        yield tmp_path, address, page


def field(page: Page, name: str):
    return page.locator(f"[name='trial.{name}']").first


def saved(page: Page) -> tuple[str, str]:
    """The name of the file, and what is in it."""
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the trial file").click()
    return download.value.suggested_filename, Path(download.value.path()).read_text(encoding="utf-8")


def test_from_the_bench_to_the_file_without_a_network(browser: Browser, private_site: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    page.goto(f"{private_site}cream/")
    expect(page.locator(".cc-kept-trial")).not_to_have_attribute("open", "")
    page.get_by_label("Number of batches").fill("2")
    expect(page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live", timeout=LIVE)
    ready(page, "cream", "memory.bin")
    context.set_offline(True)

    page.get_by_role("button", name="Work through it").click()
    bench = page.locator(".cc-bench")
    bench.get_by_role("button", name="Begin").click()
    for _ in range(4):
        bench.get_by_role("button", name="Skip").click()
    bench.get_by_role("button", name="Grainy and yellowish.").click()
    remedy = bench.get_by_label("Did you see it?")
    expect(remedy).to_have_value("seen")
    remedy.select_option("worked")
    bench.get_by_label("it went in").check()
    bench.get_by_role("button", name="Then look again").click()
    bench.get_by_role("button", name="It looks right", exact=True).click()
    bench.get_by_role("button", name="Skip").click()
    bench.get_by_role("button", name="Skip").click()
    bench.get_by_role("button", name="Keep it as a trial").click()
    expect(page.locator(KEEP)).to_be_focused()

    field(page, "aim").fill("- sweeter: #1 \u200f“”?")
    page.locator(".cc-drawer > summary", has_text="Tests of the finished").click()
    field(page, "keeping.time").fill("3")
    expect(page.locator("[data-problem='trial.keeping.time']")).to_contain_text(
        "'3' has no unit: write it like “3 days”"
    )
    field(page, "keeping.time").fill("3 days")
    page.locator(".cc-drawer > summary", has_text="Read off").click()
    field(page, "finished.t_c").fill("9")
    field(page, "finished.t_c").press("Enter")
    page.get_by_role("button", name="Save the trial file").click()
    said = page.locator(".cc-kept-trial .cc-message")
    expect(said).to_have_text(
        "The file is not saved yet. Keeping: choose what it did, or empty the other fields of this test.", timeout=LIVE
    )
    field(page, "keeping.did").select_option("wept")
    expect(page.locator("[data-text='trial.open']")).to_be_empty(timeout=LIVE)

    page.reload()
    expect(field(page, "keeping.time")).to_have_value("3 days")
    expect(field(page, "seen.1.1.0")).to_have_value("worked")
    page.locator(KEEP).click()
    field(page, "number").fill("4")
    name, file = saved(page)
    assert re.fullmatch("4-[b-z]{4}[.]yaml", name)
    assert saved(page)[0] == name
    expect(said).to_contain_text(f"Saved as {name}. Put it into the folder cream.trials beside the recipe")
    data = read_document(file, "a trial").data
    assert data["changed"] == {
        "ingredients": {
            "cream_rescue": {
                "kind": "cream_heavy_whipping", "name": "whipping cream, 36 % fat", "amount": "45 g",
                "temperature": "4 °C", "add_at": "2.2",
            }
        }
    }  # fmt: skip
    assert [entry["sign"] for entry in data["seen"]] == [
        "Grainy and yellowish.",
        "Satin surface, soft peak. Stays in the bowl when it is tilted.",
    ]
    assert data["seen"][0]["worked"] == "yes"
    assert data["tests"] == [{"test": "keeping", "time": "3 days", "did": "wept"}]
    assert data["readings"] == [{"temperature": "9 °C"}]
    assert data["aim"] == "- sweeter: #1 \u200f“”?"
    recipe = load_recipe(RECIPE, RECIPE.name)[1]
    assert notebook_of(recipe, {}, [(name, trial_from(data))]).problems == ()
    context.close()


def put_beside(folder: Path, page: Page) -> Path:
    """Save the trial in the browser and put its file where the page says; it has no problems."""
    name, file = saved(page)
    said = page.locator(".cc-kept-trial .cc-message")
    expect(said).to_contain_text(f"Saved as {name}. Put it into the folder cream.trials")
    path = folder / "docs" / "cream.trials" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(file, encoding="utf-8")
    checked = run("check", str(path))
    assert "1 file, no problems" in checked.output, checked.output
    return path


def test_from_a_saved_file_to_the_notebook_to_a_trial_from_it_and_to_the_published_card(
    kitchen: tuple[Path, str, Page],
) -> None:
    folder, address, page = kitchen
    sugar = page.locator("[name='amount.icing_sugar']")
    page.goto(f"{address}cream/")
    page.locator(KEEP).click()
    sugar.fill("40")
    field(page, "did").select_option("wept")
    field(page, "because").fill("It wept on the second day.")
    first = put_beside(folder, page)
    assert first.name.startswith("1-")

    build_again(folder, address)
    page.goto(f"{address}cream/trials/")
    expect(page.locator(".cc-trial")).to_contain_text("It wept on the second day.")
    page.get_by_role("link", name="Its card, to go on from").click()
    expect(page).to_have_url(f"{address}cream/trials/1/")
    expect(sugar).to_have_value("40 g")
    page.locator(KEEP).click()
    sugar.fill("50")
    page.locator(".cc-drawer > summary", has_text="Tests of the finished").click()
    tested = {"where": "in the refrigerator", "t_c": "4", "time": "2 days"}
    for name, value in tested.items():
        field(page, f"keeping.{name}").fill(value)
    for name, value in {"keeping.did": "held", "did": "held", "verdict": "publish"}.items():
        field(page, name).select_option(value)
    field(page, "because").fill("Fifty grams are enough.")
    second = put_beside(folder, page)
    assert second.name.startswith("2-")
    data = read_document(second.read_text(encoding="utf-8"), "a trial").data
    assert (data["from"], data["changed"]) == ("1", {"ingredients": {"icing_sugar": "50 g"}})

    published = run("publish-trial", str(second))
    assert "+    amount: 50 g" in published.output, published.output
    build_again(folder, address)
    page.goto(f"{address}cream/trials/")
    expect(page.locator(".cc-trial")).to_have_count(2)
    page.goto(f"{address}cream/")
    expect(sugar).to_have_attribute("value", "50 g")  # As published; the device kept the 40 g of the first batch.
    card = page.locator("article")
    expect(card).to_contain_text("Made once")
    expect(card).to_contain_text("In our test it kept 2 days at 4 °C")


def test_notes_are_undone_and_taken_back_with_the_rest_and_are_in_no_link(page: Page, private_site: str) -> None:
    page.goto(f"{private_site}cream/")
    page.locator(KEEP).click()
    field(page, "who").fill("bench two")
    field(page, "who").press("Enter")
    undo = page.locator("[data-do=undo]").first
    expect(undo).to_have_attribute("aria-disabled", "false", timeout=LIVE)
    page.get_by_label("Number of batches").fill("2")
    page.get_by_label("Number of batches").press("Enter")
    link = page.locator(".cc-paper-link [data-link]")
    expect(link).to_have_text(f"{private_site}cream/#factor=2", timeout=LIVE)
    undo.dispatch_event("click")  # It is in a fold of its own.
    expect(page.get_by_label("Number of batches")).to_have_value("1")
    expect(field(page, "who")).to_have_value("bench two")
    undo.dispatch_event("click")
    expect(field(page, "who")).to_have_value("")
    page.locator("[data-do=redo]").first.dispatch_event("click")
    expect(field(page, "who")).to_have_value("bench two")
    page.goto(f"{private_site}cream/#factor=3")
    expect(page.get_by_label("Number of batches")).to_have_value("3", timeout=LIVE)
    expect(field(page, "who")).to_have_value("bench two")
    page.locator("[data-do=published]").first.dispatch_event("click")
    expect(field(page, "who")).to_have_value("")


def test_readers_of_a_public_site_have_nothing_of_it(site: tuple[Path, str]) -> None:
    card = (site[0] / "milk-emulsions" / "silk-milk-frosting" / "index.html").read_text(encoding="utf-8")
    assert "cc-kept-trial" not in card
    assert "trial-of-batch" not in card
    assert "&#34;mark&#34;" not in card


def test_it_is_not_printed(page: Page, private_site: str) -> None:
    page.goto(f"{private_site}cream/")
    page.emulate_media(media="print")
    expect(page.locator(".cc-kept-trial")).to_be_hidden()
    expect(page.locator(".cc-seen").first).to_be_hidden()
