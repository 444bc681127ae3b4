"""Lists of ingredients for the EU, the UK and the US: names, added water and percentages, each beside its law."""

import pytest
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.ingredient_list import ListedIngredient, ingredient_list
from crumbcoat_calc.label.legal_names import MARKETS, legal_name
from crumbcoat_calc.label.market_list import lists_of, market_entries
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.label_draft import BLANK, draft_rows


def _batch(title="Plain icing", lost="", **kinds):
    """A batch of kinds with their grams; `lost` is the water that boils off."""
    step = {"do": "Mix.", "add": [*kinds], **({"water_lost": lost, "heat_to": "100 °C"} if lost else {})}
    ingredients = {
        key: {"kind": key, "amount": f"{grams} g"} if isinstance(grams, int | float) else grams
        for key, grams in kinds.items()
    }
    fields = {
        "title": title, "summary": "For a test.", "author": "the tests", "family": "other",
        "yield": {"portions": "1", "of": "bowl"}, "ingredients": ingredients,
        "stages": [{"title": "Mix", "steps": [step]}],
    }  # fmt: skip
    return batch_of(recipe_from(fields))


def _lists(batch):
    return {market: found.text for market, found in zip(MARKETS, lists_of(batch), strict=True)}


@pytest.mark.parametrize(
    ("kind", "eu", "uk", "us"),
    [
        # 21 CFR 101.4(b)(3): skim, dry and concentrated forms are "nonfat milk"; EU and UK: Dir. 2001/114/EC.
        ("milk_powder_skim", "skimmed milk powder", "skimmed milk powder", "nonfat milk"),
        # 21 CFR 101.4(b)(5), (8), (10) to (12): dried and liquid forms have one name.
        ("buttermilk_powder", "buttermilk powder", "buttermilk powder", "buttermilk"),
        ("cream_heavy_whipping", "cream", "whipping cream", "cream"),
        ("egg_whole_raw", "egg", "egg", "eggs"),
        # 21 CFR 101.4(b)(2): a compound ingredient is opened; the sugar Directive leaves icing sugar out.
        ("sugar_powdered", "icing sugar", "icing sugar", "powdered sugar (sugar, cornstarch)"),
        ("cornstarch", "maize starch", "cornflour", "cornstarch"),
        ("gelatin_powder", "gelatine", "gelatine", "gelatin"),
        # 21 CFR 137.165; UK Bread and Flour Regulations 1998, Schedule 1; the EU adds nothing to flour.
        (
            "flour_all_purpose_unbleached",
            "wheat flour",
            "wheat flour (wheat flour, calcium carbonate, iron, niacin, thiamin)",
            "enriched flour (wheat flour, niacin, iron, thiamin mononitrate, riboflavin, folic acid)",
        ),
    ],
)
def test_each_market_has_its_own_name(kind, eu, uk, us):
    shown = {
        market: f"{name} ({', '.join(parts)})" if parts else name
        for market in MARKETS
        for name, parts in [legal_name(kind, "as written", market)]
    }
    assert shown == {"EU": eu, "UK": uk, "US": us}


def test_a_name_without_a_kind_is_looked_up_where_it_can_mean_one_thing_only():
    assert legal_name("", "maize starch", "US")[0] == "cornstarch"
    assert legal_name("", "rapeseed oil", "US")[0] == "canola oil"
    assert legal_name("", "cream", "UK")[0] == "cream"
    assert legal_name("", "milk", "UK")[0] == "milk"


@pytest.mark.parametrize("market", MARKETS)
def test_no_name_hides_an_allergen_that_the_kind_has(market):
    for key, food in foods().items():
        batch = _batch(**{key: 100})
        (entry,) = market_entries(batch, market)
        before = ingredient_list([ListedIngredient(name=food.name, mass_g=100, food=food)], market)
        after = ingredient_list([entry], market)
        assert after.contains == before.contains, key
        assert sum(span.allergen for span in after.spans) >= len(set(before.contains)), key


def test_added_water_is_listed_by_what_the_finished_food_weighs_beyond_the_rest():
    """Regulation (EU) No 1169/2011, Annex VII Part A(1): left out up to 5 % of it; 21 CFR 101.4(c) has no such rule."""
    at_the_limit = _lists(_batch(sugar_granulated=95, water_tap=5))
    assert at_the_limit == {"EU": "sugar", "UK": "sugar", "US": "sugar, water"}
    assert _lists(_batch(sugar_granulated=94, water_tap=6))["EU"] == "sugar, water"
    boiled = _batch(lost="55 g", sugar_granulated=50, honey=20, water_tap=70)  # 15 g of water stay in 85 g
    assert _lists(boiled) == {"EU": "sugar, honey, water", "UK": "sugar, honey, water", "US": "water, sugar, honey"}


@pytest.mark.parametrize(
    ("title", "kinds", "percents"),
    [
        # Regulation (EU) No 1169/2011, Art. 22(1)(a): an ingredient or category that the name of the food shows.
        ("Milk buttercream", {"butter_unsalted": 60, "milk_whole": 40}, {"butter": 60, "whole milk": 40}),
        ("Icing-sugar cream", {"sugar_powdered": 75, "cream_double": 25}, {"icing sugar": 75, "cream": 25}),
        ("Lemon icing", {"lemon_juice": 20, "sugar_granulated": 80}, {"lemon juice": 20}),
        ("Ganache", {"chocolate_dark_60_69": 60, "cream_double": 40}, {"dark chocolate": 60}),
        ("Buttermilk icing", {"buttermilk_powder": 10, "butter_unsalted": 90}, {"buttermilk powder": 10}),
        ("Cream-cheese icing", {"cream_cheese": 70, "cream_double": 30}, {"cream cheese": 70}),
        ("Plain icing", {"butter_unsalted": 60, "milk_whole": 40}, {}),
        # The title has the singular, the list the plural.
        ("Strawberry buttercream", {"strawberry_raw": 20, "sugar_powdered": 80}, {"strawberries": 20}),
        ("Raspberry icing", {"raspberry_frozen": 20, "sugar_powdered": 80}, {"raspberries": 20}),
        ("Blueberry icing", {"blueberry_raw": 20, "sugar_powdered": 80}, {"blueberries": 20}),
        ("Cherry icing", {"cherry_sweet_raw": 20, "sugar_powdered": 80}, {"sweet cherries": 20}),
        ("Strawberries in icing", {"strawberry_raw": 20, "sugar_powdered": 80}, {"strawberries": 20}),
        # By the names of the kind, in the spellings of the UK and the US.
        ("Yoghurt cream", {"yogurt_greek_plain_whole": 70, "sugar_powdered": 30}, {"yogurt": 70}),
        ("Oat milk cream", {"oat_milk_unsweetened": 70, "sugar_powdered": 30}, {"oat drink": 70}),
        ("Coconut whip", {"coconut_cream_raw": 70, "sugar_powdered": 30}, {"coconut cream": 70}),
        ("Maple pecan frosting", {"maple_syrup": 70, "pecan": 30}, {"maple syrup": 70, "pecans": 30}),
        # What many names share shows no food, and an oath is not of oats.
        ("Golden glaze, light and sweet", {"golden_syrup": 70, "cherry_sour_dried": 30}, {}),
        ("Oath cream", {"oat_milk_unsweetened": 70, "sugar_powdered": 30}, {}),
        ("Buttercream", {"tahini": 70, "prune_puree": 30}, {}),
        # Annex VIII(1)(a)(iii): small quantities for flavouring.
        ("Vanilla icing", {"vanilla_extract": 1.9, "sugar_granulated": 98.1}, {}),
        ("Vanilla icing", {"vanilla_extract": 2, "sugar_granulated": 98}, {"vanilla extract": 2}),
    ],
)
def test_what_the_name_of_the_food_shows_has_its_percentage(title, kinds, percents):
    batch = _batch(title, **kinds)
    found = {entry.name: entry.percent for entry in market_entries(batch, "EU") if entry.percent is not None}
    assert found == pytest.approx(percents)
    in_the_uk = [entry.percent for entry in market_entries(batch, "UK") if entry.percent is not None]
    assert sorted(in_the_uk) == pytest.approx(sorted(percents.values()))
    assert all(entry.percent is None for entry in market_entries(batch, "US"))


@pytest.mark.parametrize(
    ("title", "kind", "name"),
    [
        ("Plant-based cocoa frosting", "cocoa_powder_dutched", "alkalised cocoa powder"),
        ("Yoghurt cream", "yogurt_greek_plain_whole", "greek yogurt"),
        ("Oat milk cream", "oat_milk_unsweetened", "barista carton"),
        ("Maple frosting", "maple_syrup", "the amber one"),
    ],
)
def test_the_authors_name_does_not_hide_what_the_title_shows(title, kind, name):
    """Regulation (EU) No 1169/2011, Art. 22(1)(a): it is the ingredient that counts, whatever the recipe calls it."""
    batch = _batch(title, a={"kind": kind, "name": name, "amount": "40 g"}, sugar_powdered=60)
    assert [entry.percent for entry in market_entries(batch, "EU")] == [pytest.approx(40), None]


def test_a_compound_ingredient_is_opened_in_every_market():
    """Regulation (EU) No 1169/2011, Annex VII Part E(1); 21 CFR 101.4(b)(2)."""
    batch = _batch("Condensed-milk icing", milk_condensed_sweetened=40, butter_unsalted=60)
    opened = "sweetened condensed milk (MILK, sugar)"
    assert _lists(batch) == {
        "EU": f"butter (MILK), {opened}".replace("milk (", "milk 40 % ("),
        "UK": f"butter (MILK), {opened}".replace("milk (", "milk 40 % ("),
        "US": f"butter (cream (MILK)), {opened}",
    }


def test_flour_of_the_uk_is_about_to_have_folic_acid():
    """The Bread and Flour (Amendment) Regulations 2024, from 13 December 2026 (from memory)."""
    flour = _batch(flour_uk_plain=40, sugar_granulated=60)
    assert "folic acid" in dict(draft_rows(flour, "UK"))["Flour in the UK"]
    assert "Flour in the UK" not in dict(draft_rows(flour, "US"))
    assert "Flour in the UK" not in dict(draft_rows(_batch(flour_t55=40, sugar_granulated=60), "UK"))


def test_a_food_that_lost_water_is_counted_by_what_it_weighs_when_finished():
    """Annex VIII(3)(a) and (4)(a): of the bowl, or of the finished food; above 100 % the mass for 100 g of it."""
    milk, sugar = 400, 100
    assert _lists(_batch("Milk icing", milk_whole=milk, sugar_granulated=sugar))["EU"] == "whole MILK 80 %, sugar"
    boiled = _batch("Milk icing", lost="300 g", milk_whole=milk, sugar_granulated=sugar)
    assert _lists(boiled)["EU"] == "whole MILK 200 g per 100 g, sugar"


def test_the_rest_of_a_label_is_a_draft_with_blanks_and_who_can_fill_them():
    chocolate = {"kind": "chocolate_dark_60_69", "name": "dark chocolate", "amount": "60 g"}
    rows = dict(draft_rows(_batch(chocolate=chocolate, cream_double=40)))
    assert list(rows) == ["Net quantity", "Date", "Storage", "Maker", "Ask the suppliers"]
    assert all(text.startswith(BLANK) for name, text in rows.items() if name != "Ask the suppliers")
    assert rows["Ask the suppliers"] == "what dark chocolate is made of"
    assert rows["Storage"].endswith("the recipe does not say")
    opened = {**chocolate, "made_of": ["cocoa mass", "sugar"]}
    assert "Ask the suppliers" not in dict(draft_rows(_batch(chocolate=opened, cream_double=40)))


def _chocolate(name, **more):
    return {"kind": "chocolate_dark_60_69", "name": name, "amount": "40 g", **more}


def test_what_has_one_name_in_law_is_one_entry_with_the_percentage_of_all_of_it():
    """Regulation (EU) No 1169/2011, Arts. 18 and 22: an ingredient is listed once, by all that went in."""
    both = _batch("Chocolate glaze", a=_chocolate("chocolate, 60 %"), b=_chocolate("couverture"), sugar_granulated=20)
    assert _lists(both)["EU"] == "dark chocolate 80 %, sugar"
    doubts = [{name for name, _ in found.doubts} for found in lists_of(both)]
    assert doubts == [{"chocolate, 60 %", "couverture"}] * 3


def test_what_has_one_name_in_law_and_other_allergens_is_not_taken_for_the_same():
    """Regulation (EU) No 1169/2011, Arts. 9(1)(c) and 21: no allergen is lost in a name."""
    plain = _chocolate("dark chocolate", allergens=[])
    other = _chocolate("couverture", allergens=["milk"])
    for found in lists_of(_batch(a=plain, b=other, sugar_granulated=20)):
        assert found.contains == ("milk",)
        assert "MILK" in found.text
    opened = _chocolate("couverture", made_of=["cocoa mass", "sugar", "hazelnuts"])
    assert "hazelnut" in lists_of(_batch(a=plain, b=opened, sugar_granulated=20))[0].contains


@pytest.mark.parametrize("market", MARKETS)
def test_an_allergen_after_a_comma_in_the_authors_name_is_seen(market):
    own = {"composition": {"fat": "1 %"}, "name": "protein powder, from milk", "amount": "20 g"}
    found = ingredient_list(market_entries(_batch(own=own, sugar_granulated=80), market), market)
    assert found.contains == ("milk",)
    assert found.text == "sugar, protein powder (MILK)"


def test_the_authors_words_are_in_the_spelling_of_the_market():
    """21 CFR 101.4(a)(1): common or usual names; FALCPA, section 203: soy."""
    parts = ["soya lecithin", "colour", "Flavouring"]
    batch = _batch(spread={"kind": "chocolate_semisweet_chips", "amount": "100 g", "made_of": parts})
    lists = _lists(batch)
    assert lists["US"] == "semisweet chocolate (SOY lecithin, color, Flavoring)"
    assert lists["UK"].endswith("(SOYA lecithin, colour, Flavouring)")
