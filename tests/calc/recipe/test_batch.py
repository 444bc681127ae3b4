"""A batch conserves mass, component by component: the result is the sum of the ingredients minus the water lost."""

import math

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.bounds import range_of
from crumbcoat_calc.foods.components import COMPONENTS
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

HEAD = {
    "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
    "yield": {"portions": "10", "of": "pieces"},
}  # fmt: skip


def staged(**changes: object) -> Recipe:
    """A base of milk, sugar and starch that is set aside, divided, and added to butter in two stages."""
    return recipe_from(
        HEAD
        | {
            "ingredients": {
                "milk": {
                    "kind": "milk_whole", "amount": "500 g", "portions": {"cooked": "400 g", "cold": "100 g"},
                    "replacements": {"cream": {"kind": "cream_light", "grams_per_gram": "0.9"}},
                },
                "sugar": {"kind": "sugar_granulated", "amount": "100 g"},
                "starch": {"kind": "cornstarch", "amount": "40 g"},
                "butter": {"kind": "butter_unsalted", "amount": "200 g"},
                "salt": {"kind": "salt_table", "amount": "1 g", "optional": "yes"},
            },
            "stages": [
                {
                    "title": "Base", "makes": "base", "shares": {"first": "1/4", "second": "3/4"},
                    "steps": [{"do": "Boil.", "add": ["milk/cooked", "sugar", "starch"], "water_lost": "60 g"}],
                },
                {"title": "Butter", "steps": [{"do": "Beat.", "add": ["butter", "base/first"]}]},
                {
                    "title": "All",
                    "steps": [{"do": "Beat.", "add": ["base/second", "milk/cold"]}, {"do": "Season.", "add": ["salt"]}],
                },
            ],
        }
        | changes
    )  # fmt: skip


def mass_balance_holds(batch: Batch) -> None:
    weighed = math.fsum(one.mass_g for one in batch.weighed)
    lost = batch.vessels[-1].water_lost_g
    assert batch.total.mass_g + lost == pytest.approx(weighed)
    assert math.fsum(part.mass_g for part in batch.vessels[-1].parts) == pytest.approx(weighed)
    for component in COMPONENTS:
        contents = [(range_of(one.food, component), one.mass_g) for one in batch.weighed if one.mass_g > 0]
        known = math.fsum(low * mass_g / 100 for (low, _), mass_g in contents)
        most = math.fsum(high * mass_g / 100 for (_, high), mass_g in contents)
        gone = lost if component == "water_g" else 0.0
        assert batch.total.at_least(component) == pytest.approx(known - gone, rel=1e-9, abs=1e-6)
        assert (batch.total.amount(component) is None) == any(low < high for (low, high), _ in contents)
        assert batch.total.at_most(component) == pytest.approx(most - gone, rel=1e-9, abs=1e-6)


def test_the_batch_as_published_by_hand() -> None:
    """By hand from the table: 100 g of whole milk contains 3.25 g of fat, 100 g of butter 81.11 g (usda-sr28)."""
    batch = batch_of(staged())
    assert [vessel.mixture.mass_g for vessel in batch.vessels] == pytest.approx([480, 320, 781 + 100 - 100])
    starch_fat = 40 * 0.0005
    assert batch.vessels[0].mixture.amount("fat_g") == pytest.approx(400 * 0.0325 + starch_fat)
    first = (400 * 0.0325 + starch_fat) / 4
    assert batch.vessels[1].mixture.amount("fat_g") == pytest.approx(first + 200 * 0.8111)
    assert batch.total.amount("fat_g") == pytest.approx(500 * 0.0325 + starch_fat + 200 * 0.8111)
    assert batch.total.percent("fat_g") == pytest.approx(100 * (16.25 + 0.02 + 162.22) / 781)
    assert batch.uses_g == (((400, 100, 40),), ((200, 120),), ((360, 100), (1,)))
    assert [vessel.water_lost_g for vessel in batch.vessels] == pytest.approx([60, 15, 60])
    mass_balance_holds(batch)


def test_fat_falls_from_stage_to_stage_where_milk_goes_into_butter() -> None:
    shares = [vessel.mixture.percent("fat_g") for vessel in batch_of(staged()).vessels[1:]]
    assert shares[0] is not None
    assert shares[1] is not None
    assert shares[0] > shares[1]


def test_a_stage_that_sets_something_aside_does_not_touch_the_bowl() -> None:
    recipe = recipe_from(
        HEAD
        | {
            "ingredients": {
                "butter": {"kind": "butter_unsalted", "amount": "200 g"},
                "cream": {"kind": "cream_heavy_whipping", "amount": "100 g"},
            },
            "stages": [
                {"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter"]}]},
                {"title": "Whip", "makes": "whipped", "steps": [{"do": "Whip.", "add": ["cream"]}]},
                {"title": "Fold", "steps": [{"do": "Fold.", "add": ["whipped"]}]},
            ],
        }
    )
    batch = batch_of(recipe)
    assert [vessel.mixture.mass_g for vessel in batch.vessels] == [200, 100, 300]
    mass_balance_holds(batch)


def test_an_optional_ingredient_left_out_weighs_nothing() -> None:
    batch = batch_of(staged(), BatchOptions(left_out=frozenset({"salt"})))
    assert batch.weighed[4].mass_g == 0
    assert batch.uses_g[2][1] == (0,)
    assert batch.total.mass_g == pytest.approx(780)
    mass_balance_holds(batch)


def test_a_replacement_goes_into_every_portion() -> None:
    batch = batch_of(staged(), BatchOptions(replaced={"milk": "cream"}))
    assert batch.weighed[0].food == food("cream_light")
    assert batch.weighed[0].mass_g == pytest.approx(450)
    assert batch.weighed[0].portions_g == pytest.approx({"cooked": 360, "cold": 90})
    mass_balance_holds(batch)


def test_a_changed_amount_changes_only_that_ingredient() -> None:
    batch = batch_of(staged(), BatchOptions(amounts_g={"milk": 600}, factor=2))
    assert [one.mass_g for one in batch.weighed] == pytest.approx([1200, 200, 80, 400, 2])
    assert batch.weighed[0].portions_g == pytest.approx({"cooked": 960, "cold": 240})
    assert batch.vessels[-1].water_lost_g == pytest.approx(120)
    mass_balance_holds(batch)


def test_more_water_than_there_is_cannot_boil_off() -> None:
    with pytest.raises(InputError) as caught:
        batch_of(staged(), BatchOptions(amounts_g={"milk": 10}))
    assert caught.value.path == ("stages", 0, "steps", 0, "water_lost")
    assert caught.value.problem.startswith("60 g of water cannot boil off: there is only ")


def test_an_empty_batch_is_refused() -> None:
    amounts = {"milk": 0.0, "sugar": 0.0, "starch": 0.0, "butter": 0.0, "salt": 0.0}
    with pytest.raises(InputError) as caught:
        batch_of(staged(), BatchOptions(amounts_g=amounts))
    assert caught.value.problem == "nothing is left in the batch"


def test_missing_contents_stay_missing_and_list_the_ingredient() -> None:
    recipe = recipe_from(
        HEAD
        | {
            "ingredients": {
                "butter": {"kind": "butter_unsalted", "amount": "100 g"},
                "paste": {"name": "house paste", "composition": {"fat": "10 %"}, "amount": "100 g"},
            },
            "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["butter", "paste"]}]}],
        }
    )
    total = batch_of(recipe).total
    assert total.percent("fat_g") == pytest.approx((81.11 + 10) / 2)
    assert total.amount("water_g") is None
    assert total.missing["water_g"] == ("house paste",)
    assert total.at_least("water_g") == pytest.approx(food("butter_unsalted").content("water_g"))


@given(
    factor=st.floats(0.001, 1000),
    amounts=st.dictionaries(st.sampled_from(["milk", "sugar", "starch", "butter", "salt"]), st.floats(200, 1e6)),
    without=st.booleans(),
    cream=st.booleans(),
)
def test_mass_is_conserved_whatever_is_chosen(
    factor: float, amounts: dict[str, float], without: bool, cream: bool
) -> None:
    options = BatchOptions(
        factor=factor,
        amounts_g=amounts,
        left_out=frozenset({"salt"} if without else ()),
        replaced={"milk": "cream"} if cream else {},
    )
    mass_balance_holds(batch_of(staged(), options))


@given(factor=st.floats(0.001, 1000))
def test_scaling_changes_no_percentage(factor: float) -> None:
    one, scaled = batch_of(staged()), batch_of(staged(), BatchOptions(factor=factor))
    for before, after in zip(one.vessels, scaled.vessels, strict=True):
        assert after.mixture.mass_g == pytest.approx(factor * before.mixture.mass_g)
        for component in COMPONENTS:
            if before.mixture.amount(component) is not None:
                assert after.mixture.percent(component) == pytest.approx(
                    before.mixture.percent(component), rel=1e-9, abs=1e-9
                )


@st.composite
def recipes(draw: st.DrawFn) -> Recipe:
    """Any foods, divided or not, added over several stages, some of which set their product aside."""
    kinds = draw(st.lists(st.sampled_from(sorted(foods())), min_size=1, max_size=8))
    ingredients, waiting = {}, []
    for number, kind in enumerate(kinds):
        mass = draw(st.integers(1, 5000))
        fields: dict[str, object] = {"kind": kind, "amount": f"{2 * mass} g"}
        if draw(st.booleans()):
            part = draw(st.integers(1, 2 * mass - 1))
            fields["portions"] = {"a": f"{part} g", "b": f"{2 * mass - part} g"}
            waiting += [f"i{number}/a", f"i{number}/b"]
        else:
            waiting.append(f"i{number}")
        ingredients[f"i{number}"] = fields
    waiting = draw(st.permutations(waiting))
    stages: list[dict[str, object]] = []
    for number in range(draw(st.integers(0, 4))):
        if not waiting:
            break
        cut = draw(st.integers(1, len(waiting)))
        stage: dict[str, object] = {"title": f"Stage {number}", "steps": [{"do": "Mix.", "add": waiting[:cut]}]}
        waiting = waiting[cut:]
        if draw(st.booleans()):
            stage["makes"] = f"m{number}"
            if draw(st.booleans()):
                share = draw(st.integers(1, 99))
                stage["shares"] = {"x": f"{share} %", "y": f"{100 - share} %"}
                waiting += [f"m{number}/x", f"m{number}/y"]
            else:
                waiting.append(f"m{number}")
        stages.append(stage)
    last: dict[str, object] = {"do": "Finish."} | ({"add": waiting} if waiting else {})
    stages.append({"title": "Finish", "steps": [last]})
    return recipe_from(HEAD | {"ingredients": ingredients, "stages": stages})


@given(recipes())
def test_mass_is_conserved_whatever_the_recipe(recipe: Recipe) -> None:
    batch = batch_of(recipe)
    mass_balance_holds(batch)
    assert batch.vessels[-1].water_lost_g == 0


def test_two_thousand_ingredients_make_a_batch() -> None:
    kinds = sorted(foods())
    ingredients = {f"i{n}": {"kind": kinds[n % len(kinds)], "amount": f"{n % 50 + 1} g"} for n in range(2000)}
    stages = [
        {"title": f"Stage {n}", "steps": [{"do": "Mix.", "add": [f"i{n * 20 + m}" for m in range(20)]}]}
        for n in range(100)
    ]
    batch = batch_of(recipe_from(HEAD | {"ingredients": ingredients, "stages": stages}))
    assert len(batch.weighed) == 2000
    assert batch.total.mass_g == pytest.approx(40 * 50 * 51 / 2)
    mass_balance_holds(batch)
