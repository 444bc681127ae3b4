"""Checks: published mix problems, scipy's linprog, brute force for the collisions."""

import itertools

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import INDEX
from crumbcoat_calc.foods.table import Food, food
from crumbcoat_calc.formulation.formulate import Balance, BoundedIngredient, Collision, Formula, Impossible, formulate
from hypothesis import given
from hypothesis import strategies as st


def made_of(name, **stated):
    contents = [0.0] * len(INDEX)
    for component, value in stated.items():
        contents[INDEX[component]] = value
    return Food(key="", name=name, group="dairy", per_100g=tuple(contents), source="usda-sr28")


def mix(ingredients, balances, total):
    return formulate([BoundedIngredient(food=one, recipe_g=0.0) for one in ingredients], balances, total)


def test_an_ice_cream_mix_by_simultaneous_equations():
    """University of Guelph dairy e-book: 100 kg, 18 % fat, 9.5 % solids not fat, 15 % sucrose, 0.4 stabiliser, 1 yolk.

    Cream 30 %, milk 3.5 %, skim powder with 97 % solids; solids not fat of milk are 9 % of the fat-free part. Printed:
    4.08 kg of powder and 79.52 kg of milk and cream; split computed with numpy: 22.0909 and 57.4227.
    """
    foods = [
        made_of("powder", milk_solids_not_fat_g=97.0),
        made_of("milk", fat_g=3.5, milk_solids_not_fat_g=0.09 * 96.5),
        made_of("cream", fat_g=30.0, milk_solids_not_fat_g=0.09 * 70),
        made_of("sucrose", sugars_g=100.0),
        made_of("stabiliser", starch_g=100.0),
        made_of("yolk", cholesterol_mg=100.0),
    ]
    answer = mix(
        foods,
        [
            Balance("fat_g", "=", 18.0),
            Balance("milk_solids_not_fat_g", "=", 9.5),
            Balance("sugars_g", "=", 15.0),
            Balance("starch_g", "=", 0.4),
            Balance("cholesterol_mg", "=", 1.0),
        ],
        100.0,
    )
    assert answer.masses_g[:3] == pytest.approx((4.0864, 22.0909, 57.4227), abs=0.02)
    assert answer.masses_g[1] + answer.masses_g[2] == pytest.approx(79.52, abs=0.02)
    serum = 100 - 18 - 15 - 0.4 - 1
    assert answer.masses_g[0] == pytest.approx((9.5 - 0.09 * serum) / (97 - 9) * 100, abs=0.02)


def test_a_mix_with_condensed_milk():
    """University of Guelph dairy e-book: 14 % fat, 10 % solids not fat, 15 % sucrose, 0.5 % stabiliser, 100 kg."""
    foods = [
        made_of("condensed skim", milk_solids_not_fat_g=28.0, sugars_g=40.0),
        made_of("sucrose", sugars_g=100.0),
        made_of("cream", fat_g=32.0, milk_solids_not_fat_g=0.09 * 68),
        made_of("milk", fat_g=3.5, milk_solids_not_fat_g=0.09 * 96.5),
        made_of("stabiliser", starch_g=100.0),
    ]
    wishes = [
        Balance("fat_g", "=", 14.0),
        Balance("milk_solids_not_fat_g", "=", 10.0),
        Balance("sugars_g", "=", 15.0),
        Balance("starch_g", "=", 0.5),
    ]
    assert mix(foods, wishes, 100.0).masses_g[:4] == pytest.approx((16.1726, 8.5310, 39.9373, 34.8592), abs=0.02)


def test_an_extension_page_mix():
    """12 % fat, 10 % solids not fat, 14 % sugar, 0.7 others; cream 38.5 / 5.5, milk 3.5 / 8.5, powder 96; by numpy."""
    import numpy as np

    foods = [
        made_of("cream", fat_g=38.5, milk_solids_not_fat_g=5.5),
        made_of("milk", fat_g=3.5, milk_solids_not_fat_g=8.5),
        made_of("powder", milk_solids_not_fat_g=96.0),
        made_of("sugar", sugars_g=100.0),
        made_of("others", starch_g=100.0),
    ]
    wishes = [
        Balance("fat_g", "=", 12.0),
        Balance("milk_solids_not_fat_g", "=", 10.0),
        Balance("sugars_g", "=", 14.0),
        Balance("starch_g", "=", 0.7),
    ]
    matrix = np.array(
        [[38.5, 3.5, 0, 0, 0], [5.5, 8.5, 96, 0, 0], [0, 0, 0, 100, 0], [0, 0, 0, 0, 100], [1, 1, 1, 1, 1]]
    )
    expected = np.linalg.solve(matrix, np.array([1200, 1000, 1400, 70, 100]))
    answer = mix(foods, wishes, 100.0)
    assert answer.masses_g == pytest.approx(tuple(expected), abs=1e-9)
    assert answer.masses_g[:3] == pytest.approx((26.1596, 55.1012, 4.0392), abs=0.001)


def frosting(**bounds):
    kinds = {"butter": "butter_unsalted", "sugar": "sugar_powdered", "milk": "milk_whole"}
    given = {"butter": 300.0, "sugar": 500.0, "milk": 150.0}
    return [
        BoundedIngredient(
            food=food(kind),
            recipe_g=given[key],
            low_g=bounds.get(key, (0, None))[0],
            high_g=bounds.get(key, (0, None))[1],
        )
        for key, kind in kinds.items()
    ]


def percent(ingredients, masses_g, component):
    there = sum(mass_g * one.food.content(component) for mass_g, one in zip(masses_g, ingredients, strict=True))
    return there / sum(masses_g)


def test_a_frosting_of_25_percent_fat_and_no_more_than_50_percent_sugar():
    wishes = [Balance("fat_g", "=", 25.0), Balance("sugars_g", "<=", 50.0)]
    answer = formulate(frosting(), wishes, 1000.0)
    assert isinstance(answer, Formula)
    assert sum(answer.masses_g) == pytest.approx(1000, abs=1e-9)
    assert percent(frosting(), answer.masses_g, "fat_g") == pytest.approx(25, abs=1e-9)
    assert percent(frosting(), answer.masses_g, "sugars_g") <= 50 + 1e-9


def test_a_recipe_that_meets_its_wishes_stays_as_it_is():
    answer = formulate(frosting(), [Balance("fat_g", "<=", 30.0)])
    assert answer.masses_g == (300.0, 500.0, 150.0)
    assert answer.before_g == (300.0, 500.0, 150.0)


def test_conflicting_wishes_are_listed_with_the_nearest_fat():
    from scipy.optimize import linprog

    wishes = [Balance("fat_g", "=", 40.0), Balance("sugars_g", ">=", 30.0)]
    answer = formulate(frosting(butter=(0, 400)), wishes, 1000.0)
    assert isinstance(answer, Impossible)
    assert answer.collisions == (Collision("balance", "fat_g"), Collision("total", "total"), Collision("high", 0))
    reference = linprog(
        [-0.8111, 0, -0.0325],
        A_ub=[[-0.0006, -0.9781, -0.0505]],
        b_ub=[-300],
        A_eq=[[1, 1, 1]],
        b_eq=[1000],
        bounds=[(0, 400), (0, None), (0, None)],
        method="highs",
    )
    assert percent(frosting(), answer.nearest.masses_g, "fat_g") == pytest.approx(-reference.fun / 10, abs=1e-6)
    assert answer.nearest.masses_g[0] == pytest.approx(400)


def test_bounds_that_leave_no_room_by_themselves():
    answer = formulate(frosting(butter=(300, 200)), [], 1000.0)
    assert [collision.kind for collision in answer.collisions] == ["low", "high"]
    assert answer.nearest is None


def test_what_is_not_known_is_refused_by_place():
    unknown = Food(key="", name="mystery", group="x", per_100g=(None,) * len(INDEX), source="usda-sr28")
    with pytest.raises(InputError) as caught:
        formulate([*frosting(), BoundedIngredient(food=unknown, recipe_g=10.0)], [Balance("fat_g", "=", 20.0)])
    assert caught.value.path == ("ingredients", 3)
    assert "mystery" in caught.value.problem
    with pytest.raises(InputError) as caught:
        formulate(frosting(), [], 0.0)
    assert caught.value.path == ("total",)


def test_a_published_answer_that_breaks_its_own_constraint_is_not_ours():
    """A linear program seen in print gives (1, 1) for a two-ingredient blend of total 1: its own total is broken."""
    answer = mix([made_of("one", fat_g=10.0), made_of("other", fat_g=30.0)], [Balance("fat_g", ">=", 20.0)], 1.0)
    assert sum(answer.masses_g) == pytest.approx(1)


KEYS = ("butter_unsalted", "sugar_powdered", "milk_whole", "cream_heavy_whipping", "milk_powder_skim", "water_tap")


@st.composite
def wishes(draw):
    keys = draw(st.lists(st.sampled_from(KEYS), min_size=1, max_size=5, unique=True))
    ingredients = []
    for key in keys:
        low = draw(st.integers(0, 200))
        high = draw(st.one_of(st.none(), st.integers(0, 600)))
        ingredients.append(
            BoundedIngredient(
                food=food(key),
                recipe_g=float(draw(st.integers(0, 500))),
                low_g=float(low if high is None else min(low, high)),
                high_g=None if high is None else float(high),
            )
        )
    balances = draw(
        st.lists(
            st.builds(
                Balance,
                st.sampled_from(["fat_g", "sugars_g", "water_g"]),
                st.sampled_from(["<=", "=", ">="]),
                st.integers(0, 90).map(float),
            ),
            max_size=3,
            unique_by=lambda balance: balance.component,
        )
    )
    return ingredients, balances, float(draw(st.integers(100, 1500)))


def reference(ingredients, balances, total, *, rows=None, low=None, high=None):
    """The same problem for HiGHS: x, then how far each mass is from the given one."""
    import numpy as np
    from scipy.optimize import linprog

    count = len(ingredients)
    given = np.array([one.recipe_g for one in ingredients])
    given = given * total / given.sum() if given.sum() else given
    upper, upper_right, equal, equal_right = [], [], [], []
    for number, balance in enumerate(balances):
        if rows is not None and number not in rows:
            continue
        cells = [(one.food.content(balance.component) - balance.percent) / 100 for one in ingredients] + [0.0] * count
        if balance.sense == "=":
            equal.append(cells)
            equal_right.append(0.0)
        else:
            sign = 1 if balance.sense == "<=" else -1
            upper.append([sign * cell for cell in cells])
            upper_right.append(0.0)
    if rows is None or len(balances) in rows:
        equal.append([1.0] * count + [0.0] * count)
        equal_right.append(total)
    for number in range(count):
        for sign in (1, -1):
            cells = [0.0] * (2 * count)
            cells[number], cells[count + number] = sign, -1.0
            upper.append(cells)
            upper_right.append(sign * given[number])
    low = [one.low_g for one in ingredients] if low is None else low
    high = [one.high_g for one in ingredients] if high is None else high
    return linprog(
        [0.0] * count + [1.0] * count,
        A_ub=np.array(upper),
        b_ub=upper_right,
        A_eq=np.array(equal) if equal else None,
        b_eq=equal_right or None,
        bounds=[*zip(low, high, strict=True), *[(0, None)] * count],
        method="highs",
    )


@given(wishes())
def test_formulas_are_as_near_as_highs_finds_them_and_collisions_are_real(wish):
    ingredients, balances, total = wish
    answer = formulate(ingredients, balances, total)
    expected = reference(ingredients, balances, total)
    if isinstance(answer, Formula):
        assert expected.status == 0
        moved = sum(abs(after - before) for after, before in zip(answer.masses_g, answer.before_g, strict=True))
        assert moved == pytest.approx(expected.fun, abs=1e-5)
        assert sum(answer.masses_g) == pytest.approx(total)
        for one, mass in zip(ingredients, answer.masses_g, strict=True):
            assert one.low_g - 1e-9 <= mass <= (one.high_g if one.high_g is not None else mass) + 1e-9
        return
    assert expected.status == 2
    names = [balance.component for balance in balances] + ["total"]
    rows = {names.index(collision.of) for collision in answer.collisions if collision.kind in ("balance", "total")}
    lows = {collision.of for collision in answer.collisions if collision.kind == "low"}
    highs = {collision.of for collision in answer.collisions if collision.kind == "high"}

    def feasible(rows, lows, highs):
        low = [one.low_g if number in lows else 0.0 for number, one in enumerate(ingredients)]
        high = [one.high_g if number in highs else None for number, one in enumerate(ingredients)]
        return reference(ingredients, balances, total, rows=rows, low=low, high=high).status == 0

    assert not feasible(rows, lows, highs)
    for kind, wishes_of_kind in enumerate((rows, lows, highs)):
        for wish_of_kind in wishes_of_kind:
            without = [rows, lows, highs]
            without[kind] = wishes_of_kind - {wish_of_kind}
            assert feasible(*without)


@given(wishes(), st.integers(2, 9))
def test_scaling_a_formulation_scales_its_answer(wish, factor):
    ingredients, balances, total = wish
    bigger = [
        BoundedIngredient(
            food=one.food,
            recipe_g=factor * one.recipe_g,
            low_g=factor * one.low_g,
            high_g=None if one.high_g is None else factor * one.high_g,
        )
        for one in ingredients
    ]
    answer, scaled = formulate(ingredients, balances, total), formulate(bigger, balances, factor * total)
    assert type(answer) is type(scaled)
    if isinstance(answer, Formula):
        assert scaled.masses_g == pytest.approx([factor * mass for mass in answer.masses_g])


def test_every_pair_of_real_foods_is_blended_as_the_pearson_square_says():
    for rich, lean in itertools.permutations(("butter_unsalted", "cream_heavy_whipping", "milk_whole", "milk_skim"), 2):
        high, low = food(rich).content("fat_g"), food(lean).content("fat_g")
        if high > low:
            target = round((high + low) / 2, 2)
            answer = mix([food(rich), food(lean)], [Balance("fat_g", "=", target)], 100.0)
            assert answer.masses_g[0] == pytest.approx(100 * (target - low) / (high - low))
