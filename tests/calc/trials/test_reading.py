"""Trial files, field by field: what is read, and the place, problem and remedy of what is not."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.trials.model import NOT_MADE, Place
from crumbcoat_calc.trials.reading import trial_from

from tests.calc.trials.whole_trial import SMALLEST, WHOLE


def test_every_field_is_read() -> None:
    trial = trial_from(WHOLE)
    assert (trial.number, trial.date, trial.came_from, trial.recipe_mark) == (3, "2026-11-24", "2", "0a1b2c3d")
    assert trial.changed.ingredients == {
        "sugar": {"amount": "130 g"},
        "salt": NOT_MADE,
        "gum": {"kind": "cornstarch", "amount": "1 g", "add_at": "1.2"},
    }
    assert trial.changed.steps == {
        Place(stage=0, step=2): {"time": "4 min", "tool": "whisk"},
        Place(stage=1, step=0): NOT_MADE,
    }
    heated, weighed, finished, spread = trial.readings
    assert (heated.at, heated.temperature_c) == (Place(stage=0, step=2), 61)
    assert (weighed.at, weighed.mass_g) == (Place(stage=0), 480)
    assert (finished.at, finished.density_g_per_ml, finished.brix_percent) == (None, 0.85, pytest.approx(48.5))
    assert (spread.spread_mm, spread.penetration_mm) == (34, 12)
    assert (trial.mixing[0].time_s, trial.chilling[0].cold_c, trial.seen[0].worked) == (480, 4, True)
    kept, stood, piped = trial.tests
    assert (kept.where, kept.time_s, kept.weeping_mm, kept.did) == ("in the refrigerator", 259200, 2, "wept")
    assert (stood.where, stood.height_lost_mm, piped.rosettes) == ("on a table in the sun", 3, 14)
    assert [(tasting.scale, tasting.marks) for tasting in trial.tasted] == [(9, (7, 8, 6)), (5, (3,))]
    assert [(one.test, one.against, one.people, one.count) for one in trial.compared] == [
        ("triangle", 2, 12, 9),
        ("paired", 2, 12, 8),
    ]
    assert (trial.plan, trial.code) == (1, "417")
    assert (trial.did, trial.verdict, trial.pictures[0].shot) == ("wept", "go on from here", "cut edge")


def test_a_number_and_a_date_are_enough() -> None:
    trial = trial_from(SMALLEST)
    assert (trial.changed.ingredients, trial.weighed, trial.readings, trial.verdict) == ({}, {}, (), None)


@pytest.mark.parametrize(
    ("fields", "path", "problem", "remedy"),
    [
        ({"number": "0"}, ("number",), "from 1 to 9999", "such as `3`"),
        ({"date": "24 Nov"}, ("date",), "not a date", "2026-03-31"),
        ({"from": "the first"}, ("from",), "neither the number", "such as `3`"),
        ({"verdict": "maybe"}, ("verdict",), "not an option", "go on from here"),
        ({"did": "melted"}, ("did",), "not an option", "slumped"),
        (
            {"changed": {"ingredients": {"sugar": {}}}},
            ("changed", "ingredients", "sugar"),
            "nothing is changed",
            "amount",
        ),
        (
            {"changed": {"ingredients": {"Sugar!": "1 g"}}},
            ("changed", "ingredients", "Sugar!"),
            "short name",
            "lower-case",
        ),
        (
            {"changed": {"ingredients": {"gum": {"add_at": "2"}}}},
            ("changed", "ingredients", "gum", "add_at"),
            "a stage",
            "2.1",
        ),
        ({"changed": {"steps": {"one": "left out"}}}, ("changed", "steps", "one"), "not a place", "2.3"),
        ({"changed": {"steps": {"0.1": "left out"}}}, ("changed", "steps", "0.1"), "not a place", "2.3"),
        ({"changed": {"steps": {"1.1": "quicker"}}}, ("changed", "steps", "1.1"), "not a change", "left out"),
        (
            {"changed": {"steps": {"1.1": {"tme": "4 min"}}}},
            ("changed", "steps", "1.1", "tme"),
            "unknown field",
            "time",
        ),
        ({"readings": [{"at": "1.1"}]}, ("readings", 0), "nothing was read", "temperature"),
        (
            {"readings": [{"density": "0.8 g/mL", "cup_weighs": "200 g"}]},
            ("readings", 0, "density"),
            "both",
            "keep one",
        ),
        ({"readings": [{"cup": "mug", "cup_weighs": "200 g"}]}, ("readings", 0, "cup"), "not a measure", "US cup"),
        ({"readings": [{"cup_weighs": "2 kg"}]}, ("readings", 0, "cup_weighs"), "not a possible density", "level"),
        ({"readings": [{"brix": "148"}]}, ("readings", 0, "brix"), "148", "100"),
        (
            {"chilling": [{"from": "20 °C", "to": "25 °C", "cold": "4 °C", "time": "5 min"}]},
            ("chilling", 0, "to"),
            "does not cool",
            "cold",
        ),
        ({"mixing": [{"from": "20 °C", "to": "25 °C", "time": "0 min"}]}, ("mixing", 0, "time"), "not a time", "8 min"),
        (
            {"seen": [{"at": "1.1", "sign": "Grains.", "worked": "no"}]},
            ("seen", 0, "worked"),
            "none is given",
            "remedy",
        ),
        ({"tests": [{"test": "dropping", "did": "held"}]}, ("tests", 0, "test"), "not an option", "keeping"),
        ({"tasted": [{"attribute": "liking", "marks": ["10"]}]}, ("tasted", 0, "marks", 0), "from 1 to 9", "such as"),
        (
            {"tasted": [{"attribute": "liking", "scale": "7", "marks": ["1"]}]},
            ("tasted", 0, "scale"),
            "not one of ours",
            "hedonic",
        ),
        (
            {"compared": [{"test": "triangle", "against": "1", "people": "9", "chose": "3"}]},
            ("compared", 0, "chose"),
            "not of a triangle test",
            "`right`: how many found the odd one",
        ),
        (
            {"compared": [{"test": "paired", "against": "1", "people": "9", "chose": "10"}]},
            ("compared", 0, "chose"),
            "from 0 to 9",
            "such as",
        ),
        ({"plan": "0"}, ("plan",), "from 1 to 999", "such as"),
        ({"pictures": [{"file": "../a.jpg"}]}, ("pictures", 0, "file"), "beside this one", "ending"),
        ({"fat": "30 %"}, ("fat",), "unknown field", ""),
    ],
)
def test_what_cannot_be_read_has_place_problem_and_remedy(
    fields: dict[str, object], path: tuple[str | int, ...], problem: str, remedy: str
) -> None:
    with pytest.raises(InputError) as caught:
        trial_from(SMALLEST | fields)
    assert caught.value.path == path
    assert problem in caught.value.problem
    assert remedy in caught.value.remedy
