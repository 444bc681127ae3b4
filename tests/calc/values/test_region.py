"""The degrees that come first, by region."""

import pytest
from crumbcoat_calc.values.display import celsius_text
from crumbcoat_calc.values.region import REGIONS, degrees_in, html_in, shown_in


@pytest.mark.parametrize("t_c", [-18, 4, 18.5, 20, 121])
def test_fahrenheit_comes_first_in_the_us_only_and_once(t_c):
    both = celsius_text(t_c)
    in_us = degrees_in("US", both)
    assert in_us.partition(" ")[2].startswith("°F (")
    assert in_us.endswith("°C)")
    assert degrees_in("US", in_us) == in_us
    assert sorted(in_us.replace("(", " ").replace(")", "").split()) == sorted(
        both.replace("(", " ").replace(")", "").split()
    )
    assert {degrees_in(region, both) for region in REGIONS if region != "US"} == {both}


def test_every_text_of_a_table_and_a_section_is_written_alike():
    shown = {
        "file.recipe": "heat_to: 20 °C",
        "a": "at 20 °C (68 °F)",
        "rows": [["x", "4 °C (39 °F)"]],
        "parts": [{"b": "20 °C (68 °F)"}],
    }
    assert shown_in("US", shown) == {
        "file.recipe": "heat_to: 20 °C",
        "a": "at 68 °F (20 °C)",
        "rows": [["x", "39 °F (4 °C)"]],
        "parts": [{"b": "68 °F (20 °C)"}],
    }
    assert shown_in("UK", shown) is shown


@pytest.mark.parametrize(
    ("text", "in_us"),
    [
        ("melts again at 25 to 35 °C.", "melts again at 77 to 95 °F (25 to 35 °C)."),
        ("18.3 °C (17.1 to 19.4) for butter", "65 °F (63 to 67) for butter"),
        ("from 18 to 30 °C (common practice)", "from 64 to 86 °F (18 to 30 °C) (common practice)"),
        ("White at 62 °C, yolk at 65 °C", "White at 144 °F (62 °C), yolk at 149 °F (65 °C)"),
        ("each may be 3 °C off", "each may be 3 °C off"),
        ("+11.9 °C", "+21 °F"),
        ("−1.6 °C, within the band", "−3 °F, within the band"),
        (
            "18 °C, 20.8 °C after 4 min of mixing (+2.8 °C).",
            "64 °F (18 °C), 69 °F (20.8 °C) after 4 min of mixing (+5 °F).",
        ),
        ("kept at -18 °C", "kept at 0 °F (-18 °C)"),
        ("cooled to 20 °C (trial 1)", "cooled to 68 °F (20 °C) (trial 1)"),
        ("from 30 °C to 20 °C", "from 86 °F (30 °C) to 68 °F (20 °C)"),
        ("no degrees", "no degrees"),
    ],
)
def test_degrees_that_are_alone_in_a_range_or_in_a_band_get_fahrenheit(text: str, in_us: str) -> None:
    assert degrees_in("US", text) == in_us
    assert degrees_in("US", in_us) == in_us
    assert degrees_in("EU", text) == text


def test_plain_cups_and_dates_are_those_of_the_us() -> None:
    html = '<input value="2 US cups"><b>2 US cups + ½ US tsp</b>, <time>20 November 2026</time>, or a metric cup'
    shown = '<input value="2 US cups"><b>2 cups + ½ tsp</b>, <time>November 20, 2026</time>, or a metric cup'
    assert html_in("US", html) == shown
    assert html_in("UK", html) == html


def test_what_is_in_a_tag_stays() -> None:
    html = '<b context="{&#34;heat_to&#34;: &#34;82 °C&#34;}" title="4 °C">4 °C</b><text>20 °C</text>'
    assert html_in("US", html) == html.replace(">4 °C<", ">39 °F (4 °C)<").replace("20 °C", "68 °F (20 °C)")
    assert html_in("UK", html) == html
