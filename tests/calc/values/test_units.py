"""Units against the legal definitions (tests/reference/unit_definitions.csv) and scipy's constants; reading of text.

unit_definitions.csv: NIST Handbook 44 (US customary, from the gallon of 231 cubic inches and the inch of 25.4 mm), UK
Weights and Measures Act 1985 (imperial), 21 CFR 101.9(b)(5)(viii) (label measures); metric and Australian measures from
memory, as its `provenance` says.
"""

import csv
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.temperatures import celsius
from crumbcoat_calc.values.units import (
    dimension,
    factor,
    grams,
    is_volume,
    millilitres,
    millimetres,
    number,
    number_and_words,
    registry,
    share,
    unit_name,
    whole_number,
)
from hypothesis import given
from hypothesis import strategies as st

ROOT = Path(__file__).parents[3]
INCH_MM = Fraction("25.4")
GALLON_ML = 231 * INCH_MM**3 / 1000

with (ROOT / "tests" / "reference" / "unit_definitions.csv").open(encoding="utf-8", newline="") as file:
    DEFINED = {row["unit"]: row for row in csv.DictReader(file)}

BY_DEFINITION = {
    "us_cup": "US cup (customary)",
    "us_fluid_ounce": "US fluid ounce",
    "us_tablespoon": "US tablespoon",
    "us_teaspoon": "US teaspoon",
    "label_cup": "US cup (nutrition label)",
    "label_tablespoon": "tablespoon (nutrition label)",
    "label_teaspoon": "teaspoon (nutrition label)",
    "metric_cup": "metric cup",
    "au_tablespoon": "Australian tablespoon",
    "imperial_pint": "imperial pint",
    "imperial_fluid_ounce": "imperial fluid ounce",
    "ounce": "avoirdupois ounce",
    "pound": "avoirdupois pound",
}

DERIVED = {
    "us_pint": (GALLON_ML / 8, "millilitre"),
    "us_quart": (GALLON_ML / 4, "millilitre"),
    "metric_tablespoon": (Fraction(15), "millilitre"),
    "metric_teaspoon": (Fraction(5), "millilitre"),
    "inch": (INCH_MM, "millimetre"),
    "gram": (Fraction(1, 1000), "kilogram"),
    "kilogram": (Fraction(1000), "gram"),
    "milligram": (Fraction(1, 1000), "gram"),
    "microgram": (Fraction(1, 10**6), "gram"),
    "metre": (Fraction(100), "centimetre"),
    "centimetre": (Fraction(10), "millimetre"),
    "millimetre": (Fraction(1, 1000), "metre"),
    "litre": (Fraction(1000), "millilitre"),
    "millilitre": (Fraction(1, 1000), "litre"),
    "centilitre": (Fraction(10), "millilitre"),
    "decilitre": (Fraction(100), "millilitre"),
    "second": (Fraction(1, 60), "minute"),
    "minute": (Fraction(60), "second"),
    "hour": (Fraction(3600), "second"),
    "day": (Fraction(86400), "second"),
    "week": (Fraction(7), "day"),
    "month": (Fraction(30), "day"),
    "joule": (Fraction(1, 1000), "kilojoule"),
    "kilojoule": (Fraction(1000), "joule"),
}
OTHERWISE_CHECKED = {"kelvin", "degree_Celsius", "degree_Fahrenheit", "watt"}


def named_units() -> set[str]:
    lines = (ROOT / "calc" / "crumbcoat_calc" / "data" / "units.txt").read_text(encoding="utf-8").splitlines()
    return {line.split("=")[0].strip() for line in lines if line.strip() and not line.startswith("#")}


@pytest.mark.parametrize(("unit", "defined"), BY_DEFINITION.items())
def test_unit_has_its_defined_size(unit: str, defined: str) -> None:
    row = DEFINED[defined]
    si = {"mL": "millilitre", "g": "gram"}[row["si"]]
    assert factor(unit, si) == pytest.approx(float(row["value"]), rel=1e-12)


@pytest.mark.parametrize(("unit", "size"), list(DERIVED.items()))
def test_unit_follows_from_the_definitions(unit: str, size: tuple[Fraction, str]) -> None:
    """SI prefixes; inch 25.4 mm and gallon 231 cubic inches, exact (nist-hb44); metric spoons are common practice."""
    assert factor(unit, size[1]) == pytest.approx(float(size[0]), rel=1e-12)


def test_every_unit_is_checked_here() -> None:
    assert named_units() == set(BY_DEFINITION) | set(DERIVED) | OTHERWISE_CHECKED


@pytest.mark.parametrize(
    ("unit", "si", "name", "parts"),
    [
        ("ounce", "kilogram", "ounce", 1),
        ("pound", "kilogram", "pound", 1),
        ("inch", "metre", "inch", 1),
        ("us_fluid_ounce", "litre", "fluid_ounce_US", 1000),
        ("imperial_fluid_ounce", "litre", "fluid_ounce_imp", 1000),
        ("us_quart", "litre", "gallon_US", 1000 / 4),
        ("imperial_pint", "litre", "gallon_imp", 1000 / 8),
        ("hour", "second", "hour", 1),
        ("day", "second", "day", 1),
        ("week", "second", "week", 1),
    ],
)
def test_units_against_scipy(unit: str, si: str, name: str, parts: float) -> None:
    from scipy import constants

    assert factor(unit, si) == pytest.approx(parts * getattr(constants, name), rel=1e-9)


def test_a_watt_is_a_joule_per_second() -> None:
    """Definition (SI)."""
    assert registry().Quantity(1, "watt").to("joule / second").magnitude == pytest.approx(1)


@pytest.mark.parametrize(
    ("us", "parts"), [("us_fluid_ounce", 8), ("us_tablespoon", 16), ("us_teaspoon", 48)], ids=["8", "16", "48"]
)
def test_a_us_cup_in_smaller_measures(us: str, parts: int) -> None:
    """NIST Handbook 44, Appendix C: 1 cup = 8 fluid ounces = 16 tablespoons = 48 teaspoons."""
    assert factor("us_cup", us) == pytest.approx(parts)


def test_a_label_cup_is_not_a_us_cup() -> None:
    assert factor("label_cup", "us_cup") == pytest.approx(240 / 236.5882365)


@pytest.mark.parametrize(
    ("written", "t_c"),
    [
        ("32 °F", 0.0),
        ("212 °F", 100.0),
        ("68 °F", 20.0),
        ("-40 °F", -40.0),
        ("-18 °C", -18.0),
        ("−0.4 °F", -18.0),
        ("–5 ° C", -5.0),
        ("-.5 °C", -0.5),
        ("293.15 K", 20.0),
        ("20 degC", 20.0),
        ("20 celsius", 20.0),
        ("20 C", 20.0),
        ("20C", 20.0),
        ("20º c", 20.0),
        ("20 degrees C", 20.0),
        ("20 degrees Celsius", 20.0),
        ("68 F", 20.0),
        ("68 °F.", 20.0),
        ("-0,4 F", -18.0),
        ("20,5 °C", 20.5),
    ],
)
def test_celsius(written: str, t_c: float) -> None:
    """Definition: t/°C = (t/°F - 32) * 5/9 = T/K - 273.15; ice and steam point."""
    assert celsius(written) == pytest.approx(t_c, abs=1e-9)


@given(t_f=st.decimals(-76, 572, places=1))
def test_fahrenheit_against_scipy(t_f: float) -> None:
    from scipy import constants

    expected = constants.convert_temperature(float(t_f), "Fahrenheit", "Celsius")
    assert celsius(f"{t_f} °F") == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("words", "unit"),
    [
        *[(word, "gram") for word in ("g", "G", "gram", "grams", "g.", "gr", "grs", "grammes")],
        *[(word, "kilogram") for word in ("kg", "KG", "kilograms")],
        *[(word, "microgram") for word in ("µg", "μg", "ug", "micrograms")],
        *[(word, "ounce") for word in ("oz", "oz.", "ounce", "ounces")],
        *[(word, "pound") for word in ("lb", "lbs", "lb.", "pounds")],
        *[(word, "millilitre") for word in ("mL", "ml", "ML", "millilitres", "milliliter", "milliliters")],
        *[(word, "litre") for word in ("l", "L", "litre", "liter", "liters")],
        *[(word, "us_cup") for word in ("US cup", "US cups", "us cup", "U.S. cups", "us_cup")],
        *[(word, "us_tablespoon") for word in ("US tbsp", "US tbsps", "US tbsp.", "US tablespoons")],
        *[(word, "us_teaspoon") for word in ("US tsp", "US teaspoon", "US  tsp", "tsp", "teaspoons")],
        *[(word, "us_fluid_ounce") for word in ("US fl oz", "US fl. oz.", "US fluid ounces")],
        *[(word, "us_quart") for word in ("US quart", "US quarts", "US qt")],
        *[(word, "metric_tablespoon") for word in ("metric tbsp", "metric tablespoons")],
        ("AU tbsp", "au_tablespoon"),
        ("imperial fl oz", "imperial_fluid_ounce"),
        *[(word, "inch") for word in ("in", "inch", "inches", "in.", '"', "″")],
        *[(word, "centimetre") for word in ("cm", "centimetres", "centimeters")],
        *[(word, "metre") for word in ("m", "meter", "metres")],
        *[(word, "minute") for word in ("min", "mins", "minutes")],
        *[(word, "hour") for word in ("h", "hr", "hrs", "hours")],
        *[(word, "second") for word in ("s", "sec", "secs", "seconds")],
        *[(word, "degree_Celsius") for word in ("°C", "° C", "°c", "degC")],
        *[(word, "degree_Fahrenheit") for word in ("°F", "° F", "fahrenheit")],
        *[(word, None) for word in ("large", "sticks", "pinch", "", "gallon", "kcal", "litres of milk")],
    ],
)
def test_unit_name(words: str, unit: str | None) -> None:
    assert unit_name(words) == unit


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("cup", "US cup"),
        ("cups", "metric cup"),
        ("tbsp", "AU tbsp"),
        ("tablespoons", "US tbsp"),
        ("fl oz", "imperial fl oz"),
        ("pint", "imperial pint"),
        ("qt", "US quart"),
    ],
)
def test_an_ambiguous_measure_is_refused(words: str, named: str) -> None:
    with pytest.raises(InputError) as refused:
        unit_name(words)
    assert named in refused.value.remedy
    for offered in re.findall(r"`([^`]+)`", refused.value.remedy):
        assert unit_name(offered) is not None


@pytest.mark.parametrize("unit", sorted(named_units()))
def test_every_unit_is_found_by_its_name(unit: str) -> None:
    assert unit_name(unit.replace("_", " ")) == unit


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("2", "2"), ("0.25", "1/4"), (".5", "1/2"), ("1/2", "1/2"), ("1 1/2", "3/2"), ("1½", "3/2"), ("1 ½", "3/2"),
        ("1,5", "3/2"), ("1.234,5", "2469/2"), ("1,234,567", "1234567"), ("⅕", "1/5"),
        ("⅔", "2/3"), ("10⅜", "83/8"), ("  7  ", "7"), ("007", "7"), ("3/2", "3/2"), ("0", "0"),
    ],
)  # fmt: skip
def test_number(written: str, value: str) -> None:
    assert number(written) == Fraction(value)


@given(whole=st.integers(0, 999), top=st.integers(0, 99), bottom=st.integers(1, 99))
def test_a_mixed_number_is_the_sum_of_its_parts(whole: int, top: int, bottom: int) -> None:
    assert number(f"{whole} {top}/{bottom}") == whole + Fraction(top, bottom)


@given(value=st.decimals(0, 10**6, places=3).filter(lambda value: value != int(value)))  # 1.000 can be a thousand
def test_a_decimal_is_read_exactly(value: float) -> None:
    assert number(f"{value:f}") == Fraction(value)


@pytest.mark.parametrize(
    ("written", "problem", "remedy"),
    [
        pytest.param("-3", "negative", "minus sign", id="a minus sign"),
        pytest.param("1,000", "1000 or 1", "1000", id="a comma for thousands"),
        pytest.param("1,234", "1234 or 1.234", "1.234", id="a comma for thousands or a fraction"),
        pytest.param("1/0", "divides by zero", "another fraction", id="zero below the line"),
        pytest.param("1//2", "not a number", "1 1/2", id="two slashes"),
        pytest.param("1.", "not a number", "write a number such as", id="a point at the end"),
        pytest.param("3 1", "not a number", "write a number such as", id="two numbers"),
        pytest.param("½½", "not a number", "write a number such as", id="two fractions"),
        pytest.param("99999999999", "too large", "or less", id="beyond any kitchen"),
        pytest.param("1" * 50, "too long", "fewer", id="endless digits"),
        pytest.param("", "empty", "write a number such as", id="nothing"),
    ],
)
def test_what_is_not_a_number_is_refused(written: str, problem: str, remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        number(written)
    assert problem in refused.value.problem
    assert remedy in refused.value.remedy


@pytest.mark.parametrize(
    ("read", "written", "value"),
    [
        (grams, "250 g", 250.0),
        (grams, "250g", 250.0),
        (grams, "1½ lb", 680.388555),
        (grams, "1/2 oz", 14.1747615625),
        (grams, "0 g", 0.0),
        (millilitres, "1 US cup", 236.5882365),
        (millilitres, "1/2 metric cup", 125.0),
        (millilitres, "2 dL", 200.0),
        (millimetres, "8 in", 203.2),
        (millimetres, '8"', 203.2),
        (millimetres, "20 cm", 200.0),
        (grams, "1,5 kg", 1500.0),
        (grams, "250 gr", 250.0),
        (grams, "1 234,5 g", 1234.5),
        (millilitres, "2 tsp", 9.8578431875),
        (share, "36 %", 0.36),
        (share, "36%", 0.36),
        (share, "1/4", 0.25),
        (share, "0", 0.0),
    ],
)
def test_quantities_are_read(read: Callable[[object], float], written: str, value: float) -> None:
    assert read(written) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("read", "written", "problem", "remedy"),
    [
        pytest.param(grams, "250", "no unit", "250 g", id="no unit"),
        pytest.param(grams, "250 mL", "not a unit of mass", "", id="a volume for a mass"),
        pytest.param(grams, "12 gramm", "'gramm'", "did you mean 'gram'?", id="a slip of the pen"),
        pytest.param(grams, "1 kg of flour", "'kg of flour'", "", id="words after the unit"),
        pytest.param(grams, "20000 kg", "outside 0 to 10000000 g", "check the number", id="20 t"),
        pytest.param(grams, "g", "does not start with a number", "250 g", id="no number"),
        pytest.param(grams, "", "empty", "fill it in", id="an empty field"),
        pytest.param(grams, None, "expected text", "", id="no text"),
        pytest.param(millilitres, "1 cup", "ambiguous", "US cup", id="a cup of unknown size"),
        pytest.param(millilitres, "250 g", "not a unit of volume", "", id="a mass for a volume"),
        pytest.param(millimetres, "200 m", "outside", "check the number", id="a cake of 200 m"),
        pytest.param(celsius, "20", "no unit", "20 °C", id="a bare temperature"),
        pytest.param(celsius, "301 °C", "outside", "check the number", id="too hot"),
        pytest.param(celsius, "-61 °C", "below -60", "check the number", id="too cold"),
        pytest.param(celsius, "-5 K", "below absolute zero", "check the number", id="colder than absolute zero"),
        pytest.param(celsius, "-5 g", "not a unit of temperature", "-18 °C", id="a cold mass"),
        pytest.param(share, "101 %", "more than 100 %", "0 to 100 %", id="more than 100 %"),
        pytest.param(share, "36 g", "after the number", "36 %", id="grams for a share"),
        pytest.param(share, "%", "start with a number", "36 %", id="a sign alone"),
        pytest.param(whole_number(1, 12), "1.5", "not a whole number", "", id="half a layer"),
    ],
)
def test_what_is_not_a_quantity_is_refused(
    read: Callable[[object], float], written: object, problem: str, remedy: str
) -> None:
    with pytest.raises(InputError) as refused:
        read(written)
    assert problem in refused.value.problem
    assert remedy in refused.value.remedy
    assert refused.value.path == ()


def outcome(read: Callable[[str], object], junk: str) -> object:
    try:
        return read(junk)
    except InputError as error:
        return error


READERS = (grams, millilitres, millimetres, celsius, share, number, number_and_words, unit_name)


@given(junk=st.text(max_size=30))
def test_any_text_is_read_or_refused_and_never_fails_in_another_way(junk: str) -> None:
    for read in READERS:
        found = outcome(read, junk)
        assert not isinstance(found, InputError) or (found.problem and found.remedy)


@given(junk=st.from_regex(r"[-−]?[0-9 ./,½]{1,12} ?(g|kg|US cup|cm|°F|%|min)?", fullmatch=True))
def test_anything_like_a_quantity_too(junk: str) -> None:
    for read in READERS[:5]:
        found = outcome(read, junk)
        assert found.remedy if isinstance(found, InputError) else isinstance(found, float) and found >= -60


def test_a_name_that_measures_share_counts_where_they_agree_within_two_per_cent() -> None:
    """A bare teaspoon is a US one: a metric one holds 1.4 % more. Tablespoons of 14.8, 15 and 20 mL do not agree."""
    assert factor("metric_teaspoon", "us_teaspoon") == pytest.approx(1, abs=0.02)
    assert factor("au_tablespoon", "us_tablespoon") > 1.02
    assert factor("metric_cup", "us_cup") > 1.02


def test_dimensions() -> None:
    kinds = {"gram": "mass", "us_cup": "volume", "inch": "length", "hour": "time", "degC": "temperature"}
    assert {unit: dimension(unit) for unit in kinds} == kinds
    assert is_volume("us_tablespoon")
    assert not is_volume("stick")
    assert not is_volume("ounce")
