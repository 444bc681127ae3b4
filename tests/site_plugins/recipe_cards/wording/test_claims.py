"""Claims in the texts of a recipe, judged by the limits of the laws that are named beside each case."""

import pytest
from crumbcoat_calc.recipe.claims import CLAIMS
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.wording.claims import unfounded_claims
from crumbcoat_site.recipe_cards.wording.tables import NOT_TO_CLAIM, claim_rules, claim_words
from crumbcoat_site.recipe_cards.wording.texts import texts_of

BUTTER = {"kind": "butter_unsalted", "amount": "400 g"}
SUGAR = {"kind": "sugar_granulated", "amount": "600 g"}
PASTE = {"name": "paste", "amount": "600 g"}


def fields(**changed):
    ingredients = changed.pop("ingredients", {"butter": BUTTER, "sugar": SUGAR})
    return {
        "title": "Plain icing", "summary": "An icing.", "author": "the tests", "family": "other",
        "yield": {"portions": "10", "of": "cupcakes"}, "ingredients": ingredients,
        "stages": [{"title": "Mix", "steps": [{"do": changed.pop("do", "Mix."), "add": [*ingredients]}]}],
        "measured": {"density": "1 g/mL"}, **changed,
    }  # fmt: skip


def found_in(data, section=""):
    return [(path, text, hint) for path, text, hint in unfounded_claims(recipe_from(data), data, section)]


def paste(**contents):
    rest = {"protein": "0 %", "fat": "0 %", "carbohydrate": "0 %", "ash": "0 %", "alcohol": "0 %", **contents}
    used = sum(float(value.split()[0]) for value in rest.values() if "%" in value)
    return fields(ingredients={"paste": {**PASTE, "composition": {**rest, "water": f"{100 - used:g} %"}}})


def has(data, claim):
    return found_in({**data, "summary": f"An icing that is {claim}."})


def test_a_claim_is_shown_with_its_place_both_rules_and_the_figures_of_the_recipe():
    """Regulation (EC) No 1924/2006, Annex: 3 g in 100 g; 21 CFR 101.62(b)(2): 3 g in 50 g, the amount being small.

    400 g of butter with 81.11 g of fat in 100 g (usda-sr28 01145) make 324.44 g in 1000 g.
    """
    ((path, text, hint),) = found_in(fields(title="Low-fat icing"))
    assert path == ("title",)
    assert text == (
        "“Low-fat” is a claim: in the EU and UK at most 3 g of fat in 100 g, and this has 32.4 g (Regulation (EC) No "
        "1924/2006, Annex); in the US at most 3 g of fat in 50 g, and this has 16.2 g (21 CFR 101.62(b)(2))"
    )
    assert hint == "say what it has, such as “32.4 g of fat in 100 g”, or leave it out"


def test_the_folder_of_a_recipe_is_a_text_as_well():
    assert [path for path, _, _ in found_in(fields(), "low-fat")] == [()]
    assert found_in(fields(), "milk-emulsions") == []


# Where the limit is met exactly, and just missed: EU limits are "not more than", US "free" claims are strictly below.
@pytest.mark.parametrize(
    ("claim", "met", "missed"),
    [
        # 21 CFR 101.62(b)(2): 3 g in 50 g is 6 g in 100 g; Reg. 1924/2006: 3 g in 100 g. The stricter one decides.
        ("low in fat", {"fat": "3 %"}, {"fat": "3.1 %"}),
        # Reg. 1924/2006: 0.5 g in 100 g; 21 CFR 101.62(b)(1): below 0.5 g in 2 tbsp, here 30 g.
        ("fat-free", {"fat": "0.5 %"}, {"fat": "0.6 %"}),
        # Reg. 1924/2006: 0.5 g in 100 g.
        ("sugar-free", {"carbohydrate": "10 %", "sugars": "0.5 %"}, {"carbohydrate": "10 %", "sugars": "0.6 %"}),
        # Reg. 1924/2006: sodium 0.12 g in 100 g; 21 CFR 101.61(b)(4): 140 mg in 50 g.
        ("low in salt", {"ash": "2 %", "sodium": "120 mg"}, {"ash": "2 %", "sodium": "121 mg"}),
        # Reg. 1924/2006: 40 kcal in 100 g; 21 CFR 101.60(b)(2): 40 kcal in 50 g.
        ("low in calories", {"carbohydrate": "10 %", "fibre": "0 %"}, {"carbohydrate": "10.1 %", "fibre": "0 %"}),
        # Reg. 1924/2006: 6 g in 100 g; 21 CFR 101.54(b): 20 % of 28 g in 30 g, which is 18.7 g in 100 g.
        ("high in fibre", {"carbohydrate": "30 %", "fibre": "18.7 %"}, {"carbohydrate": "30 %", "fibre": "18.6 %"}),
        # Reg. 1924/2006: 12 % of the energy; 21 CFR 101.54(c): 10 % of 50 g in 30 g, which is 16.7 g in 100 g.
        ("a source of protein", {"protein": "16.7 %"}, {"protein": "16.6 %"}),
    ],
)
def test_a_claim_is_silent_where_the_figures_meet_every_rule(claim, met, missed):
    assert has(paste(**met), claim) == []
    assert len(has(paste(**missed), claim)) == 1


def test_a_figure_that_is_not_known_meets_no_limit():
    data = fields(ingredients={"paste": {**PASTE, "composition": {"water": "50 %"}}})
    ((_, text, _),) = has(data, "fat-free")
    assert "0 to 50 g" in text


def test_a_comparison_is_the_authors_to_make():
    """21 CFR 101.62(b)(4): 25 % less than a food that is named; Regulation (EC) No 1924/2006, Annex: 30 %."""
    lower = fields(keywords=["lower in fat"])
    ((path, text, hint),) = found_in(lower)
    assert path == ("keywords", 0)
    assert "at least 30 % less fat than a similar food that is named" in text
    assert "25 % less" in text
    assert text.endswith("; this has 32.4 g in 100 g")
    assert hint.endswith("or state in `claims` what it is compared with")
    ground = "40 % less fat than our icing-sugar buttercream: 32 g against 54 g in 100 g."
    assert found_in({**lower, "claims": [{"claim": "reduced fat", "ground": ground}]}) == []


def test_a_claim_of_the_author_does_not_outweigh_the_figures():
    data = fields(claims=[{"claim": "low fat", "ground": "We think so."}])
    ((path, text, _),) = found_in(data)
    assert path == ("claims", 0)
    assert text.startswith("“low fat” is claimed: ")


def test_gluten_free_is_for_an_analysis_to_show_and_not_for_a_list():
    """Regulation (EU) No 828/2014: at most 20 mg/kg in the food as sold; 21 CFR 101.91: less than 20 mg/kg."""
    free = fields(title="Gluten-free icing")
    ((_, text, hint),) = found_in(free)
    assert "at most 20 mg/kg of gluten in the food as sold (Regulation (EU) No 828/2014, Annex)" in text
    assert "less than 20 mg/kg" in text
    assert hint.startswith("say that no ingredient listed contains gluten, or state in `claims`")
    claims = [{"claim": "gluten-free", "ground": "Each batch is tested, below 20 mg/kg."}]
    assert found_in({**free, "claims": claims}) == []
    wheat = {"flour": {"kind": "flour_cake", "amount": "9 g"}, "sugar": SUGAR}
    both = found_in(fields(title="Gluten-free icing", ingredients=wheat, claims=claims))
    assert [path for path, _, _ in both] == [("title",), ("claims", 0)]
    assert all(hint == "leave it out" for _, _, hint in both)


def test_words_that_no_law_defines_must_be_true():
    """Regulation (EU) No 1169/2011, Art. 36; 21 CFR 101.65(b)(1)."""
    assert "this has butter" in has(fields(), "vegan")[0][1]
    assert has(fields(), "vegetarian") == []
    plain = fields(ingredients={"sugar": SUGAR})
    assert has(plain, "vegan and dairy-free") == []
    assert "not certain here: milk that may get in" in has({**plain, "may_contain": ["milk"]}, "dairy-free")[0][1]
    assert "this has milk" in has(fields(), "dairy-free")[0][1]


@pytest.mark.parametrize(
    "text",
    [
        "light in texture", "A light and fluffy icing", "light as air", "beaten until lighter in colour",
        "it goes well with a low-fat sponge", "Use no low-fat spread for it", "let it lean on the bowl",
        "without milk it stiffens", "the weight loss is the water", "use organic lemons", "it is not safe to eat",
        "lightly salted", "stir with a light hand", "in good light", "soft light brown sugar", "Light, airy and white",
        "whisk in the low-fat milk", "any low-fat yogurt will do", "the bowl must be free of fat", "no fat shows",
        "It is not low in fat", "with less fat it slumps", "a healthy pinch of salt", "gluten-free flour works too",
        "Dust lightly with icing sugar", "no sugar left on the spoon", "a sugar that is not sugar-free",
    ],
)  # fmt: skip
def test_words_of_the_kitchen_are_not_claims(text):
    """21 CFR 101.56(e), (f): `light` as texture or colour is not a claim."""
    assert found_in(fields(do=f"{text}.")) == []


@pytest.mark.parametrize("text", ["light in texture", "A light and fluffy icing", "lighter in colour than caramel"])
def test_texture_and_colour_are_not_claims_in_a_summary_either(text):
    assert found_in(fields(summary=f"{text}.")) == []


@pytest.mark.parametrize("text", ["A light icing for summer", "Our lighter version", "Buttercream lite"])
def test_light_as_a_property_of_the_food_is_a_claim(text):
    """21 CFR 101.56(b): 50 % less fat than a food that is named; Regulation (EC) No 1924/2006, Annex: 30 % less."""
    ((_, found, _),) = found_in(fields(summary=f"{text}."))
    assert "at least 50 % less fat" in found
    assert "at least 30 % less fat" in found


def test_the_name_of_an_ingredient_is_not_a_claim_of_the_recipe():
    quark = {"kind": "quark_skim", "name": "fat-free quark", "amount": "300 g"}
    data = fields(title="Icing with fat-free quark", ingredients={"butter": BUTTER, "quark": quark})
    assert found_in(data) == []


@pytest.mark.parametrize(
    ("text", "law"),
    [
        # Regulation (EU) No 1169/2011, Arts. 7 and 36; 21 CFR 101.65(b)(1): what is said to be absent has to be.
        ("Allergen-free.", "this has milk"), ("Safe for people with a milk allergy.", "this has milk"),
        ("Safe for guests with an egg or dairy allergy.", "this has milk"), ("Great for vegans.", "this has butter"),
        ("An icing without milk or egg.", "this has milk"), ("No dairy in it.", "this has milk"),
        ("Contains no milk.", "this has milk"), ("Contains no egg or milk.", "this has milk"),
        ("Free from gluten and dairy.", "this has milk"), ("Free from gluten and dairy.", "20 mg/kg"),
        ("For coeliac guests.", "20 mg/kg"), ("Fine for vegetarians and vegans.", "this has butter"),
        # Regulation (EC) No 1924/2006, Arts. 10 and 12; 21 CFR 101.14.
        ("It boosts your immune system.", "Art. 10(1)"), ("A slimming icing.", "Arts. 10 and 12(b)"),
        ("It is good for weight loss.", "Arts. 10 and 12(b)"),
        # Regulation (EU) No 1169/2011, Art. 7(3), and (EU) No 609/2013, which ended foods for diabetics.
        ("Diabetics can eat it.", "(EU) No 609/2013"), ("An icing for diabetics.", "(EU) No 609/2013"),
        # 21 CFR 105.66; Regulation (EU) 2018/848; 21 CFR 101.62(e); Regulation (EC) No 1924/2006, Art. 8(1).
        ("Diet frosting.", "21 CFR 105.66"), ("An organic icing.", "(EU) 2018/848"),
        ("A lean icing.", "21 CFR 101.62(e)"),
        ("No trans fat.", "Art. 8(1)"), ("Without any sugar.", "at most 0.5 g of sugars"),
        # No figure of a recipe shows that it keeps: the local food code decides.
        ("Safe at room temperature for a week.", "no recipe can say so"),
        ("Shelf-stable, needs no refrigerator.", "local food code"),
        # Regulation (EC) No 1924/2006, Annex: 30 % of 800 mg; 21 CFR 101.54(b)(1): 20 % of 1300 mg.
        ("Rich in calcium.", "at least 240 mg of calcium in 100 g, and this has 10.2 mg"),
        ("Rich in calcium.", "at least 260 mg of calcium in 2 tbsp"), ("A source of iron.", "at least 2.1 mg of iron"),
        ("High in vitamins.", "30 % of the reference value in 100 g"),
    ],
)  # fmt: skip
def test_what_no_list_and_no_figure_bears_out_is_warned_of(text, law):
    assert any(law in found for _, found, _ in found_in(fields(summary=text)))


def test_nobody_can_answer_for_a_keeping_time_by_claiming_it():
    ((_, _, hint),) = found_in(fields(notes=["Shelf-stable."]))
    assert hint == "say how long you kept it and where, under `storage`, or leave it out"


def test_every_claim_has_words_and_a_rule():
    assert claim_rules().keys() == {*CLAIMS, *NOT_TO_CLAIM} == {words.claim for words in claim_words()}


def test_every_text_that_readers_see_is_read_and_no_name_of_an_ingredient():
    data = fields(notes=["one"], storage=[{"where": "in the refrigerator", "up_to": "1 day", "note": "two"}])
    data["ingredients"]["butter"] = {
        **BUTTER, "name": "not read", "role": "three", "replacements": {"oil": {"kind": "olive_oil", "note": "four"}},
    }  # fmt: skip
    texts = {placed.text for placed in texts_of(data)}
    assert {"Plain icing", "An icing.", "cupcakes", "Mix.", "one", "two", "three", "four"} <= texts
    assert not texts & {"not read", "butter_unsalted", "400 g", "the tests"}
