"""The formulation calculator: what it makes is checked by the batch that its own recipe file gives."""

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.calculators.formulate import form_state, read
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given, settings
from hypothesis import strategies as st

RECIPE = {
    "title": "Milk cream", "summary": "Milk and butter.", "author": "Lantern Street teaching kitchen",
    "family": "other", "yield": {"portions": "12", "of": "cupcakes"}, "measured": {"density": "0.7 g/mL"},
    "ingredients": {
        "milk": {"kind": "milk_whole", "amount": "300 g", "portions": {"hot": "200 g", "cold": "100 g"}},
        "butter": {"kind": "butter_unsalted", "amount": "250 g"},
        "sugar": {"kind": "sugar_granulated", "amount": "200 g"},
        "salt": {"kind": "salt_table", "amount": "1 g"},
    },
    "stages": [
        {"title": "Boil", "steps": [{"do": "Boil.", "add": ["milk/hot", "sugar"], "water_lost": "25 g"}]},
        {"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter", "milk/cold", "salt"], "additions": "3"}]},
    ],
}  # fmt: skip
CONTEXT = context_from({"recipe": RECIPE})
FINISHED_G = 300 + 250 + 200 + 1 - 25


def texts(**edit: str) -> dict[str, object]:
    of_a_line = ("low", "hig", "mov")
    named = {name.replace("_", ".") if name[:3] in of_a_line else name: value for name, value in edit.items()}
    return dict(run("formulate", CONTEXT, {}, named)[1])


def finished(file: object) -> tuple[float, float]:
    """Mass and fat percentage of the batch that a recipe file makes."""
    batch = batch_of(recipe_from(yaml.load(str(file), Loader=yaml.BaseLoader)))
    return batch.total.mass_g, batch.total.percent("fat_g") or 0.0


def test_without_a_wish_the_recipe_stays() -> None:
    shown = texts()
    assert [row[3] for row in shown["rows.formula"]] == ["unchanged"] * 4
    assert shown["total"] == f"{FINISHED_G}"
    assert finished(shown["file.recipe"])[0] == pytest.approx(FINISHED_G)


@pytest.mark.parametrize(("fat", "total"), [("25", "1000"), ("20", "500"), ("40", "726")])
def test_the_file_makes_what_was_wished(fat: str, total: str) -> None:
    """Mass balance, by the batch model that is checked elsewhere: the file's own batch has the wished fat and mass."""
    mass_g, percent = finished(texts(fat=fat, total=total)["file.recipe"])
    assert mass_g == pytest.approx(float(total), abs=0.05)
    assert percent == pytest.approx(float(fat), abs=0.01)


def test_by_hand_for_two_that_move() -> None:
    """Only butter and sugar move, usda-sr28 fat 81.11 and 3.25 %: 0.30·726 = 0.8111 b + 0.0325·300, b = 256.5 g."""
    shown = texts(fat="30", moves_0="", moves_1="yes", moves_2="yes")
    butter_g = (0.30 * FINISHED_G - 0.0325 * 300) / 0.8111
    assert shown["rows.formula"][1][2] == f"{butter_g:.0f} g"  # type: ignore[index]


def test_sugar_at_its_most_binds() -> None:
    shown = texts(fat="25", sugar="20")
    assert "sugar at its maximum, 20 %" in str(shown["binds"])


def test_wishes_that_collide_are_named_with_the_nearest_fat() -> None:
    """By hand: with at most 100 g of butter and all of it milk fat, fat is 0.8111·100 + 0.0325·milk at most."""
    shown = texts(fat="40", high_1="100")
    assert "is not possible" in str(shown["outcome"])
    assert "fat 40 %" in str(shown["outcome"])
    assert "at most 100 g" in str(shown["outcome"])
    milk_g = FINISHED_G + 25 - 100 - 1
    best = 100 * (0.8111 * 100 + 0.0325 * milk_g) / FINISHED_G
    assert f"{best:.1f} % fat, shown below" in str(shown["outcome"])


def test_the_square_for_two() -> None:
    """guelph-dairy: 20 parts of 40 % cream and 10 of 10 % milk give 30 %; 160 kg of 40 % take 40 kg of skim to 32 %."""
    shown = texts(rich="40", lean="10", between="30", together="300")
    for_each = "of the leaner for each kilogram of the richer"
    assert shown["square"] == f"200 g of the richer and 100 g of the leaner, so 500 g {for_each}"
    assert str(texts(rich="40", lean="0", between="32")["square"]).endswith(f"so 250 g {for_each}")
    assert texts(rich="40", lean="10", between="10", together="300")["square"] == (
        "0 g of the richer and 300 g of the leaner"
    )
    assert str(texts(between="60")["square"]).startswith("not given: ")


def test_what_was_measured_on_the_recipe_is_not_handed_on() -> None:
    data = yaml.load(str(texts(fat="20")["file.recipe"]), Loader=yaml.BaseLoader)
    assert "measured" not in data
    assert "not tried" in data["notes"][-1]


@pytest.mark.parametrize(
    ("edit", "state"),
    [
        ({"fat": "25 %"}, {"fat": "25"}),
        ({"total": "1 kg"}, {"total": "1000"}),
        ({"moves.0": ""}, {"moves.0": "no"}),
        ({"moves.0": "yes"}, {}),
        ({"moves.3": "yes"}, {"moves.3": "yes"}),
        ({"low.0": "100", "high.0": "200 g"}, {"low.0": "100", "high.0": "200"}),
        ({"low.0": ""}, {}),
        ({"together": "500"}, {}),
    ],
)
def test_what_is_kept(edit: dict[str, str], state: dict[str, str]) -> None:
    assert run("formulate", CONTEXT, {}, edit)[0] == state
    assert form_state(read(CONTEXT, state)) == state


@pytest.mark.parametrize(
    "edit",
    [{"fat": "101"}, {"fat": "rich"}, {"total": "0"}, {"low.9": "1"}, {"low.0": "-1"}, {"moves.0": "maybe"}, {"x": "1"},
     {"low.0": "200", "high.0": "100"}],
)  # fmt: skip
def test_what_cannot_be_used_is_refused_at_its_field(edit: dict[str, str]) -> None:
    with pytest.raises(InputError) as error:
        run("formulate", CONTEXT, {}, edit)[0]
    assert error.value.remedy
    assert ".".join(map(str, error.value.path)) in edit


def test_a_recipe_of_unknown_fat_is_refused() -> None:
    bare = {**RECIPE, "ingredients": {**RECIPE["ingredients"], "salt": {
        "name": "mix", "amount": "1 g", "composition": {"sugars": "50 %"}}}}  # type: ignore[dict-item] # fmt: skip
    with pytest.raises(InputError):
        run("formulate", context_from({"recipe": bare}), {}, {})
    assert read(CONTEXT, {}).wish.fat is None


@settings(max_examples=25, deadline=None)
@given(fat=st.floats(5, 60), total=st.floats(100, 5000))
def test_mass_and_fat_come_out(fat: float, total: float) -> None:
    shown = texts(fat=f"{fat:.2f}", total=f"{total:.1f}")
    if "is not possible" in str(shown["outcome"]):
        return
    mass_g, percent = finished(shown["file.recipe"])
    assert mass_g == pytest.approx(float(f"{total:.1f}"), abs=0.1)
    assert percent == pytest.approx(float(f"{fat:.2f}"), abs=0.05)
