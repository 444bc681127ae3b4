"""No control of a card without a test: each field and button of every card is one that a test here says it exercises.

The fixture `card` asks the browser whether the test touched it. The tests of controls run at phone width, and at desk
width too in `make test-all`: no script asks for the width, so a control does the same at both. Whether it can be seen
and pressed depends on the style sheets, and is tested here for both.
"""

import re
from pathlib import Path

from playwright.sync_api import Page

from tests.browser import (
    test_cake,
    test_everything_back,
    test_keyboard,
    test_kitchen,
    test_measures,
    test_sizes,
    test_variants,
)
from tests.browser.card_page import CONTROL_OF, CONTROLS, RECIPES, WHIPPED, WIDTHS, Card
from tests.browser.test_cake import SHAPES

TESTED = {
    control
    for module in (
        test_cake, test_everything_back, test_keyboard, test_kitchen, test_measures, test_sizes, test_variants,
    )
    for test in vars(module).values()
    for control in getattr(test, "exercises", ())
}  # fmt: skip


FOUND = f"""async (address) => {{
  const page = new DOMParser().parseFromString(await (await fetch(address)).text(), "text/html");
  const found = [...page.querySelectorAll("article :is({CONTROLS})")];
  return found.map((element) => [({CONTROL_OF})(element), element.outerHTML]);
}}"""


def test_every_field_and_button_of_every_card_is_exercised(page: Page, site: tuple[Path, str]) -> None:
    page.goto(f"{site[1]}404.html")
    there: dict[str, str] = {}
    for recipe in sorted(RECIPES.glob("*/*.yaml")):
        name = recipe.relative_to(RECIPES).with_suffix("").as_posix()
        found = page.evaluate(FOUND, f"{site[1]}{name}/")
        assert len(found) > 150
        for control, html in found:
            assert control, f"{name}: nothing here knows what this is: {html}"
            there.setdefault(control, name)
    assert {control: name for control, name in there.items() if control not in TESTED} == {}
    assert TESTED - set(there) == set()


FOR_ANOTHER_PAGE = {"embedded_card.js", "host.js"}
"""What watches how high a card is, for the page around its frame, and whether that is light or dark."""

SCRIPTS = Path(__file__).parents[2] / "site_plugins" / "crumbcoat_site"


def test_no_script_asks_for_the_width() -> None:
    scripts = [path for path in SCRIPTS.rglob("*.js") if "node_modules" not in path.parts]
    assert len(scripts) > 10
    asking = re.compile(r"(inner|outer|client|offset)Width|screen\.(width|orientation)")
    watching = re.compile(r"matchMedia|ResizeObserver")
    texts = {path.name: path.read_text(encoding="utf-8") for path in scripts}
    assert [name for name, text in texts.items() if asking.search(text)] == []
    assert {name for name, text in texts.items() if watching.search(text)} == FOR_ANOTHER_PAGE


REACHED = f"""(part) => {{
  const found = {{}};
  const fold = (summary) => {{ // By the names of texts, which may still change.
    const words = summary.cloneNode(true);
    for (const text of words.querySelectorAll("[data-text]")) text.textContent = text.dataset.text;
    return words.textContent.replace(/[\\d., ]+/g, "");
  }};
  for (const element of document.querySelectorAll(`${{part}} :is({CONTROLS}, summary)`)) {{
    const place = ["radio", "checkbox"].includes(element.type) ? (element.labels[0] ?? element) : element;
    if (!place.checkVisibility({{ visibilityProperty: true }}) || !place.getClientRects().length) continue;
    if (getComputedStyle(place).pointerEvents === "none") continue; // Always open at this width.
    const control = ({CONTROL_OF})(element) || `fold: ${{fold(element)}}`;
    place.scrollIntoView({{ block: "center", behavior: "instant" }});
    const [{{ x, y, width, height }}] = place.getClientRects();
    const top = document.elementFromPoint(x + width / 2, y + height / 2);
    found[control] = (found[control] ?? true) && (place.contains(top) || element.contains(top));
  }}
  return found;
}}"""
"""The controls that can be seen, and whether nothing lies over the middle of any."""


def test_every_control_can_be_seen_and_pressed_at_every_width(card: Card) -> None:
    everything = {}
    for name, (width, height) in WIDTHS.items():
        card.page.set_viewport_size({"width": width, "height": height})
        found: dict[str, bool] = {}

        def look(part: str = "article", found: dict[str, bool] = found) -> None:
            card.page.evaluate("for (const fold of document.querySelectorAll('article details')) fold.open = true")
            for control, free in card.page.evaluate(REACHED, part).items():
                found[control] = found.get(control, True) and free

        card.page.evaluate("location.hash = 'bowl=2.5'")
        card.becomes({"field batch bowl": "2.5 L"})
        card.give("have.milk", "400 g")
        card.give("amount.butter", "262 g")
        card.do("link")
        look()
        card.page.evaluate("document.getElementById('put-in').showPopover()")
        look("#put-in")
        card.page.evaluate("document.getElementById('put-in').hidePopover()")
        for shape in SHAPES:
            card.give("tier.1.shape", shape, "cake")
            look("recipe-calculator[name=cake]")
        card.publish()
        card.open("buttercreams/egg-yolk-buttercream")
        card.give("factor", "1.2")
        look()
        card.publish()
        card.open(WHIPPED)
        look()
        card.open()
        everything[name] = found
    narrow_only = {"fold: Why", "fold: Whyandinanothersize", "fold: Inanothersize", "fold: Itcanstillberescued()",
                   "fold: Itcanstillberescued", "fold: Nearthisone"}  # fmt: skip
    assert everything["phone"].keys() - everything["desk"].keys() <= narrow_only
    assert everything["desk"].keys() <= everything["phone"].keys()
    assert [control for control, free in everything["desk"].items() if not free] == []
    assert [control for control, free in everything["phone"].items() if not free] == []
    assert TESTED - set(everything["phone"]) == set()
