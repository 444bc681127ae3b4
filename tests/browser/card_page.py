"""A card of the demo site as a reader works it, for tests: fields by name, texts by name, and what was touched."""

import functools
import json
import re
from collections.abc import Callable, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

import yaml
from crumbcoat_calc.forms.context import Context, context_from
from playwright.sync_api import Locator, Page, expect

RECIPES = Path(__file__).parents[2] / "recipes"
SILK = "milk-emulsions/silk-milk-frosting"
WHIPPED = "creams-and-ganache/stabilised-whipped-cream"
"""The card with something kept back for a checkpoint."""
LIVE = 30_000

WIDTHS = {"phone": (360, 740), "desk": (1280, 800)}

CONTROLS = "input, select, textarea, button"
CONTROL_OF = """(element) => {
  const { dataset, id, name, type } = element;
  if (dataset.tick) return `tick:${dataset.tick.replace(/ [^ ]+$/, "")}`;
  if (dataset.do) return `do:${dataset.do}`;
  if (element.popoverTargetElement) return `shows:${element.popoverTargetElement.id}`;
  if (dataset.handTo) return `hand:${(dataset.textOf ?? dataset.field).replace(/^size_by[.].*/, "size_by.*")}`;
  if ("share" in dataset) return "share";
  const form = (element.form ?? element).closest("recipe-calculator")?.getAttribute("name") ?? "";
  if (type === "reset") return `${form}:reset`;
  if (!name) return id ? `id:${id}` : "";
  const [head, ...parts] = name.split(".");
  const own = { cost: parts.join("."), tier: ["*", ...parts.slice(1)].join(".") }[head] ?? (parts.length ? "*" : "");
  return `${form}:${head}${own && "."}${own}`;
}"""
"""What a control is, in words: `batch:amount.*` is a field of the batch for each ingredient; empty if not known."""

WATCH = f"""
document.answers = document.printed = 0;
window.print = () => document.printed += 1;
for (const type of ["recipe-state", "recipe-refused"]) document.addEventListener(type, () => document.answers += 1);
for (const type of ["input", "change", "click"]) document.addEventListener(type, ({{ target }}) => {{
  const control = target.closest?.("{CONTROLS}");
  if (control) sessionStorage.touched = `${{sessionStorage.touched ?? ""}}\n${{({CONTROL_OF})(control)}}`;
}}, true);
"""

SHOWN = """(root) => {
  const found = {};
  const words = (element) => element.textContent.replace(/\\s+/g, " ").trim();
  const all = (selector) => root.querySelectorAll(`article ${selector}`);
  for (const one of all("[data-text]:not(option)")) found[`text ${one.dataset.text}`] = words(one);
  for (const one of all("[data-rows]")) {
    found[`rows ${one.dataset.rows}`] = [...one.rows].map((row) => [...row.cells].map(words).join("|")).join("\\n");
  }
  for (const one of all(":is(input, select)[name]")) {
    const name = `field ${one.form?.id ?? ""} ${one.name}`;
    if (one.type !== "radio") found[name] = one.type === "checkbox" ? one.checked : one.value;
    else if (one.checked) found[name] = one.value;
  }
  return found;
}"""

PRINTED = f"""async () => {{
  const text = await (await fetch(location.pathname)).text();
  return ({SHOWN})(new DOMParser().parseFromString(text, "text/html"));
}}"""

ALL_OF = "selector => [...document.querySelectorAll(selector)]"
"""Without what Playwright does to find an element, which takes ten times as long as the look at it."""

PLAIN = "one => one.textContent.replaceAll('\\u00a0', ' ')"
"""A text as calc writes it: between a number and its unit the page has a no-break space."""

REACH = """(selector) => {
  const field = document.querySelector(selector);
  const folded = Boolean(field.closest("details:not([open])"));
  if (!folded) field.focus();
  return [field.type, folded, document.answers];
}"""
"""Puts the focus on the first field of a selector, unless it is folded away; its type, and the number of answers."""

ANSWERED = """async ([before, left, patienceMs]) => {
  if (left) document.querySelector(left).blur();
  const end = performance.now() + patienceMs;
  const calculators = [...document.querySelectorAll("recipe-calculator:not([data-follows])")];
  while (document.answers === before || !calculators.every((calculator) => calculator.kept)) {
    if (performance.now() > end) throw new Error("no calculator has answered");
    await new Promise((done) => setTimeout(done, 5));
  }
}"""
"""Leaves a field, and waits for an answer with all texts that a calculator may leave for later."""

BECOMES = f"""async (wanted, patienceMs) => {{
  const end = performance.now() + patienceMs;
  for (;;) {{
    const now = ({SHOWN})(document);
    const others = Object.entries(wanted).filter(([name, shown]) => now[name] !== shown);
    if (!others.length) return null;
    if (performance.now() > end) return others.map(([name, shown]) => [name, now[name], shown]);
    await new Promise((done) => setTimeout(done, 20));
  }}
}}"""
"""Waits until the page shows this; null, or what it shows instead."""

IS_PUBLISHED = f"""async (patienceMs) => {{
  document.published ??= {{}};
  document.published[location.pathname] ??= await ({PRINTED})();
  return ({BECOMES})(document.published[location.pathname], patienceMs);
}}"""

SHOWS_IN_TURN = f"""async ([what, all, patienceMs]) => {{
  const button = document.querySelector(`[data-do=${{what}}]`);
  for (const [number, wanted] of all.entries()) {{
    button.click();
    const others = await ({BECOMES})(wanted, patienceMs);
    if (others) return [number, others];
  }}
  return null;
}}"""

Test = TypeVar("Test", bound=Callable[..., None])


def exercises(*controls: str) -> Callable[[Test], Test]:
    """Says which controls a test works; the fixture `card` fails if one of them was not touched in the browser."""

    def mark(test: Test) -> Test:
        test.exercises = controls  # type: ignore[attr-defined]
        return test

    return mark


def context_on(page: Page) -> Context:
    """The context that the calculators of a page share."""
    return context_from(json.loads(page.locator("recipe-calculator[context]").first.get_attribute("context") or ""))


class Card:
    """A card in a browser. Its calculators answer before `give` and `press` return."""

    def __init__(self, page: Page, address: str) -> None:
        self.page, self.address = page, address

    def open(self, name: str = SILK, fragment: str = "") -> None:
        self.page.goto(f"{self.address}{name}/{fragment}")
        self.field("factor").focus()
        self.field("factor").blur()
        expect(self.page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live", timeout=LIVE)

    def open_first(self) -> None:
        """Open it as somebody who was never here: nothing is kept, and there is nothing to undo."""
        self.page.evaluate("localStorage.clear()")
        self.open()

    def selector(self, name: str, form: str = "batch") -> str:
        return f"#{form} [name='{name}'], [form={form}][name='{name}']"

    def field(self, name: str, form: str = "batch") -> Locator:
        return self.page.locator(self.selector(name, form))

    def give(self, name: str, value: str | bool, form: str = "batch", *, leave: bool = True) -> None:
        """Choose of a field, tick it, or type into it and leave it, or pause; and wait for the answer."""
        field, selector = self.field(name, form), self.selector(name, form)
        kind, folded, before = self.page.evaluate(REACH, selector)
        if folded:
            self.unfold(field)
            kind, _, before = self.page.evaluate(REACH, selector)
        typed = False
        if kind == "radio":
            self.page.locator(f"label:has([name='{name}'][value='{value}'])").click()
        elif isinstance(value, bool):
            field.set_checked(value)
        elif kind == "select-one":
            field.select_option(value)
        else:
            field.fill(value)
            typed = True
        self.page.evaluate(ANSWERED, [before, selector if typed and leave else "", LIVE])

    def press(self, text: str) -> None:
        """Press the button that hands over the text of that name, and wait for the answer."""
        button = self.page.locator(f"[data-text-of='{text}']")
        self.unfold(button)
        self.answered(button.click)

    def button(self, what: str) -> Locator:
        """The first button of that name."""
        return self.page.locator(f"[data-do={what}]").first

    def do(self, what: str) -> None:
        button = self.button(what)
        self.unfold(button)
        button.click()

    def publish(self) -> None:
        """Take every change back, and wait until the card is what the build printed."""
        if self.button("published").get_attribute("aria-disabled") == "false":
            self.do("published")
        others = self.page.evaluate(IS_PUBLISHED, LIVE)
        assert not others, others

    def unfold(self, place: Locator) -> None:
        """Open the folds around something, as a reader does who looks for it."""
        folds = place.first.locator("xpath=ancestor::details[not(@open)]")
        while count := folds.count():
            folds.first.locator("> summary").click()
            expect(folds).to_have_count(count - 1)

    def text(self, name: str) -> str:
        """The text on the page under a name; it must be the same everywhere."""
        selector = f"article [data-text='{name}']"
        found = set(self.page.evaluate(f"{ALL_OF}.map({PLAIN})", selector))
        assert len(found) == 1, (name, found)
        return str(found.pop())

    def value(self, name: str, form: str = "batch") -> str:
        (value,) = self.page.evaluate(f"{ALL_OF}.map(one => one.value)", self.selector(name, form))
        return str(value)

    def rows(self, name: str) -> list[list[str]]:
        (rows,) = self.page.evaluate(
            f"{ALL_OF}.map(body => [...body.rows].map(row => [...row.cells].map({PLAIN})))",
            f"[data-rows='{name}']",
        )
        return rows

    def problem(self, name: str) -> str:
        first, *_ = self.page.evaluate(f"{ALL_OF}.map({PLAIN})", f"[data-problem='{name}']")
        return str(first)

    def touched(self) -> set[str]:
        """What was touched since this was asked last, in the words of CONTROL_OF."""
        found = self.page.evaluate("sessionStorage.touched ?? ''").split("\n")
        self.page.evaluate("delete sessionStorage.touched")
        return set(found) - {""}

    def shown(self) -> Mapping[str, object]:
        """Every text, table and field on the page, by name."""
        return self.page.evaluate(f"() => ({SHOWN})(document)")

    def printed(self) -> Mapping[str, object]:
        """The same as the build printed it, from what the server sends."""
        return self.page.evaluate(PRINTED)

    def becomes(self, wanted: Mapping[str, object]) -> None:
        """Wait until the page shows this."""
        others = self.page.evaluate(f"([wanted, patienceMs]) => ({BECOMES})(wanted, patienceMs)", [wanted, LIVE])
        assert not others, others

    def answered(self, act: Callable[[], object]) -> None:
        """Do something, and wait until a calculator has answered."""
        before = self.page.evaluate("document.answers")
        act()
        self.page.evaluate(ANSWERED, [before, "", LIVE])

    def shows_in_turn(self, what: str, wanted: Sequence[Mapping[str, object]]) -> None:
        """Press a button as often as there are things to show, each time when the page shows the one before."""
        failed = self.page.evaluate(SHOWS_IN_TURN, [what, wanted, LIVE])
        assert not failed, failed


@functools.cache
def amounts(name: str) -> Mapping[str, float]:
    """The amounts in g of a recipe file that gives all of them so, read without the project's own reader."""
    text = (RECIPES / f"{name}.yaml").read_text(encoding="utf-8")
    ingredients = yaml.load(text, yaml.BaseLoader)["ingredients"]
    found = {key: re.fullmatch(r"([\d.]+) g", one["amount"]) for key, one in ingredients.items()}
    return {key: float(match[1]) for key, match in found.items() if match}


def rounded(value: float, digits: int) -> str:
    """Halves up, without trailing zeros."""
    shown = Decimal(repr(round(value, 9))).quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)
    return f"{shown:f}".rstrip("0").rstrip(".") if digits else f"{shown:f}"


def grams(mass_g: float) -> str:
    """A mass as a card shows it: 0.01 g below 1 g, 0.1 g below 10 g, else 1 g."""
    return f"{rounded(mass_g, 2 if mass_g < 0.995 else 1 if mass_g < 9.95 else 0)} g"


def number(text: str) -> float:
    """The first number of a text."""
    found = re.search(r"[−-]?\d[\d\u202f]*(?:\.\d+)?", text)
    assert found, text
    return float(found[0].replace("\u202f", "").replace("−", "-"))


FRACTIONS = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8"}


def measured(text: str) -> list[tuple[Fraction, str]]:
    """`1½ US cups + 2 US tbsp` as numbers of measures."""
    parts = []
    for part in text.split(" + "):
        found = re.fullmatch(r"(\d*)([½⅓⅔¼¾⅛]?) (.+?)s?", part)
        assert found, text
        parts.append((Fraction(found[1] or 0) + Fraction(FRACTIONS.get(found[2], "0")), found[3]))
    return parts
