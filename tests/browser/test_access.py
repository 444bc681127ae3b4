"""Every kind of page, at rest and in use: WCAG 2.2 AA (checked by axe-core), and no sideways scrolling (1.4.10).

A page in use shows all that it shows at rest, except for the fields with errors; such pages are checked at rest too in
`make test-all`.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.accessibility import DESK_DARK, LOOKS, PHONE_LIGHT, is_accessible, is_narrow, prepare
from tests.browser.card_page import LIVE, RECIPES, SILK

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
            field.blur()  # It counts at once, and not when the keys have rested.
            expect(field).to_have_attribute("aria-invalid", "true", timeout=LIVE)

    return fill


def to_timers(page: Page) -> None:
    """With a timer, something set out, and a link to the card."""
    page.locator("#step-1-3 [data-do=timer]").click()
    page.get_by_label("whole milk is set out").check()
    page.get_by_role("button", name="Copy a link", exact=True).click()
    expect(page.get_by_label("Link to the amounts on this page")).to_be_visible()


NO_TOOL_SCROLLS = """[...document.querySelectorAll('.cc-bench-body, .cc-tray')].every(
  (one) => one.scrollWidth <= one.clientWidth
)"""


def card_in_use(page: Page) -> None:
    """With all that a reader can bring up: timers, a link, and errors."""
    to_timers(page)
    CARD_WRONG(page)
    expect(page.locator(".cc-tray [role=timer]")).to_have_count(1)
    assert page.evaluate(NO_TOOL_SCROLLS)


def searching(page: Page) -> None:
    """With the search open, showing its results."""
    if page.locator("label.md-header__button[for=__search]").is_visible():
        page.locator("label.md-header__button[for=__search]").click()
    page.locator(".md-search__input").fill("")  # The words of the look before.
    page.locator(".md-search__input").press_sequentially("butter")
    expect(page.locator(".md-search-result__item").first).to_be_visible(timeout=LIVE)


def page_of(file: Path) -> str:
    """The address of a Markdown file's page."""
    name = file.relative_to(RECIPES).with_suffix("").as_posix()
    return "" if name == "index" else f"{name.removesuffix('/index')}/"


def with_whole_cards(page: Page) -> None:
    """Each is in the place of its short form."""
    for card in page.locator("whole-card").all():
        card.scroll_into_view_if_needed()
        expect(card).to_have_attribute("data-live", "")


CARD_WRONG = wrong("factor", "finished_volume", "bowl", "have.milk", "tier.1.diameter", "loss", "amount.milk", "ph",
                   "hands_temperature", "cost.cake")  # fmt: skip
IN_EVERY_LOOK = ("front page", "page that is not there", "card")
IN_ONE_LOOK = ("front page", "page that is not there", "about", "how the figures are made", "compare with an error",
               "formulate with errors", "replace with an error", "map with errors")  # fmt: skip
"""In `make test`; each of the four looks is taken by two of them, at both widths and in both colours."""

WORKED_WITH = ("card, unfolded", "compare", "formulate", "replace", "map", "handout")
"""Looked at with errors in some fields."""

LIKE_ANOTHER = ("page that is not kept", "handout of several", *(f"reference, {path.stem}" for path in
                RECIPES.glob("reference/*.md") if path.stem != "kinds"))  # fmt: skip
"""Made of what pages that are looked at are made of."""

PAGES: dict[str, tuple[str, State]] = {
    "front page": ("", at_rest),
    "about": ("about/", at_rest),
    "how the figures are made": ("how-the-figures-are-made/", at_rest),
    "page that is not there": ("404.html", at_rest),
    "page that is not kept": ("offline.html", at_rest),
    "search": ("", searching),
    "card": (f"{SILK}/", at_rest),
    "card, unfolded": (f"{SILK}/", unfolded),
    "card with errors": (f"{SILK}/", card_in_use),
    "compare": ("calculators/compare/", at_rest),
    "compare with an error": ("calculators/compare/", wrong("bowl_temperature")),
    "formulate": ("calculators/formulate/", at_rest),
    "formulate with errors": ("calculators/formulate/", wrong("fat", "low.0", "rich")),
    "replace": ("calculators/replace/", at_rest),
    "replace with an error": ("calculators/replace/", wrong("other_fat.0")),
    "map": ("calculators/map/", at_rest),
    "map with errors": ("calculators/map/", wrong("x_g", "bowl_temperature")),
    "notebook": (f"{SILK}/trials/", unfolded),
    "card for another page": (f"{SILK}/embed/", unfolded),
    "post with whole cards": ("last-evening/", with_whole_cards),
    "handout of several": ("calculators/class-handout/", at_rest),
    "handout": (f"{SILK}/handout/", at_rest),
    "handout with errors": (f"{SILK}/handout/", wrong("students", "start", "bowl")),
    **{f"reference, {path.stem}": (page_of(path), at_rest) for path in sorted(RECIPES.glob("reference/*.md"))},
}


def test_every_kind_of_page_of_the_demo_site_is_checked() -> None:
    looked_at = {place for place, _ in PAGES.values()}
    assert {page_of(path) for path in RECIPES.rglob("*.md") if not path.stem.endswith(".story")} <= looked_at


@pytest.mark.parametrize(
    "kind",
    [pytest.param(kind, marks=pytest.mark.full if kind in (*WORKED_WITH, *LIKE_ANOTHER) else ()) for kind in PAGES],
)
def test_no_page_breaks_wcag(page: Page, site: tuple[Path, str], full: bool, kind: str) -> None:
    place, state = PAGES[kind]
    looks = LOOKS if kind in IN_EVERY_LOOK else (PHONE_LIGHT, DESK_DARK)
    if not full:
        if kind.startswith("reference"):
            looks = (PHONE_LIGHT,)  # Prose and tables, as on the page about the figures.
        elif kind == "card":
            looks = LOOKS[2:]  # The other two are those of the card with errors.
        elif kind in IN_ONE_LOOK:
            looks = (LOOKS[IN_ONE_LOOK.index(kind) % len(LOOKS)],)
    for look in looks:
        prepare(page, look)
        if look == looks[0]:
            page.goto("about:blank")
            page.goto(site[1] + place)
        if look == looks[0] or kind == "search":
            state(page)
        is_accessible(page, look)
        if look == looks[0]:
            is_narrow(page)


def test_no_card_or_handout_scrolls_sideways_at_320_px(page: Page, site: tuple[Path, str], full: bool) -> None:
    """As it is opened, and with every fold open: every fourth card and its handout, the longest among them."""
    page.emulate_media(reduced_motion="reduce")
    names = [file.relative_to(RECIPES).with_suffix("").as_posix() for file in sorted(RECIPES.glob("*/*.yaml"))]
    some = names if full else names[::-4]
    assert SILK in some
    for place in (*(f"{name}/" for name in some), *(f"{name}/handout/" for name in some)):
        page.goto(site[1] + place)
        is_narrow(page)
        unfolded(page)
        is_narrow(page)
