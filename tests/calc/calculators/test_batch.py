"""The batch calculator: every change that a reader can make, and all that cannot be one."""

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.calculators.batch import form_state, read
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.forms.changes import UNITS
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.forms.written_amounts import amount_in_form
from crumbcoat_calc.kitchen.density import CUPS
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.kitchen.scaling import checked_factor
from hypothesis import given
from hypothesis import strategies as st

RECIPE = {
    "title": "Milk buttercream", "summary": "Milk and butter.", "author": "Lantern Street teaching kitchen",
    "family": "other", "yield": {"portions": "12", "of": "cupcakes"}, "tried": {"from": "1/2", "to": "2"},
    "ingredients": {
        "milk": {
            "kind": "milk_whole", "name": "whole milk", "amount": "300 g",
            "portions": {"cooked": "200 g", "cold": "100 g"},
            "replacements": {"cream": {"kind": "cream_light", "name": "light cream", "grams_per_gram": "0.5"}},
        },
        "butter": {"kind": "butter_unsalted", "amount": "1/2 lb"},
        "sugar": {"kind": "sugar_granulated", "amount": "1 US cup"},
        "salt": {"kind": "salt_table", "amount": "1 g", "optional": "yes"},
    },
    "stages": [
        {
            "title": "Base", "makes": "base",
            "steps": [{"do": "Boil.", "add": ["milk/cooked", "sugar"], "water_lost": "26 g"}],
        },
        {
            "title": "Beat",
            "steps": [
                {"do": "Beat.", "add": ["butter"]},
                {"do": "Bring together.", "add": ["base", "milk/cold"], "additions": "4"},
                {"do": "Season.", "add": ["salt"], "optional": "yes"},
            ],
        },
    ],
}  # fmt: skip
CONTEXT = context_from({"recipe": RECIPE})
FINISHED_G = 300 + 226.796185 + 200 + 1 - 26


def after(*edits: dict[str, str], state: dict[str, str] | None = None) -> tuple[dict[str, str], dict[str, object]]:
    kept, texts = state or {}, run("batch", CONTEXT, state or {}, {})[1]
    for edit in edits:
        kept, texts = run("batch", CONTEXT, kept, edit)
    return kept, dict(texts)


def test_as_published() -> None:
    state, texts = after()
    assert state == {}
    assert texts["factor"] == "1"
    assert texts["amount.butter"] == "227 g"
    assert texts["portion.milk.cooked"] == "200 g"
    assert texts["finished_mass"] == "702 g"
    assert texts["portions_of"] == "12 cupcakes"
    assert texts["water_lost"] == "26 g"
    assert texts["caution.tried"] == ""
    assert texts["use.1.1.0"] == "374 g"
    assert texts["each.1.1"] == "in 4 additions of 94 g and 25 g"
    assert texts["lost.0.0"] == "26 g"
    assert texts["stage.0.mass"] == "374 g"


def test_the_fat_percentage_by_hand() -> None:
    """By hand, usda-sr28: whole milk 3.25 % and butter 81.11 % of fat."""
    fat = 100 * (300 * 0.0325 + 226.796185 * 0.8111) / FINISHED_G
    assert after()[1]["fat.percent"] == f"{fat:.1f} %"
    assert str(after()[1]["status"]).startswith(f"702 g with {fat:.1f} % fat, for 12 cupcakes")


@pytest.mark.parametrize(
    ("edit", "state", "shown"),
    [
        pytest.param({"factor": "2"}, {"factor": "2"}, {"amount.milk": "600 g", "portions": "24"}, id="two batches"),
        pytest.param({"factor": "1/2"}, {"factor": "0.5"}, {"amount.milk": "150 g"}, id="half a batch"),
        pytest.param({"factor": " 2.50 "}, {"factor": "2.5"}, {"amount.milk": "750 g"}, id="spaces and zeros go"),
        pytest.param({"factor": "1.0"}, {}, {"amount.milk": "300 g"}, id="one batch is not kept"),
        pytest.param({"portions": "36"}, {"factor": "3"}, {"portions_of": "36 cupcakes"}, id="by portions"),
        pytest.param(
            {"finished_mass": "1403.59237 g"}, {"factor": "2"}, {"amount.sugar": "400 g"}, id="by finished mass"
        ),
        pytest.param({"finished_mass": "1 kg"}, None, {"finished_mass": "1000 g"}, id="by finished mass in kg"),
        pytest.param({"finished_mass": "350"}, None, {"finished_mass": "350 g"}, id="a bare number is grams"),
        pytest.param(
            {"size_by.butter": "1 lb"}, {"factor": "2"}, {"amount.milk": "600 g"},
            id="by the butter one has",
        ),
        pytest.param(
            {"size_by.sugar": "3 US cups"}, {"factor": "3"}, {"amount.sugar": "600 g"},
            id="by a household measure of the sugar one has",
        ),
        pytest.param(
            {"amount.butter": "250 g"}, {"amount.butter": "250"},
            {"amount.butter": "250 g", "amount.milk": "300 g", "changed.butter": "published: 227 g"},
            id="this amount alone",
        ),
        pytest.param({"amount.sugar": "1 US cup"}, {}, {"changed.sugar": ""}, id="the published amount is not kept"),
        pytest.param({"amount.sugar": "0"}, {"amount.sugar": "0"}, {"amount.sugar": "0 g"}, id="none of it"),
        pytest.param({"amount.sugar": "0 kg"}, {"amount.sugar": "0"}, {"amount.sugar": "0 g"}, id="none, in kg"),
        pytest.param({"amount.salt": "½"}, {"amount.salt": "0.5"}, {"amount.salt": "0.5 g"}, id="a bare half"),
        pytest.param({"without.salt": "yes"}, {"without.salt": "yes"}, {"without.salt": "yes"}, id="left out"),
        pytest.param({"without.salt": "no"}, {}, {"without.salt": ""}, id="left in"),
        pytest.param(
            {"instead.milk": "cream"}, {"instead.milk": "cream"},
            {"amount.milk": "150 g", "name.milk": "light cream", "portion.milk.cold": "50 g"}, id="cream instead",
        ),
        pytest.param({"instead.milk": ""}, {}, {"amount.milk": "300 g"}, id="nothing instead"),
        pytest.param(
            {"instead.milk": "cream", "amount.milk": "300 g"}, {"amount.milk": "600", "instead.milk": "cream"},
            {"amount.milk": "300 g"}, id="an amount is that of the replacement",
        ),
    ],
)  # fmt: skip
def test_a_change(edit: dict[str, str], state: dict[str, str] | None, shown: dict[str, str]) -> None:
    kept, texts = after(edit)
    if state is not None:
        assert kept == state
    assert {name: texts[name] for name in shown} == shown


def test_less_than_a_gram_is_divided_into_additions() -> None:
    """By hand: half a batch takes half of 1 g of salt, in two additions."""
    season = {"do": "Season.", "add": ["salt"], "additions": "2", "optional": "yes"}
    first, (beat, together, _) = RECIPE["stages"][0], RECIPE["stages"][1]["steps"]  # type: ignore[index]
    stages = [first, {"title": "Beat", "steps": [beat, together, season]}]
    _, texts = run("batch", context_from({"recipe": RECIPE | {"stages": stages}}), {}, {"factor": "1/2"})
    assert texts["each.1.2"] == "in 2 additions of 0.25 g"


def test_what_alone_is_divided_is_named_and_nothing_is_shown_without_it() -> None:
    """By hand: 226.8 g of butter in three parts of 75.6 g; the salt goes in at once."""
    season = {"do": "Join.", "add": ["butter", "salt"], "additions": {"butter": "3"}, "optional": "no"}
    first, (_, together, _) = RECIPE["stages"][0], RECIPE["stages"][1]["steps"]  # type: ignore[index]
    context = context_from({"recipe": RECIPE | {"stages": [first, {"title": "Beat", "steps": [together, season]}]}})
    state, texts = run("batch", context, {}, {})
    assert texts["each.1.1"] == "butter, unsalted in 3 additions of 76 g"
    assert run("batch", context, state, {"amount.butter": "0 g"})[1]["each.1.1"] == ""


@pytest.mark.parametrize(("factor", "portions"), [("0.001", "0.012"), ("1000", "12000")])
def test_the_least_and_the_most_batches_can_be_had_by_portions(factor: str, portions: str) -> None:
    """By hand: one batch is 12 portions; the bounds are those of the field for batches."""
    assert after({"factor": factor})[0] == after({"portions": portions})[0] == {"factor": factor}


def test_a_finished_mass_may_be_a_volume_of_known_density() -> None:
    """By hand: at 0.8 g/mL, 1 L is 800 g; a US cup of 236.6 mL (nist-hb44) is 189 g, a metric one of 250 mL 200 g."""
    context = context_from({"recipe": RECIPE | {"measured": {"density": "0.8 g/mL"}}})
    assert run("batch", context, {}, {"finished_mass": "1 l"})[1]["finished_mass"] == "800 g"
    with pytest.raises(InputError, match="'cups' is not the same measure everywhere") as error:
        run("batch", context, {}, {"finished_mass": "2 cups"})
    assert error.value.choices == (("2 US cup", "379 g"), ("2 metric cup", "400 g"))
    for written, _ in error.value.choices:
        run("batch", context, {}, {"finished_mass": written})


@pytest.mark.parametrize(
    ("name", "written"), [("factor", ""), ("factor", " "), ("finished_mass", ""), ("amount.milk", "1 lb +")]
)
def test_a_field_with_nothing_in_it_is_filled_in_or_undone(name: str, written: str) -> None:
    with pytest.raises(InputError) as error:
        after({name: written})
    assert error.value.remedy == "fill it in, or undo"


def test_a_factor_out_of_range_is_written_like_other_numbers() -> None:
    with pytest.raises(InputError, match="that is 4\u202f167 times the recipe"):
        checked_factor(4166.6)


def test_where_only_a_mass_fits_the_remedy_is_a_mass() -> None:
    for name in ("finished_mass", "cup_weighs"):
        with pytest.raises(InputError) as error:
            after({name: "1 l"})
        assert " a mass" in error.value.remedy


@pytest.mark.parametrize(
    ("factor", "of"),
    [
        ("1.15", "13 cupcakes"), ("1.16", "13 cupcakes"), ("1.1666", "14 cupcakes"), ("1.25", "15 cupcakes"),
        ("0.15", "1 cupcake"), ("0.05", "0.6 cupcakes"),
    ],
)  # fmt: skip
def test_only_cupcakes_that_can_be_filled_are_counted(factor: str, of: str) -> None:
    """By hand, 12 to a batch: 13.8 and 13.92 fill 13; 13.9992 fill 14, as no scale shows the difference; 1.8 fill 1."""
    assert after({"factor": factor})[1]["portions_of"] == of


def test_portions_follow_the_mass_of_a_changed_batch() -> None:
    """By hand: one of 12 portions is 701.8 g / 12 = 58.48 g; with twice the milk, 1001.8 g make 17.1 of them."""
    state, texts = after({"amount.milk": "600 g"})
    assert (texts["portions"], texts["portions_of"]) == ("17.1", "about 17 cupcakes")
    assert str(texts["status"]).endswith("for about 17 cupcakes.")
    assert after({"factor": "2"}, state=state)[1]["portions_of"] == "about 34 cupcakes"
    state, texts = after({"portions": "24"}, state=state)
    factor = 24 * FINISHED_G / 12 / (FINISHED_G + 300)
    assert float(state["factor"]) == pytest.approx(factor, abs=1e-9)
    assert texts["portions_of"] == "about 24 cupcakes"


def test_two_cakes_of_twenty_centimetres_are_not_220_cakes() -> None:
    context = context_from({"recipe": RECIPE | {"yield": {"portions": "1", "of": "20 cm cake, coated"}}})
    texts = run("batch", context, {}, {"factor": "2"})[1]
    assert texts["portions_of"] == "2 × 20 cm cake, coated"


def test_an_amount_in_a_doubled_batch_is_kept_for_one_batch() -> None:
    state, texts = after({"factor": "2"}, {"amount.milk": "500 g"})
    assert state == {"factor": "2", "amount.milk": "250"}
    assert texts["amount.milk"] == "500 g"
    assert after({"factor": "1"}, state=state)[1]["amount.milk"] == "250 g"


def test_outside_what_was_tried_the_page_says_so() -> None:
    assert after({"factor": "2"})[1]["caution.tried"] == ""
    for factor in ("2.001", "0.499"):
        assert "was tried with 0.5 to 2 batches" in str(after({"factor": factor})[1]["caution.tried"])


@pytest.mark.parametrize(
    ("made", "said", "density", "sizes"),
    [
        (None, "", "0.80 g/mL, as the recipe states", "was tried with 0.5 to 2 batches"),
        ("0", "Worked out, not yet made", "0.80 g/mL, worked out, not yet made", "is worked out for 0.5 to 2 batches"),
        ("1", "Made once as written", "0.80 g/mL, as the recipe states", "was tried with 0.5 to 2 batches"),
        ("12", "Made 12 times as written", "0.80 g/mL, as the recipe states", "was tried with 0.5 to 2 batches"),
    ],
)
def test_a_card_says_whether_the_recipe_was_made(made: str | None, said: str, density: str, sizes: str) -> None:
    recipe = RECIPE | {"measured": {"density": "0.8 g/mL"}} | ({} if made is None else {"made": made})
    texts = run("batch", context_from({"recipe": recipe}), {}, {"factor": "3"})[1]
    assert (texts["made"], texts["density"]) == (said, density)
    assert sizes in str(texts["caution.tried"])


def test_an_amount_is_what_goes_in_beside_a_step_that_is_left_out() -> None:
    """By hand: without its third, 300 g of milk are two thirds of 450 g."""
    first, (beat, together, season) = RECIPE["stages"][0], RECIPE["stages"][1]["steps"]  # type: ignore[index]
    loosen = {"do": "Loosen it.", "add": ["milk/cold"], "optional": "yes"}
    steps = [beat, together | {"add": ["base"]}, season, loosen]
    context = context_from({"recipe": RECIPE | {"stages": [first, {"title": "Beat", "steps": steps}]}})
    state, texts = run("batch", context, {"skip.1.3": "yes"}, {})
    assert texts["amount.milk"] == "200 g"
    state, texts = run("batch", context, state, {"amount.milk": "300 g"})
    assert (state["amount.milk"], texts["amount.milk"]) == ("450", "300 g")


def test_going_back_to_the_published_recipe_empties_the_state() -> None:
    edits = (
        {"factor": "3"},
        {"amount.milk": "1 kg"},
        {"instead.milk": "cream"},
        {"without.salt": "yes"},
    )
    back = ({"without.salt": "no"}, {"instead.milk": ""}, {"factor": "1"}, {"amount.milk": "300 g"})
    assert set(after(*edits)[0]) == {"factor", "amount.milk", "instead.milk", "without.salt"}
    assert after(*edits, *back)[0] == {}


@pytest.mark.parametrize(
    ("edit", "path", "problem"),
    [
        ({"factor": "0"}, ("factor",), "0 is not a possible number of batches"),
        ({"factor": "-2"}, ("factor",), "'-2' is negative"),
        ({"factor": "1001"}, ("factor",), "1001 is not a possible number of batches"),
        ({"factor": "0.0000001"}, ("factor",), "1e-07 is not a possible number of batches"),
        ({"factor": "two"}, ("factor",), "'two' is not a number"),
        ({"factor": "nan"}, ("factor",), "'nan' is not a number"),
        ({"factor": "inf"}, ("factor",), "'inf' is not a number"),
        ({"factor": "1e3"}, ("factor",), "'1e3' is not a number"),
        ({"factor": "🧈"}, ("factor",), "'🧈' is not a number"),
        ({"factor": ""}, ("factor",), "the field is empty"),
        ({"factor": "9" * 39}, ("factor",), f"'{'9' * 39}' is too large"),
        ({"factor": "9" * 5000}, ("factor",), "the number is too long, with 5000 characters"),
        ({"portions": "0"}, ("portions",), "that makes 0 batches"),
        ({"portions": "1000000"}, ("portions",), "that makes 83\u202f333 batches"),
        ({"finished_mass": "0 g"}, ("finished_mass",), "that makes 0 batches"),
        ({"finished_mass": "5 min"}, ("finished_mass",), "'min' is not a unit of mass"),
        (
            {"finished_mass": "1 cup"}, ("finished_mass",),
            "'cup' is not a unit of mass, and the density of this frosting is not known",
        ),
        (
            {"finished_mass": "1 l"}, ("finished_mass",),
            "'l' is not a unit of mass, and the density of this frosting is not known",
        ),
        ({"cup_weighs": "1 cup"}, ("cup_weighs",), "'cup' is not a unit of mass"),
        ({"finished_mass": "1000000000 kg"}, ("finished_mass",), "'1000000000 kg' is outside 0 to 10000000 g"),
        ({"amount.milk": "1 cup"}, ("amount", "milk"), "'cup' is not the same measure everywhere"),
        ({"amount.butter": "1 handful"}, ("amount", "butter"), "no weight is known for 'handful' of butter, unsalted"),
        ({"amount.oil": "3 g"}, ("amount.oil",), "the recipe has no 'oil'"),
        ({"size_by.milk": "0 g"}, ("size_by", "milk"), "the amount that sizes the batch is zero"),
        (
            {"without.salt": "yes", "size_by.salt": "2 g"}, ("size_by", "salt"),
            "an ingredient that is left out cannot set the size of the batch",
        ),
        ({"without.milk": "yes"}, ("without", "milk"), "whole milk is not optional"),
        ({"without.salt": "perhaps"}, ("without", "salt"), "'perhaps' is neither yes nor no"),
        ({"instead.milk": "water"}, ("instead", "milk"), "'water' is not a replacement for whole milk"),
        ({"instead.butter": "cream"}, ("instead", "butter"), "'cream' is not a replacement for butter, unsalted"),
        ({"instead.milk": "kind:butter"}, ("instead", "milk"), "'kind:butter' is not a replacement for whole milk"),
        (
            {"instead.milk": "kind:sugar_brown"}, ("instead", "milk"),
            "'kind:sugar_brown' is not a replacement for whole milk",
        ),
        ({"units": "cups"}, ("units",), "unknown units 'cups'"),
        ({"scale": "bathroom"}, ("scale",), "unknown scale 'bathroom'"),
        ({"tool": "spoon"}, ("tool",), "unknown tool 'spoon'"),
        ({"bowl": "1 mL"}, ("bowl",), "a bowl of 0.001 L is outside 0.1 to 500 L"),
        ({"bowl": "5 kg"}, ("bowl",), "'kg' is not a unit of volume"),
        ({"cup": "mug"}, ("cup",), "unknown cup 'mug'"),
        (
            {"cup_weighs": "1 kg"}, ("cup_weighs",),
            "a US cup that weighs 1000 g means 4.23 g/mL, not a possible density for a frosting",
        ),
        ({"finished_volume": "1 L"}, ("finished_volume",), "the density of this frosting is not known"),
        ({"have.milk": "0 g"}, ("have", "milk"), "the amount is zero"),
        ({"have.oil": "3 g"}, ("have.oil",), "the recipe has no 'oil'"),
        ({"have.milk": "1 cup"}, ("have", "milk"), "'cup' is not the same measure everywhere"),
        ({"skip.0.0": "yes"}, ("skip", "0", "0"), "this step cannot be left out"),
        ({"skip.9.0": "yes"}, ("skip", "9", "0"), "the recipe has no such step"),
        ({"skip.1.9": "yes"}, ("skip", "1", "9"), "the recipe has no such step"),
        ({"skip.one": "yes"}, ("skip", "one"), "the recipe has no such step"),
        ({"factr": "2"}, ("factr",), "unknown field 'factr'"),
        (
            {"amount.milk": "1 g"}, ("stages", 0, "steps", 0, "water_lost"),
            "26 g of water cannot boil off: there is only 0.6275 g",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_refused(edit: dict[str, str], path: tuple[str | int, ...], problem: str) -> None:
    with pytest.raises(InputError) as caught:
        after(edit)
    assert caught.value.path == path
    assert caught.value.problem == problem
    assert caught.value.remedy


@pytest.mark.parametrize("data", ["", [], {}, None, {"recipe": []}, {"recipe": {}, "more": 1}])
def test_a_recipe_that_cannot_be_read_is_refused(data: object) -> None:
    with pytest.raises(InputError):
        run("batch", context_from(data))


FACTORS = st.sampled_from(["1", "1/2", "2", "0.001", "1000", "1.0", "3.3333333333", "0.1234567891"])
AMOUNTS = st.sampled_from(["300", "300 g", "1 kg", "250.5 g", "9 oz", "300.00000000001 g", "1000 kg"])
EDITS = st.one_of(
    FACTORS.map(lambda value: {"factor": value}),
    AMOUNTS.map(lambda value: {"amount.milk": value}),
    AMOUNTS.map(lambda value: {"size_by.butter": value}),
    st.sampled_from(["yes", "no", "YES"]).map(lambda value: {"without.salt": value}),
    st.sampled_from(["cream", ""]).map(lambda value: {"instead.milk": value}),
    st.integers(1, 5000).map(lambda grams: {"finished_mass": f"{grams} g"}),
    st.sampled_from(UNITS).map(lambda units: {"units": units}),
    st.sampled_from(["", *scales()]).map(lambda scale: {"scale": scale}),
    st.sampled_from(["4.8 L", "5", "", "2 US quarts", "600 L"]).map(lambda bowl: {"bowl": bowl}),
    st.sampled_from(["200 g", "7 oz", "", "3 kg"]).map(lambda mass: {"cup_weighs": mass}),
    st.sampled_from(CUPS).map(lambda cup: {"cup": cup}),
    st.sampled_from(["300 g", "1 US cup", "", "0"]).map(lambda have: {"have.butter": have, "have.milk": have}),
    st.sampled_from(["yes", ""]).map(lambda skip: {"skip.1.2": skip}),
    st.sampled_from(["kind:milk_skim", "kind:cream_heavy_whipping"]).map(lambda kind: {"instead.milk": kind}),
    st.sampled_from(["1 L", "700 mL"]).map(lambda volume: {"finished_volume": volume}),
)


@given(st.lists(EDITS, max_size=6))
def test_the_state_is_in_one_form_and_gives_the_same_texts_again(edits: list[dict[str, str]]) -> None:
    state: dict[str, str] = {}
    for edit in edits:
        try:
            state, texts = run("batch", CONTEXT, state, edit)
        except InputError:
            continue  # an edit that cannot be used leaves the state as it was
        assert form_state(read(CONTEXT, state)) == state
        assert form_state(read(CONTEXT, dict(reversed(state.items())))) == state
        assert run("batch", CONTEXT, state, {}) == (state, texts)
        for name in state:
            assert read(CONTEXT, {name: state[name]}) is not None


@given(st.integers(1, 100_000))
def test_the_finished_mass_asked_for_is_the_one_that_comes_out(grams: int) -> None:
    _, texts = after({"finished_mass": f"{grams} g"})
    asked, _ = after({"finished_mass": str(texts["finished_mass"])})
    assert run("batch", CONTEXT, asked, {})[1]["finished_mass"] == texts["finished_mass"]


OUNCE_G = 28.349523125
"""nist-hb44: the avoirdupois ounce, exact."""


@given(st.sampled_from(UNITS), st.floats(0.05, 50), st.sampled_from(["", *scales()]))
def test_a_shown_amount_typed_in_again_is_the_same_within_its_error(units: str, factor: float, scale: str) -> None:
    """Bounds: cups and spoons 6 % or 1/8 tsp; ounces half of 0.05 oz, half of 0.01 oz below 1 oz; a scale its step."""
    published = {"milk": 300.0, "butter": 226.796185, "sugar": 200.0, "salt": 1.0}
    texts = after({"factor": f"{factor:.6f}"}, {"units": units}, {"scale": scale})[1]
    step = float(scales()[scale].step_g) if scale else 0.0
    for key, mass_g in published.items():
        exact_g = mass_g * float(f"{factor:.6f}")
        kind = food(str(RECIPE["ingredients"][key]["kind"]))  # type: ignore[index]
        shown_g = amount_in_form(kind, str(texts[f"amount.{key}"]))
        as_shown = max(0.005 * exact_g if exact_g < 10000 else 0.0, 0.5 if exact_g > 9.9 else 0.051)
        as_shown = max(as_shown, 5.0 if exact_g > 9999 else 0.0)
        if units == "grams":
            assert abs(shown_g - exact_g) <= max(step / 2, as_shown) * (1 + 1e-6), (key, texts[f"amount.{key}"])
        elif units == "ounces":
            half = 0.025 if exact_g >= OUNCE_G else 0.005
            assert abs(shown_g - exact_g) <= max(half * OUNCE_G * 1.02, step / 2 + half * OUNCE_G, 0.051)
        else:
            most = 0.06 * exact_g + step + 0.75  # as tests/calc/kitchen/test_household.py: 6 %, or 1/8 tsp of salt
            assert abs(shown_g - exact_g) <= max(most, as_shown), (key, texts[f"amount.{key}"])


def test_a_divided_ingredient_adds_up_on_every_scale() -> None:
    for scale, kind in scales().items():
        texts = after({"factor": "1.37"}, {"scale": scale})[1]
        grams = [
            amount_in_form(food("milk_whole"), str(texts[name]))
            for name in ("portion.milk.cooked", "portion.milk.cold", "amount.milk")
        ]
        assert grams[0] + grams[1] == pytest.approx(grams[2])
        assert grams[2] / float(kind.step_g) == pytest.approx(round(grams[2] / float(kind.step_g)))


def test_rounding_is_shown_only_where_it_matters() -> None:
    assert after({"scale": "pocket"})[1]["rounding"] == ""
    shown = str(after({"scale": "large"}, {"factor": "1/10"})[1]["rounding"])
    assert "fat" in shown
    assert "→" in shown
    assert "salt" in str(after({"scale": "coarse"})[1]["too_little"])


SPICED = context_from({"recipe": RECIPE | {
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "500 g"},
        "sugar": {"kind": "sugar_powdered", "amount": "50 g"},
        "salt": {"kind": "salt_table", "amount": "2 g", "optional": "yes"},
        "vanilla": {"kind": "vanilla_extract", "amount": "10 g", "optional": "yes"},
        "honey": {"kind": "honey", "amount": "20 g"},
    },
    "stages": [{"title": "Whip", "steps": [
        {"do": "Whip.", "add": ["cream", "sugar", "salt"], "time": "4 min"},
        {"do": "Flavour it.", "add": ["vanilla"], "time": "1 min", "optional": "yes"},
        {"do": "Drizzle it.", "add": ["honey"], "time": "1 min", "optional": "yes"},
    ]}],
}})  # fmt: skip
"""An optional ingredient in a step with others, one alone in an optional step, and one that is not in such a step."""


def test_an_optional_ingredient_in_a_larger_step_goes_by_itself() -> None:
    state, texts = run("batch", SPICED, {}, {"without.salt": "yes"})
    assert state == {"without.salt": "yes"}
    assert [texts[f"use.0.0.{n}"] for n in range(3)] == ["500 g", "50 g", "no"]
    assert [texts[f"out.{key}"] for key in ("salt", "vanilla", "honey")] == ["left out", "", ""]
    assert [texts[f"out.0.{step}"] for step in range(3)] == ["", "", ""]
    assert (texts["finished_mass"], texts["time"]) == ("580 g", "6 min")


def test_an_optional_step_takes_what_it_adds_along() -> None:
    texts = run("batch", SPICED, {}, {"skip.0.2": "yes"})[1]
    assert (texts["out.0.2"], texts["out.honey"], texts["use.0.2.0"]) == ("left out", "left out", "no")
    assert (texts["out.0.1"], texts["out.vanilla"]) == ("", "")
    assert (texts["finished_mass"], texts["time"]) == ("562 g", "5 min")


def test_an_optional_step_goes_when_nothing_is_left_to_go_in() -> None:
    texts = run("batch", SPICED, {}, {"without.vanilla": "yes"})[1]
    assert (texts["out.0.1"], texts["out.vanilla"]) == ("left out", "left out")
    assert (texts["finished_mass"], texts["time"]) == ("572 g", "5 min")
    state, back = run("batch", SPICED, {"without.vanilla": "yes"}, {"without.vanilla": ""})
    assert (state, back["out.0.1"]) == ({}, "")


def test_a_step_that_must_be_done_stays_without_its_optional_ingredient() -> None:
    """Nothing goes in at it, but it is still done: only what the recipe calls optional is left out."""
    with pytest.raises(InputError, match="this step cannot be left out"):
        run("batch", SPICED, {}, {"skip.0.0": "yes"})


def test_the_time_is_a_range_and_leaves_out_what_is_left_out() -> None:
    """By hand: 5 to 7 min, and 60 min that need nobody."""
    times = [{"time": "5 to 7 min"}, {"time": "1 h", "unattended": "yes", "optional": "yes"}]
    steps = [{"do": "Whip.", "add": ["cream"]}, {"do": "Rest it."}]
    context = context_from({"recipe": RECIPE | {
        "ingredients": {"cream": {"kind": "cream_heavy_whipping", "amount": "500 g"}},
        "stages": [{"title": "Whip", "steps": [step | time for step, time in zip(steps, times, strict=True)]}],
    }})  # fmt: skip
    texts = run("batch", context, {}, {})[1]
    assert (texts["time"], texts["time.attended"]) == ("1 h 5 min to 1 h 7 min", "5 to 7 min of it hands-on")
    texts = run("batch", context, {}, {"skip.0.1": "yes"})[1]
    assert (texts["time"], texts["time.attended"]) == ("5 to 7 min", "")


def test_whole_eggs_with_what_to_measure() -> None:
    """usda-sr28: a large egg without shell 50 g, its white 33 g."""
    eggs = {"kind": "egg_white_raw", "amount": "120 g"}
    context = context_from({"recipe": RECIPE | {
        "ingredients": RECIPE["ingredients"] | {"whites": eggs},  # type: ignore[operator]
        "stages": [{"title": "Whip", "makes": "foam", "steps": [{"do": "Whip.", "add": ["whites"]}]},
                   RECIPE["stages"][0],  # type: ignore[index]
                   {"title": "End", "steps": [{"do": "Mix.", "add": ["foam", "base", "butter", "milk/cold", "salt"]}]}],
    }})  # fmt: skip
    texts = run("batch", context, {}, {})[1]
    assert texts["eggs.whites"] == "4 large egg whites; beat, then measure 120 g; about 12 g is left"
    assert texts["whole_eggs.less"] == "0.825"
    assert texts["whole_eggs.more"] == "1.1"
    _, more = run("batch", context, {}, {"factor": str(texts["whole_eggs.more"])})
    assert more["eggs.whites"] == "4 large egg whites"
    assert more["whole_eggs"] == ""
    # Of whites of 29.0 g, the share of a large egg's white in a medium egg of 44 g (usda-sr28), it takes five.
    state, medium = run("batch", context, {}, {"eggs": "medium"})
    assert state == {"eggs": "medium"}
    assert medium["eggs.whites"] == "5 medium egg whites; beat, then measure 120 g; about 25 g is left"
    assert medium["amount.whites"] == texts["amount.whites"]
    assert float(str(medium["whole_eggs.more"])) == pytest.approx(5 * 29 / 120, abs=1e-4)


def test_eggs_are_broken_in_the_size_in_which_the_recipe_counts_them() -> None:
    """Regulation (EU) 2023/2465: an egg of size L has 63 to 73 g in the shell; usda-sr28: 12 % of that is shell."""
    context = context_from({"recipe": RECIPE | {
        "ingredients": RECIPE["ingredients"] | {"eggs": {"kind": "egg_whole_raw", "amount": "3 size L"}},  # type: ignore[operator]
        "stages": [{"title": "Whip", "makes": "foam", "steps": [{"do": "Whip.", "add": ["eggs"]}]},
                   RECIPE["stages"][0],  # type: ignore[index]
                   {"title": "End", "steps": [{"do": "Mix.", "add": ["foam", "base", "butter", "milk/cold", "salt"]}]}],
    }})  # fmt: skip
    state, texts = run("batch", context, {}, {})
    assert (state, texts["eggs"], texts["eggs.eggs"], texts["whole_eggs"]) == ({}, "size_l", "3 size L eggs", "")
    state, texts = run("batch", context, {}, {"eggs": "large"})
    assert state == {"eggs": "large"}
    assert texts["eggs.eggs"] == "4 large eggs; beat, then measure 180 g; about 20 g is left"
    assert run("batch", context, state, {"eggs": "size_l"})[0] == {}


def test_eggs_by_the_piece_are_shown_in_the_size_on_hand() -> None:
    """usda-sr28: a large egg without shell 50 g, a medium one 44 g."""
    context = context_from({"recipe": RECIPE | {
        "ingredients": RECIPE["ingredients"] | {"eggs": {"kind": "egg_whole_raw", "amount": "4 large"}},  # type: ignore[operator]
        "stages": [{"title": "Whip", "makes": "foam", "steps": [{"do": "Whip.", "add": ["eggs"]}]},
                   RECIPE["stages"][0],  # type: ignore[index]
                   {"title": "End", "steps": [{"do": "Mix.", "add": ["foam", "base", "butter", "milk/cold", "salt"]}]}],
    }})  # fmt: skip
    assert run("batch", context, {}, {})[1]["household.eggs"] == "4 large"
    assert run("batch", context, {}, {"eggs": "medium"})[1]["household.eggs"] == "4½ medium"


def test_what_is_on_hand_and_which_runs_short() -> None:
    """Butter for 300 / 226.8 = 1.32 batches, sugar for 1.25."""
    texts = after({"have.butter": "300 g", "have.sugar": "250 g"})[1]
    assert texts["have.short"] == "sugar, granulated runs out first, at 1.25 batches."
    assert texts["have.factor"] == "1.25"
    assert texts["have.left"] == [["butter, unsalted", "17 g left"]]
    alone = after({"have.butter": "300 g"})[1]
    assert (alone["have.factor"], alone["have.batches"]) == ("1.3227", "1.32 batches")
    assert alone["have.short"] == "butter, unsalted is enough for 1.32 batches."
    assert after({"have.butter": "226.8 g"})[1]["have.short"] == "butter, unsalted is enough for 1 batch."
    made = after({"factor": str(alone["have.factor"])})[1]
    assert made["amount.butter"] == "300 g"
    assert after({"have.butter": "300 g"}, {"have.butter": ""})[0] == {}


def test_a_weighed_cup_gives_the_volume_and_the_bowl_its_room() -> None:
    """By hand: 189.27 g in a US cup of 236.588 mL is 0.8 g/mL; a 5 L bowl to 75 % holds 3000 g of it."""
    edits = ({"cup_weighs": "189.27 g"}, {"bowl": "5 L"}, {"factor": "5"})
    state, texts = after(*edits)
    assert state == {"factor": "5", "bowl": "5", "cup_weighs": "189.27"}
    assert texts["density"] == "0.80 g/mL, by the cup you weighed"
    assert texts["finished_volume"] == f"{5 * FINISHED_G / 0.8:.0f} mL"
    assert (texts["bowl.smallest"], texts["bowl.largest"]) == ("250 g", "3000 g")
    assert texts["bowl.split"] == "Make 2 equal batches of 1754 g each."
    assert ["whole milk", "750 g"] in texts["split"]  # type: ignore[operator]
    assert after(*edits[:2], {"finished_volume": "1 L"})[1]["finished_mass"] == "800 g"
    assert "weigh a level cup" in str(after({"bowl": "5 L"})[1]["bowl.room"])


def test_an_optional_step_takes_what_goes_in_there_with_it() -> None:
    state, texts = after({"skip.1.2": "yes"})
    assert state == {"skip.1.2": "yes"}
    assert texts["amount.salt"] == "0 g"
    assert texts["skip.1.2"] == "yes"
    assert str(texts["change"]).startswith("Compared with the recipe as published: fat ")
    assert after({"skip.1.2": "yes"}, {"skip.1.2": ""})[0] == {}


def test_another_kind_of_the_group_with_what_it_changes() -> None:
    """By hand, usda-sr28: whole milk 3.25 % of fat, skimmed milk 0.08 %; the rest as in the fat percentage above."""
    before = 300 * 0.0325 + 226.796185 * 0.8111
    less = 300 * 0.0008 + 226.796185 * 0.8111
    texts = after({"instead.milk": "kind:milk_skim"})[1]
    shown = f"fat {100 * before / FINISHED_G:.1f} → {100 * less / FINISHED_G:.1f} %, water "
    assert str(texts["change.milk"]).startswith(shown)
    assert str(texts["change"]).startswith(f"Compared with the recipe as published: {shown}")
    assert str(after({"instead.milk": "cream"})[1]["change.milk"]).startswith(f"fat {100 * before / FINISHED_G:.1f} → ")


def test_what_does_not_grow_with_the_batch_is_said_of_other_sizes_only() -> None:
    assert after()[1]["scaling"] == []
    topics = [row[0] for row in after({"factor": "2"})[1]["scaling"]]  # type: ignore[union-attr]
    assert "additions" in topics
    assert "water boiled off" in topics
    assert "cooling" not in topics  # nothing is cooled in this recipe


def test_an_amount_that_makes_another_frosting_says_so_beside_its_field() -> None:
    """By hand: the fat of the batch as published, and with 20 g of butter; 5 g more or less are not worth a word."""
    published, changed = after({})[1], after({"amount.butter": "20 g", "factor": "2"})[1]
    assert changed["changed.butter"] == (
        f"published, at this size: 454 g; the fat is {changed['fat.percent']} instead of {published['fat.percent']}"
    )
    assert after({"amount.butter": "232 g"})[1]["changed.butter"] == "published: 227 g"
    assert after({"amount.milk": "310 g"})[1]["changed.milk"] == "published: 300 g"


def test_an_amount_that_was_changed_sizes_the_whole_batch_and_goes_back_to_its_share() -> None:
    """Common practice, no source: to size a batch by what there is of one thing keeps every proportion."""
    changed = after({"amount.milk": "450 g"})
    assert changed[1]["size_by.milk"] == "450 g"
    assert after({"size_by.milk": str(changed[1]["size_by.milk"])}, state=changed[0])[0] == {"factor": "1.5"}
    assert after({})[1]["size_by.milk"] == ""


@pytest.mark.parametrize(
    ("factor", "smaller", "larger"),
    [
        ("1", "0.75", "2"),
        ("1.5", "1", "2"),
        ("0.62", "0.5", "0.75"),
        ("0.25", "", "0.5"),
        ("1000", "995", ""),
        ("20", "19", "25"),
    ],
)
def test_the_next_usual_sizes(factor: str, smaller: str, larger: str) -> None:
    """Common practice, no source."""
    texts = after({"factor": factor})[1]
    assert (texts["size.smaller"], texts["size.larger"]) == (smaller, larger)


def test_a_single_batch_is_written_in_the_singular() -> None:
    """The button to a smaller size, and the word after the number of batches."""
    assert after({"factor": "1.5"})[1]["size.smaller_batches"] == "1 batch"
    assert after({"factor": "0.9999"})[1]["size.unit"] == "batch"
    texts = after({"factor": "0.75"})[1]
    assert (texts["size.smaller_batches"], texts["size.larger_batches"]) == ("0.5 batches", "1 batch")
    assert after({"factor": "1000"})[1]["size.larger_batches"] == ""


def test_a_page_in_cups_keeps_the_choice_of_grams_and_not_that_of_cups() -> None:
    context = context_from({"recipe": RECIPE, "region": "US"})
    assert run("batch", context)[1]["units"] == "us"
    state, shown = run("batch", context, {}, {"units": "grams"})
    assert (state, shown["units"]) == ({"units": "grams"}, "grams")
    assert run("batch", context, state, {"units": "us"})[0] == {}
    assert run("label", context, {"units": "grams"})[0] == {"units": "grams"}


def test_a_page_for_a_region_that_does_not_exist_is_refused() -> None:
    with pytest.raises(InputError, match="'Atlantis' is not an option here"):
        context_from({"recipe": RECIPE, "region": "Atlantis"})


def test_on_a_site_for_the_us_amounts_stay_in_the_pieces_they_are_written_in() -> None:
    butter = {"kind": "butter_unsalted", "amount": "4 sticks", "portions": {"first": "3 sticks", "second": "1 stick"}}
    sugar = {"kind": "sugar_granulated", "amount": "1 US cup"}
    steps = [{"do": "Beat.", "add": ["butter/first", "sugar"]}, {"do": "Beat.", "add": ["butter/second"]}]
    recipe = RECIPE | {"ingredients": {"butter": butter, "sugar": sugar}, "stages": [{"title": "One", "steps": steps}]}
    context = context_from({"recipe": recipe, "region": "US"})
    _, shown = run("batch", context)
    assert (shown["amount.butter"], shown["portion.butter.first"], shown["use.0.1.0"]) == (
        "4 sticks", "3 sticks", "1 stick",
    )  # fmt: skip
    _, shown = run("batch", context, {}, {"factor": "1.5"})
    assert (shown["amount.butter"], shown["household.butter"]) == ("6 sticks", "678 g")
    _, shown = run("batch", context, {}, {"amount.butter": "5 sticks"})
    assert (shown["amount.butter"], shown["changed.butter"].partition(";")[0]) == ("5 sticks", "published: 4 sticks")
    _, shown = run("batch", context, {}, {"amount.butter": "60 g"})  # 0.53 sticks: half a stick is 6 % off
    assert shown["amount.butter"] == "4 tbsp + ¾ tsp"
    _, shown = run("batch", context, {}, {"units": "grams"})
    assert shown["amount.butter"] == "452 g"


def test_on_a_site_for_the_us_a_plain_cup_is_shown_and_read_as_the_us_one() -> None:
    """USDA SR 28: 227 g a cup of butter, 14.2 g a tablespoon; nist-hb44: 473.176 mL a US pint, 236.588 mL a cup."""
    context = context_from({"recipe": RECIPE, "region": "US"})
    state, shown = run("batch", context, {}, {"amount.butter": "1 cup + 2 tbsp"})
    assert float(state["amount.butter"].split()[0]) == pytest.approx(255.4)
    assert shown["amount.butter"] == "1 cup + 2 tbsp"
    again, _ = run("batch", context, state, {"amount.butter": str(shown["amount.butter"])})
    assert again == state
    state, _ = run("batch", context, {}, {"amount.milk": "1 pint"})
    assert float(state["amount.milk"].split()[0]) == pytest.approx(488, abs=1)
    with pytest.raises(InputError, match="not the same measure everywhere"):
        run("batch", context_from({"recipe": RECIPE}), {}, {"amount.butter": "1 cup"})


@pytest.mark.parametrize("region", ["UK", "EU"])
@pytest.mark.parametrize(("measure", "volume_ml"), [("cup", 250), ("tbsp", 15), ("tsp", 5)])
def test_a_plain_measure_is_read_as_the_one_that_is_shown_beside_grams(
    region: str, measure: str, volume_ml: float
) -> None:
    """USDA SR 28: 227 g of butter in a US cup, of 236.588 mL (nist-hb44); the metric volumes are common practice."""
    context = context_from({"recipe": RECIPE, "region": region})
    state, shown = run("batch", context, {}, {"amount.butter": f"1 {measure}"})
    assert float(state["amount.butter"].split()[0]) == pytest.approx(227 * volume_ml / 236.588, rel=1e-3)
    assert shown["household.butter"] == f"1 metric {measure}"
    other, _ = run("batch", context, {}, {"amount.butter": f"1 US {measure}"})
    assert float(other["amount.butter"].split()[0]) < float(state["amount.butter"].split()[0])


def test_a_site_without_a_region_shows_cups_by_their_full_name() -> None:
    assert run("batch", context_from({"recipe": RECIPE}))[1]["household.butter"].split()[1] == "US"


def test_on_a_site_for_the_us_the_batch_is_in_cups_where_its_density_is_known() -> None:
    """By hand: 701.8 g at 0.85 g/mL are 825.6 mL, 3.49 cups of 236.588 mL (nist-hb44)."""
    recipe = RECIPE | {"measured": {"density": "0.85 g/mL"}}
    assert run("batch", context_from({"recipe": recipe, "region": "US"}))[1]["finished_cups"] == "about 3½ cups, "
    assert run("batch", context_from({"recipe": recipe}))[1]["finished_cups"] == ""
    assert run("batch", context_from({"recipe": RECIPE, "region": "US"}))[1]["finished_cups"] == ""


def test_a_site_for_the_us_has_no_other_name_for_what_is_called_so_there() -> None:
    sugar = RECIPE["ingredients"] | {"sugar": {"kind": "sugar_powdered", "name": "powdered sugar", "amount": "200 g"}}
    named = [
        run("batch", context_from({"recipe": RECIPE | {"ingredients": sugar}, "region": region}))[1]["elsewhere.sugar"]
        for region in ("US", "EU")
    ]
    assert named == ["", "UK: icing sugar"]


def test_on_a_site_for_the_us_temperature_fields_are_in_fahrenheit() -> None:
    context = context_from({"recipe": RECIPE, "region": "US"})
    state, shown = run("batch", context)
    assert (state, shown["degrees"], shown["room_temperature"]) == ({}, "°F", "68")
    state, shown = run("batch", context, {}, {"bowl_temperature": "70"})
    assert shown["bowl_temperature"] == "70"
    assert float(state["bowl_temperature"]) == pytest.approx(21.111, abs=1e-3)
    state, shown = run("batch", context, state, {"bowl_temperature": "25 °C"})
    assert (state["bowl_temperature"], shown["bowl_temperature"]) == ("25", "77")
    state, shown = run("batch", context, state, {"bowl_temperature": "-4"})
    assert (state["bowl_temperature"], shown["bowl_temperature"]) == ("-20", "-4")
    assert run("batch", context_from({"recipe": RECIPE}))[1]["degrees"] == "°C"
    with pytest.raises(InputError, match="bowl_temperature"):
        run("batch", context, {}, {"bowl_temperature": "warm"})


def test_on_a_site_for_the_us_what_was_mixed_is_weighed_in_ounces_and_grams() -> None:
    """By hand: 374.4 g are 13.2 oz of 28.3495 g (nist-hb44)."""
    _, shown = run("batch", context_from({"recipe": RECIPE, "region": "US"}))
    assert shown["stage.0.mass"] == shown["use.1.1.0"] == "13.2 oz (374 g)"
    assert after({"units": "ounces"})[1]["stage.0.mass"] == "13.2 oz"
