"""WCAG 2.2 AA by axe-core, in the light and the dark look, and nothing to scroll sideways at 320 px (1.4.10)."""

from pathlib import Path

from playwright.sync_api import Page

RUNTIME = Path(__file__).parents[2] / "site_plugins" / "crumbcoat_site" / "calculators" / "runtime"
AXE = (RUNTIME / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
RUN = """async (part) => {
  const { violations, passes } = await axe.run(part, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    rules: { "target-size": { enabled: true } },
    resultTypes: ["violations"],
  });
  return [violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => [id, target])), passes.length];
}"""
"""The broken rules, each with its place, and how many are kept; axe describes the places of broken ones alone."""

PHONE_LIGHT, DESK_DARK = (360, "light"), (1280, "dark")
LOOKS = (PHONE_LIGHT, DESK_DARK, (360, "dark"), (1280, "light"))

CHOOSE = """async (wanted) => {
  const palette = { light: "default", dark: "slate" }[wanted];
  const input = document.querySelector(`input[data-md-color-scheme=${palette}]`); // A handout has none.
  if (input && document.body.dataset.mdColorScheme !== palette) input.click();
  await Promise.all(document.getAnimations().map((change) => change.finished));
  if (input && document.body.dataset.mdColorScheme !== palette) throw new Error(`the page is not ${wanted}`);
}"""
"""Take the colours of the light or the dark look, as a reader does by the button in the header."""

WIDER = """() => [...document.querySelectorAll("main *")].filter((one) => {
  const { right, width } = one.getBoundingClientRect();
  return width && right > innerWidth + 1 && one.checkVisibility() && !one.closest(".cc-wide, svg");
}).slice(0, 5).map((one) => one.outerHTML.slice(0, 120))"""
"""What reaches beyond the right edge; a wide table may, since it scrolls inside its own frame."""


def prepare(page: Page, look: tuple[int, str]) -> None:
    """The width and the colours that the next page is opened with."""
    width, scheme = look
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]


def is_accessible(page: Page, look: tuple[int, str], part: str = "html") -> None:
    """No rule is broken in that part of the page as it is now, seen at that width and in these colours."""
    prepare(page, look)
    page.evaluate(CHOOSE, look[1])
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE)
    found, kept = page.evaluate(RUN, part)
    assert found == [], (look, found)
    assert kept > 5


def is_narrow(page: Page) -> None:
    """Nothing reaches beyond the right edge at 320 px."""
    page.set_viewport_size({"width": 320, "height": 640})
    found = page.evaluate("document.documentElement.scrollWidth"), page.evaluate(WIDER)
    assert found == (320, []), found
