"""Every kind of page, at rest and in use: WCAG 2.2 AA (checked by axe-core), and no sideways scrolling (1.4.10)."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.card_page import LIVE, RECIPES, SILK, WATCH
from tests.chromium import visit

RUNTIME = Path(__file__).parents[2] / "site_plugins" / "crumbcoat_site" / "calculators" / "runtime"
AXE = (RUNTIME / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
RUN = """() => axe.run({runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    rules: {"target-size": {enabled: true}}})"""

WIDER = """() => [...document.querySelectorAll("main *")].filter((one) => {
  const { right, width } = one.getBoundingClientRect();
  return width && right > innerWidth + 1 && one.checkVisibility() && !one.closest(".cc-wide, svg");
}).slice(0, 5).map((one) => one.outerHTML.slice(0, 120))"""
"""What reaches beyond the right edge; a wide table may, since it scrolls inside its own frame."""

State = Callable[[Page], None]


def at_rest(page: Page) -> None:
    """As opened."""


def unfolded(page: Page) -> None:
    """With every fold open."""
    page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true")


def wrong(*names: str) -> State:
    """With unusable values in these fields, and their errors shown."""

    def fill(page: Page) -> None:
        unfolded(page)
        for name in names:
            field = page.locator(f"[name='{name}']").first
            field.fill("plenty")
            expect(field).to_have_attribute("aria-invalid", "true", timeout=LIVE)

    return fill


def searching(page: Page) -> None:
    """With the search open, showing its results."""
    if page.locator("label.md-header__button[for=__search]").is_visible():
        page.locator("label.md-header__button[for=__search]").click()
    page.locator(".md-search__input").press_sequentially("butter")
    expect(page.locator(".md-search-result__item").first).to_be_visible(timeout=LIVE)


CARD_WRONG = wrong("factor", "finished_volume", "bowl", "have.milk", "tier.1.diameter", "loss", "amount.milk", "ph",
                   "temperature.milk", "cost.cake")  # fmt: skip
PAGES: dict[str, tuple[str, State]] = {
    "front page": ("", at_rest),
    "about": ("about/", at_rest),
    "how the figures are made": ("how-the-figures-are-made/", at_rest),
    "page that is not there": ("404.html", at_rest),
    "page that is not kept": ("offline.html", at_rest),
    "search": ("", searching),
    "card": (f"{SILK}/", at_rest),
    "card, unfolded": (f"{SILK}/", unfolded),
    "card with errors": (f"{SILK}/", CARD_WRONG),
    "compare": ("calculators/compare/", at_rest),
    "compare with an error": ("calculators/compare/", wrong("bowl_temperature")),
    "formulate": ("calculators/formulate/", at_rest),
    "formulate with errors": ("calculators/formulate/", wrong("fat", "low.0", "rich")),
    "replace": ("calculators/replace/", at_rest),
    "replace with an error": ("calculators/replace/", wrong("other_fat.0")),
    "map": ("calculators/map/", at_rest),
    "map with errors": ("calculators/map/", wrong("x_g", "bowl_temperature")),
    "handout of several": ("calculators/class-handout/", at_rest),
    "handout": (f"{SILK}/handout/", at_rest),
    "handout with errors": (f"{SILK}/handout/", wrong("students", "start", "bowl")),
}


def test_every_kind_of_page_of_the_demo_site_is_checked() -> None:
    pages = {path.relative_to(RECIPES).as_posix() for path in RECIPES.rglob("*.md")}
    looked_at = {f"{place.rstrip('/') or 'index'}.md" for place, _ in PAGES.values()}
    assert pages <= looked_at


@pytest.mark.parametrize(("width", "scheme"), [(360, "light"), (1280, "dark")], ids=["phone light", "desk dark"])
@pytest.mark.parametrize("kind", PAGES)
def test_no_page_breaks_wcag(browser: Browser, site: tuple[Path, str], kind: str, width: int, scheme: str) -> None:
    place, state = PAGES[kind]
    with visit(browser, viewport={"width": width, "height": 800}, color_scheme=scheme, reduced_motion="reduce") as page:
        page.goto(site[1] + place)
        state(page)
        page.evaluate(AXE)
        result = page.evaluate(RUN)
        found = [(broken["id"], node["target"]) for broken in result["violations"] for node in broken["nodes"]]
        assert found == []
        assert len(result["passes"]) > 5
        if width == 360:
            page.set_viewport_size({"width": 320, "height": 640})
            assert (page.evaluate("document.documentElement.scrollWidth"), page.evaluate(WIDER)) == (320, [])


def test_no_card_or_handout_scrolls_sideways_at_320_px_with_every_fold_open(
    browser: Browser, site: tuple[Path, str]
) -> None:
    with visit(browser, viewport={"width": 320, "height": 640}, reduced_motion="reduce") as page:
        page.add_init_script(WATCH)
        for recipe in sorted(RECIPES.glob("*/*.yaml")):
            name = recipe.relative_to(RECIPES).with_suffix("").as_posix()
            for place in (f"{name}/", f"{name}/handout/"):
                page.goto(site[1] + place)
                unfolded(page)
                width = page.evaluate("document.documentElement.scrollWidth")
                assert (place, width, page.evaluate(WIDER)) == (place, 320, [])
