"""What changes between two versions of a recipe, against the states themselves."""

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.change import COMPARED_FIGURES, change_sentence, compared_figures, figure_changes
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.state import mixture_state


def frosting(sugar, *, butter=300.0, more=()):
    parts = [("butter_unsalted", butter), ("sugar_granulated", sugar), ("milk_whole", 200.0), *more]
    return mixture_state([(food(key), mass) for key, mass in parts], 20)


def test_percentages_of_the_whole():
    figures = compared_figures(frosting(200.0))
    assert tuple(figures) == COMPARED_FIGURES
    assert figures["sugar_percent"].value == pytest.approx(100 * (199.6 + 10.1 + 0.18) / 700, abs=0.05)
    assert figures["fat_percent"].value == pytest.approx(100 * (0.8111 * 300 + 0.0325 * 200) / 700, abs=0.01)


def test_more_sugar_in_figures_and_in_a_sentence():
    found = {change.figure: change for change in figure_changes(frosting(200.0), frosting(260.0))}
    assert found["syrup_strength_percent"].difference > 0
    assert found["fat_volume_percent"].difference < 0
    assert "undissolved_sugar_percent" not in found
    assert change_sentence(frosting(200.0), frosting(260.0)) == (
        "It becomes leaner, has a stronger syrup and packs its fat more loosely."
    )
    assert change_sentence(frosting(600.0), frosting(700.0)) == "It becomes leaner and leaves more sugar undissolved."


def test_no_change():
    assert figure_changes(frosting(200.0), frosting(200.0)) == ()
    assert change_sentence(frosting(200.0), frosting(200.0)).startswith("Nothing changes")


def test_a_change_within_the_models_spread_is_not_called_one():
    found = {change.figure: change for change in figure_changes(frosting(200.0), frosting(201.0))}
    assert not found["fat_volume_percent"].beyond_doubt


def test_a_figure_withheld_on_one_side_is_left_out():
    boozy = frosting(200.0, more=[("alcohol_pure", 600.0)])
    assert isinstance(boozy.syrup_strength_percent, Withheld)
    assert "syrup_strength_percent" not in {change.figure for change in figure_changes(frosting(200.0), boozy)}
    assert compared_figures(mixture_state([], 20))["fat_percent"].value == 0
