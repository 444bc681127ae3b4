"""Checks: mass balances by hand and by numpy."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import INDEX
from crumbcoat_calc.foods.table import Food, food, food_with
from crumbcoat_calc.formulation.exchange import COMPONENTS_KEPT, find_exchange
from hypothesis import given
from hypothesis import strategies as st


def test_butter_of_82_percent_for_butter_of_80_percent():
    """By hand: 80 g of fat are in 97.6 g of the richer butter; what water it lacks is the water added."""
    lean = food_with(food("butter_unsalted"), name="butter, 80 % fat", stated={"fat_g": 80.0})
    rich = food_with(food("butter_unsalted"), name="butter, 82 % fat", stated={"fat_g": 82.0})
    answer = find_exchange(lean, 100, [rich, food("water_bottled")])
    assert answer.masses_g[0] == pytest.approx(80 / 0.82, rel=1e-3)
    water = lean.content("water_g") - rich.content("water_g") * 80 / 82
    assert answer.masses_g[1] == pytest.approx(water, abs=0.02)
    assert {change.word for change in answer.not_kept} <= {"sugar", "milk solids not fat"}
    alone = find_exchange(lean, 100, [rich])
    assert alone.masses_g[0] == pytest.approx(80 / 0.82, rel=1e-6)
    assert next(change.word for change in alone.not_kept) == "water"


def test_skim_for_whole_milk_loses_the_fat_and_says_so():
    answer = find_exchange(food("milk_whole"), 200, [food("milk_skim")])
    fat = next(change for change in answer.changes if change.word == "fat")
    assert not fat.kept
    assert fat.change_g == pytest.approx(-6.5, abs=0.2)
    water = next(change for change in answer.changes if change.word == "water")
    assert water.kept


def test_skim_and_butter_for_whole_milk_keep_fat_and_water():
    import numpy as np

    answer = find_exchange(food("milk_whole"), 200, [food("milk_skim"), food("butter_unsalted")])
    assert [change.kept for change in answer.changes[:2]] == [True, True]
    matrix = np.array(
        [[0.08, 81.11], [food("milk_skim").content("water_g"), food("butter_unsalted").content("water_g")]]
    )
    expected = np.linalg.solve(matrix, np.array([3.25, 88.13]) * 200)
    assert answer.masses_g == pytest.approx(tuple(expected))


def test_three_that_keep_fat_water_and_sugar_exactly():
    import numpy as np

    others = [food("milk_powder_skim"), food("water_tap"), food("butter_unsalted")]
    answer = find_exchange(food("milk_whole"), 100, others)
    matrix = np.array([[other.content(component) for other in others] for component in COMPONENTS_KEPT])
    expected = np.linalg.solve(matrix, [100 * food("milk_whole").content(component) for component in COMPONENTS_KEPT])
    assert all(change.kept for change in answer.changes[:3])
    assert answer.masses_g == pytest.approx(tuple(expected))
    assert answer.mass_change_g == pytest.approx(sum(expected) - 100)


def test_an_ingredient_stands_for_itself():
    answer = find_exchange(food("cream_heavy_whipping"), 123.4, [food("cream_heavy_whipping")])
    assert answer.masses_g == (123.4,)
    assert answer.not_kept == ()
    assert answer.mass_change_g == 0


@pytest.mark.parametrize(("mass", "count", "path"), [(0, 1, ("mass",)), (100, 0, ("others",)), (100, 4, ("others",))])
def test_what_cannot_be_is_refused(mass, count, path):
    with pytest.raises(InputError) as caught:
        find_exchange(food("milk_whole"), mass, [food("milk_skim")] * count)
    assert caught.value.path == path


def test_what_is_not_known_is_refused_by_place():
    unknown = Food(key="", name="mystery", group="x", per_100g=(None,) * len(INDEX), source="usda-sr28")
    with pytest.raises(InputError) as caught:
        find_exchange(food("milk_whole"), 100, [food("milk_skim"), unknown])
    assert caught.value.path == ("others", 1)
    with pytest.raises(InputError) as caught:
        find_exchange(unknown, 100, [food("milk_skim")])
    assert caught.value.path == ("original",)


@given(
    st.sampled_from(["milk_whole", "cream_heavy_whipping", "butter_unsalted", "milk_powder_whole"]),
    st.lists(
        st.sampled_from(["milk_skim", "butter_unsalted", "milk_powder_skim", "water_tap", "cream_light", "oil_canola"]),
        min_size=1,
        max_size=3,
        unique=True,
    ),
    st.integers(1, 500),
)
def test_nothing_nearer_is_found_by_trying(original, others, mass):
    import numpy as np

    answer = find_exchange(food(original), mass, [food(key) for key in others])
    lost = sum(abs(change.change_g) for change in answer.changes[:3])

    def miss(masses):
        return sum(
            abs(
                sum(m * food(key).content(c) for m, key in zip(masses, others, strict=True))
                - mass * food(original).content(c)
            )
            / 100
            for c in COMPONENTS_KEPT
        )

    assert miss(answer.masses_g) == pytest.approx(lost, abs=1e-6)
    assert all(one >= 0 for one in answer.masses_g)
    generator = np.random.default_rng(1)
    for _ in range(50):
        near = np.maximum(0, np.array(answer.masses_g) + generator.normal(0, mass / 20, len(others)))
        assert miss(near) >= lost - 1e-6
