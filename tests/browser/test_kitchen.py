"""What the reader enters about the kitchen, the stage they look at, the cost of a cake, and what is printed."""

import io
import math

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

from tests.browser.card_page import Card, exercises, number

ONE_BOWL = "buttercreams/icing-sugar-buttercream"
"""Everything goes into one bowl, and nothing is heated or cooled."""


@exercises("batch:temperature.*", "batch:room_temperature", "batch:mixer_watts", "batch:mixer_minutes",
           "batch:target_temperature", "batch:tempered")  # fmt: skip
def test_temperatures_of_ingredients(card: Card) -> None:
    """Heat balance: if all ingredients are at 15 °C, so is the mixture until its sugar dissolves; work warms it."""
    card.open(ONE_BOWL)
    mixed = "science.mixing_temperature"
    names = card.page.locator("[name^='temperature.']").evaluate_all("fields => fields.map(field => field.name)")
    assert len(names) > 3
    for name in names:
        card.give(name, "15")
    assert card.text(mixed).endswith("to 15.5)")
    assert 12 < number(card.text(mixed)) < 15
    card.give("target_temperature", "59 F")
    for option in card.field("tempered").locator("option").all():
        card.give("tempered", option.get_attribute("value") or "")
        name = (option.text_content() or "").replace("\u00a0", " ")
        assert card.text("tempering").startswith("not given: ") or f"g of {name} at " in card.text("tempering")
    card.give("tempered", "butter")
    before = number(card.text("tempering").partition(" at ")[2])
    assert before > 15
    warmth = number(card.text(mixed))
    card.give("mixer_watts", "20")
    card.give("mixer_minutes", "5")
    # 6 kJ; the heat capacity is between that of sugar, near 1.2 kJ/(kg K), and water, near 4.2 (from memory).
    mass_kg = number(card.text("finished_mass")) / 1000
    assert 6 / 4.2 / mass_kg < number(card.text(mixed)) - warmth < 6 / 1.2 / mass_kg
    assert number(card.text("tempering").partition(" at ")[2]) < before
    card.give("mixer_minutes", "")
    for name in names:
        card.give(name, "")
    card.give("room_temperature", "10")
    cold = number(card.text(mixed))
    assert "at room temperature, 10 °C (50 °F)" in card.text(mixed)
    card.give("room_temperature", "30")
    assert number(card.text(mixed)) > cold


@pytest.mark.full
@exercises("batch:bowl_temperature", "batch:target_temperature", "batch:chilled_from", "batch:chilled_to",
           "batch:chilled_minutes", "batch:cold_temperature")  # fmt: skip
def test_how_long_to_chill(card: Card) -> None:
    """Newton's law of cooling: T = Ta + (T0 - Ta) exp(-t / tau)."""
    entered = {"bowl_temperature": "26", "target_temperature": "16", "chilled_from": "25", "chilled_to": "20"}
    for name, value in entered.items():
        card.give(name, value)
    assert "two temperatures measured in this bowl" in card.text("science.chilling")
    for minutes, cold in ((10, 5), (20, 5), (10, 12)):
        card.give("chilled_minutes", str(minutes))
        card.give("cold_temperature", str(cold))
        tau = minutes / math.log((25 - cold) / (20 - cold))
        needed = tau * math.log((26 - cold) / (16 - cold))
        assert card.text("science.chilling").startswith(f"{needed:.0f} min from 26 °C (79 °F) to 16 °C (61 °F)")
    card.give("chilled_to", "30")
    assert card.text("science.chilling").startswith("not given: the second reading must be between")


@exercises("batch:warm_to", "batch:hands_temperature", "id:on-paper-warming")
def test_how_it_warms(card: Card) -> None:
    """A coat never gets warmer than the room; hands are marked in the picture; it is printed if wanted."""
    card.open(ONE_BOWL)
    coat = card.rows("rows.warming_times")[1]
    card.give("warm_to", "60 F")
    assert "15.6 °C (60 °F)" in card.text("warming.until")
    card.give("warm_to", "20")
    assert card.rows("rows.warming_times")[1][1] == "never"
    card.give("warm_to", "")
    assert card.rows("rows.warming_times")[1] == coat
    card.give("hands_temperature", "30")
    assert "your hands, 30 °C" in (card.page.locator("[data-picture='picture.warming']").text_content() or "")
    box = card.page.locator("#on-paper-warming")
    card.unfold(box)
    for wanted in (True, False):
        box.set_checked(wanted)
        text = " ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(card.page.pdf())).pages)
        assert ("about texture, not about safety" in text) == wanted


@pytest.mark.full
@exercises("batch:ph")
def test_a_measured_ph(card: Card) -> None:
    """A pH below 4.2 needs no further assessment at any water activity (FDA Food Code, 1-201.10, table B)."""
    assert "need a measured pH" in card.text("science.keeping")
    card.give("ph", "3.9")
    low = card.text("science.keeping")
    card.give("ph", "6.5")
    high = card.text("science.keeping")
    assert "need a measured pH" not in low + high
    assert "assessment" in high
    assert low != high
    card.give("ph", "15")
    assert "0 to 14" in card.problem("ph")
    card.give("ph", "")
    assert card.problem("ph") == ""


@pytest.mark.full
@exercises("batch:looked_at")
def test_each_stage_can_be_looked_at(card: Card) -> None:
    """Stage 2 of the recipe file: 70 g of butter at 81.11 % fat (USDA SR 28), 120 g of sugar, 1.5 g of salt."""
    card.give("looked_at", "1")
    assert card.text("science.of").startswith("After stage 2, 192 g")
    assert card.text("science.fat") == f"{70 * 0.8111:.0f} g"
    for option in card.field("looked_at").locator("option").all()[1:]:
        stage = int(option.get_attribute("value") or "")
        card.give("looked_at", str(stage))
        assert number(card.text("science.of").partition(",")[2]) == number(card.text(f"stage.{stage}.mass"))


@pytest.mark.full
@exercises("label:cost.cake")
def test_the_cost_of_a_cake(card: Card) -> None:
    field, rows = card.page.locator("[name='cost.cake']"), card.page.locator("[data-rows='cost.sums'] tr")

    def cost(row: int) -> float:
        return number(card.rows("cost.sums")[row][1])

    card.unfold(field)
    field.fill("350 g")
    expect(rows).to_have_count(4)
    assert cost(3) == pytest.approx(0.35 * cost(1), abs=0.011)
    once = cost(0)
    card.give("factor", "2")
    expect(rows.first).not_to_contain_text(f"{once:.2f}")
    assert cost(0) == pytest.approx(2 * once, abs=0.011)
    assert cost(3) == pytest.approx(0.35 * cost(1), abs=0.011)
    field.fill("12 oz")  # 340.19 g, NIST Handbook 44
    expect(rows.last).not_to_contain_text("350 g")
    assert cost(3) == pytest.approx(0.34019 * cost(1), abs=0.011)
    field.fill("")
    expect(rows).to_have_count(3)


@exercises("label:label.*")
def test_the_energy_of_tables_beside_that_of_the_label(card: Card) -> None:
    field, shown = card.page.locator("[name='label.energy']"), card.page.locator("[data-text='label.by_table']")
    card.unfold(field)
    field.select_option("table")
    expect(shown).to_contain_text("for each food, 100 g have")
    field.select_option("label")
    expect(shown).to_have_text("")


@exercises("label:cost.cake", "batch:factor")
def test_typing_while_the_label_follows_the_batch_is_not_lost(card: Card) -> None:
    """The label waits 200 ms before it follows the batch: something is typed into it just before."""
    card.page.evaluate(
        """() => document.addEventListener("recipe-state", () => setTimeout(() => {
          const field = document.querySelector("[name='cost.cake']");
          field.value = "350 g";
          field.dispatchEvent(new Event("input", { bubbles: true }));
        }, 199), { once: true })"""
    )
    card.unfold(card.page.locator("[name='cost.cake']"))
    before = card.rows("cost.sums")[0][1]
    card.give("factor", "2")
    rows = card.page.locator("[data-rows='cost.sums'] tr")
    expect(rows.first).not_to_contain_text(before)
    expect(rows).to_have_count(4)
    expect(card.page.locator("[name='cost.cake']")).to_have_value("350 g")
    card.page.locator("[name='cost.cake']").fill("")
    expect(rows).to_have_count(3)


@exercises("id:on-paper-label", "id:on-paper-cost")
def test_label_and_cost_are_printed_if_wanted(card: Card) -> None:
    parts = {"label": ("What it is made of", "By US rules"), "cost": ("What the ingredients come to",)}
    for wanted in ("label", "cost"):
        for part in parts:
            box = card.page.locator(f"#on-paper-{part}")
            card.unfold(box)
            box.set_checked(part == wanted)
        text = " ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(card.page.pdf())).pages)
        for part, sentences in parts.items():
            for sentence in sentences:
                assert (sentence in text) == (part == wanted), (wanted, sentence)
    for part in parts:
        card.page.locator(f"#on-paper-{part}").uncheck()


@exercises("shows:put-in")
def test_lines_for_another_page_come_over_the_card_and_go_again(card: Card) -> None:
    lines, button = card.page.locator("#put-in"), card.page.get_by_role("button", name="For your page")
    expect(lines).to_be_hidden()
    button.click()
    expect(lines.locator("code")).to_have_count(2)
    expect(lines).to_be_visible()
    lines.get_by_role("button", name="Close").click()
    expect(lines).to_be_hidden()
    button.press("Enter")
    expect(lines).to_be_visible()
    card.page.keyboard.press("Escape")
    expect(lines).to_be_hidden()
    expect(button).to_be_focused()


@exercises("do:copy")
def test_each_line_for_another_page_is_copied_by_its_button(card: Card) -> None:
    """By keyboard; where the clipboard is refused, the line is selected instead. Both are said (WCAG 2.2, 4.1.3)."""
    card.page.evaluate(
        """() => {
          const writeText = async (text) => {
            if (document.isRefused) throw new DOMException("refused", "NotAllowedError");
            document.copied = text;
          };
          Object.defineProperty(navigator, "clipboard", { configurable: true, value: { writeText } });
        }"""
    )
    lines = card.page.locator("#put-in")
    card.page.get_by_role("button", name="For your page").click()
    for words, line in zip(("In a frame", "As a part of your page"), lines.locator("code").all(), strict=True):
        button = lines.get_by_role("button", name=f"Copy the line: {words}")
        card.page.evaluate("document.isRefused = false")
        button.press("Enter")
        expect(lines.get_by_role("status")).to_have_text(f"Copied: {words}.")
        expect(button).to_be_focused()
        assert card.page.evaluate("document.copied") == line.text_content()
        card.page.evaluate("document.isRefused = true")
        button.press("Space")
        expect(lines.get_by_role("status")).to_contain_text("The line is selected")
        assert card.page.evaluate("getSelection().toString().trim()") == (line.text_content() or "").strip()
    card.page.evaluate("delete navigator.clipboard")
    card.page.keyboard.press("Escape")
