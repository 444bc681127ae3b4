"""The degrees that come first, by region."""

import pytest
from crumbcoat_calc.values.display import celsius_text
from crumbcoat_calc.values.region import REGIONS, degrees_in, shown_in


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
    shown = {"a": "at 20 °C (68 °F)", "rows": [["x", "4 °C (39 °F)"]], "parts": [{"b": "20 °C (68 °F)"}]}
    assert shown_in("US", shown) == {
        "a": "at 68 °F (20 °C)",
        "rows": [["x", "39 °F (4 °C)"]],
        "parts": [{"b": "68 °F (20 °C)"}],
    }
    assert shown_in("UK", shown) is shown
