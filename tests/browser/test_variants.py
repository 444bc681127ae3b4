"""Variants of a recipe, computed again: changed amounts, omissions and replacements."""

import pytest
from playwright.sync_api import expect

from tests.browser.card_page import LIVE, SILK, WHIPPED, Card, amounts, exercises, grams, number

MASSES = amounts(SILK)
FINISHED = sum(MASSES.values()) - 4
FAT = {"milk": 3.25, "butter": 81.11}
"""g per 100 g, USDA SR 28, nos. 1077 and 1145."""


def fat_g(card: Card) -> float:
    return number(card.text("fat.mass"))


@exercises("batch:amount.*", "batch:factor")
def test_one_amount_changes_only_that_ingredient(card: Card) -> None:
    published = fat_g(card)
    for key, mass in MASSES.items():
        card.give(f"amount.{key}", grams(2 * mass))
        assert card.text("finished_mass") == grams(FINISHED + mass)
        assert card.text(f"changed.{key}").partition(";")[0] == f"published: {grams(mass)}"
        assert card.text("change").startswith("Compared with the recipe as published: fat ")
        assert {other: card.text(f"amount.{other}") for other in MASSES if other != key} == {
            other: grams(of) for other, of in MASSES.items() if other != key
        }
        if key in FAT:
            assert fat_g(card) == pytest.approx(published + mass * FAT[key] / 100, abs=1)
        card.give(f"amount.{key}", grams(mass))
        assert card.text(f"changed.{key}") == card.text("change") == ""
    card.give("factor", "2")
    card.give("amount.butter", "500")
    assert card.text("finished_mass") == grams(2 * FINISHED + 500 - 2 * MASSES["butter"])
    card.give("factor", "1")
    card.field("amount.butter").blur()
    assert card.value("amount.butter") == "250 g"


@exercises("batch:amount.*")
def test_an_unusable_value_shows_its_error_and_stays_while_the_rest_works(card: Card) -> None:
    for written in ("lots", "-3 g", "5 parsec", "1 cup"):
        card.give("amount.milk", written, leave=False)
        assert card.problem("amount.milk")
        assert card.value("amount.milk") == written
        assert card.field("amount.milk").get_attribute("aria-invalid") == "true"
    card.give("amount.vanilla", "12 g", leave=False)
    assert card.text("finished_mass") == grams(FINISHED + 6)
    assert card.value("amount.milk") == "1 cup"
    card.give("amount.milk", "245 g", leave=False)
    assert card.problem("amount.milk") == ""
    assert card.field("amount.milk").get_attribute("aria-invalid") is None


@exercises("batch:used.*")
def test_what_is_kept_back_counts_once_it_went_in(card: Card) -> None:
    """45 g of the cream are kept back for the second checkpoint."""
    card.open(WHIPPED)
    before = number(card.text("finished_mass"))
    card.give("used.cream.rescue", True)
    assert number(card.text("finished_mass")) == before + 45
    assert card.text("went_in.cream.rescue") == "went in"
    assert card.text("amount.cream") == grams(600)
    card.page.reload()
    card.becomes({"text finished_mass": grams(before + 45), "field batch used.cream.rescue": True})
    card.give("factor", "2")
    assert card.text("kept.cream.rescue") == grams(90)
    assert number(card.text("finished_mass")) == 2 * (before + 45)
    card.do("undo")
    card.do("undo")
    card.becomes({"text finished_mass": grams(before), "field batch used.cream.rescue": False})
    card.open(WHIPPED, "#used.cream.rescue=yes")
    card.becomes({"text finished_mass": grams(before + 45)})
    card.publish()


@exercises("batch:without.*", "batch:skip.*")
def test_left_out(card: Card) -> None:
    """The gelatine, 3 g, is optional, and so is the step where it goes in."""
    fat = fat_g(card)
    for way in ("without.gelatine", "skip.0.1"):
        card.give(way, True)
        assert card.text("finished_mass") == grams(FINISHED - 3)
        assert card.text("amount.gelatine") == "0 g"
        assert number(card.text("fat.percent")) == pytest.approx(100 * fat / (FINISHED - 3), abs=0.1)
        assert card.text("change").startswith("Compared with the recipe as published: fat ")
        card.give(way, False)
        assert card.text("finished_mass") == grams(FINISHED)


@exercises("batch:instead.*")
def test_the_replacements_that_the_recipe_suggests(card: Card) -> None:
    """Semi-skimmed milk has 1.98 % fat (USDA SR 28, no. 1079); 0.966 g of the richer butter replaces 1 g."""
    published = fat_g(card)
    card.give("instead.milk", "semi_skimmed")
    assert card.text("name.milk") == "semi-skimmed milk"
    assert card.text("amount.milk") == "245 g"
    assert fat_g(card) == pytest.approx(published - 245 * (3.25 - 1.98) / 100, abs=1)
    card.give("instead.milk", "")
    card.give("instead.butter", "rich_butter")
    assert card.text("name.butter") == "butter, 84 % fat"
    assert card.text("amount.butter") == grams(250 * 0.966)
    assert fat_g(card) == pytest.approx(published + 250 * (0.966 * 0.84 - 0.8111), abs=1)
    assert card.text("finished_mass") == grams(FINISHED - 250 * 0.034)
    assert f"→ {card.text('fat.percent')}" in card.text("change.butter")
    card.give("amount.butter", "300 g")
    assert card.text("finished_mass") == grams(FINISHED + 300 - 250)


@pytest.mark.full
@exercises("batch:instead.*")
def test_another_kind_of_the_same_group_gram_for_gram(card: Card) -> None:
    """Fat per 100 g by USDA SR 28: nos. 1003, 1001, 1085."""
    published = fat_g(card)
    for key, kind, fat in (
        ("butter", "butter_oil_anhydrous", 99.48),
        ("butter", "butter_salted", 81.11),
        ("milk", "milk_skim", 0.08),
    ):
        card.give(f"instead.{key}", f"kind:{kind}")
        assert card.text("finished_mass") == grams(FINISHED)
        assert card.text(f"amount.{key}") == grams(MASSES[key])
        assert fat_g(card) == pytest.approx(published + MASSES[key] * (fat - FAT[key]) / 100, abs=1)
        assert card.text(f"change.{key}").endswith("%")
        card.give(f"instead.{key}", "")
    for key in MASSES:
        field = card.field(f"instead.{key}")
        if field.count():
            other = field.locator("option").last
            card.give(f"instead.{key}", other.get_attribute("value") or "")
            assert card.text(f"name.{key}") == (other.text_content() or "").replace("\u00a0", " ")
            assert card.text("finished_mass") == grams(FINISHED)
            card.give(f"instead.{key}", "")


@exercises("batch:amount.*", "do:undo", "do:published", "do:unlink")
def test_a_refused_entry_leaves_nothing_of_its_first_letters_and_is_kept_until_it_is_taken_back(card: Card) -> None:
    butter = card.field("amount.butter")
    published = card.text("finished_mass")
    card.give("amount.butter", "½", leave=False)
    assert card.text("finished_mass") != published
    butter.press_sequentially(" cup")
    card.becomes({"text finished_mass": published, "field batch amount.butter": "½ cup"})
    card.page.reload()
    expect(butter).to_have_attribute("aria-invalid", "true", timeout=LIVE)
    card.becomes({"text finished_mass": published, "field batch amount.butter": "½ cup"})
    assert card.problem("amount.butter")
    card.do("undo")
    card.becomes({"field batch amount.butter": grams(MASSES["butter"])})
    assert card.problem("amount.butter") == ""
    card.give("amount.butter", "lots", leave=False)
    butter.press("Tab")
    card.do("published")
    card.becomes(card.printed())
    assert card.problem("amount.butter") == ""
    card.page.evaluate("location.hash = 'factor=3'")
    card.becomes({"field batch factor": "3"})
    card.do("unlink")
    card.becomes(card.printed())


@exercises("batch:amount.*")
def test_a_cup_that_could_be_two_is_offered_as_both(card: Card) -> None:
    """227 g a US cup of butter, usda-sr28; a metric cup by the ratio of the volumes, 250 to 236.5882365 mL."""
    card.give("amount.butter", "½ cup")
    offered = card.page.locator("[data-problem='amount.butter'] button")
    expect(offered).to_have_text(["½ US cup · 114 g", "½ metric cup · 120 g"])
    assert card.text("amount.butter") == grams(MASSES["butter"])
    card.answered(offered.last.click)
    assert card.value("amount.butter") == card.text("amount.butter") == "120 g"
    expect(offered).to_have_count(0)
    expect(card.field("amount.butter")).to_be_focused()
