"""The page of a notebook: readings beside predictions, the line, charts and the map."""

import re
from typing import Any

import pytest
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.trials.beside import readings_beside
from crumbcoat_calc.trials.charts import reading_charts, tasting_charts
from crumbcoat_calc.trials.composition import composition_rows
from crumbcoat_calc.trials.holding import holding_charts
from crumbcoat_calc.trials.line import line_picture, stops
from crumbcoat_calc.trials.page import NotebookPage, page_of
from crumbcoat_calc.trials.plane import most_varied, plane_of

from .test_notebook import RECIPE, book, trial

HOSTILE = '<script>alert(1)</script> & "quotes"'


def page(*trials: tuple[str, Any], axes: tuple[str, str] | None = None) -> NotebookPage:
    notebook = book(*trials)
    assert notebook.problems == ()
    return page_of(batch_of(recipe_from(RECIPE)), notebook.made, "", None, axes, frozenset(["a.jpg"]))


def reading(**fields: str) -> list[list[str]]:
    (made,) = book(trial(1, readings=[fields])).made
    return [row.cells for row in readings_beside(made)]


def test_a_reading_is_beside_what_was_worked_out_with_the_sign_of_the_difference() -> None:
    """The bowl holds 471 g."""
    assert reading(mass="450 g") == [["finished batch", "mass", "471 g", "450 g", "−21 g"]]
    ((where, what, predicted, read, difference),) = reading(water_activity="0.99")
    assert (where, what, read) == ("finished batch", "water activity", "0.99")
    assert predicted.startswith("0.9")
    assert difference.startswith("+0.0")


def test_silent_where_nothing_is_worked_out() -> None:
    assert reading(ph="6.1") == [["finished batch", "pH", "", "6.1", ""]]
    assert reading(at="1.1", temperature="60 °C")[0][2:] == ["", "60.0 °C", ""], "the stage is not over"


def test_the_temperature_of_mixing_is_by_heat_balance() -> None:
    """Everything is at 20 °C but the cold of dissolving sugar: the mixture is at most at 20 °C."""
    ((where, _, predicted, read, difference),) = reading(at="2", temperature="23 °C")
    assert where == "after stage 2, Whip"
    assert predicted.endswith("before the mixer warms it")
    assert float(predicted.split(" ")[0]) <= 20
    assert (read, difference[0]) == ("23.0 °C", "+")


def test_density_gives_the_air() -> None:
    density, overrun = reading(density="0.5 g/mL")
    without = float(density[2].split(" ")[0])
    assert density[4] == f"−{without - 0.5:.2f} g/mL"
    assert overrun[1] == "overrun"
    assert float(overrun[3].split(" ")[0]) == pytest.approx(100 * (without / 0.5 - 1), abs=2)


BRANCHES = [
    trial(1, changed={"ingredients": {"sugar": "140 g"}}, did="held"),
    trial(2, **{"from": "1"}, changed={"ingredients": {"butter": "150 g"}}, did="split", verdict="drop"),
    trial(3, **{"from": "1"}, changed={"ingredients": {"sugar": "100 g"}}, did="wept", verdict="drop"),
    trial(4, **{"from": "2"}, changed={"ingredients": {"milk": "110 g"}}, did="too soft", verdict="drop"),
    trial(5, **{"from": "1"}, changed={"ingredients": {"sugar": "130 g"}}, did="held", verdict="publish"),
    trial(6, **{"from": "5"}),
]


def test_what_led_to_the_published_trial_is_in_the_first_lane() -> None:
    found = [(stop.made.trial.number, stop.lane, stop.from_row, stop.from_lane) for stop in stops(book(*BRANCHES).made)]
    assert found == [(1, 0, -1, 0), (2, 1, 0, 0), (3, 2, 0, 0), (4, 1, 1, 1), (5, 0, 0, 0), (6, 1, 4, 0)]


def test_the_line_says_in_words_what_it_draws() -> None:
    picture = line_picture(book(*BRANCHES).made)
    assert "trial 4 from trial 2, 10 g less milk, whole" in picture
    assert picture.count("cc-sign-held") == 2


def test_composition_adds_up_to_100_g() -> None:
    for row in composition_rows(book(*BRANCHES).made):
        assert sum(float(cell.split(" ")[0]) for cell in row[1:] if cell) == pytest.approx(100, abs=0.2)


def test_tasting_has_mean_and_spread() -> None:
    """By hand: 6, 7, 8, 7 have the mean 7 and, as a sample, the standard deviation sqrt(2 / 3) = 0.8."""
    tasted = [{"attribute": "liking", "marks": ["6", "7", "8", "7"]}]
    charts = tasting_charts(book(trial(1, tasted=tasted), trial(2, tasted=tasted)).made)
    assert charts[0].rows == [[f"Trial {number}", "4", "7.0", "0.8", "6 to 8"] for number in (1, 2)]
    assert tasting_charts(book(trial(1, tasted=tasted)).made) == [], "one trial makes no chart"


def test_a_chart_of_readings_only_where_two_trials_have_them() -> None:
    trials = [trial(1, readings=[{"ph": "6", "brix": "40"}]), trial(2, readings=[{"ph": "6.2"}, {"ph": "6.4"}])]
    (chart,) = reading_charts(book(*trials).made)
    assert (chart.title, chart.rows) == ("pH", [["Trial 1", "6.0"], ["Trial 2", "6.4"]])


def test_how_long_it_held() -> None:
    cold = {"test": "keeping", "temperature": "4 °C"}
    tests = [[cold | {"time": "3 days", "did": "held"}], [cold | {"time": "1 day", "weeping": "4 mm", "did": "wept"}]]
    (chart,) = holding_charts(book(trial(1, tests=tests[0]), trial(2, tests=tests[1])).made)
    assert chart.title == "Keeping: 4 °C"
    assert chart.rows[1] == ["Trial 2", "4 °C", "1 day, 4 mm wet on the paper", "wept"]
    lengths = [float(length) for length in re.findall(r"h([\d.]+)v5h", chart.picture)]
    assert lengths[0] == pytest.approx(3 * lengths[1], rel=0.001)


def test_the_map_has_the_two_ingredients_that_vary_most_unless_the_author_chose() -> None:
    made = book(*BRANCHES).made
    recipe = batch_of(recipe_from(RECIPE))
    assert most_varied(recipe.recipe, made) == ("butter", "sugar")
    plane = plane_of(recipe, made, None)
    assert plane is not None
    assert plane.rows[1] == ["Trial 2", "150 g", "140 g", "split"]
    assert plane.says[1] == "Split: trial 2, with 150 g of butter, unsalted and 140 g of sugar, powdered (icing sugar)."
    assert plane.says[-1] == "Trial 4 differs from the recipe in other things too (ringed)."
    assert plane.points.count("cc-sign-held") == 2
    chosen = plane_of(recipe, made, ("milk", "sugar"))
    assert chosen is not None
    assert chosen.rows[3][1] == "110 g"


def test_half_a_batch_is_on_the_map_where_the_whole_one_would_be() -> None:
    half = {"ingredients": {"butter": "100 g", "milk": "60 g", "sugar": "60 g", "salt": "0.5 g"}}
    plane = plane_of(batch_of(recipe_from(RECIPE)), book(*BRANCHES, trial(7, changed=half)).made, ("butter", "milk"))
    assert plane is not None
    butter = float(plane.rows[-1][1].split(" ")[0])
    assert butter == pytest.approx(100 * 471 / 220.5, abs=1)


def test_no_map_of_one_trial_or_one_ingredient() -> None:
    assert page(BRANCHES[0]).plane is None
    assert page(BRANCHES[0], trial(2)).plane is None


def test_texts_of_the_author_are_escaped_in_pictures() -> None:
    name = {"ingredients": {"sugar": {"amount": "100 g", "name": HOSTILE}, "milk": "100 g"}}
    tests = [{"test": "keeping", "where": HOSTILE, "time": "1 day", "did": "held"}]
    tasted = [{"attribute": HOSTILE, "marks": ["1", "2"]}]
    shown = page(trial(1, changed=name, tests=tests, tasted=tasted), trial(2, tests=tests, tasted=tasted))
    pictures = [shown.line, shown.composition, *(chart.picture for chart in (*shown.holding, *shown.tasting))]
    assert shown.plane is not None
    assert not [picture for picture in [*pictures, shown.plane.points] if "<script" in picture]
    assert "&lt;script&gt;" in shown.line


def test_only_pictures_that_are_there() -> None:
    pictures = [{"file": "a.jpg", "shot": "rosette"}, {"file": "lost.jpg", "shot": "rosette"}]
    shown = page(trial(1, pictures=pictures, did="held"))
    assert shown.entries[0].pictures == [("a.jpg", "rosette")]
    assert shown.shots == [("rosette", [("a.jpg", "Trial 1, held")])]


def test_what_can_hardly_be_is_shown_with_the_doubt() -> None:
    shown = page(trial(1, readings=[{"density": "1.5 g/mL"}]))
    assert shown.entries[0].doubts[0].startswith("1.50 g/mL is more than without any air")
    assert shown.entries[0].readings[0][3] == "1.50 g/mL"


def test_what_is_between_holding_and_breaking_is_said_once() -> None:
    """By hand: trials 1 and 7 held with 140 g of sugar, trial 3 wept with 100 g: half-way are 120 g."""
    shown = page(*BRANCHES[:3], trial(7, **{"from": "1"}, did="held"))
    assert [says for says in shown.next_says if "100 g" in says] == [
        "31.0 % sugars held (trial 7, sugar 140 g), 24.7 % wept (trial 3, sugar 100 g): "
        "try 28.0 % sugars, that is sugar 120 g."
    ]
    assert page(BRANCHES[0]).next_says == []


def test_what_readings_say_of_the_kitchen() -> None:
    """By hand: the bowl cools from 30 to 17 °C at 4 °C in 30 min: 30 / ln(26 / 13) = 43.3 min."""
    cold = {"from": "30 °C", "to": "17 °C", "cold": "4 °C", "time": "30 min"}
    assert page(trial(1, chilling=[cold])).kitchen_rows == [
        ["Time constant of the bowl in the cold", "43.3 min", "", "1 batch"]
    ]
    assert page(trial(1)).kitchen_rows == []


def test_side_by_side_ends_with_the_recipe() -> None:
    shown = page(*BRANCHES[:2])
    assert shown.heads == ["Trial 1", "Trial 2", "The recipe"]
    groups = dict(shown.side_by_side)
    assert groups["Ingredients"][0] == ["butter, unsalted", "200 g", "150 g", "200 g"]
    assert all(len(row) == 4 for rows in groups.values() for row in rows)
    assert "Cost" not in groups
