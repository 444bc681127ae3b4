"""Fields -> Recipe: what each field may contain. Units by NIST HB 44; more texts of errors are in tests/golden."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.recipe.model import Recipe, Time
from crumbcoat_calc.recipe.own_food import density_from
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.stages import time_range
from crumbcoat_calc.values.units import number
from hypothesis import given
from hypothesis import strategies as st

BUTTER = {"kind": "butter_unsalted", "amount": "200 g"}


def recipe(ingredient: object = None, step: object = None, stage: object = None, **fields: object) -> Recipe:
    """A recipe for plain butter, with some fields changed."""
    steps = [{"do": "Beat.", "add": ["butter"]} | (step if isinstance(step, dict) else {})]
    return recipe_from(
        {
            "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
            "yield": {"portions": "1", "of": "piece"},
            "ingredients": {"butter": BUTTER | (ingredient if isinstance(ingredient, dict) else {})},
            "stages": [{"title": "Beat", "steps": steps} | (stage if isinstance(stage, dict) else {})],
        }
        | fields
    )  # fmt: skip


@pytest.mark.parametrize(
    ("written", "mass_g"),
    [
        ("250 g", 250), ("250g", 250), (" 250  g ", 250), ("0.25 kg", 250), ("1/4 kg", 250), ("¼ kg", 250),
        ("1 1/2 kg", 1500), ("1½ kg", 1500), ("500 mg", 0.5), (".5 g", 0.5), ("250 grams", 250), ("250 G.", 250),
        ("1 lb 2 oz", 510.29141625), ("1 lb, 2 ounces", 510.29141625), ("1 kg + 250 g", 1250),
        ("1,5 kg", 1500), ("1,000,000 mg", 1000), ("1 234,5 g", 1234.5), ("250 gr", 250), ("٢٥٠ g", 250),
        ("1 lb", 453.59237), ("2 pounds", 907.18474), ("8 oz", 226.796185), ("8 ounces", 226.796185),
    ],
)  # fmt: skip
def test_masses(written: str, mass_g: float) -> None:
    """NIST HB 44, Appendix C: 1 lb = 453.59237 g, 1 oz = 28.349523125 g, exactly."""
    assert amount_of(food("butter_unsalted"), written).mass_g == pytest.approx(mass_g, rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "written", "mass_g"),
    [
        ("butter_unsalted", "1 US cup", 227), ("butter_unsalted", "2 US tbsp", 28.4),
        ("butter_unsalted", "1 stick", 113),
        ("butter_unsalted", "2 sticks", 226), ("sugar_powdered", "1 US cup, sifted", 100),
        ("sugar_powdered", "1 US cup, unsifted", 120), ("milk_whole", "2 us cups", 488),
        ("milk_whole", "1 US quart", 976), ("milk_whole", "1/2 US pint", 488 / 2), ("milk_whole", "8 US fl oz", 244),
        ("sugar_powdered", "1,5 US cups, unsifted", 180), ("sugar_powdered", "1½ US cups,unsifted", 180),
        ("butter_unsalted", "1 US cup + 2 US tbsp", 255.4), ("sugar_powdered", "1 US cup + 2 US cups, sifted", 300),
        ("butter_unsalted", "¼ tsp", 227 / 192), ("butter_unsalted", "1/4 teaspoon", 227 / 192),
    ],
)  # fmt: skip
def test_household_measures(kind: str, written: str, mass_g: float) -> None:
    """Household weights of usda-sr28."""
    assert amount_of(food(kind), written).mass_g == pytest.approx(mass_g)


def test_a_metric_cup_uses_the_largest_known_measure_of_the_same_food() -> None:
    """A US quart of 946.352946 mL of whole milk weighs 976 g (usda-sr28, nist-hb44)."""
    expected = 250 * 976 / 946.352946
    assert amount_of(food("milk_whole"), "1 metric cup").mass_g == pytest.approx(expected)
    assert amount_of(food("milk_whole"), "250 mL").mass_g == pytest.approx(expected)
    assert amount_of(food("milk_whole"), "1/4 L").mass_g == pytest.approx(expected)


@pytest.mark.parametrize(
    ("written", "problem", "remedy"),
    [
        ("1,000 g", "'1,000' can mean 1000 or 1", "write '1000' or '1'"),
        ("1,234 g", "'1,234' can mean 1234 or 1.234", "write '1234' or '1.234'"),
        ("1.000 g", "'1.000' can mean 1000 or 1", "write '1000' or '1'"),
        ("250 kilo", "unknown unit 'kilo'", "did you mean 'kilogram'?"),
        ("2 stik", "unknown unit 'stik'", "did you mean 'stick'?"),
        ("1e3 g", None, None),
        ("250-300 g", "'250-300 g' is not one number with a unit", "write one amount, such as `250 g`"),
        ("1 stick (113 g)", "'1 stick (113 g)' is not one number with a unit", "write one amount, such as `250 g`"),
        (
            "250 g butter",
            "unexpected 'butter' after '250 g'",
            "write `250 g`; a name goes under `name`, and what is done to it under `preparation`",
        ),
        (
            "1 US cup (sifted)",
            "unexpected '(sifted)' after '1 US cup'",
            "write `1 US cup`, or `1 US cup, sifted`; a name goes under `name`, and what is done to it under "
            "`preparation`",
        ),
        ("a pinch", "'a pinch' has no weight: no source weighs a pinch", None),
        ("1 pinch", "'1 pinch' has no weight: no source weighs a pinch", None),
        ("1 US cup, melted", "no weight is known for 'US cup, melted' of butter, unsalted", None),
        ("g 250", "'g 250' does not start with a number", "write a number and a unit, such as `250 g`"),
        ("", "the field is empty", None),
        ("  ", "the field is empty", None),
    ],
)
def test_amounts_that_cannot_be_read(written: str, problem: str | None, remedy: str | None) -> None:
    with pytest.raises(InputError) as caught:
        amount_of(food("butter_unsalted"), written)
    assert problem is None or caught.value.problem == problem
    assert remedy is None or caught.value.remedy == remedy


@given(st.integers(1, 10**6), st.sampled_from(["g", "kg", "mg"]))
def test_a_mass_is_the_number_times_its_unit(count: int, unit: str) -> None:
    factor = {"g": 1, "kg": 1000, "mg": 0.001}[unit]
    if count * factor <= 1e7:
        assert amount_of(food("butter_unsalted"), f"{count} {unit}").mass_g == pytest.approx(count * factor)


@given(st.integers(1000, 9_999_999), st.integers(0, 99))
def test_a_mass_is_the_same_in_every_way_to_write_its_number(whole: int, hundredths: int) -> None:
    """Marks of the Unicode Common Locale Data Repository; Eastern Arabic digits are U+0660 to U+0669."""
    grouped, part = f"{whole:,}", f"{hundredths:02}"
    ways = [
        f"{whole}.{part}", f"{whole},{part}", f"{grouped}.{part}", f"{grouped.replace(',', '.')},{part}",
        f"{grouped.replace(',', ' ')},{part}", f"{grouped.replace(',', chr(39))}.{part}",
        f"{whole}.{part}".translate({ord(str(digit)): chr(0x660 + digit) for digit in range(10)}),
    ]  # fmt: skip
    for way in ways:
        read = amount_of(food("butter_unsalted"), f"{way} g").mass_g
        assert read == pytest.approx(whole + hundredths / 100, rel=1e-12), way


@given(
    st.sampled_from(["¼", "½", "1/3", "1 ½", "2 2/3", "1,5", "0.25"]),
    st.sampled_from(["tsp", "tsps", "teaspoon", "Teaspoons", "US tsp", "us teaspoon"]),
)
def test_a_teaspoon_is_one_in_every_way_to_write_it(count: str, unit: str) -> None:
    assert amount_of(food("butter_unsalted"), f"{count} {unit}").mass_g == pytest.approx(
        float(number(count)) * 227 / 48, rel=1e-9
    )


@given(st.text(max_size=30))
def test_any_amount_is_read_or_refused(written: str) -> None:
    try:
        amount = amount_of(food("butter_unsalted"), written)
    except InputError as error:
        problem, remedy = error.problem, error.remedy
    else:
        problem, remedy = "", ""
        assert amount.mass_g > 0
    assert bool(problem) == bool(remedy)


@pytest.mark.parametrize(
    ("written", "shortest", "longest"),
    [
        ("3 min", 180, 180), ("3 to 4 min", 180, 240), ("90 s to 4 min", 90, 240), ("1 1/2 h", 5400, 5400),
        ("1/2 to 1 h", 1800, 3600), ("2 days", 172800, 172800), ("1 week", 604800, 604800), ("4 to 4 min", 240, 240),
        ("5-8 min", 300, 480), ("5 – 8 min", 300, 480), ("1½–2 h", 5400, 7200), ("45 s-1 min", 45, 60),
        ("2 h 30 min", 9000, 9000), ("1 h to 1 h 30 min", 3600, 5400),
        ("1 to 1 h 30 min", 3600, 5400), ("1 hour 30", 5400, 5400), ("5—8 minutes", 300, 480), ("5-8 Min", 300, 480),
        ("2:30 to 3:30 min", 150, 210), ("2:30 min", 150, 150), ("1,5-2 h", 5400, 7200),
    ],
)  # fmt: skip
def test_times(written: str, shortest: float, longest: float) -> None:
    assert time_range(written) == Time(shortest_s=shortest, longest_s=longest)


@pytest.mark.parametrize(
    "written",
    [
        "3",
        "3 to",
        "to 4 min",
        "3 min to",
        "3 to 4 to 5 min",
        "-3 min",
        "3-4-5 min",
        "8-5 min",
        "x to y",
        "3 to 4 g",
        "2:30",
    ],
)
def test_times_that_cannot_be_read(written: str) -> None:
    with pytest.raises(InputError):
        time_range(written)


@pytest.mark.parametrize(
    ("written", "t_c"),
    [("18 °C", 18), ("18°C", 18), ("18 degC", 18), ("64.4 °F", 18), ("-18 °C", -18), ("−18 °C", -18),
     ("0 °F", -160 / 9),
     ("32 fahrenheit", 0), ("18 C", 18), ("64.4F", 18), ("18 degrees C", 18)],
)  # fmt: skip
def test_temperatures(written: str, t_c: float) -> None:
    """t_C = (t_F - 32) * 5 / 9, by definition."""
    assert recipe({"temperature": written}).ingredients[0].temperature_c == pytest.approx(t_c, abs=1e-9)


@pytest.mark.parametrize("written", ["18", "18 K?", "18 g", "warm", "301 °C", "-61 °C", "-100 °F", "- °C"])
def test_temperatures_that_cannot_be_read(written: str) -> None:
    with pytest.raises(InputError) as caught:
        recipe({"temperature": written})
    assert caught.value.path == ("ingredients", "butter", "temperature")


@pytest.mark.parametrize(
    ("written", "place"),
    [
        ("fridge", "in the refrigerator"), ("Refrigerator", "in the refrigerator"), ("freezer", "in the freezer"),
        ("room temperature", "at room temperature"), ("counter", "at room temperature"),
        ("In The Freezer", "in the freezer"), ("the fridge", "in the refrigerator"),
        ("in fridge", "in the refrigerator"),
    ],
)  # fmt: skip
def test_places_by_other_words(written: str, place: str) -> None:
    assert recipe(storage=[{"where": written, "up_to": "5 days"}]).storage[0].where == place


@pytest.mark.parametrize(("written", "value"), [("true", True), ("FALSE", False), ("Yes", True), ("no", False)])
def test_yes_and_no_as_yaml_has_them(written: str, value: bool) -> None:
    assert recipe({"optional": written}).ingredients[0].optional is value


@pytest.mark.parametrize(
    ("written", "parts"),
    [("1", ()), ("6", (6,)), ({"butter": "6"}, (6,)), ({"butter": "1"}, ()), ({}, ())],
)
def test_what_is_divided(written: object, parts: tuple[int, ...]) -> None:
    """A number divides all that goes in, a name with a number that alone."""
    assert recipe(step={"additions": written}).stages[0].steps[0].additions == parts


def test_one_name_goes_in_without_a_list() -> None:
    assert recipe(step={"add": "butter"}) == recipe(step={"add": ["butter"]})


@pytest.mark.parametrize(
    ("written", "word"), [("Eggs", "egg"), ("soy", "soya"), ("almonds", "almond"), ("brazil nuts", "Brazil nut")]
)
def test_allergens_by_other_words(written: str, word: str) -> None:
    assert recipe(may_contain=[written]).may_contain == (word,)


@pytest.mark.parametrize(
    ("written", "remedy"),
    [
        ("gluten", "list what is in it: barley, oats, rye or wheat"),
        (
            "Nuts",
            "list what is in it: Brazil nut, almond, cashew, hazelnut, macadamia, pecan, pine nut, pistachio or walnut",
        ),
        ("shellfish", "list what is in it: crustaceans or molluscs"),
    ],
)
def test_a_word_for_several_allergens_is_answered_with_each(written: str, remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        recipe(may_contain=[written])
    assert refused.value.remedy == remedy


@pytest.mark.parametrize(("written", "speed"), [("Medium High", "medium-high"), ("med", "medium"), ("hand", "by hand")])
def test_speeds_by_other_words(written: str, speed: str) -> None:
    assert recipe(step={"speed": written}).stages[0].steps[0].speed == speed


def test_portions_are_stretched_to_the_amount_within_rounding() -> None:
    """Rounding to whole grams changes an amount by up to half a per cent (common practice, no source)."""
    parts = recipe(
        {"amount": "1/2 lb", "portions": {"a": "113 g", "b": "114 g"}}, {"add": ["butter/a", "butter/b"]}
    ).ingredients[0].portions  # fmt: skip
    assert sum(part.mass_g for part in parts) == pytest.approx(226.796185)
    assert parts[0].mass_g / parts[1].mass_g == pytest.approx(113 / 114)


@pytest.mark.parametrize(("b", "fits"), [("99 g", True), ("98.9 g", False), ("101 g", True), ("101.1 g", False)])
def test_portions_off_by_more_than_half_a_per_cent_are_refused(b: str, fits: bool) -> None:
    fields = {"portions": {"a": "100 g", "b": b}}
    if fits:
        assert recipe(fields, {"add": ["butter/a", "butter/b"]})
    else:
        with pytest.raises(InputError, match="the portions add up to"):
            recipe(fields, {"add": ["butter/a", "butter/b"]})


@pytest.mark.parametrize(
    ("written", "is_public"),
    [("Private", False), ("public", True), ({"note": "Ours."}, False), ({"show": "public"}, True)],
)
def test_a_notebook_is_private_unless_the_recipe_says_otherwise(written: object, is_public: bool) -> None:
    assert recipe(notebook=written).notebook.is_public is is_public
    assert not recipe().notebook.is_public


def test_single_line_texts_lose_their_line_breaks() -> None:
    read = recipe(title=" Butter\n  cream ", notes=["one\ntwo"])
    assert read.title == "Butter cream"
    assert read.notes == ("one\ntwo",)


@pytest.mark.parametrize(
    ("fields", "path"),
    [
        ({"published": "20260331"}, ("published",)),
        ({"published": "2026-W14-2"}, ("published",)),
        ({"published": "2026-02-29"}, ("published",)),
        ({"published": "31.3.2026"}, ("published",)),
        ({"yield": {"portions": "0", "of": "pieces"}}, ("yield", "portions")),
        ({"yield": {"portions": "1.5", "of": "pieces"}}, ("yield", "portions")),
        ({"yield": {"portions": "100001", "of": "pieces"}}, ("yield", "portions")),
        ({"tried": {"from": "2", "to": "1"}}, ("tried", "from")),
        ({"tried": {"from": "1"}}, ("tried",)),
        ({"notebook": "shared"}, ("notebook",)),
        ({"notebook": {"show": "yes"}}, ("notebook", "show")),
        ({"notebook": {"map": ["butter"]}}, ("notebook", "map")),
        ({"notebook": {"map": ["butter", "butter"]}}, ("notebook", "map")),
        ({"notebook": {"map": ["butter", "milk"]}}, ("notebook", "map", 1)),
        ({"made": "-1"}, ("made",)),
        ({"made": "often"}, ("made",)),
        ({"made": "0", "measured": {"ph": "3.2"}}, ("measured", "ph")),
        ({"made": "0", "measured": {"water_activity": "0.9"}}, ("measured", "water_activity")),
        ({"measured": {"water_activity": "1.01"}}, ("measured", "water_activity")),
        ({"measured": {"density": "0.8"}}, ("measured", "density")),
        ({"measured": {"density": "8 g/mL"}}, ("measured", "density")),
        ({"storage": [{"where": "in the refrigerator", "up_to": "5"}]}, ("storage", 0, "up_to")),
        ({"keywords": "one, two"}, ("keywords",)),
        ({"title": "\x07"}, ("title",)),
        ({"title": "\ud800"}, ("title",)),
        ({"title": "a" * 4001}, ("title",)),
        ({"title": 3}, ("title",)),
        ({"title": None}, ("title",)),
        ({"ingredients": {}}, ("ingredients",)),
        ({"stages": []}, ("stages",)),
        ({"step": {"additions": "0"}}, ("stages", 0, "steps", 0, "additions")),
        ({"step": {"additions": "101"}}, ("stages", 0, "steps", 0, "additions")),
        ({"step": {"additions": {"sugar": "2"}}}, ("stages", 0, "steps", 0, "additions", "sugar")),
        ({"step": {"additions": {"butter": "0"}}}, ("stages", 0, "steps", 0, "additions", "butter")),
        ({"step": {"add": []}}, ("stages", 0, "steps", 0, "add")),
        ({"step": {"add": ["butter/"]}}, ("stages", 0, "steps", 0, "add", 0)),
        ({"step": {"add": ["/butter"]}}, ("stages", 0, "steps", 0, "add", 0)),
        ({"step": {"add": ["butter/a/b"]}}, ("stages", 0, "steps", 0, "add", 0)),
        ({"step": {"water_lost": "-1 g"}}, ("stages", 0, "steps", 0, "water_lost")),
        ({"step": {"water_lost": "199 g"}}, ("stages", 0, "steps", 0, "water_lost")),
        ({"step": {"water_lost": "1 US cup"}}, ("stages", 0, "steps", 0, "water_lost")),
        ({"step": {"checkpoint": {"passes": [], "troubles": []}}}, ("stages", 0, "steps", 0, "checkpoint", "passes")),
        ({"stage": {"makes": "Base"}}, ("stages", 0, "makes")),
        ({"ingredient": {"kind": "butter", "composition": {}}}, ("ingredients", "butter", "kind")),
        ({"ingredient": {"composition": {}}}, ("ingredients", "butter", "composition")),
        (
            {"ingredient": {"replacements": {"x": {"kind": "lard", "grams_per_gram": "0"}}}},
            ("ingredients", "butter", "replacements", "x", "grams_per_gram"),
        ),
    ],
)  # fmt: skip
def test_a_wrong_value_is_refused_at_its_path(fields: dict[str, object], path: tuple[str | int, ...]) -> None:
    with pytest.raises(InputError) as caught:
        recipe(**fields)
    assert caught.value.path == path
    assert caught.value.problem
    assert caught.value.remedy


@pytest.mark.parametrize("data", [None, "", "recipe", [], {}, 3, {"title": {}}, {1: 2}, float("nan")])
def test_what_is_not_a_recipe_is_refused(data: object) -> None:
    with pytest.raises(InputError):
        recipe_from(data)


def test_eggs_without_a_unit_are_taken_for_large_ones_in_the_remedy() -> None:
    with pytest.raises(InputError) as error:
        amount_of(food("egg_whole_raw"), "2")
    assert error.value.remedy == "write `2 large`, or a mass"


@pytest.mark.parametrize("written", ["235 g per US cup", "1 US cup = 235 g", "US cup = 235 g", "235 g per 1 US cup"])
def test_a_density_may_be_what_a_level_cup_weighs(written: str) -> None:
    """A US cup holds 236.588 mL (nist-hb44)."""
    assert density_from(written) == pytest.approx(235 / 236.588, rel=1e-5)


@pytest.mark.parametrize("written", ["235 g per mug", "5 g per US cup", "235 per US cup"])
def test_a_density_that_cannot_be_is_refused(written: str) -> None:
    with pytest.raises(InputError):
        density_from(written)
