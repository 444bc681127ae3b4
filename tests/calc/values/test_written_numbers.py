"""Numbers as people write them, against what Unicode says of digits and fractions and CLDR of marks."""

import unicodedata
from fractions import Fraction

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.form_fields import state_number
from crumbcoat_calc.values.units import number
from crumbcoat_calc.values.written_numbers import plain_numbers
from hypothesis import given
from hypothesis import strategies as st

EVERY = range(0x110000)
"""The numbers of all characters."""

MARKS = {
    "en": (".", ",", "0"),
    "de": (",", ".", "0"),
    "de-CH": (".", "\u2019", "0"),
    "fr": (",", "\u202f", "0"),
    "pl": (",", "\u00a0", "0"),
    "pt": (",", ".", "0"),
    "ar-EG": ("\u066b", "\u066c", "\u0660"),
    "fa": ("\u066b", "\u066c", "\u06f0"),
    "mr": (".", ",", "\u0966"),
    "a full-width keyboard": ("\uff0e", "\uff0c", "\uff10"),
    "a thin space": (".", "\u2009", "0"),
    "an ordinary space": (",", " ", "0"),
}
"""Decimal mark, grouping mark and zero; those of a locale from Unicode CLDR 44, common/main, numbers/symbols."""


@pytest.mark.parametrize("marks", MARKS.values(), ids=MARKS.keys())
@given(whole=st.integers(1000, 10**9 - 1), fraction=st.text("0123456789", min_size=1, max_size=4))
def test_a_number_with_both_marks_is_read_as_its_locale_writes_it(
    marks: tuple[str, str, str], whole: int, fraction: str
) -> None:
    """CLDR, pattern `#,##0.###`."""
    decimal, group, zero = marks
    shown = f"{whole:,}".replace(",", group) + decimal + fraction
    written = "".join([chr(ord(zero) + int(sign)) if sign in "0123456789" else sign for sign in shown])
    assert plain_numbers(written) == f"{whole}.{fraction}"


@pytest.mark.parametrize("group", sorted({group for _, group, _ in MARKS.values()}))
@given(whole=st.integers(10**6, 10**9 - 1))
def test_several_marks_alone_separate_thousands(group: str, whole: int) -> None:
    assert plain_numbers(f"{whole:,}".replace(",", group)) == str(whole)


@given(lakhs=st.integers(1, 99), thousands=st.integers(0, 99), rest=st.integers(0, 999))
def test_thousands_are_separated_in_the_indian_way(lakhs: int, thousands: int, rest: int) -> None:
    """CLDR, hi, pattern `#,##,##0.###`."""
    assert plain_numbers(f"{lakhs},{thousands:02},{rest:03}") == f"{lakhs}{thousands:02}{rest:03}"


def test_the_digits_of_every_script_are_known() -> None:
    """Unicode: the general category Nd, and the value of each."""
    digits = [sign for sign in map(chr, EVERY) if unicodedata.category(sign) == "Nd"]
    assert len(digits) > 500
    assert [plain_numbers(sign) for sign in digits] == [str(unicodedata.decimal(sign)) for sign in digits]


def test_every_vulgar_fraction_is_known() -> None:
    """Unicode: the characters that are called so, and the value of each."""
    signs = [sign for sign in map(chr, EVERY) if unicodedata.name(sign, "").startswith("VULGAR FRACTION")]
    assert len(signs) > 15
    values = [Fraction(unicodedata.numeric(sign)).limit_denominator(100) for sign in signs]
    assert [number(plain_numbers(sign)) for sign in signs] == values
    assert [number(plain_numbers(f"2{sign}")) for sign in signs] == [2 + value for value in values]


@given(st.floats(0, 10**9))
def test_a_number_of_a_form_state_is_read_as_it_is(value: float) -> None:
    assert plain_numbers(state_number(value)) == state_number(value)


@pytest.mark.parametrize(
    ("written", "plain"),
    [
        ("1,5 kg", "1.5 kg"),
        (",5", ".5"),
        ("0,125", "0.125"),
        ("1234,567", "1234.567"),
        ("1.234", "1.234"),
        ("1.500 kg", "1.500 kg"),
        ("0.000", "0.000"),
        ("1000.000", "1000.000"),
        ("1.0000", "1.0000"),
        ("1 234 g", "1234 g"),
        ("1 234,567 g", "1234.567 g"),
        ("1 1/2 US cups", "1 1/2 US cups"),
        ("1⁄2", "1/2"),
        ("1,5 US cups, sifted", "1.5 US cups, sifted"),
        ("1 lb 2,5 oz", "1 lb 2.5 oz"),
        ("\u200f١٢ g", "12 g"),
        ("18:00", "18:00"),
        ("2026-01-19", "2026-01-19"),
    ],
)
def test_what_is_around_a_number_stays(written: str, plain: str) -> None:
    assert plain_numbers(written) == plain


@pytest.mark.parametrize(
    ("written", "thousands", "fraction"),
    [
        ("1,234", "1234", "1.234"),
        ("12,345 g", "12345", "12.345"),
        ("999,000", "999000", "999"),
        ("1.000 g", "1000", "1"),
        ("250.000", "250000", "250"),
        ("1 lb 2.000 oz", "2000", "2"),
        ("١٫٠٠٠", "1000", "1"),
    ],
)
def test_a_mark_that_can_be_either_is_refused_with_both_readings(written: str, thousands: str, fraction: str) -> None:
    with pytest.raises(InputError) as error:
        plain_numbers(written)
    assert error.value.problem.endswith(f" can mean {thousands} or {fraction}")
    assert error.value.remedy == f"write {thousands!r} or {fraction!r}"
    assert [plain_numbers(thousands), plain_numbers(fraction)] == [thousands, fraction]


@pytest.mark.parametrize("written", ["1.2,3", "1,2,3", "1.5.2", "1,23.4,5", "0,123,456"])
def test_marks_where_no_number_has_them_are_refused(written: str) -> None:
    with pytest.raises(InputError):
        plain_numbers(written)
