"""Costs in decimals: worked by hand, compared with exact fractions, and every wrong line of a price file."""

from decimal import Decimal
from fractions import Fraction

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.purchasing.cost import cost_of, money_text
from crumbcoat_calc.purchasing.prices import COLUMNS, currencies, prices_from, read_prices
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

HEADER = ",".join(COLUMNS)
FILE = f"""# invented prices of a test
{HEADER}
butter_unsalted,250 g,2.79,EUR,2026-01-31,invented
sugar_powdered,500 g,1.15,EUR,2025-11-02,
milk_whole,1 L,1.19,EUR,2026-02-01,"from the farm, invented"
House Butter,1 kg,13.00,EUR,2026-02-02,
"""


def _recipe(**ingredients):
    return recipe_from(
        {
            "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
            "yield": {"portions": "8", "of": "portions"},
            "ingredients": ingredients,
            "stages": [{"title": "Beat", "steps": [{"do": "Beat.", "add": list(ingredients)}]}],
        }
    )  # fmt: skip


FROSTING = _recipe(
    butter={"kind": "butter_unsalted", "amount": "200 g"},
    sugar={"kind": "sugar_powdered", "amount": "300 g"},
    milk={"kind": "milk_whole", "amount": "30 g"},
    vanilla={"kind": "vanilla_extract", "amount": "5 g"},
    water={"kind": "water_tap", "amount": "10 g"},
)


def test_cost_by_hand():
    """200/250 x 2.79 = 2.232; 300/500 x 1.15 = 0.69; 30 g of 1 L = 1031.33 g x 1.19 = 0.0346; vanilla has no price."""
    cost = cost_of(batch_of(FROSTING), prices_from(FILE), cake_g=109.0)
    assert [line.cost and round(line.cost, 4) for line in cost.lines] == [
        Decimal("2.2320"), Decimal("0.6900"), Decimal("0.0346"), None,
    ]  # fmt: skip
    assert money_text(cost.batch, cost.currency) == "2.96 EUR"
    assert money_text(cost.per_portion, cost.currency) == "0.37 EUR"
    assert money_text(cost.per_kg, cost.currency) == "5.42 EUR"  # 2.95661 / 0.545 = 5.42498
    assert cost.per_cake is not None
    assert money_text(cost.per_cake, cost.currency) == "0.59 EUR"  # a fifth of 545 g
    assert cost.missing == ("vanilla extract",)
    assert (cost.oldest, cost.newest) == ("2025-11-02", "2026-02-01")


def test_a_price_by_name_overrides_the_price_of_the_kind():
    recipe = _recipe(
        house={"kind": "butter_unsalted", "name": "house butter", "amount": "100 g"},
        own={"kind": "butter_unsalted", "name": "rich butter", "composition": {"fat": "84 %"}, "amount": "100 g"},
    )
    cost = cost_of(batch_of(recipe), prices_from(FILE))
    assert cost.lines[0].cost == Decimal("1.3")
    assert cost.missing == ("rich butter",), "a different composition is a different product"


@given(st.integers(1, 100000), st.integers(1, 100000), st.floats(0.01, 100))
def test_cost_is_the_exact_sum_and_grows_with_the_batch(cents, pack_g, factor):
    recipe = _recipe(
        butter={"kind": "butter_unsalted", "amount": "200 g"}, sugar={"kind": "sugar_powdered", "amount": "300 g"}
    )
    price = Decimal(cents) / 100
    prices = prices_from(
        f"{HEADER}\nbutter_unsalted,{pack_g} g,{price},EUR,2026-01-01,\nsugar_powdered,1 g,0.01,EUR,2026-01-01,"
    )
    single = cost_of(batch_of(recipe), prices)
    scaled = cost_of(batch_of(recipe, BatchOptions(factor=factor)), prices)
    exactly = Fraction(cents, 100) * 200 / pack_g + 3
    assert abs(Fraction(single.batch) - exactly) < Fraction(1, 10**12)
    assert float(scaled.batch) == pytest.approx(float(single.batch) * factor, rel=1e-6)
    assert float(scaled.per_kg) == pytest.approx(float(single.per_kg), rel=1e-6)
    assert float(scaled.per_portion) == pytest.approx(float(single.per_portion), rel=1e-6)
    assert single.missing == ()


def test_ten_times_a_tenth_is_one():
    """Binary floats get this wrong: ten ingredients at 0.10 cost exactly 1.00."""
    names = [f"part {letter}" for letter in "abcdefghij"]
    recipe = _recipe(**{f"p{n}": {"kind": "salt_table", "name": name, "amount": "1 g"} for n, name in enumerate(names)})
    lines = "\n".join(f"{name},1 g,0.10,USD,2026-01-01," for name in names)
    assert cost_of(batch_of(recipe), prices_from(f"{HEADER}\n{lines}")).batch == Decimal("1")


GOOD = "butter_unsalted,250 g,2.79,EUR,2026-01-31,"


@pytest.mark.parametrize(
    ("content", "path", "remedy"),
    [
        pytest.param("", ("line", 1), f"start it with the line `{HEADER}`", id="empty file"),
        pytest.param("item;pack\n", ("line", 1), f"write `{HEADER}`", id="wrong header"),
        pytest.param(HEADER, ("line", 1), "add a line below the header", id="header alone"),
        pytest.param(
            f"{HEADER}\n{GOOD}\nsugar_powdered,500 g,1.15,USD,2026-01-31,",
            ("line", 3, "currency"),
            "convert every price to one currency, such as `EUR`",
            id="two currencies",
        ),
        pytest.param(f"{HEADER}\n{GOOD}\n{GOOD}", ("line", 3, "item"), "keep one of the two", id="repeated item"),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,2,79,EUR,2026-01-31,",
            ("line", 2),
            "use a decimal point in numbers, and put text with a comma in quotes",
            id="decimal comma",
        ),
        pytest.param(
            f"{HEADER}\n\n# note\nbutter_unsalted,250 g,-2.79,EUR,2026-01-31,",
            ("line", 4, "price"),
            "write a number with a decimal point, such as `2.35`",
            id="negative price, counted with comments and blank lines",
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,1e3,EUR,2026-01-31,",
            ("line", 2, "price"),
            "write a number with a decimal point, such as `2.35`",
            id="price with an exponent",
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,NaN,EUR,2026-01-31,",
            ("line", 2, "price"),
            "write a number with a decimal point, such as `2.35`",
            id="price that is not a number",
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,0 g,2.79,EUR,2026-01-31,",
            ("line", 2, "pack"),
            "use more than zero, or leave it out",
            id="empty pack of a kind",
        ),
        pytest.param(
            f"{HEADER}\nmy butter,0 g,2.79,EUR,2026-01-31,",
            ("line", 2, "pack"),
            "write its contents, such as `1 kg`",
            id="empty pack of a name",
        ),
        pytest.param(
            f"{HEADER}\nmy butter,1 L,2.79,EUR,2026-01-31,", ("line", 2, "pack"), None, id="volume of an unknown food"
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,2.79,eur,2026-01-31,",
            ("line", 2, "currency"),
            "did you mean 'EUR'?",
            id="lower-case letters",
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,2.79,EUR,31.1.2026,",
            ("line", 2, "date"),
            "write it like `2026-03-31` (ISO 8601)",
            id="date in another format",
        ),
        pytest.param(
            f"{HEADER}\nbutter_unsalted,250 g,2.79,EUR,2026-02-30,",
            ("line", 2, "date"),
            "write it like `2026-03-31` (ISO 8601)",
            id="a day that does not exist",
        ),
        pytest.param(f"{HEADER}\n,250 g,2.79,EUR,2026-02-20,", ("line", 2, "item"), None, id="no item"),
        pytest.param(
            f'{HEADER}\n"butter,250 g,2.79,EUR,2026-02-20,', ("line", 2), "add the closing quote", id="open quote"
        ),
    ],
)
def test_wrong_price_file(content, path, remedy):
    with pytest.raises(InputError) as caught:
        prices_from(content)
    assert caught.value.path == path
    assert remedy is None or caught.value.remedy == remedy


NAMED = f"""{HEADER}
heavy cream,473 mL,2.79,USD,2026-01-31,
icing sugar,1 lb,1.15,USD,2025-11-02,
House Butter,1 kg,13.00,USD,2026-02-02,
"""


def test_an_item_may_have_any_name_of_its_kind() -> None:
    """Packs by volume too: usda-sr28 01053 has 238 g in a US cup of 236.588 mL; by hand 473 mL are 475.8 g."""
    prices = prices_from(NAMED)
    cream = prices.of("cream_heavy_whipping", "cream")
    assert cream is not None
    assert cream.pack_g == pytest.approx(473 * 238 / 236.588, rel=1e-4)
    assert prices.of("sugar_powdered", "anything") is prices.of(None, "Icing Sugar")
    assert prices.of("butter_unsalted", "butter") is None


def test_a_fluid_ounce_is_that_of_the_region() -> None:
    """usda-sr28 01053: a US fluid ounce of whipping cream weighs 29.8 g."""
    line = f"{HEADER}\nheavy cream,16 fl oz,2.79,USD,2026-01-31,"
    prices, problems = read_prices(line, "US")
    assert prices is not None
    assert problems == []
    cream = prices.by_kind["cream_heavy_whipping"]
    assert (cream.pack, cream.pack_g) == ("16 US fl oz", pytest.approx(16 * 29.8))
    assert [problem.path for problem in read_prices(line, "EU")[1]] == [("line", 2, "pack")]


def test_a_kind_by_its_key_comes_before_a_name_of_it() -> None:
    lines = "icing sugar,1 kg,2.00,USD,2026-01-31,\nsugar_powdered,1 kg,1.00,USD,2026-01-31,"
    prices = prices_from(f"{HEADER}\n{lines}")
    for name, price in (("sugar", "1.00"), ("icing sugar", "2.00")):
        found = prices.of("sugar_powdered", name)
        assert found is not None
        assert found.price == Decimal(price)


def test_every_wrong_line_is_found() -> None:
    wrong = [
        "heavy cream,1 L,free,USD,2026-01-31,", "our cream,1 pint,2,USD,2026-01-31,", GOOD, "x,1 kg,1,USD,2026-01-31,",
        "icing sugar,1 kg,1,EUR,2026-01-31,", "powdered sugar,1 kg,1,EUR,2026-01-31,", "y,1 kg,1,EUR,today,",
    ]  # fmt: skip
    prices, problems = read_prices("\n".join([HEADER, *wrong]))
    assert prices is None
    assert [problem.path for problem in problems] == [
        ("line", 2, "price"), ("line", 3, "pack"), ("line", 5, "currency"), ("line", 7, "item"), ("line", 8, "date"),
    ]  # fmt: skip
    assert problems[3].problem == "'powdered sugar' and 'icing sugar' are the same kind, `sugar_powdered`"


@pytest.mark.parametrize(
    ("item", "pack", "problem", "remedy"),
    [
        (
            "our cream", "16 fl oz",
            "'our cream' is not in the ingredient table, so what '16 fl oz' of it weighs is not known",
            "write the mass of the pack, such as `500 g`, or a kind as the item, such as `cream_",
        ),
        (
            "butter", "1 US cup", "'butter' is the name of several kinds, so what '1 US cup' of it weighs is not known",
            "write the mass of the pack, such as `500 g`, or a kind as the item, such as `butter_salted` or `butter_",
        ),
        ("heavy cream", "16 fl oz", "'fl oz' is ambiguous", "say which one: `US fl oz` (29.6 mL) or "),
    ],
)  # fmt: skip
def test_what_a_pack_of_no_known_kind_weighs_is_not_known(item: str, pack: str, problem: str, remedy: str) -> None:
    _, problems = read_prices(f"{HEADER}\n{item},{pack},2.79,USD,2026-01-31,")
    assert [found.problem for found in problems] == [problem]
    assert problems[0].remedy.startswith(remedy)


def test_a_cake_of_nothing():
    with pytest.raises(InputError) as caught:
        cost_of(batch_of(FROSTING), prices_from(FILE), cake_g=0.0)
    assert caught.value.path == ("cake",)


@pytest.mark.parametrize(("amount", "shown"), [("0.005", "0.01 EUR"), ("0.0049", "0.00 EUR"), ("1.125", "1.13 EUR")])
def test_halves_of_a_cent_go_up(amount, shown):
    assert money_text(Decimal(amount), "EUR") == shown


def test_minor_units():
    """ISO 4217, from memory: the dinar of Kuwait has three decimals, the yen none."""
    assert (currencies()["KWD"], currencies()["JPY"], currencies()["GBP"]) == (3, 0, 2)
