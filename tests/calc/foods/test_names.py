"""foods/names.py: what people write, and the kind that it means; never a kind that only looks like it."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.names import FoodName, Names, load_names
from crumbcoat_calc.foods.table import food, foods, kind_names, other_names

# Common practice of cooks in the United Kingdom and the United States.
MEANT = {
    "butter_unsalted": ("butter_unsalted", "butter unsalted", "Unsalted butter", "butter, unsalted", "sweet butter"),
    "butter_salted": ("salted butter", "Butter (salted)"),
    "butter_demisel": ("slightly salted butter",),
    "sugar_granulated": ("sugar", "white sugar", "caster sugar", "castor sugar", "Granulated Sugar", "superfine sugar"),
    "sugar_powdered": ("icing sugar", "powdered sugar", "confectioners' sugar", "confectioner’s sugar"),
    "sugar_brown": ("brown sugar", "light brown sugar", "soft brown sugar"),
    "sugar_demerara": ("demerara sugar", "Demerara"),
    "cornstarch": ("cornflour", "Cornflour", "corn starch", "cornstarch", "maize starch"),
    "cream_double": ("double cream", "cream, double, UK"),
    "cream_heavy_whipping": ("heavy cream", "heavy whipping cream"),
    "cream_single": ("single cream", "pouring cream"),
    "cream_light": ("light cream",),
    "sour_cream": ("soured cream", "sour cream"),
    "creme_fraiche_full": ("crème fraîche", "creme fraiche"),
    "cream_cheese": ("cream cheese", "full-fat cream cheese"),
    "mascarpone": ("mascarpone", "mascarpone cheese"),
    "golden_syrup": ("golden syrup",),
    "black_treacle": ("treacle", "black treacle"),
    "molasses": ("molasses",),
    "glucose_syrup_liquid": ("liquid glucose", "glucose syrup"),
    "corn_syrup_light": ("corn syrup", "light corn syrup"),
    "flour_uk_plain": ("plain flour",),
    "flour_uk_self_raising": ("self-raising flour", "self raising flour", "self-rising flour"),
    "flour_all_purpose_unbleached": ("all-purpose flour", "all purpose flour"),
    "flour_bread": ("strong white flour", "bread flour"),
    "baking_soda": ("bicarbonate of soda", "baking soda", "bicarb"),
    "gelatin_sheet_fr": ("gelatine leaves", "gelatin sheets", "leaf gelatine", "sheet gelatin"),
    "gelatin_powder": ("gelatine", "powdered gelatine"),
    "coffee_espresso_brewed": ("espresso", "Espresso coffee, brewed"),
    "salt_table": ("salt", "fine salt", "table salt"),
    "milk_powder_skim": ("skimmed milk powder", "milk powder, skimmed", "nonfat dry milk", "skim milk powder"),
    "milk_powder_whole": ("whole milk powder",),
    "milk_2pct": ("2% milk", "semi-skimmed milk"),
    "egg_whole_raw": ("egg", "eggs", "whole eggs"),
    "egg_white_raw": ("egg whites", "raw egg white"),
    "egg_yolk_raw": ("egg yolks",),
    "yogurt_greek_plain_whole": ("Greek yoghurt", "greek yogurt"),
    "almond_ground_uk": ("ground almonds", "almond flour", "flaked almonds"),
    "raspberry_raw": ("raspberries", "fresh raspberries"),
    "cherry_sour_raw": ("sour cherries", "tart cherries"),
    "blackberry": ("blackberries", "Blackberry, raw"),
    "mango_raw": ("mangoes", "mango"),
    "peach_raw": ("peaches",),
    "water_tap": ("water",),
    "agar_dried": ("agar-agar", "agar agar"),
    "rainbow_sprinkles": ("hundreds and thousands", "sprinkles"),
    "oil_peanut": ("groundnut oil",),
    "oil_canola": ("rapeseed oil", "canola oil"),
    "coconut_desiccated_unsweetened": ("desiccated coconut",),
    "filo": ("phyllo dough", "filo pastry"),
}

SEVERAL = {
    "butter": {"butter_salted", "butter_unsalted"},
    "baking powder": {"baking_powder_sas", "baking_powder_us"},
    "cocoa": {"cocoa_powder_dutched", "cocoa_powder_natural"},
    "cacao powder": {"cocoa_powder_dutched", "cocoa_powder_natural"},
    "whipping cream": {"cream_30_fr", "cream_heavy_whipping", "cream_light_whipping", "cream_whipping_uk"},
    "vegetable oil": {"oil_canola", "oil_soybean"},
    "milk": {"milk_1pct", "milk_2pct", "milk_skim", "milk_whole"},
    "dates": {"date_deglet", "date_medjool"},
}

# A letter or two that are wrong, and the only kinds that are proposed.
SLIPS = {
    "buter": {"butter_salted", "butter_unsalted"},
    "butter_unsalten": {"butter_unsalted"},
    "caster suger": {"sugar_granulated"},
    "cornflower": {"cornstarch"},
    "mascapone": {"mascarpone"},
    "raspbery": {"raspberry_raw"},
    "golden sirup": {"golden_syrup"},
    "self-rasing flour": {"flour_uk_self_raising"},
    "creme fraich": {"creme_fraiche_full"},
}

# No kind has this name. Some share a word that says what they are: these must be listed, those must not.
NEAR = {
    "brown butter": (
        {"butter_salted", "butter_unsalted"},
        {"cocoa_butter", "sugar_brown", "peanut_butter_smooth_salted"},
    ),
    "milk powder": (
        {"milk_powder_skim", "milk_powder_whole"},
        {"buttermilk_powder", "milk_whole", "cocoa_powder_natural"},
    ),
    "cream": (
        {"cream_double", "cream_heavy_whipping", "cream_single"},
        {"cream_of_tartar", "cream_cheese", "sour_cream"},
    ),
    "dark chocolate": ({"chocolate_dark_45_59", "chocolate_dark_70_85"}, {"chocolate_white", "chocolate_milk"}),
    "chocolate chips": (set(), set()),
    "lemon": ({"lemon_juice", "lemon_zest", "lemon_flesh"}, {"lime_juice"}),
    "muscovado sugar": ({"sugar_brown", "sugar_demerara"}, {"sugar_vanilla", "sugar_maple"}),
    "pistachio paste": ({"pistachio_raw"}, {"almond_paste", "tahini"}),
    "orange liqueur": ({"liqueur_generic"}, {"orange_juice"}),
    "coffee": ({"coffee_ground", "coffee_instant_powder"}, {"liqueur_coffee_53_proof"}),
    "xanthan gum": (set(), {"seed_gums"}),
}

NOTHING_LIKE_IT = ("unobtainium", "matcha", "white pepper", "pasta", "chicken", "raw", "white", "1/2", "…", "lavender")


def refusal(written):
    with pytest.raises(InputError) as caught:
        food(written)
    return caught.value


def test_a_name_means_its_kind():
    wrong = [(name, food(name).key) for key, names in MEANT.items() for name in names if food(name).key != key]
    assert wrong == []
    assert sum(len(names) for names in MEANT.values()) > 100


def test_a_name_of_several_kinds_that_differ_is_refused_with_all_of_them():
    for name, keys in SEVERAL.items():
        error = refusal(name)
        assert error.problem == f"{name!r} is the name of several kinds"
        assert {key for key in foods() if f"`{key}`" in error.remedy} == keys, name


def test_a_slip_of_the_keyboard_is_corrected():
    for name, keys in SLIPS.items():
        error = refusal(name)
        assert error.remedy.startswith("did you mean"), name
        assert {key for key in foods() if f"`{key}`" in error.remedy or f"'{key}'" in error.remedy} == keys, name


def test_what_is_near_shares_words_and_not_letters():
    for name, (listed, absent) in NEAR.items():
        if not listed and not absent:
            assert food(name).group == "chocolate"
            continue
        keys = set(kind_names().near(name).keys)
        assert listed <= keys, (name, keys)
        assert not absent & keys, (name, keys & absent)


@pytest.mark.parametrize("written", NOTHING_LIKE_IT)
def test_nothing_is_proposed_where_nothing_is_like_it(written):
    assert refusal(written).remedy == "look for another name in the list of kinds, or state its `composition`"


def test_near_misses_say_what_they_are():
    """UK double cream has 48 % fat or more, US heavy cream 36 %: names alone do not show it."""
    assert refusal("butter").remedy == (
        "write one of: `butter_salted` (butter, salted); `butter_unsalted` (butter, unsalted)"
    )
    listed = refusal("whipping cream").remedy
    assert "`cream_whipping_uk` (cream, whipping, UK, 40 % fat)" in listed
    assert "`cream_heavy_whipping` (cream, heavy whipping, 36 % fat)" in listed
    assert "`syrup" not in listed
    assert "`golden_syrup` (golden syrup, 77 % sugars)" in refusal("syrup").remedy + refusal("plain syrup").remedy


def test_what_shares_only_a_part_of_the_name_comes_after_the_composition():
    assert refusal("rose water").remedy.startswith(
        "state its `composition`, or use one of these only if it is the same food: `water_tap` (water)"
    )


def test_a_long_list_is_cut_and_says_so():
    remedy = refusal("cream").remedy
    assert remedy.count("`cream_") == 6
    assert "more in the list of kinds; otherwise state its `composition`" in remedy


def test_every_key_and_every_printed_name_finds_its_kind():
    for key, kind in foods().items():
        assert kind_names().meant_by(key) == (key,), key
        assert key in kind_names().meant_by(kind.name), key
        assert food(kind.name.upper()).key == key, key


def test_every_other_name_finds_its_kind_and_is_not_found_without_it():
    printed = Names({key: kind.name for key, kind in foods().items()}, ())
    for other in load_names():
        assert other.food in kind_names().meant_by(other.name), other
        assert printed.meant_by(other.name) != (other.food,), other
    assert set(other_names()) <= set(foods())


def test_only_names_that_fit_several_kinds_are_shared():
    shared = {other.name for other in load_names() if len(kind_names().meant_by(other.name)) > 1}
    assert shared == {
        "baking powder", "butter", "buttermilk", "cocoa", "cocoa powder", "dates", "double-acting baking powder",
        "fromage blanc", "fromage frais", "margarine", "milk", "peanut butter", "petit suisse", "plant butter",
        "vegan butter", "vegetable oil", "whipping cream", "yogurt",
    }  # fmt: skip


def test_the_order_of_the_parts_between_commas_does_not_matter_but_that_of_words_does():
    names = Names({"a": "milk chocolate", "b": "egg white, raw"}, ())
    assert names.meant_by("raw egg white") == names.meant_by("egg white, raw") == ("b",)
    assert names.meant_by("chocolate milk") == ()


def test_a_region_is_one_of_three():
    assert FoodName(food="cornstarch", name="cornflour", region="UK") in load_names()
    assert {other.region for other in load_names()} == {"UK", "US", "both"}
