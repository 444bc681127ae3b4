"""No control of a card without a test: each field and button of every card is one that a test here says it exercises.

That such a test touched it, at phone and at desk width, the fixture `card` asks the browser.
"""

from pathlib import Path

from playwright.sync_api import Browser

from tests.browser import (
    test_cake,
    test_everything_back,
    test_keyboard,
    test_kitchen,
    test_measures,
    test_sizes,
    test_variants,
)
from tests.browser.card_page import CONTROL_OF, CONTROLS, RECIPES

TESTED = {
    control
    for module in (
        test_cake, test_everything_back, test_keyboard, test_kitchen, test_measures, test_sizes, test_variants,
    )
    for test in vars(module).values()
    for control in getattr(test, "exercises", ())
}  # fmt: skip


def test_every_field_and_button_of_every_card_is_exercised(browser: Browser, site: tuple[Path, str]) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    there: dict[str, str] = {}
    for recipe in sorted(RECIPES.glob("*/*.yaml")):
        name = recipe.relative_to(RECIPES).with_suffix("").as_posix()
        page.goto(f"{site[1]}{name}/")
        found = page.locator("article").evaluate(
            f"article => [...article.querySelectorAll('{CONTROLS}')].map(one => [({CONTROL_OF})(one), one.outerHTML])"
        )
        assert len(found) > 150
        for control, html in found:
            assert control, f"{name}: nothing here knows what this is: {html}"
            there.setdefault(control, name)
    context.close()
    assert {control: name for control, name in there.items() if control not in TESTED} == {}
    assert TESTED - set(there) == set()
