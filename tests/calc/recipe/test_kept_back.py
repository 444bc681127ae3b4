"""What is kept back for a rescue: not in the batch, until it is used at its checkpoint. Balances are by definition."""

from copy import deepcopy
from math import fsum
from typing import Any

import pytest
from crumbcoat_calc.calculators import CALCULATORS, run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.composition import mixture_of
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.forms.context import Context, context_from
from crumbcoat_calc.label.market_list import lists_of
from crumbcoat_calc.lesson.mise_en_place import mise_en_place
from crumbcoat_calc.purchasing.shopping import needs_of
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.editing import Incoming, with_amounts, with_exchange
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

PLAIN: dict[str, object] = {
    "title": "Cream", "summary": "A cream.", "author": "Lantern Street teaching kitchen", "family": "whipped cream",
    "yield": {"portions": "10", "of": "cupcakes"},
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "400 g"},
        "sugar": {"kind": "sugar_powdered", "amount": "50 g"},
    },
    "stages": [
        {"title": "Whip", "steps": [
            {"do": "Whip.", "add": ["cream", "sugar"], "checkpoint": {
                "passes": ["A trail."],
                "troubles": [{"sign": "Grainy.", "remedy": "Fold it in."}, {"sign": "Stiff.", "remedy": "Add milk."}],
            }},
            {"do": "Fold.", "optional": "yes", "checkpoint": {
                "passes": ["Smooth."], "troubles": [{"sign": "Weeps.", "remedy": "Stir in yolk."}]
            }},
        ]},
    ],
}  # fmt: skip


def kept_back() -> dict[str, object]:
    """The same with cream, milk and a yolk kept back; of milk and yolk nothing else is in it."""
    recipe: dict[str, Any] = deepcopy(PLAIN)
    recipe["ingredients"]["cream"]["kept_back"] = {"rescue": "60 g"}
    recipe["ingredients"]["milk"] = {"kind": "milk_whole", "kept_back": {"loosen": "2 US tbsp"}}
    recipe["ingredients"]["yolk"] = {"kind": "egg_yolk_raw", "kept_back": {"bind": "1 large"}}
    first, second = (step["checkpoint"]["troubles"] for step in recipe["stages"][0]["steps"])
    first[0]["add"], first[1]["add"], second[0]["add"] = "cream/rescue", ["cream/rescue", "milk/loosen"], "yolk/bind"
    return recipe


RECIPE = recipe_from(kept_back())
CONTEXT = context_from({"recipe": kept_back()})
USED = {"used.cream.rescue": "yes"}


def figures(context: Context, state: dict[str, str]) -> dict[str, object]:
    return run("batch", context, state)[1]


def test_the_published_batch_is_the_one_without_it() -> None:
    kept, plain = figures(CONTEXT, {}), figures(context_from({"recipe": PLAIN}), {})
    same = ("finished_mass", "fat.percent", "water.percent", "sugars.percent", "portions_of", "status", "amount.cream")
    assert {name: kept[name] for name in same} == {name: plain[name] for name in same}
    assert batch_of(RECIPE).total.mass_g == pytest.approx(450)
    assert RECIPE.portion_g == 45


def test_what_is_used_is_in_the_batch() -> None:
    """400 g + 60 g of cream and 50 g of sugar; the fat is that of 460 g of the table's cream."""
    batch = batch_of(RECIPE, BatchOptions(used=frozenset({("cream", "rescue")})))
    assert batch.total.mass_g == pytest.approx(510)
    fat_g = 460 * (food("cream_heavy_whipping").content("fat_g") or 0) / 100
    sugar_fat_g = 50 * (food("sugar_powdered").content("fat_g") or 0) / 100
    assert batch.total.percent("fat_g") == pytest.approx(100 * (fat_g + sugar_fat_g) / 510)
    assert batch.portions == pytest.approx(510 / 45)


@given(
    factor=st.floats(0.1, 20),
    used=st.frozensets(st.sampled_from([("cream", "rescue"), ("milk", "loosen"), ("yolk", "bind")])),
    cream_g=st.floats(0, 900),
    skips=st.booleans(),
)
def test_mass_is_conserved_whatever_is_used(
    factor: float, used: frozenset[tuple[str, str]], cream_g: float, skips: bool
) -> None:
    options = BatchOptions(
        factor=factor, used=used, amounts_g={"cream": cream_g}, skipped=frozenset({(0, 1)} if skips else ())
    )
    batch = batch_of(RECIPE, options)
    assert batch.total.mass_g == pytest.approx(fsum(weighed.inside_g for weighed in batch.weighed))
    counted = {use for use in used if not (skips and use == ("yolk", "bind"))}
    kept_g = {("cream", "rescue"): 60.0, ("milk", "loosen"): 30.0, ("yolk", "bind"): 17.0}
    assert batch.total.mass_g == pytest.approx(factor * (cream_g + 50 + fsum(kept_g[use] for use in counted)))
    assert fsum(weighed.needed_g for weighed in batch.weighed) == pytest.approx(
        factor * (cream_g + 50 + fsum(kept_g.values()))
    )


def test_it_is_kept_in_the_form_state_and_follows_the_size() -> None:
    state, texts = run("batch", CONTEXT, {"factor": "2"}, USED)
    assert state == {"factor": "2", "used.cream.rescue": "yes"}
    assert (texts["kept.cream.rescue"], texts["finished_mass"]) == ("120 g", "1020 g")
    assert texts["went_in.cream.rescue"] == "went in"
    assert str(texts["change"]).startswith("Compared with the recipe as published: fat ")
    assert str(texts["portions_of"]).startswith("about ")
    back, texts = run("batch", CONTEXT, state, {"used.cream.rescue": ""})
    assert back == {"factor": "2"}
    assert texts["finished_mass"] == "900 g"
    assert run("batch", CONTEXT, {}, {"units": "us"})[1]["kept.milk.loosen"] == "2 US tbsp"


def test_what_went_in_at_a_step_that_is_left_out_does_not_count() -> None:
    texts = figures(CONTEXT, {"used.yolk.bind": "yes", "skip.0.1": "yes"})
    assert (texts["went_in.yolk.bind"], texts["used.yolk.bind"], texts["finished_mass"]) == ("", "yes", "450 g")


@pytest.mark.parametrize("name", ["used.sugar.rescue", "used.cream.start", "used.cream", "used"])
def test_only_what_is_kept_back_can_be_used(name: str) -> None:
    with pytest.raises(InputError) as refused:
        run("batch", CONTEXT, {name: "yes"})
    assert refused.value.remedy == "choose a part that the recipe keeps back"


def test_it_is_on_every_label_also_where_nothing_else_of_it_is_in() -> None:
    for used in (frozenset(), frozenset({("yolk", "bind")})):
        for listed in lists_of(batch_of(RECIPE, BatchOptions(used=used))):
            assert set(listed.contains) == {"egg", "milk"}
            assert "EGG" in listed.text
    assert lists_of(batch_of(RECIPE))[0].text.lower().endswith("egg yolk")


def test_a_yolk_kept_back_calls_for_the_caution_about_raw_egg() -> None:
    assert highest_temperatures(RECIPE)["yolk"] is None
    texts = run("label", CONTEXT)[1]
    assert "egg" in str(texts["cautions"]).lower()
    assert texts["caution.0.1"]


def test_it_is_bought_and_laid_out_and_costs_only_what_is_used() -> None:
    batch = batch_of(RECIPE)
    assert {need.key: need.mass_g for need in needs_of([batch])} == pytest.approx(
        {"cream_heavy_whipping": 460, "sugar_powdered": 50, "milk_whole": 30, "egg_yolk_raw": 17}
    )
    laid_out = {entry.name: entry for entry in mise_en_place(batch)}
    assert [entry.kept_back_g for entry in laid_out.values()] == [
        (("1.1", 60.0),), (), (("1.1", pytest.approx(30)),), (("1.2", 17.0),),
    ]  # fmt: skip
    prices = "item,pack,price,currency,date,note\ncream_heavy_whipping,1 kg,10.00,EUR,2026-01-19,\n"
    context = context_from({"recipe": kept_back(), "prices": prices})
    before, after = (run("label", context, state)[1] for state in ({}, USED))
    assert before["cost.lines"][0][1:] == ["400 g", "10.00 EUR for 1 kg", "4.00 EUR"]  # type: ignore[index]
    assert after["cost.lines"][0][1:] == ["460 g", "10.00 EUR for 1 kg", "4.60 EUR"]  # type: ignore[index]
    assert str(before["cost.kept"]).startswith("Not counted, since not in this batch: 60 g cream, ")
    assert "cream" not in str(after["cost.kept"])


@pytest.mark.parametrize("calculator", sorted(CALCULATORS))
def test_every_calculator_takes_a_recipe_with_something_kept_back(calculator: str) -> None:
    context = context_from(
        {"recipe": kept_back(), "second": kept_back() | {"title": "Other"}, "a": kept_back(), "b": PLAIN}
    )
    assert run(calculator, context)[1]


def test_the_yolk_and_its_mixture_agree_with_the_table() -> None:
    part = mixture_of(food("egg_yolk_raw"), 17.0, "yolk")
    batch = batch_of(RECIPE, BatchOptions(used=frozenset({("yolk", "bind")})))
    plain = batch_of(RECIPE)
    assert batch.total.percent("fat_g") == pytest.approx(
        ((plain.total.percent("fat_g") or 0) * 450 + (part.percent("fat_g") or 0) * 17) / 467
    )


@pytest.mark.parametrize("cream_g", [800.0, 0.0])
def test_a_recipe_made_from_it_keeps_as_much_back_for_its_size(cream_g: float) -> None:
    made = recipe_from(with_amounts(kept_back(), RECIPE, {"cream": cream_g, "sugar": 100.0}, 2.0, "made"))
    assert {(one.key, part.key): part.mass_g for one in made.ingredients for part in one.kept_back} == {
        ("cream", "rescue"): 120, ("milk", "loosen"): 60, ("yolk", "bind"): 34,
    }  # fmt: skip
    assert batch_of(made).total.mass_g == pytest.approx(cream_g + 100)


def test_a_recipe_made_from_another_has_no_picture_and_no_date_of_that_one() -> None:
    of_the_other = {
        "made": "3", "published": "2026-05-02", "updated": "2026-06-02", "cover": "the frosting in its bowl",
        "video": {"title": "In six minutes", "url": "https://kitchen.example/film", "published": "2026-05-02"},
        "moved_from": ["old/"],
    }  # fmt: skip
    data = kept_back() | of_the_other
    recipe = recipe_from(data)
    assert recipe.cover
    for made in (with_amounts(data, recipe, {}, 1.0, "made"), with_exchange(data, recipe, "cream", [], "made")):
        assert of_the_other.keys() & made.keys() == set()


def test_what_takes_the_place_of_an_ingredient_is_kept_back_as_well() -> None:
    other = Incoming(key="light", fields={"kind": "cream_light_whipping"}, mass_g=420.0)
    made = recipe_from(with_exchange(kept_back(), RECIPE, "cream", [other], "made"))
    (light,) = [one for one in made.ingredients if one.key == "light"]
    assert [(part.key, part.mass_g) for part in light.kept_back] == [("rescue", pytest.approx(63))]
    assert batch_of(made, BatchOptions(used=frozenset({("light", "rescue")}))).total.mass_g == pytest.approx(533)


@pytest.mark.parametrize(
    ("calculator", "field", "value"),
    [
        ("batch", "amount.milk", "20 g"), ("batch", "size_by.milk", "20 g"), ("replace", "ingredient", "2"),
        ("formulate", "moves.2", "yes"), ("formulate", "low.3", "5"), ("map", "x", "2"),
    ],
)  # fmt: skip
def test_what_is_all_kept_back_cannot_be_changed_as_what_is_in_the_batch(
    calculator: str, field: str, value: str
) -> None:
    with pytest.raises(InputError) as refused:
        run(calculator, CONTEXT, {}, {field: value})
    assert "kept back" in refused.value.problem or "left out" in refused.value.problem


def test_of_what_is_all_kept_back_only_the_part_has_an_amount() -> None:
    texts = run("batch", CONTEXT)[1]
    (kept,) = [texts[name] for name in texts if name.startswith("kept.milk.")]
    assert (texts["amount.milk"], kept) == ("", "30 g")
