"""Rounding rules against the published tables, case by case at every boundary and a hair to each side."""

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from crumbcoat_calc.foods.label_rounding import declare
from crumbcoat_calc.label.nutrients import daily_values, nutrients
from crumbcoat_calc.values.exact import exact_decimal
from hypothesis import given
from hypothesis import strategies as st

CASES = Path(__file__).parents[2] / "reference" / "label_rounding_cases.csv"
# Cases worked by hand from 21 CFR 101.9(c), FDA Food Labeling Guide App. H, and the EC guidance of December 2012;
# the column `rule` of the file names the paragraph of each.

RULES = {
    "calories": "us-energy", "total fat": "us-fat", "saturated fat": "us-fat", "trans fat": "us-fat",
    "cholesterol": "us-cholesterol", "sodium": "us-sodium", "total carbohydrate": "us-carbohydrate",
    "added sugars": "us-carbohydrate", "dietary fiber": "us-carbohydrate", "protein": "us-protein",
    "%DV vitamin/mineral": "us-vitamin-percent", "%DV total fat (8 g declared)": "us-percent",
    "calcium amount": "us-rdi-from-250", "iron amount": "us-rdi-below-25", "vitamin C amount": "us-rdi-from-25",
    "EU energy": "eu-energy", "EU fat": "eu-nutrient", "EU saturates": "eu-saturates", "EU salt": "eu-salt",
}  # fmt: skip


def _cases():
    with CASES.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=f"{row['item']} {row['input']}")


@pytest.mark.parametrize("row", list(_cases()))
def test_published_case(row):
    declared = declare(RULES[row["item"]], Decimal(row["input"]))
    assert declared in row["declared"].split(" or ")


# From 21 CFR 101.9(c) as tabulated in the FDA Food Labeling Guide, App. H.
# `-` and `+` mean slightly below and slightly above.
BOUNDARIES = [
    ("us-energy", "0", "0"), ("us-energy", "5-", "0"), ("us-energy", "5", "5"), ("us-energy", "5+", "5"),
    ("us-energy", "7.5-", "5"), ("us-energy", "7.5", "10"), ("us-energy", "47.5-", "45"),
    ("us-energy", "50-", "50"), ("us-energy", "50", "50"), ("us-energy", "50+", "50"),
    ("us-energy", "55-", "50"), ("us-energy", "55", "60"), ("us-energy", "235-", "230"),
    ("us-energy", "235", "240"), ("us-fat", "0", "0"), ("us-fat", "0.5-", "0"), ("us-fat", "0.5", "0.5"),
    ("us-fat", "0.5+", "0.5"), ("us-fat", "0.75-", "0.5"), ("us-fat", "0.75", "1"), ("us-fat", "4.75-", "4.5"),
    ("us-fat", "4.75", "5"), ("us-fat", "5-", "5"), ("us-fat", "5", "5"), ("us-fat", "5+", "5"),
    ("us-fat", "5.5-", "5"), ("us-fat", "5.5", "6"), ("us-cholesterol", "0", "0"),
    ("us-cholesterol", "2-", "0"), ("us-cholesterol", "2", "less than 5"),
    ("us-cholesterol", "5-", "less than 5"), ("us-cholesterol", "5", "less than 5"),
    ("us-cholesterol", "5+", "5"), ("us-cholesterol", "7.5-", "5"), ("us-cholesterol", "7.5", "10"),
    ("us-sodium", "0", "0"), ("us-sodium", "5-", "0"), ("us-sodium", "5", "5"), ("us-sodium", "5+", "5"),
    ("us-sodium", "137.5-", "135"), ("us-sodium", "137.5", "140"), ("us-sodium", "140-", "140"),
    ("us-sodium", "140", "140"), ("us-sodium", "140+", "140"), ("us-sodium", "142.5", "140"),
    ("us-sodium", "145-", "140"), ("us-sodium", "145", "150"), ("us-carbohydrate", "0", "0"),
    ("us-carbohydrate", "0.5-", "0"), ("us-carbohydrate", "0.5", "less than 1"),
    ("us-carbohydrate", "1-", "less than 1"), ("us-carbohydrate", "1", "1"), ("us-carbohydrate", "1+", "1"),
    ("us-carbohydrate", "1.5-", "1"), ("us-carbohydrate", "1.5", "2"), ("us-protein", "0.5-", "0"),
    ("us-protein", "0.5", "less than 1"), ("us-protein", "1-", "less than 1"), ("us-protein", "1", "1"),
    ("us-protein", "2.5", "3"), ("us-vitamin-percent", "0", "0"), ("us-vitamin-percent", "2-", "0"),
    ("us-vitamin-percent", "2", "2"), ("us-vitamin-percent", "3-", "2"), ("us-vitamin-percent", "3", "4"),
    ("us-vitamin-percent", "10-", "10"), ("us-vitamin-percent", "10", "10"),
    ("us-vitamin-percent", "10+", "10"), ("us-vitamin-percent", "12.5-", "10"),
    ("us-vitamin-percent", "12.5", "15"), ("us-vitamin-percent", "47.5", "50"),
    ("us-vitamin-percent", "50", "50"), ("us-vitamin-percent", "50+", "50"),
    ("us-vitamin-percent", "55-", "50"), ("us-vitamin-percent", "55", "60"), ("us-percent", "0.5-", "0"),
    ("us-percent", "0.5", "1"), ("us-percent", "14.5", "15"), ("us-rdi-below-25", "0.05-", "0"),
    ("us-rdi-below-25", "0.05", "0.1"), ("us-rdi-below-25", "0.35", "0.4"), ("us-rdi-from-25", "2.5-", "2"),
    ("us-rdi-from-25", "2.5", "3"), ("us-rdi-from-250", "5-", "0"), ("us-rdi-from-250", "5", "10"),
    ("us-rdi-from-250", "25", "30"),
    # 21 CFR 101.9(b)(7), from memory: metric amount of a serving.
    ("us-serving", "0.05", "0.1"), ("us-serving", "2-", "2"), ("us-serving", "2", "2"),
    ("us-serving", "2.25-", "2"), ("us-serving", "2.25", "2.5"), ("us-serving", "5-", "5"),
    ("us-serving", "5", "5"), ("us-serving", "5.5", "6"),
    # EC guidance on tolerances, December 2012, rounding table.
    ("eu-energy", "0.5-", "0"), ("eu-energy", "0.5", "1"), ("eu-energy", "1234.5-", "1234"),
    ("eu-energy", "1234.5", "1235"), ("eu-nutrient", "0", "0"), ("eu-nutrient", "0+", "<0.5"),
    ("eu-nutrient", "0.5", "<0.5"), ("eu-nutrient", "0.5+", "0.5"), ("eu-nutrient", "0.55-", "0.5"),
    ("eu-nutrient", "0.55", "0.6"), ("eu-nutrient", "9.95-", "9.9"), ("eu-nutrient", "9.95", "10"),
    ("eu-nutrient", "10-", "10"), ("eu-nutrient", "10", "10"), ("eu-nutrient", "10.5-", "10"),
    ("eu-nutrient", "10.5", "11"), ("eu-saturates", "0", "0"), ("eu-saturates", "0.1", "<0.1"),
    ("eu-saturates", "0.1+", "0.1"), ("eu-saturates", "0.15-", "0.1"), ("eu-saturates", "0.15", "0.2"),
    ("eu-saturates", "10-", "10"), ("eu-saturates", "10", "10"), ("eu-saturates", "10.5", "11"),
    ("eu-salt", "0", "0"), ("eu-salt", "0.0125", "<0.01"), ("eu-salt", "0.0125+", "0.01"),
    ("eu-salt", "0.015-", "0.01"), ("eu-salt", "0.015", "0.02"), ("eu-salt", "1-", "1"), ("eu-salt", "1", "1"),
    ("eu-salt", "1.05-", "1"), ("eu-salt", "1.05", "1.1"),
]  # fmt: skip
HAIR = Decimal("1e-9")


@pytest.mark.parametrize(("rule", "value", "declared"), BOUNDARIES, ids=lambda part: str(part))
def test_boundary(rule, value, declared):
    number = Decimal(value.rstrip("+-")) + (HAIR if value.endswith("+") else -HAIR if value.endswith("-") else 0)
    assert declare(rule, number) == declared
    assert declare(rule, float(number)) == declared, "the same as a float"


def test_every_rule_has_its_boundaries_checked():
    used = {nutrient.rule for regime in ("us", "eu") for nutrient in nutrients(regime)}
    assert used <= {rule for rule, _, _ in BOUNDARIES}


SMALLEST_NUMBER_STEP = {  # the increment that holds at and above the number, from the same tables
    "us-energy": [(5, 5), (50.0000001, 10)], "us-fat": [(0.5, 0.5), (5, 1)], "us-sodium": [(5, 5), (140.0000001, 10)],
    "us-carbohydrate": [(1, 1)], "us-protein": [(1, 1)], "us-cholesterol": [(5.0000001, 5)],
    "eu-nutrient": [(0.5000001, 0.1), (10, 1)], "eu-saturates": [(0.1000001, 0.1), (10, 1)],
    "eu-salt": [(0.0125001, 0.01), (1, 0.1)], "eu-energy": [(0, 1)],
}  # fmt: skip


@given(
    st.sampled_from(sorted(SMALLEST_NUMBER_STEP)),
    st.decimals(0, 5000, places=6, allow_nan=False, allow_infinity=False),
)
def test_declared_is_the_nearest_multiple_of_the_increment_and_halves_go_up(rule, value):
    steps = [step for lowest, step in SMALLEST_NUMBER_STEP[rule] if value >= Decimal(str(lowest))]
    declared = declare(rule, value)
    if not steps:
        assert declared == "0" or declared.startswith(("less than ", "<"))
        return
    step = Decimal(str(steps[-1]))
    assert Decimal(declared) % step == 0
    assert -step / 2 < Decimal(declared) - value <= step / 2


@given(st.sampled_from(sorted(SMALLEST_NUMBER_STEP)), st.floats(0, 5000), st.floats(0, 5000))
def test_more_never_declares_less(rule, one, other):
    low, high = (declare(rule, value) for value in sorted((one, other)))
    if low[0].isdigit() and high[0].isdigit():
        assert Decimal(low) <= Decimal(high)


def test_float_noise_does_not_move_a_half():
    assert declare("us-fat", 4.75 - 1e-14) == "5"
    assert exact_decimal(0.1 + 0.2) == Decimal("0.3")


def test_a_negative_amount_is_a_bug_of_ours():
    with pytest.raises(ValueError, match="cannot declare"):
        declare("us-fat", -0.1)


def test_amount_rule_of_vitamins_and_minerals_fits_their_daily_value():
    """FDA guidance of 2019: RDI below 25 nearest 0.1; from 25 nearest 1; from 250 nearest 10 (the last from memory)."""
    for nutrient in nutrients("us"):
        if nutrient.rule.startswith("us-rdi"):
            value = daily_values()[nutrient.daily_value]
            fitting = "us-rdi-below-25" if value < 25 else "us-rdi-from-25" if value < 250 else "us-rdi-from-250"
            assert nutrient.rule == fitting, nutrient.key


def test_old_daily_values_are_gone():
    """The values before the 2016 rule: 65 g fat, 2400 mg sodium, 300 g carbohydrate."""
    values = daily_values()
    assert (values["total fat"], values["sodium"], values["total carbohydrate"]) == (78, 2300, 275)
