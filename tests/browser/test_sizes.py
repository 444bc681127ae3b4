"""The size of a batch through every one of its controls, computed again from the recipe file."""

import math
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.card_page import LIVE, SILK, Card, amounts, exercises, grams, number, rounded

MASSES = amounts(SILK)
FINISHED = sum(MASSES.values()) - 4
"""The recipe file says that 4 g of water boils off."""
DENSITY, PORTIONS = 0.72, 24
US_CUP_ML, POUND_G = 236.5882365, 453.59237
"""NIST Handbook 44, appendix C, exact."""


def made(card: Card, factor: float, digits: int = 3) -> None:
    """Check that everything on the card is the recipe times the factor."""
    assert card.value("factor") == rounded(factor, digits)
    assert card.value("portions") == rounded(PORTIONS * factor, 1)
    assert card.text("finished_mass") == card.value("finished_mass") == grams(FINISHED * factor)
    assert card.value("finished_volume") == f"{rounded(FINISHED * factor / DENSITY, 0)} mL"
    for key, mass in MASSES.items():
        assert card.value(f"amount.{key}") == card.text(f"amount.{key}") == grams(mass * factor)
    for key, *portions in (("milk", "blooming", "warming"), ("butter", "melting", "creaming")):
        parts = [number(card.text(f"portion.{key}.{portion}")) for portion in portions]
        assert sum(parts) == number(card.text(f"amount.{key}"))


@exercises("batch:factor")
def test_by_the_number_of_batches(card: Card) -> None:
    made(card, 1)
    for written, factor in (("2", 2), ("1/2", 0.5), ("1.75", 1.75)):
        card.give("factor", written)
        made_of = {**MASSES, "factor": factor}
        assert card.text("finished_mass") == grams(FINISHED * factor)
        assert card.text("amount.butter") == grams(made_of["butter"] * factor)
    card.give("factor", "2")
    card.field("factor").blur()
    made(card, 2)


@exercises("batch:portions")
def test_by_portions(card: Card) -> None:
    card.give("portions", "36")
    card.field("portions").blur()
    made(card, 1.5)


@exercises("batch:finished_mass")
@pytest.mark.parametrize(
    ("written", "mass_g"),
    [
        ("3 lb", 3 * POUND_G),
        *(pytest.param(*one, marks=pytest.mark.full) for one in (("1643", 1643), ("1.2 kg", 1200))),
    ],
)
def test_by_the_finished_mass(card: Card, written: str, mass_g: float) -> None:
    card.give("finished_mass", written)
    card.field("finished_mass").blur()
    made(card, mass_g / FINISHED)


@exercises("batch:finished_volume")
@pytest.mark.parametrize(
    ("written", "volume_ml"),
    [
        ("4 US cup", 4 * US_CUP_ML),
        *(pytest.param(*one, marks=pytest.mark.full) for one in (("2000", 2000), ("2.5 L", 2500))),
    ],
)
def test_by_the_finished_volume(card: Card, written: str, volume_ml: float) -> None:
    card.give("finished_volume", written)
    card.field("finished_volume").blur()
    made(card, volume_ml * DENSITY / FINISHED)


@pytest.mark.full
@exercises("batch:cup", "batch:cup_weighs", "batch:finished_volume")
def test_by_a_weighed_level_measure(card: Card) -> None:
    for cup, volume_ml, weighs in (("metric_cup", 250, 200), ("decilitre", 100, 90), ("us_cup", US_CUP_ML, 213),
                                   ("litre", 1000, 850)):  # fmt: skip
        card.give("cup", cup)
        card.give("cup_weighs", f"{weighs} g")
        density = weighs / volume_ml
        assert card.text("density") == f"{density:.2f} g/mL, by the cup you weighed"
        assert card.value("finished_volume") == f"{rounded(FINISHED / density, 0)} mL"
        card.give("cup_weighs", "")
    card.give("cup_weighs", "850")
    card.give("finished_volume", "3 L")
    assert card.text("finished_mass") == grams(3000 * 0.85)


@exercises("batch:bowl", "batch:tool", "hand:bowl.smallest", "hand:bowl.largest")
def test_by_the_bowl_and_in_equal_batches(card: Card) -> None:
    """data/bowl_fill.csv, common practice: how full the bowl must be at the start, and how full it may be at the end.

    What is first mixed has the density of water, at last that of the finished frosting.
    """
    shares = {"whisk": (0.05, 0.75), "paddle": (0.08, 0.65), "hand_whisk": (0.03, 0.6)}
    card.give("bowl", "2.5")
    for tool, (least, most) in shares.items():
        card.give("tool", tool)
        assert card.text("bowl.smallest") == grams(2500 * least)
        assert card.text("bowl.largest") == grams(2500 * most * DENSITY)
    card.give("tool", "whisk")
    card.press("bowl.largest")
    assert card.text("finished_mass") == "1350 g"
    assert card.text("bowl.split") == "1350 g fits in one go."
    card.press("bowl.smallest")
    assert card.text("finished_mass") == "125 g"
    card.give("factor", "3")
    assert card.text("bowl.split") == f"Make 2 equal batches of {grams(1.5 * FINISHED)} each."
    names = card.page.locator(".cc-ingredients th .cc-ingredient").all_text_contents()
    assert card.rows("split") == [[name, grams(1.5 * mass)] for name, mass in zip(names, MASSES.values(), strict=True)]
    card.give("bowl", "5 US quart")  # 5 * 231 / 4 cubic inches
    assert card.text("bowl.largest") == grams(5 * 4 * US_CUP_ML * 0.75 * DENSITY)
    card.give("bowl", "")
    assert card.text("bowl.room") == card.text("bowl.split") == ""


@exercises("batch:have.*", "hand:have.factor")
def test_by_the_ingredients_in_the_cupboard(card: Card) -> None:
    for key, mass in MASSES.items():
        card.give(f"have.{key}", grams(2 * mass))
        assert card.text("have.factor") == "2"
        card.give(f"have.{key}", "")
    card.give("have.butter", "500 g")
    card.give("have.milk", "400 g")
    factor = 400 / MASSES["milk"]
    assert card.text("have.short") == "whole milk runs out first, at 1.63 batches."
    assert card.rows("have.left") == [["unsalted butter", f"{grams(500 - factor * MASSES['butter'])} left"]]
    card.press("have.factor")
    assert card.text("amount.milk") == "400 g"
    made(card, factor)


@pytest.mark.full
@exercises("hand:whole_eggs.less", "hand:whole_eggs.more", "batch:factor")
def test_by_whole_eggs(card: Card) -> None:
    """Seven yolks per batch: 1.2 batches need 8.4 yolks, so 8/7 or 9/7 batches need whole yolks."""
    card.open("buttercreams/egg-yolk-buttercream")
    assert card.text("whole_eggs") == ""
    for press, factor in (("whole_eggs.less", "1.143"), ("whole_eggs.more", "1.286")):
        card.give("factor", "1.2")
        card.press(press)
        assert card.value("factor") == factor
        assert card.text("whole_eggs") == ""
    assert card.text("eggs.egg_yolk").startswith("9 ")


@pytest.mark.full
@exercises("batch:eggs")
def test_the_eggs_on_hand(card: Card) -> None:
    """USDA SR 28, nos. 01123 and 01125: a large yolk weighs 17 g; a whole egg 44 g medium, 50 g large, 63 g jumbo."""
    card.open("buttercreams/egg-yolk-buttercream")
    yolks_g = 7 * 17.0  # The recipe file says 7 large.
    before = card.text("finished_mass")
    for size, whole_g in (("medium", 44), ("jumbo", 63), ("large", 50)):
        card.give("eggs", size)
        eggs = card.text("eggs.egg_yolk")
        assert eggs.startswith(f"{math.ceil(yolks_g / (17 * whole_g / 50) - 1e-9)} {size} egg yolks")
        assert card.text("finished_mass") == before


@exercises("hand:size_by.*", "batch:amount.*")
def test_an_amount_that_was_changed_sizes_the_whole_batch(card: Card) -> None:
    for key, mass in MASSES.items():
        card.give(f"amount.{key}", grams(3 * mass))
        assert card.text(f"changed.{key}") != ""
        card.press(f"size_by.{key}")
        assert card.value("factor") == "3"
        assert card.text("finished_mass") == grams(3 * FINISHED)
        assert card.text("change") == card.text(f"changed.{key}") == ""
        card.publish()
    card.give("amount.butter", "500")
    card.press("size_by.butter")
    made(card, 500 / MASSES["butter"])
    card.give("amount.milk", "1 US cup")  # USDA SR 28, no. 1077: a cup weighs 244 g
    card.press("size_by.milk")
    made(card, 244 / MASSES["milk"])


@exercises("hand:size.smaller", "hand:size.larger", "hand:factor", "hand:finished_mass")
def test_smaller_larger_and_usual_sizes(card: Card) -> None:
    card.press("size.larger")
    made(card, 2)
    for _ in range(2):
        card.press("size.smaller")
    made(card, 0.75)
    preset = card.page.locator("[data-value]")
    card.unfold(preset)
    card.answered(preset.filter(has_text="Double").click)
    made(card, 2)
    cake = preset.filter(has_text="20 cm")
    mass = cake.get_attribute("data-value")
    card.answered(cake.click)
    assert card.text("finished_mass") == mass


@pytest.mark.newcomer
def test_every_press_of_larger_counts_while_the_calculator_starts(page: Page, site: tuple[Path, str]) -> None:
    page.goto(f"{site[1]}{SILK}/")
    larger = page.get_by_role("button", name="Larger")
    for _ in range(3):
        larger.click()
    expect(page.locator("[name=factor][form=batch]")).to_have_value("4", timeout=LIVE)


def test_the_frame_around_a_field_in_use_does_not_lie_over_its_label(page: Page, site: tuple[Path, str]) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{site[1]}{SILK}/")
    field = page.locator("[name=factor][form=batch]")
    field.focus()
    frame = field.evaluate(
        """field => {
          const { outlineOffset, outlineStyle, outlineWidth } = getComputedStyle(field);
          return outlineStyle === "solid" && parseFloat(outlineOffset) + parseFloat(outlineWidth);
        }"""
    )
    assert frame == 0


@exercises("hand:portions")
def test_as_many_cupcakes_as_the_recipe_says(card: Card) -> None:
    """The recipe file says that one batch is enough for 24 cupcakes."""
    card.give("factor", "2")
    button = card.page.get_by_role("button", name="24 cupcakes")
    card.unfold(button)
    card.answered(button.click)
    made(card, 1)
