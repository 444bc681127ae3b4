"""A whole task by keyboard alone, with the focus to be seen at each stop (WCAG 2.2: 2.1.1, 2.1.2, 2.4.7, 2.4.11)."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.card_page import SILK, Card, exercises

SEEN = """(selector) => {
  const one = document.activeElement;
  if (one === document.body) return "";
  const there = one.matches(selector) ? "there" : "";
  const name = `${one.localName} ${one.name || one.textContent.trim().slice(0, 40)}`;
  const at = [one, ...(one.labels ?? []), one.nextElementSibling].find((each) => each?.getBoundingClientRect().width);
  if (!at) return `${name} has no size`;
  const { top, bottom, left, right } = at.getBoundingClientRect();
  if (bottom < 0 || right < 0 || top > innerHeight || left > innerWidth) return `${name} is out of sight`;
  document.looked ??= new WeakSet();
  if (document.looked.has(one)) return there;
  document.looked.add(one);
  const around = [one, one.parentElement, one.nextElementSibling, ...(one.labels ?? [])].filter(Boolean);
  const look = () => around.map((each) => {
    const style = getComputedStyle(each);
    const outline = style.outlineStyle === "none" ? "" : style.outline;
    return [outline, style.boxShadow, style.borderColor, style.backgroundColor].join();
  }).join("|");
  const focused = look();
  one.blur();
  const blurred = look();
  one.focus({ focusVisible: true, preventScroll: true });
  return focused === blurred ? `${name} does not show its focus` : there;
}"""
"""`there` if the focus is at the selector, empty on the way and past the end of the page, or what is wrong: it must be
in sight each time and change how something looks, which is compared once for each control."""


def seek(page: Page, selector: str, key: str = "Tab") -> None:
    """Press Tab until something has the focus; at every stop on the way it is seen."""
    for _ in range(400):
        page.keyboard.press(key)
        found = page.evaluate(SEEN, selector)
        assert found in ("", "there")
        if found:
            return
    raise AssertionError(f"{selector} is not reached by {key}")


@exercises("do:bench", "do:print", "do:undo", "do:redo", "do:timer", "tick:set out", "tick:step", "batch:factor",
           "batch:instead.*", "cake:tier.*.diameter", "cake:style", "hand:cake.mass_needed")  # fmt: skip
def test_a_whole_task(card: Card) -> None:
    page = card.page
    card.open_first()  # Nothing is ticked.
    page.locator(".md-skip").focus()  # The first stop of the page.
    page.evaluate("""() => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync("* { transition: none !important; }");
      document.adoptedStyleSheets.push(sheet);
    }""")
    # Size the batch; the field is selected when it is reached.
    seek(page, "[name=factor]")
    page.keyboard.type("2")
    expect(page.locator(".cc-key [data-text=finished_mass]")).to_have_text("1643 g")
    # By the cake, and its mass to the batch.
    seek(page, ".cc-sizing > summary")
    page.keyboard.press("Enter")
    seek(page, "summary:not(details[open] > summary)")
    while "by the cake" not in page.evaluate("document.activeElement.textContent"):
        seek(page, "summary")
    page.keyboard.press("Enter")
    seek(page, "[name=style]")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#cake [name=style]")).to_have_value("thin walls")
    seek(page, "[name='tier.1.diameter']")
    page.keyboard.type("28 cm")
    needed = page.locator("[data-text-of='cake.mass_needed'] [data-text]")
    seek(page, "[data-text-of='cake.mass_needed']")
    expect(needed).to_have_text("620 g")  # For a moment it is that of the size or of the style alone.
    page.keyboard.press("Enter")
    expect(page.locator(".cc-key [data-text=finished_mass]")).to_have_text("620 g")
    # Something else instead, undone and done again.
    seek(page, "tbody:has([name='instead.milk']) summary")
    page.keyboard.press("Enter")
    seek(page, "[name='instead.milk']")
    page.keyboard.press("ArrowDown")
    expect(page.locator("[data-text='name.milk']").first).to_have_text("semi-skimmed milk")
    seek(page, "[data-do=undo]", "Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("[data-text='name.milk']").first).to_have_text("whole milk")
    seek(page, "[data-do=redo]")
    page.keyboard.press("Space")
    expect(page.locator("[data-text='name.milk']").first).to_have_text("semi-skimmed milk")
    # Set out, and a timer.
    seek(page, "[data-tick='set out milk']")
    page.keyboard.press("Space")
    expect(page.locator("[data-tick='set out milk']")).to_be_checked()
    seek(page, "[data-step='1-3']")
    page.keyboard.press("Enter")
    expect(page.get_by_role("timer")).to_have_count(1)
    # At the bench: to the checkpoint, a trouble and its remedy, and the step done.
    seek(page, "[data-do=bench]", "Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_role("heading", name="How does it look?")).to_be_visible()
    seek(page, ".cc-answer-trouble")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="It can still be rescued")).to_be_focused()
    seek(page, ".cc-answer")
    page.keyboard.press("Enter")
    seek(page, ".cc-answer-right")
    page.keyboard.press("Space")
    expect(page.get_by_role("heading", name="It looks right")).to_be_focused()
    seek(page, ".cc-bench [data-tick]")
    page.keyboard.press("Space")
    expect(page.locator(".cc-bench-done")).to_have_text("Next")
    seek(page, ".cc-bench [data-do=timer], .cc-bench-done")
    page.keyboard.press("Escape")
    expect(page.locator("[data-do=bench]")).to_be_focused()
    expect(page.get_by_label("Stage 1, step 5 is done")).to_be_checked()
    # On paper.
    seek(page, "[data-do=print]")
    page.keyboard.press("Enter")
    page.wait_for_function("document.printed === 1")
    seek(page, ".cc-tray button")
    while page.evaluate("document.activeElement.textContent") != "Dismiss":
        seek(page, ".cc-tray button")
    page.keyboard.press("Enter")
    expect(page.get_by_role("timer")).to_have_count(0)


ON_TOP = """() => {
  const one = document.activeElement;
  const { x, y, width, height } = one.getBoundingClientRect();
  for (let each = one; each; each = each.parentElement) if (getComputedStyle(each).opacity !== "1") return "";
  return one.contains(document.elementFromPoint(x + width / 2, y + height / 2)) ? one.textContent.trim() : "";
}"""
"""The words of what has the focus, if nothing lies over it."""


@pytest.mark.full
def test_the_drawer_of_a_phone_comes_out_when_it_is_reached(page: Page, site: tuple[Path, str]) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(site[1] + f"{SILK}/")
    for words in ("Recipes", "Buttercreams", "Custard buttercream", "Calculators", "Compare"):
        for _ in range(20):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.textContent.trim()") == words:
                break
        assert page.evaluate(ON_TOP) == words
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("Compare")
    # By pointer it opens panel by panel, as the theme has it.
    page.goto(site[1])
    page.locator("label.md-header__button[for=__drawer]").click()
    drawer = page.locator(".md-sidebar--primary")
    drawer.locator("label[for^=__nav_]").filter(has_text="Milk emulsions").first.click()
    drawer.get_by_role("link", name="Silk milk frosting").click()
    expect(page.locator("h1")).to_contain_text("Silk milk frosting")
