"""`crumbcoat readings`: what the readings of a recipe's trials say, in sentences with their bands."""

import re
from pathlib import Path

import pytest
from crumbcoat_site.command.trial_commands import readings

from tests.site_plugins.command.conftest import run
from tests.site_plugins.command.test_trials import FOLDER, RECIPE, site, write

__all__ = ["site"]


def test_nothing_read_says_what_to_read() -> None:
    done = run("readings", RECIPE)
    assert done.exit_code == 0
    assert "no readings that calibrate anything yet" in done.output
    assert readings.help is not None


def test_each_thing_has_its_value_its_band_and_what_each_trial_gives() -> None:
    for number, (to_c, cold) in enumerate(((21.0, 20), (21.5, 22), (20.8, 19)), 1):
        write(
            number,
            f"mixing: [{{at: 3.1, from: 18 °C, to: {to_c} °C, time: 8 min}}]\n"
            f"readings: [{{at: 1, mass: 170 g}}, {{temperature: 20 °C, density: 0.8{number} g/mL}}]\n"
            f"chilling: [{{from: 30 °C, to: {cold} °C, cold: 4 °C, time: 25 min}}]\n",
        )
    text = run("readings", RECIPE).output
    mixer, boiled, overrun, chilling, how = text.rstrip().split("\n\n")
    assert mixer.startswith("The mixer leaves ")
    assert " W), stage 3: from 3 readings of 3 batches.\n    trial 1 " in mixer
    assert "The recipe has no `water_lost` there." in boiled
    assert overrun.startswith("The overrun is ")
    assert "time constant of " in chilling
    assert "At 4 °C (39 °F), from 30 to 20 °C, that is 26 min." in chilling
    assert "95 %" in how


def test_one_reading_has_no_band_and_what_cannot_be_used_is_named() -> None:
    write(1, "chilling: [{from: 30 °C, to: 20 °C, cold: 4 °C, time: 25 min}]\n")
    write(2, "from: 9\n")
    text = run("readings", str(FOLDER / "1.yaml")).output
    assert "51.5 min (no band): from 1 reading of 1 batch." in text
    assert f"Not counted, since they cannot be used: {FOLDER}/2.yaml. See `crumbcoat check`." in text


def test_the_water_that_boils_off_is_compared_with_the_recipe() -> None:
    text = Path(RECIPE).read_text(encoding="utf-8")
    at = next(line for line in text.splitlines() if line.strip().startswith("- do:"))
    Path(RECIPE).write_text(text.replace(at, f"{at}\n        water_lost: 12 g", 1), encoding="utf-8")
    write(1, "readings: [{at: 1, mass: 20 g}]\n")
    write(2, "readings: [{at: 1, mass: 21 g}]\n")
    text = run("readings", RECIPE).output
    assert "of water boils off (" in text
    assert "stage 1: from 2 readings of 2 batches. The recipe says 12 g.\n" in text


@pytest.mark.parametrize("path", ["docs/recipes/oats.yaml", str(FOLDER / "7.yaml")])
def test_what_is_not_there_says_what_to_name(path: str) -> None:
    done = run("readings", path)
    assert done.exit_code == 1
    assert "Fix: " in done.output


def test_the_invented_readings_of_the_demo_are_those_of_a_kitchen() -> None:
    """A few tens of watts stay in a batch on a stand mixer (common practice, no source): it is an example to follow."""
    text = run(
        "readings", str(Path(__file__).parents[3] / "recipes" / "milk-emulsions" / "silk-milk-frosting.yaml")
    ).output
    watts = re.search(r"The mixer leaves (\d+) W in the batch \((\d+) to (\d+) W\), stage 4: from 9 readings", text)
    assert watts is not None, text
    value, low, high = map(int, watts.groups())
    assert 15 < low < value < high < 60
