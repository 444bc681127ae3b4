"""The label calculator: the label, the cost and the cautions of the batch that the reader made."""

from decimal import Decimal

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from

RECIPE = {
    "title": "Butter cream", "summary": "Butter and sugar.", "author": "the tests", "family": "other",
    "yield": {"portions": "10", "of": "cupcakes"}, "measured": {"density": "0.8 g/mL"},
    "may_contain": ["hazelnut"],
    "ingredients": {
        "butter": {
            "kind": "butter_unsalted", "name": "butter", "amount": "200 g",
            "replacements": {"soya": {"name": "soya spread", "composition": {"fat": "80 %"}, "allergens": ["soya"]}},
        },
        "sugar": {"kind": "sugar_granulated", "name": "sugar", "amount": "300 g"},
        "rum": {"kind": "rum_80_proof", "name": "rum", "amount": "10 g", "optional": "yes"},
    },
    "stages": [{"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter", "sugar", "rum"], "tool": "mixer"}]}],
}  # fmt: skip
PRICES = """item,pack,price,currency,date,note
butter_unsalted,250 g,2.50,EUR,2026-03-01,
sugar_granulated,1 kg,1.20,EUR,2026-01-31,
"""
CONTEXT = context_from({"recipe": RECIPE, "prices": PRICES})


def texts(state=None, context=CONTEXT, **edit):
    return run("label", context, state or {}, {name.replace("__", "."): value for name, value in edit.items()})[1]


def cells(rows):
    return {row[0].strip(): row[1:] for row in rows}


def test_the_words_of_the_label():
    assert texts()["label.words"] == [
        ["Ingredients, EU and UK", "sugar, butter 39.2 % (MILK), rum"],
        ["Ingredients, US", "sugar, butter (cream (MILK)), rum"],
        ["Contains", "milk"],
        ["May contain", "hazelnut"],
        ["From animals", "butter"],
        ["Meat, fish, gelatine", "no ingredient listed"],
        [
            "Gluten",
            "no ingredient listed contains it; that is not “gluten-free”, which is at most 20 mg/kg in the food as "
            "sold (US: less than 20), what gets in from other foods included (EU 828/2014, 21 CFR 101.91)",
        ],
    ]


def test_what_it_contains_and_what_may_get_in_are_apart():
    assert texts()["label.short"] == "Contains milk; may contain hazelnut"


def test_numbers_by_hand():
    """usda-sr28: butter 81.11 g fat (NDB 01145), sugar 0 g; 21 CFR 101.9(c)(2): whole grams above 5 g, 78 g a day.

    200 g butter bring 162.2 g of fat to 510 g: 31.8 g in 100 g, 7.6 g in 2 tbsp or 30 mL, which weigh 24 g.
    """
    shown = texts()
    assert cells(shown["label.us"])["Total fat"] == ["8 g", "10 %", "32 g"]
    assert cells(shown["label.eu"])["Fat"] == ["32 g", "16 g"]
    assert "2 tbsp (24 g)" in shown["label.serving"]
    assert shown["label.portion"] == "One portion is 51 g: 1 of 10 cupcakes."


def test_unknown_allergens_are_listed_with_their_ingredient():
    shown = texts({"instead.butter": "soya"})
    assert cells(shown["label.us"])["Sodium"] == ["not known", "", "not known"]
    assert "Not known for soya spread" in shown["label.missing"]
    assert "sodium" in shown["label.missing"]
    assert cells(shown["label.words"])["Contains"] == ["soya"]
    assert shown["cost.missing"] == "No price is known for soya spread and rum."


def test_the_label_follows_the_state_of_the_batch():
    assert cells(texts({"without.rum": "yes"})["label.words"])["Ingredients, US"] == ["sugar, butter (cream (MILK))"]
    assert "Alcohol" in cells(texts()["cautions"])
    assert "Alcohol" not in cells(texts({"without.rum": "yes"})["cautions"])
    assert cells(texts({"factor": "2"})["cost.lines"])["butter"][0] == "400 g"
    assert cells(texts({"factor": "2"})["label.eu"]) == cells(texts()["label.eu"])


def test_the_cost_by_hand():
    """200 g at 2.50 for 250 g are 2.00; 300 g at 1.20 a kg are 0.36; nothing is known of the rum."""
    shown = texts(cost__cake="255 g")
    assert cells(shown["cost.lines"]) == {
        "butter": ["200 g", "2.50 EUR for 250 g", "2.00 EUR"],
        "sugar": ["300 g", "1.20 EUR for 1 kg", "0.36 EUR"],
        "rum": ["10 g", "no price", "not known"],
    }
    sums = cells(shown["cost.sums"])
    assert sums["This batch"] == ["at least 2.36 EUR"]
    assert sums["1 of 10 cupcakes"] == ["at least 0.24 EUR"]
    assert sums["A cake with 255 g"] == [f"at least {Decimal('2.36') * 255 / 510:.2f} EUR"]
    assert shown["cost.dates"].startswith("Prices from 2026-01-31 to 2026-03-01.")


def test_without_prices_it_says_so():
    shown = texts(context=context_from({"recipe": RECIPE}))
    assert (shown["cost.lines"], shown["cost.sums"]) == ([], [])
    assert shown["cost.dates"] == "There is no file of prices."


def test_without_a_density_the_serving_says_what_it_is_taken_to_weigh():
    """21 CFR 101.9(b)(2) and 101.12(b): the serving of frosting is 2 tbsp, also where nobody weighed them."""
    recipe = {key: value for key, value in RECIPE.items() if key != "measured"}
    assert (
        "A serving is 2 tbsp, if they weigh 30 g, which nobody measured"
        in texts(context=context_from({"recipe": recipe}))["label.serving"]
    )
    weighed = {"cup": "metric_cup", "cup_weighs": "200"}
    assert "2 tbsp (24 g)" in texts(weighed, context_from({"recipe": recipe}))["label.serving"]


def test_what_the_author_claims_is_shown_with_its_ground_while_the_ingredients_are_those_of_the_recipe():
    """With another ingredient in the bowl nobody answers for the claim."""
    claimed = {**RECIPE, "claims": [{"claim": "Gluten-free", "ground": "Each batch is tested."}]}
    claimed["ingredients"] = {**RECIPE["ingredients"]}
    claimed["ingredients"]["sugar"] = {
        **RECIPE["ingredients"]["sugar"], "replacements": {"icing": {"kind": "sugar_powdered"}},
    }  # fmt: skip
    context = context_from({"recipe": claimed})
    assert cells(texts(context=context)["label.words"])["Claimed: gluten-free"] == ["Each batch is tested."]
    replaced = cells(texts({"instead.sugar": "icing"}, context)["label.words"])
    assert "Claimed: gluten-free" not in replaced
    assert replaced["Gluten"][0].startswith("not certain: ")


def test_a_claim_that_the_recipe_contradicts_is_not_printed():
    """Regulation (EU) No 1169/2011, Art. 7(1)(a). 200 g of butter in 510 g have 31.8 g of fat in 100 g."""
    made = ("vegan", "vegetarian", "low fat", "milk-free", "egg-free", "organic", "no added sugar")
    claimed = {**RECIPE, "claims": [{"claim": claim, "ground": "We say so."} for claim in made]}
    rows = texts(context=context_from({"recipe": claimed}))["label.words"]
    shown = [row[0].removeprefix("Claimed: ") for row in rows if row[0].startswith("Claimed")]
    assert shown == ["vegetarian", "egg-free", "organic"]


def test_what_it_contains_does_not_get_in_by_accident():
    """Regulation (EU) No 1169/2011, Art. 36(3)(a): “may contain” is for what is there without being meant."""
    both = context_from({"recipe": {**RECIPE, "may_contain": ["milk", "hazelnut"]}})
    assert texts(context=both)["label.short"] == "Contains milk; may contain hazelnut"
    assert cells(texts(context=both)["label.words"])["May contain"] == ["hazelnut"]
    words, source = cells(texts(context=both)["cautions"])["Allergens by accident"]
    assert words.startswith("May contain hazelnut:")
    assert "Art. 36(3)(a)" in source
    assert "Annex II" not in source


def test_a_us_site_has_its_list_first_and_its_own_words():
    """21 CFR 101.4: the list of a US label; “use by” and “gelatine” are words of the EU and the UK."""
    recipe = {**RECIPE, "may_contain": ["soya"], "decorations": [{"what": "gelatine leaves"}]}
    shown = texts(context=context_from({"recipe": recipe, "region": "US"}))
    assert [row[0] for row in shown["label.words"]][:2] == ["Ingredients, US", "Ingredients, EU and UK"]
    assert shown["label.short"] == "Contains milk, others not known; may contain soy"
    assert cells(shown["label.words"])["Meat, fish, gelatin"] == ["not certain: gelatin leaves"]
    assert "best if used by" in cells(shown["label.draft"])["Date"][0]
    assert "gelatine" not in str(shown["label.words"])


def test_calories_have_no_unit_and_kilocalories_do():
    """21 CFR 101.9(c)(1) and (d)(5): the word is the unit. Regulation (EU) No 1169/2011, Annex XV: kJ and kcal."""
    assert cells(texts()["label.us"])["Calories"][0].isdecimal()
    assert "kcal" in str(texts()["label.eu"])


def test_of_a_decoration_nothing_is_certain():
    decorated = {**RECIPE, "decorations": [{"what": "sugar pearls"}]}
    words = cells(texts(context=context_from({"recipe": decorated}))["label.words"])
    assert words["Meat, fish, gelatine"] == ["not certain: sugar pearls"]
    assert words["Gluten"] == ["not certain: sugar pearls"]
    assert words["Allergens of sugar pearls"] == ["not known: read its pack"]
    decorated_context = context_from({"recipe": decorated})
    assert texts(context=decorated_context)["label.short"] == "Contains milk, others not known; may contain hazelnut"


def test_cautions_give_way_once_and_each_names_its_source():
    rows = texts()["cautions"]
    assert "your local food code decides" in texts()["cautions.first"]
    assert texts()["cautions.count"] == f"{len(rows)} cautions"
    for _, words, source in rows:
        assert words
        assert "local food code" not in words + source
        assert len(source) > 40


def test_the_region_of_the_site_chooses_the_cautions():
    of = {
        region: cells(texts(context=context_from({"recipe": RECIPE, "region": region}))["cautions"])
        for region in ("UK", "US")
    }
    assert "8 °C (46 °F)" in of["UK"]["Time and temperature"][0]
    assert "135 °F (57 °C)" in of["US"]["Time and temperature"][0]
    assert cells(texts()["cautions"]) == cells(
        texts(context=context_from({"recipe": RECIPE, "region": "EU"}))["cautions"]
    )


@pytest.mark.parametrize("field", ["region", "voice"])
def test_an_unknown_region_or_voice_is_refused(field):
    with pytest.raises(InputError) as caught:
        context_from({"recipe": RECIPE, field: "Atlantis"})
    assert caught.value.path == (field,)
    assert caught.value.remedy


@pytest.mark.parametrize("edit", ["a slice", "0", "1 cup", "-5 g", "5 mL"])
def test_an_impossible_cake(edit):
    with pytest.raises(InputError) as caught:
        run("label", CONTEXT, {}, {"cost.cake": edit})
    assert caught.value.path == ("cost", "cake")
    assert caught.value.problem
    assert caught.value.remedy


def test_the_state_is_canonical_and_kept():
    state, _ = run("label", CONTEXT, {"factor": "2"}, {"cost.cake": "0.5 kg"})
    assert state == {"factor": "2", "cost.cake": "500"}
    assert run("label", CONTEXT, state, {"cost.cake": " "})[0] == {"factor": "2"}


@pytest.mark.parametrize("data", [None, [], {}, {"recipe": {}, "wine": 1}, {"recipe": 3}])
def test_what_the_page_gives_is_checked(data):
    with pytest.raises(InputError):
        run("label", context_from(data))


def test_temperatures_entered_for_the_batch_do_not_stop_the_label() -> None:
    assert run("label", CONTEXT, {"bowl_temperature": "21", "factor": "2"}, {})[1] == run(
        "label", CONTEXT, {"factor": "2"}, {}
    )[1]  # fmt: skip


def test_prices_that_cannot_be_used_are_refused_where_they_are_needed():
    context = context_from({"recipe": RECIPE, "prices": PRICES + "nothing,1 kg,dear,EUR,2026-01-31,\n"})
    assert run("batch", context)
    with pytest.raises(InputError) as refusal:
        run("label", context)
    assert refusal.value.path == ("prices", "line", 1 + len(PRICES.splitlines()), "price")


@pytest.mark.parametrize(
    ("yields", "portion"),
    [
        ({"portions": "10", "of": "cupcakes"}, "51 g"),
        ({"portions": "1", "of": "20 cm cake"}, None),
        ({"portions": "1", "of": "20 cm cake", "people": "10"}, "51 g"),
        ({"portions": "4", "of": "tartlets"}, None),
        ({"portions": "4", "of": "tartlets", "people": "1"}, "128 g"),
    ],
)
def test_a_portion_has_figures_only_where_it_is_one_persons(yields, portion):
    """Regulation (EU) No 1169/2011, Art. 33: for a portion of one person. 21 CFR 101.12(b): 125 g, a slice of cake."""
    recipe = {key: value for key, value in RECIPE.items() if key != "measured"} | {"yield": yields}
    shown = texts(context=context_from({"recipe": recipe}))
    assert {len(row) for row in shown["label.eu"]} == {2 if portion is None else 3}
    assert (portion or "for several people") in shown["label.portion"]


def test_a_range_of_trans_fat_says_what_it_rests_on():
    """By hand: 162 g of milk fat in 510 g have 3.1 to 8.1 g, or 0.6 to 1.6 g in 100 g; 21 CFR 101.9(c)(2): by 0.5 g."""
    shown = texts()
    assert cells(shown["label.us"])["Trans fat"][2] == "0.5 to 1.5 g"
    assert shown["label.missing"] == "Trans fat is 1.9 to 5 % of milk fat, as in those that were analysed."
    without = {**RECIPE, "ingredients": {key: RECIPE["ingredients"][key] for key in ("sugar", "rum")}}
    without["stages"] = [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["sugar", "rum"], "tool": "mixer"}]}]
    assert "Trans" not in texts(context=context_from({"recipe": without}))["label.missing"]


def test_added_sugars_are_in_a_line_of_words():
    """21 CFR 101.9(c)(6)(iii): `Includes x g Added Sugars`; 299.4 g in 510 g are 14.1 g in 24 g, 28 % of 50 g."""
    shown = {row[0].strip(): row[1:] for row in texts()["label.us"]}
    assert shown["Includes 14 g added sugars"] == ["", "28 %", "59 g"]


def test_the_energy_of_tables_beside_that_of_the_label():
    """By hand, usda-sr28: butter 717 and sugar 387 kcal in 100 g, rum 6.93 x 33.4; general 734.1, 399.9 and 7 x 33.4.

    100 g: (2 x 717 + 3 x 387 + 23) / 5.1 = 513; (2 x 734 + 3 x 400 + 23) / 5.1 = 528. A serving: 24 g at 0.8 g/mL.
    """
    assert texts()["label.by_table"] == ""
    state, shown = run("label", CONTEXT, {}, {"label.energy": "table"})
    assert state == {"label.energy": "table"}
    words = shown["label.by_table"]
    assert "for each food, 100 g have 513 kcal and a serving 123 kcal" in words
    assert "by the general factors of the US label they have 528 kcal and 127 kcal" in words
    assert words.endswith("not for a label.")
    assert shown["label.us"] == texts()["label.us"]
    assert run("label", CONTEXT, state, {"label.energy": "label"}) == ({}, texts())
    with pytest.raises(InputError, match="unknown energy"):
        run("label", CONTEXT, {}, {"label.energy": "half"})


def test_what_has_no_factors_of_its_own_in_the_table_is_named():
    words = texts({"instead.butter": "soya", "label.energy": "table"})["label.by_table"]
    assert words.endswith("The general factors also count for soya spread, which that table has none for.")
