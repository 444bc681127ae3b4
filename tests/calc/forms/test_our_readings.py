"""Our own readings beside a recipe: read from the context, and what a reader sees of them before and after an edit."""

import pytest
from crumbcoat_calc.calculators import batch, run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import Context, context_from
from crumbcoat_calc.forms.our_readings import our_readings_from

from tests.calc.trials.test_notebook import RECIPE

READINGS = {
    "mixer": ["63", "55.2", "71", "6"],
    "overrun": ["35", "31", "39", "5"],
    "chilling": ["54.8", "50", "60", "4"],
}
UNMEASURED = {name: value for name, value in RECIPE.items() if name != "measured"}


def context(readings: object = READINGS) -> Context:
    return context_from({"recipe": UNMEASURED, "readings": readings})


def texts(state: dict[str, str] | None = None, readings: object = READINGS) -> dict[str, object]:
    return dict(run("batch", context(readings), state or {})[1])


def test_a_card_shows_them_with_the_number_of_batches() -> None:
    shown = texts()
    assert shown["mixer_watts"] == "63"
    assert shown["ours.mixer"] == "The watts are from 6 of our batches: our mixer leaves 63 W in them (55 to 71)."
    assert shown["ours.chilling"] == (
        "Until you give yours, our bowl counts: its time constant is 55 min (50 to 60), from 4 of our batches."
    )
    assert shown["science.overrun"] == "35 % (31 to 39), from 5 of our batches; weigh a cup of yours"


def test_without_them_nothing_changes() -> None:
    bare = dict(run("batch", context_from({"recipe": UNMEASURED}), {})[1])
    assert texts(readings={}) == bare
    assert bare["mixer_watts"] == ""
    assert not [name for name in bare if name.startswith("ours.")]


def test_a_time_to_chill_comes_from_our_bowl_until_the_reader_gives_readings() -> None:
    """Newton's law by hand: 26 to 20 °C at 4 °C takes tau ln(22/16): 17.5 min at 54.8, 15.9 at 50, 19.1 at 60."""
    warm = {"bowl_temperature": "26", "target_temperature": "20"}
    chilling = str(texts(warm)["science.chilling"])
    assert chilling.startswith("17 min (16 to 19) from 26 °C")
    assert chilling.endswith("in our bowl and refrigerator (from 4 of our batches), then whisk again")
    own = warm | {"chilled_from": "28", "chilled_to": "24", "chilled_minutes": "10"}
    assert "our" not in str(texts(own)["science.chilling"])
    assert str(texts(warm | {"target_temperature": "3"})["science.chilling"]).startswith("not given: a bowl in")


def test_the_watts_work_once_there_are_minutes_and_a_reader_s_own_replace_them() -> None:
    still, mixed = texts(), texts({"mixer_minutes": "10"})
    own = texts({"mixer_minutes": "10", "mixer_watts": "63"})
    assert still["science.mixing_temperature"] == texts(readings={})["science.mixing_temperature"]
    assert mixed["science.mixing_temperature"] != still["science.mixing_temperature"]
    assert mixed["science.mixing_temperature"] == own["science.mixing_temperature"]
    kept = [batch.form_state(batch.read(context(), {"mixer_watts": watts})) for watts in ("63", "80")]
    assert kept == [{}, {"mixer_watts": "80"}]


def test_one_batch_has_no_band() -> None:
    shown = texts(readings={"mixer": ["63", "1"], "overrun": ["35", "1"]})
    assert shown["ours.mixer"] == "The watts are from one of our batches: our mixer leaves 63 W in them."
    assert shown["science.overrun"] == "35 %, from one of our batches; weigh a cup of yours"
    shown = texts(readings={"mixer": ["63", "55", "71", "6"], "mixer_stage": "2"})
    assert str(shown["ours.mixer"]).endswith("our mixer leaves 63 W in them in stage 2 (55 to 71).")


@pytest.mark.parametrize(("readings", "path"), [({"mixer": ["63"]}, ("mixer",)), ({"oven": ["1", "1"]}, ("oven",))])
def test_what_a_site_cannot_have_made_is_refused(readings: object, path: tuple[str, ...]) -> None:
    with pytest.raises(InputError) as caught:
        our_readings_from(readings)
    assert caught.value.path == path
    with pytest.raises(InputError) as caught:
        context(readings)
    assert caught.value.path == ("readings", *path)
