"""A batch on a scale: divided amounts add up, nothing changes by a step, and amounts below a step stay exact."""

import json
import math

import pytest
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.weighing import Weighing, scale_step, shown_step, weighing_of
from hypothesis import given
from hypothesis import strategies as st

STEPS = st.sampled_from([float(scale.step_g) for scale in scales().values()])
FACTORS = st.floats(0.05, 40)


def batch(factor: float = 1.0, *, water_lost: str = "7.3 g") -> Batch:
    data = {
        "title": "Divided", "summary": "Everything in parts.", "author": "Lantern Street teaching kitchen",
        "family": "other", "yield": {"portions": "3", "of": "cakes"},
        "ingredients": {
            "milk": {"kind": "milk_whole", "amount": "100 g",
                     "portions": {"one": "33.4 g", "two": "33.3 g", "three": "33.3 g"}},
            "butter": {"kind": "butter_unsalted", "amount": "227 g"},
            "salt": {"kind": "salt_table", "amount": "1.5 g"},
        },
        "stages": [
            {"title": "Base", "makes": "base", "shares": {"first": "1/3", "rest": "2/3"},
             "steps": [{"do": "Boil.", "add": ["milk/one", "milk/two"], "water_lost": water_lost}]},
            {"title": "Beat", "steps": [
                {"do": "Beat.", "add": ["butter", "base/first"]},
                {"do": "Fold.", "add": ["base/rest", "milk/three", "salt"]},
            ]},
        ],
    }  # fmt: skip
    return batch_of(recipe_from(json.loads(json.dumps(data))), BatchOptions(factor=factor))


def weighed(factor: float, step_g: float) -> tuple[Batch, Weighing]:
    made = batch(factor)
    return made, weighing_of(made, scale_step(step_g))


@given(FACTORS, STEPS)
def test_portions_add_up_and_nothing_changes_by_a_step(factor: float, step_g: float) -> None:
    made, on_scale = weighed(factor, step_g)
    for one in made.weighed:
        amount = on_scale.amounts_g[one.key]
        if one.key in on_scale.too_little:
            assert amount == one.mass_g
        else:
            assert abs(amount - one.mass_g) <= step_g / 2 * (1 + 1e-6)
            assert amount / step_g == pytest.approx(round(amount / step_g), abs=1e-6)
        parts = [on_scale.portions_g[one.key, part] for part in one.portions_g]
        if parts:
            assert math.fsum(parts) == pytest.approx(amount)
        for part, exact_g in one.portions_g.items():
            assert abs(on_scale.portions_g[one.key, part] - exact_g) < step_g * (1 + 1e-6)


@given(FACTORS, STEPS)
def test_mass_is_conserved_through_stages_and_shares(factor: float, step_g: float) -> None:
    """Mass balance: the ingredients minus the water lost are the result, and the shares add up to the base."""
    _, on_scale = weighed(factor, step_g)
    lost = 7.3 * factor
    assert on_scale.finished_g == pytest.approx(sum(on_scale.amounts_g.values()) - lost)
    base = sum(on_scale.uses_g[0][0]) - lost
    shares = on_scale.uses_g[1][0][1] + on_scale.uses_g[1][1][0]
    assert abs(shares - base) <= step_g / 2 * (1 + 1e-6)


@given(FACTORS, STEPS)
def test_the_steps_use_exactly_what_is_weighed(factor: float, step_g: float) -> None:
    _, on_scale = weighed(factor, step_g)
    assert on_scale.uses_g[0][0] == (on_scale.portions_g["milk", "one"], on_scale.portions_g["milk", "two"])
    assert on_scale.uses_g[1][0][0] == on_scale.amounts_g["butter"]
    assert on_scale.uses_g[1][1][1:] == (on_scale.portions_g["milk", "three"], on_scale.amounts_g["salt"])


def test_without_a_scale_displayed_thirds_of_100_still_add_up() -> None:
    on_scale = weighing_of(batch(), shown_step)
    assert sorted(on_scale.portions_g.values()) == [33.0, 33.0, 34.0]
    assert on_scale.amounts_g["milk"] == 100.0
    assert on_scale.amounts_g["salt"] == 1.5


def test_an_amount_below_a_step_stays_exact_and_is_listed() -> None:
    assert weighed(1, 5.0)[1].too_little == ("salt",)
    assert weighed(1, 5.0)[1].amounts_g["salt"] == 1.5
