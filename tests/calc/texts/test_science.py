"""The science of a batch as text: bands, reasons, stages, and what a change of the recipe does to them."""

import math
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.forms.conditions import conditions_from
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Measured
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.treatment import UNTREATED
from crumbcoat_calc.science.between import state_at_ends
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.volumes import DENSITY
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.air import Air, overrun_text
from crumbcoat_calc.texts.explained import EXPLAINED
from crumbcoat_calc.texts.science import science_texts
from crumbcoat_calc.texts.why import why_texts
from hypothesis import given, settings
from hypothesis import strategies as st

KINDS = {
    "milk": "milk_whole", "butter": "butter_unsalted", "sugar": "sugar_granulated", "honey": "honey",
    "buttermilk": "buttermilk_powder", "yolk": "egg_yolk", "spirit": "alcohol_pure",
    "chips": "chocolate_semisweet_chips", "cream": "cream_heavy_whipping", "skim": "milk_powder_skim",
    "rum": "rum_80_proof",
    "oil": "oil_sunflower", "clotted": "cream_clotted", "water": "water_tap",
}  # fmt: skip


def batch(family: str = "other", factor: float = 1.0, **grams: float) -> Batch:
    data = {
        "title": "Test cream", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": family,
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {key: {"kind": KINDS[key], "amount": f"{mass} g"} for key, mass in grams.items()},
        "stages": [
            {"title": "First", "steps": [{"do": "Begin.", "add": [next(iter(grams))]}]},
            {"title": "Then", "steps": [{"do": "Add.", "add": list(grams)[1:]}]},
        ],
    }  # fmt: skip
    return batch_of(recipe_from(data), BatchOptions(factor=factor))


def texts(made: Batch, density: float | None = None, **state: str) -> Texts:
    return science_texts(made, conditions_from(made.recipe, state), Air(density))


def number_in(text: object) -> float:
    found = re.search(r"-?[\d\u202f]+(?:\.\d+)?", str(text))
    assert found, text
    return float(found[0].replace("\u202f", ""))


def test_a_saturated_syrup_reads_as_the_handbooks_do() -> None:
    """crc-97 and the sugar handbooks: 66.7 g of sucrose in 100 g of saturated syrup at 20 °C."""
    shown = texts(batch(butter=200, milk=100, sugar=400))
    assert shown["science.saturation"] == "66.7 % (66.2 to 67.2)"
    assert str(shown["science.headroom"]).startswith("the syrup is saturated: more sugar stays undissolved")
    water_g = 200 * 0.1794 + 100 * 0.8813  # usda-sr28
    left = 400 - water_g * 66.72 / 33.28
    assert number_in(shown["science.undissolved_sugar"]) == pytest.approx(left, abs=4)


def test_the_headroom_is_the_rest_to_saturation() -> None:
    """By hand: 200 g of water at 20 °C take 2.005 g of sucrose a g, 401 g in all, of which 100 g are there.

    The 11 g of lactose take the place of 0 to 1 g of it each.
    """
    shown = texts(batch(family="emulsified milk frosting", butter=50, milk=217.9, sugar=100))
    assert number_in(shown["science.headroom"]) == pytest.approx(300 - 11 / 2, abs=5)
    assert str(shown["science.headroom"]).endswith(
        "more would dissolve; beyond that, sugar stays undissolved and stiffens"
    )
    crowded = texts(batch(clotted=300, sugar=30))
    assert "make it runnier" in str(crowded["science.headroom"])


def test_the_marks_are_those_of_close_packing() -> None:
    marks = f"(marks: 64 % and {100 * math.pi / (3 * math.sqrt(2)):.0f} %; advice, not a verdict)"
    assert marks in str(texts(batch(butter=200, milk=100))["science.packing"])


@pytest.mark.parametrize(
    ("grams", "family", "part", "words"),
    [
        ({"butter": 300, "sugar": 500}, "sugar-and-butter frosting", "fat", "it surrounds the water"),
        ({"butter": 500, "milk": 20}, "other", "fat", "by amount, it surrounds the water"),
        ({"milk": 500, "butter": 150, "sugar": 200}, "emulsified milk frosting", "fat", "too little to surround"),
        ({"milk": 100, "cream": 300}, "other", "fat", "room between them"),
        ({"milk": 500, "sugar": 50}, "other", "syrup", "thin as a drink"),
        ({"milk": 60, "sugar": 130, "butter": 100}, "other", "syrup", "thick"),
        ({"butter": 200, "milk": 50, "sugar": 400}, "other", "sugar", "stays undissolved"),
        (
            {"milk": 500, "butter": 150, "sugar": 200},
            "emulsified milk frosting",
            "sugar",
            "All the sugar is dissolved.",
        ),
        ({"clotted": 300, "sugar": 30}, "other", "sugar", "a runnier frosting, not a stiffer one"),
        (
            {"milk": 300, "butter": 90, "buttermilk": 30},
            "other",
            "cover",
            "enough for all the droplets that a whisk makes",
        ),
    ],
)
def test_the_sentences_follow_the_figures(grams: dict[str, float], family: str, part: str, words: str) -> None:
    """The behaviours are common practice, no source; the thresholds are those of the marks and of why_sentences.py."""
    shown = texts(batch(family=family, **grams))
    assert words in str(shown[f"why.{part}"])
    assert str(shown["why.holds"] or shown["why.fat"]).startswith(str(shown["why.short"]))
    assert str(shown["why.fat"]).count("Fat is") <= 1


@pytest.mark.parametrize(
    ("yolk_g", "least_um", "most_um", "words"),
    [
        (1, 0, 5, "enough for all the droplets"),
        (0.25, 5, 50, "enough for the coarser droplets"),
    ],
)
def test_what_can_be_covered_follows_the_size_of_the_droplets(
    yolk_g: float, least_um: float, most_um: float, words: str
) -> None:
    """A whisk makes droplets of 5 to 50 µm (droplet_sizes.csv, from memory). Oil has hardly anything to cover it.

    The whole band has to be on one side.
    """
    shown = str(texts(batch(water=3000, oil=500, yolk=10 * yolk_g))["why.cover"])
    assert least_um <= number_in(shown) <= most_um
    assert words in shown


def test_a_band_on_both_sides_of_a_size_is_not_a_verdict() -> None:
    shown = str(texts(batch(family="emulsified milk frosting", oil=450, milk=200))["why.cover"])
    assert shown.endswith("; a whisk makes droplets of 5 to 50 µm.")
    assert "enough" not in shown


@pytest.mark.parametrize(
    ("bowl", "words"),
    [
        ("5", "solid: firm."),
        ("15", "is solid."),
        ("20", "soft enough to beat"),
        ("25", "is solid."),
        ("32", "solid: weak. Common practice: about 10 min in the refrigerator, then beat again."),
        ("45", "all of the butter's fat is liquid, and supports nothing."),
    ],
)
def test_the_warmth_follows_the_band_and_not_its_middle(bowl: str, words: str) -> None:
    """Milk fat is liquid above 40 °C (techniques-f6320); the remedy is common practice, and not for what has melted."""
    shown = str(texts(batch(butter=300, milk=100), bowl_temperature=bowl)["why.warmth"])
    assert shown.endswith(words) or words in shown.partition(":")[2] or words in shown
    if bowl in ("15", "25", "45"):
        assert "refrigerator" not in shown
        assert ":" not in shown


def test_an_unknown_content_withholds_with_the_reason() -> None:
    shown = texts(batch(butter=100, spirit=400))
    assert str(shown["science.undissolved_sugar"]).startswith("not given: ")
    assert "Sugars and other solids together" in str(shown["picture.phases"])


def test_the_figures_that_are_explained_have_these_labels_in_this_order() -> None:
    assert [(one.key, one.label) for one in EXPLAINED] == [
        ("undissolved_sugar", "Undissolved sugar"),
        ("syrup_strength", "Strength of the syrup"),
        ("headroom", "What more sugar does"),
        ("fat_volume", "Fat by volume"),
        ("solid_fat", "Solid part of the fat"),
        ("water_activity", "Water activity"),
        ("fat", "Fat"),
        ("water", "Water"),
        ("dissolved_sugar", "Dissolved sugar"),
        ("lactose", "Milk sugar (lactose), dissolved"),
        ("lactose_crystals", "Milk sugar that may crystallise"),
        ("lactose_supersaturation", "Milk sugar in the cold"),
        ("other_solids", "Other solids"),
        ("saturation", "Saturated syrup"),
        ("syrup_density", "Density of the syrup"),
        ("syrup_viscosity", "Thickness of the syrup"),
        ("inside", "Which phase is inside"),
        ("packing", "How close the fat is packed"),
        ("milk_protein", "Milk protein"),
        ("egg_protein", "Egg protein"),
        ("phospholipid", "Phospholipid"),
        ("yolk_phospholipid", "of which from yolk (lecithin)"),
        ("fat_surface", "Surface of the fat"),
        ("milk_protein_per_m2", "Milk protein per square metre of fat"),
        ("phospholipid_per_m2", "Phospholipid per square metre of fat"),
        ("finest_droplet", "Finest droplets that can be covered"),
        ("water_activity_norrish", "Water activity by Norrish"),
        ("water_activity_money_born", "Water activity by Money and Born"),
        ("keeping", "What the keeping tables say"),
        ("mixing_temperature", "Temperature as mixed"),
        ("density", "Density without air"),
        ("overrun", "Overrun (air)"),
        ("chilling", "How long to chill"),
        ("warming", "How long a coat takes to warm"),
    ]


def test_every_figure_that_is_explained_is_shown_and_no_other() -> None:
    shown = texts(batch(butter=100, milk=100))
    names = {name.removeprefix("science.") for name in shown if name.startswith("science.")}
    assert names - {"of"} == {one.key for one in EXPLAINED}


def test_a_measured_water_activity_is_shown_beside_the_prediction_of_the_finished_batch() -> None:
    made = batch(butter=100, milk=100)
    measured = replace(made, recipe=replace(made.recipe, measured=Measured(water_activity=0.955)))
    prediction = texts(made)["science.water_activity"]
    assert texts(measured)["science.water_activity"] == f"{prediction}; measured on a finished batch: 0.955"
    assert texts(measured, looked_at="0") == texts(made, looked_at="0")


def test_a_stage_is_looked_at() -> None:
    made = batch(butter=100, milk=100)
    first, last = texts(made, looked_at="0"), texts(made)
    assert first["science.water"] == "18 g"
    assert last["science.water"] == "106 g"
    assert str(first["science.of"]).startswith("After stage 1, 100 g")
    assert first["why.fat"] == last["why.fat"]
    rows = first["rows.stages"]
    assert [row[0] for row in rows] == ["1. First, at 20 °C (68 °F)", "2. Then, at 20 °C (68 °F)"]
    assert [row[1] for row in rows] == ["100 g", "200 g"]


def test_the_picture_says_in_words_what_the_table_says() -> None:
    shown = texts(batch(butter=200, milk=100, sugar=400))
    picture = ElementTree.fromstring(str(shown["picture.phases"]))
    description = picture.findtext("{http://www.w3.org/2000/svg}desc") or ""
    for row in shown["rows.stages"]:
        assert row[0].removesuffix(", at 20 °C (68 °F)") in description
        for cell in row[1:7]:
            assert cell in description


def test_air_by_the_density() -> None:
    """guelph-dairy: overrun is the volume of air for 100 of mix; at half the density of the mix it is 100 %."""
    made = batch(butter=200, milk=200)
    density = number_in(texts(made)["science.density"])
    assert number_in(texts(made, density / 2)["science.overrun"]) == pytest.approx(100, abs=2)
    assert str(texts(made, 2.0)["science.overrun"]).startswith("not given: ")
    assert str(texts(made)["science.overrun"]) == "not given: weigh a cup of the finished batch"


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ({}, "needs assessment: the tables need a measured pH"),
        ({"ph": "6.5"}, "needs assessment: keep it cold"),
        ({"ph": "3.5"}, "no clearance"),
    ],
)
def test_keeping_is_never_a_clearance(state: dict[str, str], words: str) -> None:
    """fda-food-code, table B; a milk cream of aw 0.97 needs assessment at pH 6.5."""
    advice = str(texts(batch(milk=300, butter=100, sugar=100), **state)["science.keeping"])
    assert words in advice
    assert "laboratory's measurement" in advice
    assert ("The table is that of the US Food Code" in advice) == ("ph" in state)


@settings(max_examples=25, deadline=None)
@given(
    factor=st.floats(0.1, 20),
    butter=st.floats(50, 500),
    milk=st.floats(50, 500),
    sugar=st.floats(0.1, 800),
    bowl=st.integers(1, 39),
)
def test_scaling_leaves_shares_alone(factor: float, butter: float, milk: float, sugar: float, bowl: int) -> None:
    one = texts(batch(butter=butter, milk=milk, sugar=sugar), bowl_temperature=str(bowl))
    many = texts(batch(factor=factor, butter=butter, milk=milk, sugar=sugar), bowl_temperature=str(bowl))
    for name in ("syrup_strength", "fat_volume", "solid_fat", "water_activity", "density"):
        before, after = one[f"science.{name}"], many[f"science.{name}"]
        assert number_in(before) == pytest.approx(number_in(after), rel=0.02), name


def test_sugar_that_may_stay_undissolved_is_not_called_dissolved() -> None:
    """A milk frosting with dried milk: its own note warns of sandiness. The other sugars are dissolved."""
    shown = texts(batch(family="emulsified milk frosting", milk=265, buttermilk=45, skim=20, butter=245, sugar=240))
    said = str(shown["why.sugar"])
    assert "All the sugar" not in said
    assert "milk sugar (lactose)" in said
    assert "The other sugars stay dissolved" in said
    assert number_in(shown["science.undissolved_sugar"]) == 0
    assert "crystals may form over days" in str(shown["science.lactose_supersaturation"])


def test_milk_sugar_that_is_dissolved_but_not_in_the_cold() -> None:
    shown = texts(batch(family="emulsified milk frosting", milk=340, skim=32, butter=240, sugar=210))
    assert str(shown["why.sugar"]).startswith("All the sugar is dissolved.")
    assert "In the cold, up to" in str(shown["why.sugar"])


def test_sugars_of_chocolate_are_called_uncertain_and_keeping_does_not_lean_on_them() -> None:
    shown = texts(batch(chips=200, cream=60), ph="6.5")
    assert "not certain how much of the sugar dissolves" in str(shown["why.sugar"])
    assert "whether the syrup is saturated, and so the effect of more sugar, is not known" in str(
        shown["science.headroom"]
    )
    assert number_in(shown["science.water_activity"]) == pytest.approx(0.85, abs=0.01)
    assert str(shown["science.keeping"]).startswith("needs assessment")
    assert str(shown["science.lactose"]).startswith("not given: the ingredient table does not list")
    assert "Sugar, dissolved or not" in str(shown["picture.phases"])
    assert "Undissolved sugar" not in str(shown["picture.phases"])


@pytest.mark.parametrize("more", [{"rum": 20}, {"honey": 20}])
def test_a_little_rum_or_honey_takes_no_figure_away(more: dict[str, float]) -> None:
    shown = texts(batch(butter=200, milk=60, sugar=300, **more))
    for name in ("fat_volume", "density", "undissolved_sugar", "syrup_strength", "water_activity", "lactose"):
        assert not str(shown[f"science.{name}"]).startswith("not given"), name
    assert "together" not in str(shown["picture.phases"])


@given(
    grams=st.dictionaries(
        st.sampled_from([key for key in KINDS if key not in ("spirit", "yolk")]), st.floats(1, 500), min_size=1
    ),
    bowl=st.integers(1, 39),
)
def test_no_batch_is_called_all_dissolved_with_undissolved_sugar_in_its_band(
    grams: dict[str, float], bowl: int
) -> None:
    vessel_parts = [(food(KINDS[key]), mass) for key, mass in grams.items()]
    state = state_at_ends(vessel_parts, bowl)
    said = str(why_texts(state, [(one, mass, UNTREATED) for one, mass in vessel_parts], "other")["why.sugar"])
    left = state.undissolved_sugar_g
    if "All the sugar is dissolved" in said:
        assert isinstance(left, Estimate)
        assert left.high < 0.005 * state.mass_g
    if "stays undissolved: its crystals" in said:
        assert isinstance(left, Estimate)
        assert left.high > 0
    if "nothing is grainy" in said:
        assert isinstance(state.lactose.crystals_g, Withheld) or state.lactose.crystals_g.high < 0.005 * state.mass_g


def expected(density: float, made: int | None = 0, *, by_cup: bool = False) -> str:
    mix = Estimate(1.1, 1.08, 1.12, DENSITY)
    return overrun_text(Air(density, by_cup=by_cup), mix, made)


def test_air_by_a_density_that_was_not_measured_is_expected() -> None:
    """By hand: 1.1 / 0.8 - 1 = 38 %; 1.08 / 0.88 - 1 = 23 %, 1.12 / 0.72 - 1 = 56 %."""
    assert expected(0.8).startswith("38 % (23 to 56), expected: at 0.80 g/mL, worked out and not measured, ±10 %, ")
    assert expected(0.8).endswith("19 to 36 % of the volume is air")
    assert expected(0.8, 1) == expected(0.8, by_cup=True) == "38 % (35 to 40): at 0.80 g/mL, 27 % of the volume is air"


def test_nobody_who_weighed_nothing_is_asked_to_check_the_tare() -> None:
    assert "check the tare" not in expected(1.3)
    assert expected(1.3).startswith("0 %, expected: ")
    assert "check the tare" in expected(1.3, by_cup=True)


def test_nothing_is_said_of_droplets_where_fat_may_surround_the_water() -> None:
    """Butter that was never melted with as much milk: neither the amounts nor the making decide what is outside."""
    shown = texts(batch(butter=300, milk=100))
    assert shown["why.cover"] == ""
    for figure in ("fat_surface", "milk_protein_per_m2", "phospholipid_per_m2", "finest_droplet"):
        assert shown[f"science.{figure}"] == "not given: the recipe leaves open how much of the fat is in droplets"


def test_cover_has_two_figures() -> None:
    shown = texts(batch(family="whipped cream", cream=300, milk=20))
    assert re.fullmatch(r"[\d.]+ mg/m² \([\d.]+ to [\d.]+\)", str(shown["science.milk_protein_per_m2"]))
    figures = re.findall(r"[\d.]+", str(shown["science.milk_protein_per_m2"]).replace("m²", ""))
    assert all(len(figure.replace(".", "").strip("0")) <= 2 for figure in figures)


def test_a_stage_is_at_the_temperature_that_it_was_heated_to() -> None:
    """200 g of sugar in 60 g of water: 67 % of syrup dissolve at 20 °C (vavrinecz), all is dissolved at 95 °C."""
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {
            "sugar": {"kind": "sugar_granulated", "amount": "200 g"},
            "water": {"kind": "water_tap", "amount": "60 g"},
            "butter": {"kind": "butter_unsalted", "amount": "100 g"},
        },
        "stages": [
            {"title": "Boil", "makes": "syrup", "steps": [
                {"do": "Boil.", "add": ["sugar", "water"], "heat_to": "95 °C"}]},
            {"title": "Mix", "steps": [{"do": "Mix.", "add": ["syrup", "butter"]}]},
        ],
    }  # fmt: skip
    made = batch_of(recipe_from(data))
    rows = science_texts(made, conditions_from(made.recipe, {}), Air())["rows.stages"]
    assert rows[0][0] == "1. Boil (set aside), at 95 °C (203 °F)"
    assert rows[0][5] == "0 g"
    assert rows[1][0] == "2. Mix, at 20 °C (68 °F)"
