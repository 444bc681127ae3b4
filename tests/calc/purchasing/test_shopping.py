"""Shopping lists: property tests, and one list worked by hand."""

import math

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.purchasing.shopping import Need, needs_of, packs, packs_from, pieces, shopping_list
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

KINDS = sorted(packs())
EGGS = sorted(pieces())
WITHOUT_PACK = sorted(set(foods()) - set(packs()) - set(pieces()) - {"water_tap"})

needs = st.lists(
    st.builds(
        lambda key, mass_g: Need(key, key, mass_g),
        st.sampled_from([*KINDS[:6], *EGGS, WITHOUT_PACK[0]]),
        st.floats(0, 5000),
    ),
    max_size=12,
)


@given(needs)
def test_enough_is_bought_and_less_than_one_pack_is_left(wanted):
    lines = shopping_list(wanted)
    assert len({line.name for line in lines}) == len(lines), "each food is listed once"
    for line in lines:
        assert line.left >= 0
        if line.packs is None:
            assert line.left == 0
        else:
            assert line.packs >= 1
            assert line.left < (line.needed + line.left) / line.packs + 1e-6, "less than one pack"


@given(needs)
def test_the_list_adds_up_what_the_recipes_need(wanted):
    for line in shopping_list(wanted):
        if line.unit == "g":
            needs_of_food = [need.mass_g for need in wanted if need.name in line.name.split(" (")[0].split(", ")]
            assert line.needed == pytest.approx(math.fsum(needs_of_food), abs=1e-5)


@given(*[st.one_of(st.just(0.0), st.floats(0.01, 3000))] * 3)
def test_eggs_suffice_for_whites_and_yolks_without_one_too_many(white_g, yolk_g, whole_g):
    """A large egg yields 33 g of white and 17 g of yolk, or 50 g whole (usda-sr28, 1 large)."""
    wanted = [
        Need("egg_white_raw", "w", white_g),
        Need("egg_yolk_raw", "y", yolk_g),
        Need("egg_whole_raw", "e", whole_g),
    ]
    lines = shopping_list(wanted)
    if not lines:
        assert white_g == yolk_g == whole_g == 0
        return
    (line,) = lines
    used_whole = math.ceil(round(whole_g / 50, 9))
    separated = line.needed - used_whole
    assert 50 * used_whole >= whole_g - 1e-4
    assert 33 * separated >= white_g - 1e-4
    assert 17 * separated >= yolk_g - 1e-4
    assert separated == 0 or 33 * (separated - 1) < white_g or 17 * (separated - 1) < yolk_g


def test_a_class_by_hand():
    """By hand: 681 g of butter takes 3 blocks of 250 g and leaves 69 g. 1 L of milk is 1000 / 236.588 x 244 = 1031.3 g.

    132 g of white needs 4 eggs, 85 g of yolk needs 5: 5 eggs from a box of 12, with 33 g of white left. Water is free.
    """
    lines = shopping_list(
        [
            Need("butter_unsalted", "butter", 454),
            Need("milk_whole", "milk", 244),
            Need("egg_white_raw", "whites", 132),
            Need("water_tap", "water", 100),
            Need("butter_unsalted", "soft butter", 227),
            Need("milk_whole", "cold milk", 244),
            Need("egg_yolk_raw", "yolks", 85),
            Need(None, "Butter, 84 % fat", 100),
            Need(None, "butter, 84 % fat", 150),
            Need("butter_unsalted", "butter, 83 % fat", 10, own=True),
        ]
    )
    shown = [(line.buy_text, line.left_text) for line in lines]
    yolk, white = foods()["egg_yolk_raw"].name, foods()["egg_white_raw"].name
    assert shown[:3] == [
        ("3 × 250 g block", "69 g"),
        ("1 × 1 L carton", "543 g"),
        ("1 × box of 12", f"7 large eggs, 33 g {white}"),
    ]
    assert yolk not in shown[2][1]
    assert shown[3] == ("250 g", ""), "a food without a pack is bought by weight, and added up by its name"
    assert shown[4] == ("1 × 250 g block", "240 g"), "a different butter has its own line"


def test_float_noise_buys_no_extra_pack():
    """10 times 50 g of butter is exactly two blocks of 250 g, whatever floats add."""
    (line,) = shopping_list([Need("butter_unsalted", "butter", 50.0 + 1e-12)] * 10)
    assert (line.packs, line.left) == (2, 0.0)


def test_a_pack_of_the_readers_own():
    sold = packs_from({"butter_unsalted": {"pack": "box", "amount": "4 sticks"}})
    (line,) = shopping_list([Need("butter_unsalted", "butter", 500)], sold)
    assert (line.buy_text, line.left) == ("2 × 4 sticks box", pytest.approx(2 * 4 * 113 - 500))
    assert sold["sugar_granulated"] == packs()["sugar_granulated"]


@pytest.mark.parametrize(
    ("data", "path", "remedy"),
    [
        pytest.param(
            {"buter_unsalted": {"pack": "block", "amount": "250 g"}},
            ("buter_unsalted",),
            "did you mean `butter_unsalted` (butter, unsalted)?",
            id="unknown food",
        ),
        pytest.param(
            {"honey": {"pack": "jar", "amount": "0 g"}},
            ("honey", "amount"),
            "use more than zero, or leave it out",
            id="empty pack",
        ),
        pytest.param({"honey": {"pack": "jar"}}, ("honey",), "add `amount: …`", id="no amount"),
    ],
)
def test_error(data, path, remedy):
    with pytest.raises(InputError) as caught:
        packs_from(data)
    assert (caught.value.path, caught.value.remedy) == (path, remedy)


def test_every_usual_pack_has_a_plausible_mass():
    for pack in packs().values():
        assert 20 <= pack.mass_g <= 2000, pack


def test_needs_of_batches():
    recipe = recipe_from(
        {
            "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
            "yield": {"portions": "1", "of": "bowl"},
            "ingredients": {
                "butter": {"kind": "butter_unsalted", "amount": "100 g"},
                "salt": {"kind": "salt_table", "amount": "1 g", "optional": "yes"},
            },
            "stages": [{"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter", "salt"]}]}],
        }
    )  # fmt: skip
    batches = [batch_of(recipe, BatchOptions(factor=2.0, left_out=frozenset({"salt"}))), batch_of(recipe)]
    wanted = needs_of(batches)
    assert [(need.key, need.mass_g) for need in wanted] == [
        ("butter_unsalted", 200.0), ("butter_unsalted", 100.0), ("salt_table", 1.0),
    ]  # fmt: skip
    assert [line.buy_text for line in shopping_list(wanted)] == ["2 × 250 g block", "1 × 500 g packet"]


@pytest.mark.parametrize(
    ("region", "name"),
    [("US", "skimmed milk powder (nonfat dry milk)"), ("UK", "skimmed milk powder (US: nonfat dry milk)")],
)
def test_what_is_called_something_else_in_the_shops_of_the_region_has_that_name_too(region, name):
    assert [
        line.name for line in shopping_list([Need("milk_powder_skim", "skimmed milk powder", 30)], region=region)
    ] == [name]
