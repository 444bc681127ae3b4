"""What the reader changes on a card: kept, shared, undone; with the fields, the keyboard and broken links."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.chromium import visit

CARD = "milk-emulsions/silk-milk-frosting/"
LIVE = 30_000
COUNT_STATES = "document.states = 0; document.addEventListener('recipe-state', () => document.states += 1)"


@pytest.fixture
def address(site: tuple[Path, str]) -> str:
    return site[1]


@pytest.fixture(
    params=[pytest.param((360, 740), id="phone"), pytest.param((1280, 800), id="desk", marks=pytest.mark.full)]
)
def card(page: Page, address: str, request: pytest.FixtureRequest) -> Page:
    width, height = request.param
    page.set_viewport_size({"width": width, "height": height})
    page.add_init_script(COUNT_STATES)
    page.goto(address + CARD)
    return page


@pytest.fixture
def other(browser: Browser, address: str) -> Iterator[Page]:
    """Another person's page."""
    with visit(browser, address) as page:
        yield page


def factor(page: Page):
    return page.get_by_label("Number of batches")


def scale(page: Page, batches: str) -> None:
    factor(page).fill(batches)
    factor(page).press("Tab")
    expect(made(page)).not_to_have_text(published(page), timeout=LIVE)


def made(page: Page):
    return page.locator(".cc-key [data-text=finished_mass]")


def published(page: Page) -> str:
    """The mass printed by the build, from the page that the server sends."""
    return page.evaluate(
        """async () => {
          const text = await (await fetch(location.pathname)).text();
          const found = new DOMParser().parseFromString(text, 'text/html');
          return found.querySelector('.cc-key [data-text=finished_mass]').textContent;
        }"""
    )


def button(page: Page, name: str):
    """A button by its name; the fold that it is in is opened first."""
    if name in ("Redo", "As published"):
        unfold(page, ".cc-sizing")
    return page.get_by_role("button", name=name, exact=True)


def unfold(page: Page, fold: str) -> None:
    for summary in page.locator(f"{fold}:not([open]) > summary").all():
        summary.click()


def message(page: Page):
    return page.locator("[data-message]")


def test_a_change_is_kept_undone_redone_and_everything_taken_back(card: Page) -> None:
    expect(button(card, "Undo")).to_have_attribute("aria-disabled", "true")
    scale(card, "2")
    doubled = made(card).text_content()
    card.reload()
    expect(factor(card)).to_have_value("2", timeout=LIVE)
    expect(made(card)).to_have_text(doubled)
    for name, value in (("Undo", "1"), ("Redo", "2"), ("As published", "1"), ("Undo", "2")):
        button(card, name).focus()
        card.keyboard.press("Enter")
        expect(factor(card)).to_have_value(value)
    card.keyboard.press("Control+z")
    expect(factor(card)).to_have_value("1")
    card.keyboard.press("Control+Shift+z")
    expect(factor(card)).to_have_value("2")


def test_letters_typed_into_one_field_are_one_change(page: Page, address: str) -> None:
    page.goto(address + CARD)
    factor(page).press("ControlOrMeta+a")
    factor(page).press_sequentially("12", delay=0)
    expect(page.get_by_label("Number of cupcakes, piped")).to_have_value("288", timeout=LIVE)
    factor(page).press_sequentially(".5")
    expect(page.get_by_label("Number of cupcakes, piped")).to_have_value("300", timeout=LIVE)
    factor(page).press("Enter")
    factor(page).press("ControlOrMeta+a")
    factor(page).press_sequentially("2")
    expect(page.get_by_label("Number of cupcakes, piped")).to_have_value("48", timeout=LIVE)
    button(page, "Undo").click()
    expect(factor(page)).to_have_value("12.5")
    button(page, "Undo").click()
    expect(factor(page)).to_have_value("1")
    expect(button(page, "Undo")).to_have_attribute("aria-disabled", "true")


@pytest.mark.full
def test_undo_leaves_text_fields_to_the_browser(page: Page, address: str) -> None:
    page.goto(address + CARD)
    scale(page, "2")
    factor(page).focus()
    page.keyboard.press("Control+z")
    page.get_by_label("Number of batches").blur()
    expect(button(page, "Redo")).to_have_attribute("aria-disabled", "true")


def test_nothing_is_computed_if_nothing_is_kept(card: Page) -> None:
    factor(card).focus()
    expect(card.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live", timeout=LIVE)
    assert card.evaluate("document.states") == 0


def test_a_link_shows_another_person_the_same(card: Page, other: Page) -> None:
    scale(card, "2.5")
    scaled = made(card).text_content()
    unfold(card, "tbody:has([name='without.gelatine']) .cc-about")
    card.get_by_label("leave it out").first.check()
    expect(made(card)).not_to_have_text(scaled, timeout=LIVE)
    expect(card.get_by_label("Link to the amounts on this page")).to_be_hidden()
    button(card, "Copy a link").click()
    field = card.get_by_label("Link to the amounts on this page")
    expect(field).to_have_value(re.compile(f"/{CARD}#factor=2.5&without.gelatine=yes$"))
    link = field.input_value()
    seen = made(card).text_content()
    other.goto(link)
    expect(factor(other)).to_have_value("2.5", timeout=LIVE)
    expect(made(other)).to_have_text(seen)
    expect(other.get_by_label("leave it out").first).to_be_checked()
    expect(other.locator("[data-from-link]")).to_contain_text("This link changes the recipe. As published")
    # It is kept there now, and the address is the recipe's own again, so that a reload shows later changes.
    other.wait_for_function("location.hash === ''")
    other.reload()
    expect(factor(other)).to_have_value("2.5", timeout=LIVE)
    button(other, "Undo").click()
    expect(factor(other)).to_have_value("1")
    expect(other.locator("[data-from-link]")).to_be_hidden()


def test_an_amount_that_is_tapped_is_typed_over_and_what_cannot_be_used_is_not_in_a_link(card: Page) -> None:
    scale(card, "2")
    amount = card.locator("[name='amount.butter']")
    amount.click()
    card.keyboard.type("lots")
    expect(amount).to_have_value("lots")
    button(card, "Undo").click()  # Before there is an answer.
    expect(amount).to_have_value("500 g")
    expect(factor(card)).to_have_value("2")
    amount.click()
    card.keyboard.type("lots")
    card.keyboard.press("Enter")
    expect(amount).to_have_attribute("aria-invalid", "true")
    button(card, "Copy a link").click()
    expect(card.locator("[data-message]")).to_contain_text("does not count: “lots” (Amount of unsalted butter).")
    factor(card).fill("1250")
    assert factor(card).evaluate("field => field.scrollWidth <= field.clientWidth")


def follow(page: Page, link: str, number: int) -> None:
    """Open a link: the first one in a new page, another one in the page that is open, where a message may be left."""
    if number == 0:
        page.goto("about:blank")
        page.goto(link)
    else:
        message(page).evaluate("shown => shown.textContent = ''")
        page.evaluate("link => location.href = link", link)


UNUSABLE = {"an ingredient that is not there": "factor=3&amount.nothing=3", "a field twice": "factor=2&factor=3"}


def test_a_link_that_cannot_be_used_shows_the_recipe_and_loses_nothing(page: Page, address: str) -> None:
    page.goto(address + CARD)
    scale(page, "2")
    for number, fragment in enumerate(UNUSABLE.values()):
        follow(page, f"{address}{CARD}#{fragment}", number)
        expect(message(page)).to_contain_text("The link could not be used", timeout=LIVE)
        expect(made(page)).to_have_text(published(page))
        expect(factor(page)).to_have_value("1")
        button(page, "Undo").click()
        expect(factor(page)).to_have_value("2", timeout=LIVE)


DAMAGED = {
    "a word for a number": "factor=lots",
    "damaged letters": "factor=%E0%A4%A",
    "no name": "=2",
    "far too long": "factor=2&" + "x" * 5000,
}


@pytest.mark.full
def test_a_damaged_link_shows_the_recipe_as_published(page: Page, address: str) -> None:
    for number, fragment in enumerate(DAMAGED.values()):
        follow(page, f"{address}{CARD}#{fragment}", number)
        expect(message(page)).to_contain_text("The link could not be used", timeout=LIVE)
        expect(made(page)).to_have_text(published(page))
        expect(button(page, "Undo")).to_have_attribute("aria-disabled", "true")


@pytest.mark.full
def test_a_link_opened_in_an_open_page_counts(page: Page, address: str) -> None:
    page.goto(address + CARD)
    page.evaluate("location.hash = '#factor=3'")
    expect(factor(page)).to_have_value("3", timeout=LIVE)


def test_ticks_are_kept_and_undone(card: Page) -> None:
    box = card.get_by_label("whole milk is set out")
    step = card.get_by_label("Stage 1, step 2 is done")
    box.check()
    step.check()
    expect(button(card, "Undo")).to_have_attribute("aria-disabled", "false")
    card.reload()
    expect(box).to_be_checked()
    expect(step).to_be_checked()
    button(card, "Undo").click()
    expect(step).not_to_be_checked()
    expect(box).to_be_checked()
    assert card.evaluate("document.states") == 0


def test_a_browser_that_keeps_nothing_says_so_and_works(page: Page, address: str) -> None:
    page.add_init_script("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }")
    page.goto(address + CARD)
    page.get_by_label("whole milk is set out").check()
    expect(message(page)).to_contain_text("saves nothing")
    button(page, "Undo").click()
    expect(page.get_by_label("whole milk is set out")).not_to_be_checked()


def test_each_recipe_keeps_its_own_changes_even_when_pages_are_swapped_in_place(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(address + CARD)
    scale(page, "2")
    page.evaluate("document.visit = 'the same'")
    page.locator(".cc-more a").first.click()
    expect(page.locator("h1")).not_to_contain_text("Silk milk")
    assert page.evaluate("document.visit") == "the same"
    expect(factor(page)).to_have_value("1")
    expect(button(page, "Undo")).to_have_attribute("aria-disabled", "true")
    page.get_by_label("Number of batches").fill("3")
    expect(button(page, "Undo")).to_have_attribute("aria-disabled", "false", timeout=LIVE)
    page.locator(".cc-more a", has_text="Silk milk").click()
    expect(page.locator("h1")).to_contain_text("Silk milk")
    expect(factor(page)).to_have_value("2", timeout=LIVE)


def test_without_scripts_the_page_offers_nothing_that_would_not_work(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + CARD)
    expect(page.locator("[data-do]").first).to_be_attached()
    expect(page.locator("[data-do]:visible, [data-tick]:visible")).to_have_count(0)
    context.close()


def test_units_chosen_on_one_card_apply_to_the_next(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(address + CARD)
    page.locator("select[name=units]").select_option("ounces")
    amount = page.get_by_label("Amount of unsalted butter")
    expect(amount).to_have_value(re.compile("oz"), timeout=LIVE)
    expect(page.locator("[data-do=undo]").first).to_have_attribute("aria-disabled", "false")  # The change is kept.
    page.goto(address + "milk-emulsions/everyday-milk-frosting/")
    expect(page.locator("select[name=units]")).to_have_value("ounces", timeout=LIVE)
    expect(page.locator(".cc-ingredients [name^=amount]").first).to_have_value(re.compile("oz"), timeout=LIVE)
    # It is not a change of this card.
    expect(button(page, "Undo")).to_have_attribute("aria-disabled", "true")
    expect(button(page, "As published")).to_have_attribute("aria-disabled", "true")


def test_an_omission_is_shown_at_its_step_skipped_on_the_bench_and_listed_on_paper(page: Page, address: str) -> None:
    page.goto(address + CARD)
    step = page.locator("#step-1-2")
    expect(step.get_by_label("leave this step out, with powdered gelatine")).to_be_attached()
    unfold(page, "tbody:has([name='without.gelatine']) .cc-about")
    page.get_by_label("leave it out").first.check()
    expect(step.locator(".cc-left-out")).to_have_text("left out", timeout=LIVE)
    button(page, "Work through it").click()
    expect(page.locator(".cc-bench-list")).not_to_contain_text("gelatine")
    for place in ("step 1 of 6", "step 3 of 6"):
        page.keyboard.press("ArrowRight")
        expect(page.locator(".cc-bench-where")).to_contain_text(place)
    page.keyboard.press("ArrowLeft")
    expect(page.locator(".cc-bench-where")).to_contain_text("step 1 of 6")
    page.keyboard.press("Escape")
    page.emulate_media(media="print")
    expect(step.locator(".cc-do")).to_be_visible()
    expect(step.locator(".cc-goes-in")).to_be_hidden()
    expect(page.locator(".cc-ingredients tbody:has([data-text='out.gelatine']) .cc-printed")).to_be_hidden()
    page.emulate_media(media="screen")
    page.get_by_label("leave it out").first.uncheck()
    expect(step.locator(".cc-left-out")).to_be_empty(timeout=LIVE)


@pytest.mark.full
def test_the_egg_size_applies_to_every_card_and_changes_no_mass(page: Page, address: str) -> None:
    page.goto(address + "buttercreams/swiss-meringue-buttercream/")
    eggs = page.locator("[data-text='eggs.egg_white']")
    expect(eggs).to_contain_text("5 large egg whites")
    before = made(page).text_content()
    unfold(page, ".cc-sizing")
    page.get_by_label("My eggs, in the shell").select_option("size M (EU, 53 to 63 g)")
    expect(eggs).to_contain_text("size M egg whites", timeout=LIVE)
    assert made(page).text_content() == before
    page.goto(address + CARD)
    expect(page.get_by_label("My eggs, in the shell")).to_have_count(0)
    scale(page, "2")
    page.goto(address + "creams-and-ganache/lemon-curd-filling/")
    expect(page.locator("[data-text='eggs.egg']")).to_contain_text("size M eggs", timeout=LIVE)
    expect(button(page, "Undo")).to_have_attribute("aria-disabled", "true")


@pytest.mark.full
def test_the_cake_is_kept_and_linked_together_with_the_batch(page: Page, address: str) -> None:
    page.goto(address + CARD + "#factor=2&cake:cupcakes=30")
    expect(factor(page)).to_have_value("2", timeout=LIVE)
    expect(page.locator("[name=cupcakes]")).to_have_value("30", timeout=LIVE)
    page.wait_for_function("location.hash === ''")
    page.reload()
    expect(page.locator("[name=cupcakes]")).to_have_value("30", timeout=LIVE)
    expect(factor(page)).to_have_value("2", timeout=LIVE)
    page.locator("[data-do=link]").click()
    assert "#factor=2&cake:cupcakes=30" in page.get_by_label("Link to the amounts on this page").input_value()
    button(page, "Undo").click()
    expect(factor(page)).to_have_value("1", timeout=LIVE)
    expect(page.locator("[name=cupcakes]")).not_to_have_value("30", timeout=LIVE)


def test_amounts_that_are_not_published_are_shown_at_once_or_not_at_all(page: Page, address: str) -> None:
    """While Python is held back a reload shows the amounts as they were, a link none, and so does the bench."""
    page.goto(address + CARD)
    cost = page.locator("[data-rows='cost.sums']")
    cost_of_one = cost.text_content() or ""
    scale(page, "2")
    doubled = made(page).text_content() or ""
    expect(cost).not_to_have_text(cost_of_one)
    cost_of_two = cost.text_content()
    held: list[Route] = []
    page.route("**/python/**", lambda route: held.append(route))
    page.reload()
    expect(made(page)).to_have_text(doubled)
    expect(made(page)).to_be_visible()
    expect(factor(page)).to_have_value("2")
    assert cost.text_content() == cost_of_two
    button(page, "Work through it").click()
    amount = page.locator("[data-text^=amount]").first.text_content() or ""
    expect(page.locator(".cc-bench-list li").first).to_contain_text(amount)
    page.keyboard.press("Escape")
    expect(page).to_have_url(address + CARD)  # The entry of bench view in the history is left.

    page.goto("about:blank")
    held.clear()
    page.goto(f"{address}{CARD}#factor=3")
    expect(message(page)).to_have_text("Working out the amounts of this link…")
    expect(made(page)).to_be_hidden()
    expect(factor(page)).to_be_hidden()
    button(page, "Work through it").click()
    expect(page.locator("dialog.cc-bench")).to_have_count(0)
    page.route("**/python/**", lambda route: route.continue_())  # From here on; the newest one counts.
    for route in held:
        route.continue_()
    expect(factor(page)).to_have_value("3")
    expect(made(page)).to_be_visible()
    expect(page.locator("dialog.cc-bench")).to_be_visible()
    expect(message(page)).to_have_text("")


@pytest.mark.full
def test_where_python_cannot_start_a_link_says_that_published_amounts_are_shown(page: Page, pyodide: str) -> None:
    page.route("**/assets/runtime/**", lambda route: route.abort())
    page.goto(f"{pyodide}{CARD}#factor=3")
    expect(message(page)).to_contain_text("The amounts are those of the recipe as published, not those of the link.")
    expect(made(page)).to_have_text(published(page))
    expect(made(page)).to_be_visible()


def test_a_print_and_a_link_wait_for_the_last_change(page: Page, address: str) -> None:
    """As pressed while Python starts; the amounts that are printed and linked are those that were typed."""
    page.add_init_script("document.printed = []; window.print = () => document.printed.push(document.body.innerText)")
    held: list[Route] = []
    page.route("**/python/**", lambda route: held.append(route))
    page.goto(address + CARD)
    before = made(page).text_content() or ""
    factor(page).fill("2")
    button(page, "Print").click()
    button(page, "Copy a link").click()
    expect(message(page)).to_have_text("Working out your last change…")
    assert page.evaluate("document.printed.length") == 0
    page.route("**/python/**", lambda route: route.continue_())  # From here on; the newest one counts.
    for route in held:
        route.continue_()
    expect(page.get_by_label("Link to the amounts on this page")).to_have_value(f"{address}{CARD}#factor=2")
    page.wait_for_function("document.printed.length === 1")
    doubled = made(page).text_content() or ""
    assert doubled != before
    assert page.evaluate("document.printed[0]").count(doubled) >= 2


def test_two_tabs_of_one_card_lose_nothing(page: Page, address: str) -> None:
    other = page.context.new_page()
    for tab in (page, other):
        tab.goto(address + CARD)
    scale(page, "2")
    expect(factor(other)).to_have_value("2")
    other.get_by_label("Amount of unsalted butter").fill("300 g")
    expect(page.get_by_label("Amount of unsalted butter")).to_have_value("300 g")
    expect(message(page)).to_contain_text("changed in another tab")
    expect(factor(page)).to_have_value("2")
    button(page, "Undo").click()
    expect(other.get_by_label("Amount of unsalted butter")).not_to_have_value("300 g")
    expect(factor(other)).to_have_value("2")
    other.close()
