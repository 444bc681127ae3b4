"""Key figures as texts, against rows of usda-sr28 and the factors of EU 1169/2011."""

import pytest
from crumbcoat_calc.foods.components import COMPONENTS
from crumbcoat_calc.foods.composition import NOTHING, mixed, mixture_of
from crumbcoat_calc.foods.figures import FIGURES, energy_text, figure_texts, figure_value
from crumbcoat_calc.foods.table import food, food_with, foods
from hypothesis import given
from hypothesis import strategies as st


def test_whole_milk_by_hand() -> None:
    """usda-sr28, NDB 01077: water 88.13, fat 3.25, protein 3.15, lactose 5.05, sodium 43 mg in 100 g.

    Salt 2.5 * 0.043 g (EU 1169/2011, Annex I).
    """
    texts = figure_texts(mixture_of(food("milk_whole"), 1000))
    assert texts["water.percent"] == "88.1 %"
    assert texts["fat.mass"] == "33 g"
    assert texts["milk_fat.mass"] == "33 g"
    assert texts["protein.mass"] == "32 g"
    assert texts["lactose.percent"] == "5.1 %"
    assert texts["salt.mass"] == "1.1 g"
    assert texts["salt.percent"] == "0.1 %"
    assert texts["alcohol.mass"] == "0 g"


def test_energy_by_the_factors_of_the_regulation() -> None:
    """Butter, usda-sr28 NDB 01145: protein 0.85, fat 81.11, carbohydrate 0.06, fibre 0 in 100 g."""
    kilojoules = 0.85 * 17 + 81.11 * 37 + 0.06 * 17
    kcal = 0.85 * 4 + 81.11 * 9 + 0.06 * 4
    texts = figure_texts(mixture_of(food("butter_unsalted"), 250))
    assert texts["energy_100g"] == energy_text(kcal, kilojoules)
    assert texts["energy"] == energy_text(2.5 * kcal, 2.5 * kilojoules)


def test_an_unknown_content_is_shown_as_unknown_and_never_as_zero() -> None:
    paste = food_with(None, name="house paste", stated={"fat_g": 10.0})
    alone = figure_texts(mixture_of(paste, 100))
    assert alone["fat.mass"] == "10 g"
    assert alone["water.mass"] == alone["water.percent"] == "not known"
    assert alone["energy"] == alone["energy_100g"] == "not known"
    assert "Not known for house paste: " in alone["missing"]
    with_milk = figure_texts(mixed([mixture_of(paste, 100), mixture_of(food("milk_whole"), 100)]))
    assert with_milk["water.mass"] == "at least 88 g"
    assert with_milk["water.percent"] == "at least 44.1 %"
    assert with_milk["fat.percent"] == "6.6 %"
    assert "water" in with_milk["missing"]


def test_an_empty_mixture_has_texts_too() -> None:
    texts = figure_texts(NOTHING)
    assert texts["fat.mass"] == "0 g"
    assert texts["fat.percent"] == "0.0 %"
    assert texts["missing"] == ""


def test_the_figures_have_these_labels_in_this_order() -> None:
    assert [(figure.key, figure.label) for figure in FIGURES] == [
        ("fat", "Fat"),
        ("milk_fat", "of which milk fat"),
        ("water", "Water"),
        ("sugars", "Sugars"),
        ("lactose", "of which lactose"),
        ("milk_solids_not_fat", "Milk solids not fat"),
        ("protein", "Protein"),
        ("starch", "Starch"),
        ("alcohol", "Alcohol"),
        ("salt", "Salt"),
    ]


def test_every_figure_shows_an_existing_component() -> None:
    assert all(figure.component in COMPONENTS for figure in FIGURES if figure.component)
    keys = [figure.key for figure in FIGURES]
    assert len(set(keys)) == len(keys)


@given(st.lists(st.tuples(st.sampled_from(sorted(foods())), st.floats(0.1, 5000)), min_size=1, max_size=6))
def test_every_mixture_has_every_text_and_gaps_are_named(parts: list[tuple[str, float]]) -> None:
    mixture = mixed([mixture_of(food(key), mass_g) for key, mass_g in parts])
    texts = figure_texts(mixture)
    for figure in FIGURES:
        value = figure_value(figure, mixture)
        assert 0 <= value.percent <= 100.001
        assert value.mass_g == pytest.approx(value.percent * mixture.mass_g / 100)
        shown = texts[f"{figure.key}.percent"]
        unsure = shown.startswith("at least ") or shown == "not known" or " to " in shown
        assert unsure <= bool(value.missing)
        if value.missing and not unsure:  # What is missing does not matter in the decimals that are shown.
            assert value.most_percent - value.percent <= 0.1 + 1e-9
        for name in value.missing:
            assert not unsure or name in texts["missing"]
