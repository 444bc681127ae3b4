"""`crumbcoat next-trial`: the sentence, and the trial file that is ready to weigh."""

import yaml

from tests.site_plugins.command.conftest import run
from tests.site_plugins.command.test_trials import FOLDER, RECIPE, site, write

__all__ = ["site"]


def test_the_suggestion_becomes_a_trial_file_that_is_right() -> None:
    write(1, "did: held\n")
    write(2, "changed: {ingredients: {butter: 150 g}}\ndid: split\n")
    said = run("next-trial", RECIPE).output
    assert "held (trial 1, butter 198 g)" in said
    assert said.endswith("that is butter 174 g.\n")
    assert not (FOLDER / "3.yaml").exists()
    done = run("next-trial", RECIPE, "--write", "--who", "bench two")
    assert done.output == f"{said}{FOLDER}/3.yaml\n"
    text = (FOLDER / "3.yaml").read_text(encoding="utf-8")
    fields = yaml.safe_load(text)
    assert (fields["number"], fields["from"], fields["who"]) == (3, 1, "bench two")
    assert fields["changed"] == {"ingredients": {"butter": {"amount": "174 g"}}}
    assert "butter: {amount: 174 g} # about 1½ sticks" in text
    assert fields["aim"] == said.strip()
    assert run("check", str(FOLDER / "3.yaml")).output == "1 file, no problems, no warnings.\n"
    assert "trial 3 is between them. Fill in what it did." in run("next-trial", RECIPE).output
    assert "3.yaml\n" not in run("next-trial", RECIPE, "--write").output


def test_a_temperature_of_a_step_is_written_as_a_change_of_that_step() -> None:
    write(1, "did: held\n")
    write(2, "changed: {steps: {1.2: {cool_to: 26 °C}}}\ndid: too soft\n")
    said = run("next-trial", RECIPE, "--write").output
    assert said.startswith(
        "It held with step 1.2 cooled to 68 °F (20 °C) (trial 1) and was too soft with step 1.2 cooled to 79 °F (26 °C)"
    )
    fields = yaml.safe_load((FOLDER / "3.yaml").read_text(encoding="utf-8"))
    assert fields["changed"] == {"steps": {1.2: {"cool_to": "73.4 °F"}}}
    assert run("check", str(FOLDER / "3.yaml")).output == "1 file, no problems, no warnings.\n"


def test_a_recipe_that_has_changed_since_is_said_beside_what_follows() -> None:
    write(1, "recipe: 00000000\ndid: held\n")
    write(2, "changed: {ingredients: {butter: 150 g}}\ndid: split\n")
    write(3, "from: 9\n")
    said = run("next-trial", RECIPE).output.splitlines()
    assert said[0].endswith("that is butter 174 g.")
    assert said[1:] == [
        f"Not counted, since they cannot be used: {FOLDER}/3.yaml. See `crumbcoat check`.",
        "Trial 1: the recipe has changed since, and what is not written there is taken from it as it is now. "
        "See `crumbcoat check`.",
    ]


def test_too_few_trials_write_nothing() -> None:
    done = run("next-trial", RECIPE, "--write")
    assert done.output == "There is no trial yet that can be used. Begin one with `crumbcoat new-trial`.\n"
    assert run("next-trial", "docs/recipes/oats.yaml").exit_code == 1
