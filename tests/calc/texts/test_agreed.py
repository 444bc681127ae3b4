"""Texts of a mixture of which not everything is known: ranges where its ends agree, and words where they do not."""

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.texts.agreed import agreed_text

PUBLISHED = {
    "title": "Plain cream", "summary": "For a plain cake.", "author": "Lantern Street teaching kitchen",
    "family": "emulsified milk frosting", "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {
        "butter": {"kind": "butter_unsalted", "amount": "400 g"},
        "sugar": {"kind": "sugar_granulated", "amount": "300 g"},
        "milk": {"kind": "milk_whole", "amount": "299 g"},
    },
    "stages": [{"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter", "sugar", "milk"]}]}],
}  # fmt: skip


def texts_with(mass: str) -> dict[str, object]:
    """The texts of the cream with some of an ingredient of which hardly anything is known."""
    paste = {"name": "house paste", "composition": {"calcium": "100 mg"}, "amount": mass}
    step = {"do": "Beat.", "add": ["butter", "sugar", "milk", "paste"]}
    recipe = PUBLISHED | {
        "ingredients": {**PUBLISHED["ingredients"], "paste": paste},  # type: ignore[dict-item]
        "stages": [{"title": "Beat", "steps": [step]}],
    }
    return dict(run("batch", context_from({"recipe": recipe}))[1])


@pytest.mark.parametrize(
    ("ends", "text"),
    [
        (["214 g (205 to 220) of it", "216 g (206 to 221) of it"], "215 g (205 to 221) of it"),
        (["5 to 6 m", "5 to 7 m"], "5 to 7 m"),
        (["1\u202f795 kJ", "1\u202f801 kJ"], "1\u202f795 to 1\u202f801 kJ"),
        (["from 5 to 50 µm: 9", "from 5 to 50 µm: 7"], "from 5 to 50 µm: 7 to 9"),
        (["48.4 %", "48.4 % (48.1 to 48.7)"], "48.4 % (48.1 to 48.7)"),
        (["firm at 12", "soft at 12"], "open"),
        (["12 g", ""], "open"),
    ],
)
def test_numbers_become_ranges_and_words_must_agree(ends: list[str], text: str) -> None:
    assert agreed_text(ends, "open") == text


def test_a_gram_of_an_unknown_paste_hides_no_figure_of_a_kilogram() -> None:
    """Every figure that the card shows without it is there, whatever the paste is."""
    without = run("batch", context_from({"recipe": PUBLISHED}))[1]
    for name, text in texts_with("1 g").items():
        if isinstance(text, str) and name in without and "not given" not in without[name]:
            assert "not given" not in text, name
            assert "not known" not in text, name
            assert "at least" not in text, name


def test_half_a_kilogram_of_it_is_said_to_leave_things_open() -> None:
    texts = texts_with("500 g")
    assert texts["fat.percent"] == "at least 22.3 %"
    assert texts["science.syrup_strength"] == "not given: what is not known of house paste leaves it open"
    assert texts["why.syrup"] == "What is not known of house paste leaves open how strong the syrup is."
    assert "what is not known of house paste leaves it open" in str(texts["science.keeping"])
    assert str(texts["science.keeping"]).startswith("needs assessment")


def test_a_comparison_shows_ranges_of_a_recipe_of_which_not_everything_is_known() -> None:
    paste = {"name": "house paste", "composition": {"fat": "40 %", "sugars": "50 %"}, "amount": "100 g"}
    step = {"do": "Beat.", "add": ["butter", "sugar", "milk", "paste"]}
    unsure = PUBLISHED | {
        "title": "Unsure cream",
        "ingredients": {**PUBLISHED["ingredients"], "paste": paste},  # type: ignore[dict-item]
        "stages": [{"title": "Beat", "steps": [step]}],
    }
    rows = run("compare", context_from({"a": PUBLISHED, "b": unsure}))[1]["rows.compare"]
    sure_water, unsure_water = [str(row[3]) for row in rows]  # type: ignore[union-attr]
    assert sure_water == "33.6 %"
    assert unsure_water == "30.5 to 31.4 %"  # 335.5 g of water, and up to 10 g more, of 1099 g.
