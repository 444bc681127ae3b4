"""The cake through all its controls: what is shown is computed again by closed formulas (Euclidean geometry)."""

import math
import re

import pytest
from crumbcoat_calc.values.units import number as parsed
from playwright.sync_api import expect

from tests.browser.card_page import Card, exercises, grams, number, rounded

DENSITY = 0.72
"""From the recipe file, in g/mL."""

INCH = 25.4
"""mm, exact (NIST Handbook 44)."""

R, H = 100, 100
CRUMB, FINAL, FILLING, LOSS = 1, 4.5, 6, 0.07
"""The cake on the card at first: round, 20 cm across and 10 cm high; usual thicknesses (common practice) in mm."""


def cylinder(radius: float, high: float) -> float:
    return math.pi * radius**2 * high / 1000


def frustum(top: tuple[float, float], bottom: tuple[float, float], high: float) -> float:
    """A block with sloping walls, in mL: the prismatoid formula."""
    middle = [(a + b) / 2 for a, b in zip(top, bottom, strict=True)]
    return high / 6 * (math.prod(top) + 4 * math.prod(middle) + math.prod(bottom)) / 1000


def give(card: Card, **fields: str) -> None:
    for name, value in fields.items():
        card.give(name.replace("__", ".1."), value, "cake")


def uses(card: Card) -> dict[str, float]:
    """Volume in mL by use, as shown in the table; the masses are checked against it."""
    found = {}
    for use, volume, mass in card.rows("cake.by_use"):
        found[use] = number(volume.rpartition("(")[2])  # With inches, cups come first.
        assert number(mass) == pytest.approx(found[use] * DENSITY, abs=0.9)
    assert found["All of it"] == pytest.approx(sum(found.values()) - found["All of it"], abs=3)
    return found


def shown(card: Card) -> str:
    """The description of the drawing of the cake."""
    return card.page.locator("[data-picture='picture.cake_section'] desc").text_content() or ""


T = 5.0
LEAN = math.hypot(1, 10 / 60)
SHAPES = {
    "round": ({"diameter": 180.0, "height": 90.0}, cylinder(95, 95) - cylinder(90, 90)),
    "square": ({"width": 180.0, "height": 90.0}, (190**2 * 95 - 180**2 * 90) / 1000),
    "rectangle": ({"length": 280.0, "width": 180.0, "height": 80.0}, (290 * 190 * 85 - 280 * 180 * 80) / 1000),
    "sheet": ({"length": 400.0, "width": 300.0, "height": 40.0}, (410 * 310 * 45 - 400 * 300 * 40) / 1000),
    "ring": (
        {"diameter": 240.0, "hole": 60.0, "height": 80.0},
        cylinder(125, 85) - cylinder(25, 85) - cylinder(120, 80) + cylinder(30, 80),
    ),
    "loaf": (
        {"length": 220.0, "width": 120.0, "bottom_length": 200.0, "bottom_width": 100.0, "height": 60.0},
        frustum(
            (220 + 2 * T * (10 / 60 + LEAN), 120 + 2 * T * (10 / 60 + LEAN)),
            (200 + 2 * T * LEAN, 100 + 2 * T * LEAN),
            65,
        )
        - frustum((220, 120), (200, 100), 60),
    ),
}
IN_INCHES = ("ring", "loaf")
"""The shapes that have every length among them; the others are measured in `make test-all`."""

LENGTHS = ("diameter", "hole", "length", "width", "bottom_length", "bottom_width")


@exercises("cake:tier.*.shape", "cake:lengths", *(f"cake:tier.*.{name}" for name in (*LENGTHS, "height", "layers")))
def test_each_shape_is_coated_by_its_closed_formula(card: Card, full: bool) -> None:
    give(card, loss="0", crumb="0", filling="0", final="5")
    for shape, (lengths, volume_ml) in SHAPES.items():
        if not full and shape not in IN_INCHES:
            continue
        give(card, tier__shape=shape, tier__layers="1")
        asked = [name for name in LENGTHS if card.field(f"tier.1.{name}", "cake").is_visible()]
        assert asked == [name for name in LENGTHS if name in lengths]
        for name, mm in lengths.items():
            card.give(f"tier.1.{name}", f"{mm / 10:g}", "cake")
        assert uses(card)["Final coat"] == number(rounded(volume_ml, 0))
        across = max(mm for name, mm in lengths.items() if name != "height")
        assert f"across, {lengths['height'] / 10:g} cm high" in shown(card)
        assert f"below, {across / 10:g} " in shown(card)
        give(card, lengths="in")
        for name, mm in lengths.items():
            inches = float(parsed(card.value(f"tier.1.{name}", "cake").removesuffix(" in")))
            assert inches == pytest.approx(mm / INCH, abs=1 / 32 + 1e-9)  # To a sixteenth of an inch.
            card.give(f"tier.1.{name}", f"{2 * mm / INCH:.6f}", "cake")
        # Every length of a loaf has to grow before its walls are steep enough.
        expect(card.page.locator("#cake .cc-problem:not(:empty)")).to_have_count(0)
        assert uses(card)["Final coat"] > 3 * volume_ml
        below = re.search("below, (.+?) in", shown(card))
        assert below
        widest = max(float(parsed(length)) for length in below[1].split(" × "))
        assert widest == pytest.approx(2 * across / INCH, abs=1 / 32 + 1e-9)
        give(card, lengths="cm")


@exercises("cake:tier.*.layers", "cake:tier.*.height")
def test_layers_and_height(card: Card) -> None:
    """Between n layers there are n - 1 fillings, each with the area of the cake."""
    for layers in (1, 2, 4):
        give(card, tier__layers=str(layers))
        assert uses(card).get("Filling", 0) == number(rounded((layers - 1) * cylinder(R, FILLING), 0))
        assert f"{layers} layer" in shown(card)
    card.give("tier.1.height", "4 in", "cake", leave=False)
    assert card.value("tier.1.height", "cake") == "4 in"
    card.field("tier.1.height", "cake").blur()
    assert card.value("tier.1.height", "cake") == "10.16 cm"


@exercises("cake:style", "cake:filled_with")
def test_how_it_is_coated_and_filled(card: Card) -> None:
    under, over = R + CRUMB, R + CRUMB + FINAL
    crumb = cylinder(under, H + CRUMB) - cylinder(R, H)
    coats = {
        "all over": (crumb, cylinder(over, H + CRUMB + FINAL) - cylinder(under, H + CRUMB)),
        "thin walls": (crumb, cylinder(under, FINAL)),
        "bare walls": (cylinder(R, CRUMB), cylinder(R, FINAL)),
        "none": (0, 0),
    }
    for style, (thin, thick) in coats.items():
        give(card, style=style)
        found = uses(card)
        assert found.get("Crumb coat", 0) == number(rounded(thin, 0))
        assert found.get("Final coat", 0) == number(rounded(thick, 0))
        assert found["Filling"] == number(rounded(cylinder(R, FILLING), 0))
        made = (thin + thick + cylinder(R, FILLING)) / (1 - LOSS)
        assert found["All of it"] == number(rounded(made, 0))
    give(card, style="all over", filled_with="other")
    assert "Filling" not in uses(card)
    assert uses(card)["All of it"] == pytest.approx(sum(coats["all over"]) / (1 - LOSS), abs=0.6)


@pytest.mark.full
@exercises("cake:filling", "cake:dam", "cake:crumb", "cake:final", "cake:top_border", "cake:bottom_border",
           "cake:piping", "cake:loss")  # fmt: skip
def test_thicknesses_piping_and_loss(card: Card) -> None:
    give(card, loss="0", filling="8", dam="10", crumb="2", final="5")
    found = uses(card)
    crumb, final = cylinder(102, 102) - cylinder(100, 100), cylinder(107, 107) - cylinder(102, 102)
    assert found["Filling"] == number(rounded(cylinder(90, 8), 0))
    assert found["Dam around the filling"] == number(rounded(cylinder(100, 8) - cylinder(90, 8), 0))
    assert found["Crumb coat"] == number(rounded(crumb, 0))
    assert found["Final coat"] == number(rounded(final, 0))
    assert "filling 8 mm" in shown(card)
    assert "final coat 5 mm" in shown(card)
    rope = math.pi * 6**2 * 2 * math.pi * 107 / 1000
    give(card, top_border="12")
    assert uses(card)["Piping"] == number(rounded(rope, 0))
    give(card, bottom_border="1.2 cm")
    assert uses(card)["Piping"] == number(rounded(2 * rope, 0))
    give(card, piping="30")
    assert uses(card)["Piping"] == number(rounded(2 * rope + 0.3 * (crumb + final), 0))
    whole = sum((cylinder(100, 8), crumb, final, 2 * rope, 0.3 * (crumb + final)))
    give(card, loss="20 %")
    assert uses(card)["All of it"] == number(rounded(whole / 0.8, 0))
    give(card, lengths="in")
    assert [card.value(name, "cake") for name in ("filling", "dam", "final")] == ["5/16 in", "⅜ in", "3/16 in"]


@pytest.mark.full
@exercises("cake:tier.*.filling", "cake:tier.*.dam", "cake:tier.*.crumb", "cake:tier.*.final")
def test_a_tier_may_have_a_filling_and_coats_of_its_own(card: Card) -> None:
    give(card, loss="0", tier__filling="8", tier__dam="10", tier__crumb="2", tier__final="5")
    found = uses(card)
    assert found["Filling"] == number(rounded(cylinder(90, 8), 0))
    assert found["Dam around the filling"] == number(rounded(cylinder(100, 8) - cylinder(90, 8), 0))
    assert found["Crumb coat"] == number(rounded(cylinder(102, 102) - cylinder(100, 100), 0))
    assert found["Final coat"] == number(rounded(cylinder(107, 107) - cylinder(102, 102), 0))
    # The cake's thickness applies only to the other tiers, and to this one when its own field is empty.
    give(card, final="20")
    assert uses(card)["Final coat"] == found["Final coat"]
    give(card, tier__final="")
    assert uses(card)["Final coat"] == number(rounded(cylinder(122, 122) - cylinder(102, 102), 0))


@exercises("cake:tier.*.shape", "cake:tier.*.diameter", "cake:under")
def test_tiers_come_and_go(card: Card) -> None:
    give(card, loss="0", tier__diameter="40")
    alone = uses(card)["All of it"]
    offered = card.page.locator("#cake [name$='.shape']:visible")
    for tier in range(2, 13):
        expect(offered).to_have_count(tier)
        card.give(f"tier.{tier}.shape", "round", "cake")
        card.give(f"tier.{tier}.diameter", f"{42 - 2 * tier}", "cake")
        assert shown(card).count("from below") == tier
    rows = card.rows("cake.by_tier")
    assert [row[0] for row in rows] == [f"Tier {n}, round, {42 - 2 * n} cm" for n in range(1, 13)]
    assert sum(number(row[2]) for row in rows) == pytest.approx(1000 * number(card.text("cake.mass_needed")), abs=10)
    assert card.text("cake.mass_needed").endswith(" kg")
    for tier in (12, 5, 2):
        card.give(f"tier.{tier}.shape", "none", "cake")
    assert [row[0].split(", ")[-1] for row in card.rows("cake.by_tier")] == [
        f"{n} cm" for n in (40, 36, 34, 30, 28, 26, 24, 22, 20)
    ]
    for _ in range(8):
        card.give("tier.2.shape", "none", "cake")
    assert uses(card)["All of it"] == alone
    # Underneath the next tier, 15 cm across and coated all round, no coat is needed.
    give(card, tier__diameter="20")
    card.give("tier.2.shape", "round", "cake")
    card.give("tier.2.diameter", "15", "cake")
    whole = uses(card)["All of it"]
    card.give("under", False, "cake")
    assert whole - uses(card)["All of it"] == pytest.approx(cylinder(75 + CRUMB + FINAL, CRUMB + FINAL), abs=1)


@exercises("cake:tier.*.diameter")
def test_a_tier_that_does_not_fit_shows_its_error_until_it_does(card: Card) -> None:
    card.give("tier.2.shape", "round", "cake")
    card.give("tier.2.diameter", "30", "cake")
    problems = card.page.locator("#cake .cc-problem:not(:empty)")
    for _ in range(2):
        expect(problems).to_have_count(1)
        assert card.problem("tier.2.diameter").startswith("tier 2 does not fit on tier 1: make it smaller")
        assert card.value("tier.2.diameter", "cake") == "30"
        card.give("tier.2.height", "8", "cake")
    card.give("tier.1.diameter", "36", "cake")
    expect(problems).to_have_count(0)
    assert card.rows("cake.by_tier")[1][0] == "Tier 2, round, 30 cm"
    card.give("tier.1.diameter", "25", "cake")
    assert card.problem("tier.1.diameter").startswith("tier 2 does not fit on tier 1")
    card.give("tier.2.diameter", "20", "cake")
    expect(problems).to_have_count(0)
    assert [row[0] for row in card.rows("cake.by_tier")] == ["Tier 1, round, 25 cm", "Tier 2, round, 20 cm"]


@pytest.mark.full
@exercises("cake:tier.*.shape", "cake:cupcakes")
def test_cupcakes_can_replace_the_cake(card: Card) -> None:
    card.give("tier.1.shape", "none", "cake")
    assert card.problem("tier.1.shape").startswith("the cake has neither tiers nor cupcakes")
    card.give("cupcakes", "24", "cake")
    expect(card.page.locator("#cake .cc-problem:not(:empty)")).to_have_count(0)
    assert [row[0] for row in card.rows("cake.by_tier")] == ["24 cupcakes"]


@exercises("cake:cupcakes", "cake:topping", "cake:topping_height", "cake:cupcake_top", "cake:core", "cake:core_depth")
def test_cupcakes(card: Card) -> None:
    """A cone, a spherical cap, a disc; a core is a cylinder."""
    give(card, loss="0", cupcakes="24", tier__shape="none", cupcake_top="6", topping_height="4")
    volumes = {
        "swirl": ("Piping", cylinder(30, 40) / 3),
        "domed": ("Final coat", math.pi * 40 * (3 * 30**2 + 40**2) / 6 / 1000),
        "flat": ("Final coat", cylinder(30, 40)),
    }
    for topping, (use, each_ml) in volumes.items():
        give(card, topping=topping)
        assert uses(card)[use] == number(rounded(24 * each_ml, 0))
        desc = card.page.locator("[data-picture='picture.cupcake_section'] desc")
        assert "4 cm high" in (desc.text_content() or "")
    give(card, core="2", core_depth="2.5")
    assert uses(card)["Filling"] == number(rounded(24 * cylinder(10, 25), 0))
    assert card.rows("cake.by_tier")[0][0] == "24 cupcakes"
    give(card, cupcakes="12")
    assert uses(card)["Filling"] == number(rounded(12 * cylinder(10, 25), 0))
    expect(card.page.locator("[data-picture='picture.cake_section'] svg")).to_have_count(0)


@pytest.mark.full
@exercises("cake:density", "cake:cup", "cake:cup_weighs")
def test_what_it_weighs(card: Card) -> None:
    volume = number(card.rows("cake.by_use")[-1][1])
    give(card, density="0.8")
    assert number(card.text("cake.mass_needed")) == pytest.approx(0.8 * volume, abs=1)
    give(card, density="", cup="metric_cup", cup_weighs="150")
    assert number(card.text("cake.mass_needed")) == pytest.approx(150 / 250 * volume, abs=1)
    give(card, cup="decilitre", cup_weighs="3 oz")  # 85.05 g, NIST Handbook 44
    assert number(card.text("cake.mass_needed")) == pytest.approx(0.8505 * volume, abs=1)


@exercises("hand:cake.mass_needed", "cake:reset", "cake:tier.*.diameter")
def test_its_mass_is_handed_to_the_batch(card: Card) -> None:
    published = number(card.text("finished_mass"))
    give(card, tier__diameter="25")
    needed = card.text("cake.mass_needed")
    card.press("cake.mass_needed")
    assert card.text("finished_mass") == card.value("finished_mass") == needed
    assert float(card.value("factor")) == pytest.approx(number(needed) / 821.5, abs=0.001)
    assert card.text("amount.butter") == grams(250 * number(needed) / 821.5)
    status = card.page.locator("#cake output[name=status]").text_content() or ""
    assert f"{number(needed) / published:.2f} batches of the recipe as published" in status
    reset = card.page.locator("#cake [type=reset]")
    card.answered(reset.click)
    assert card.value("tier.1.diameter", "cake") == "20 cm"
    assert card.text("finished_mass") == needed


def test_what_is_handed_over_has_the_change_that_was_made_just_before(card: Card) -> None:
    at_first = card.text("cake.mass_needed")
    card.page.evaluate("""() => {
      const field = document.querySelector("#cake [name='tier.1.diameter'], [form=cake][name='tier.1.diameter']");
      field.value = "26";
      field.dispatchEvent(new Event("change", { bubbles: true }));
      document.querySelector("[data-text-of='cake.mass_needed']").click();
    }""")
    needed = card.page.locator("[data-text-of='cake.mass_needed'] [data-text]")
    expect(needed).not_to_have_text(at_first)
    expect(card.page.locator(".cc-key [data-text=finished_mass]")).to_have_text(needed.text_content() or "")
    assert card.value("finished_mass") == (needed.text_content() or "").replace("\u00a0", " ")


@exercises("cake:tier.*.shape", "cake:final", "cake:crumb")
def test_the_drawing_is_to_scale_and_follows(card: Card) -> None:
    """The extents of cake and coat in the section, compared with the lengths in the form."""
    give(card, crumb="0", final="15", tier__diameter="24", tier__height="12")
    card.give("tier.2.shape", "round", "cake")
    card.give("tier.2.diameter", "16", "cake")
    card.give("tier.2.height", "8", "cake")
    picture = card.page.locator("[data-picture='picture.cake_section'] svg")
    picture.scroll_into_view_if_needed()
    expect(picture).to_be_visible()

    def faces(of: str) -> list[tuple[float, float]]:
        found = []
        for path in picture.locator(f"path.cc-tint.{of}").all():
            points = re.findall(r"([\d.]+) ([\d.]+)", path.get_attribute("d") or "")
            xs, ys = zip(*[(float(x), float(y)) for x, y in points], strict=True)
            found.append((max(xs) - min(xs), max(ys) - min(ys)))
        return found

    cakes, coats = faces("cc-cake")[:2], faces("cc-final-coat")[:2]
    scale = cakes[0][0] / 240
    for (wide, high), (across_mm, high_mm) in zip(cakes, ((240, 120), (160, 80)), strict=True):
        assert (wide / scale, high / scale) == (pytest.approx(across_mm, abs=0.5), pytest.approx(high_mm, abs=0.5))
    for (wide, high), (across_mm, high_mm) in zip(coats, ((270, 135), (190, 95)), strict=True):
        assert (wide / scale, high / scale) == (pytest.approx(across_mm, abs=0.5), pytest.approx(high_mm, abs=0.5))
    box = picture.bounding_box()
    assert box
    width = card.page.viewport_size["width"]  # type: ignore[index]
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= width
