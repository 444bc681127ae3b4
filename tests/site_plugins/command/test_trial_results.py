"""`crumbcoat trial-results`: a plan, tastings, and what is said where data or the library are missing."""

from pathlib import Path

import pytest
import yaml
from crumbcoat_site.command import trial_results

from tests.site_plugins.command.conftest import run
from tests.site_plugins.command.test_plan_trials import VARY
from tests.site_plugins.command.test_trials import FOLDER, RECIPE, site, write

__all__ = ["site"]


def fill_in(text: str, **by_point: str) -> None:
    """Add lines to each trial of a plan; `@` in the text is the value of its point."""
    for path in sorted(FOLDER.glob("*.yaml")):
        changed = yaml.safe_load(path.read_text(encoding="utf-8"))["changed"]["ingredients"]
        point = "_".join(one["amount"].split()[0] for one in changed.values())
        values = by_point[f"p{point}"].split()
        seen = len([one for one in FOLDER.glob("*.filled") if one.read_text() == point])
        path.with_suffix(".filled").write_text(point)
        path.write_text(path.read_text(encoding="utf-8") + text.replace("@", values[seen]) + "\n", encoding="utf-8")


def test_the_effects_of_a_plan_in_words_with_the_figures() -> None:
    """Corners 20, 28, 30, 46 mm: butter (8 + 16)/2, sugar (10 + 18)/2, more 4; their mean 31, the middle 27.

    With two degrees of freedom p is 1 - t / sqrt(t2 + 2), such as 0.000815 for t = 14 / 0.4.
    """
    run("plan-trials", RECIPE, *VARY, "--seed", "7")
    fill_in(
        "readings: [{spread: @ mm}]",
        p160_120="20", p220_120="28", p160_180="30", p220_180="46", p190_150="27 26.6 27.4",
    )  # fmt: skip
    text = run("trial-results", RECIPE).output
    lines = [line.strip() for line in text.splitlines()]
    assert lines[0] == "Plan 1, 7 batches: powdered sugar 120 g to 180 g and butter 160 g to 220 g."
    assert lines[1] == "spread, mm (n = 7); batches made again differ by 0.40 (standard deviation)"
    assert lines[2:6] == [
        "powdered sugar from 120 g to 180 g: +14.00 (12.28 to 15.72), larger than the scatter, p = 0.00082",
        "butter from 160 g to 220 g: +12.00 (10.28 to 13.72), larger than the scatter, p = 0.0011",
        "powdered sugar at 220 g of butter, beyond what it does on average: +4.00 (2.28 to 5.72), "
        "larger than the scatter, p = 0.0099",
        "the corners of the plan, against its middle: +4.00 (2.69 to 5.31), larger than the scatter, p = 0.0058",
    ]
    assert "by chance" in text


def test_too_few_repeats_and_batches_that_still_held_are_not_judged() -> None:
    run("plan-trials", RECIPE, *VARY, "--centres", "2")
    points = {"p160_120": "1", "p220_120": "2", "p160_180": "3", "p220_180": "4", "p190_150": "5 6"}
    fill_in("readings: [{ph: @}]\ntests: [{test: holding, time: @ h, did: held}]", **points)
    text = run("trial-results", RECIPE).output
    assert "pH (n = 6): three repeats of the centre are needed to judge; there are two." in text
    assert "holding: time that it held, min (n = 6): not judged, since trials 1, 2, 3, 4, 5 and 6 still held" in text


def test_a_plan_without_readings_and_one_of_another_kind() -> None:
    write(1, "plan: 1\nchanged: {ingredients: {butter: 190 g}}\n")
    write(2, "plan: 1\n")
    run("plan-trials", RECIPE, *VARY)
    text = run("trial-results", RECIPE).output
    assert "Plan 1, 2 batches: a plan changes two ingredients, and here it is butter." in text
    assert "Nothing was read of these batches yet." in text


def test_tastings_say_no_more_than_the_data() -> None:
    write(1, "tasted: [{attribute: liking, marks: [7, 8, 6, 7]}, {attribute: sweet, scale: 5, marks: [3]}]\n")
    write(
        2,
        "compared:\n  - {test: triangle, against: 1, people: 12, right: 9}\n"
        "  - {test: triangle, against: 1, people: 12, right: 5}\n"
        "  - {test: paired, against: 1, people: 12, chose: 8, asked: Which is sweeter?}\n",
    )
    text = run("trial-results", RECIPE).output
    assert text.split("\n\n") == [
        "Trial 2 against trial 1, triangle test: 9 of 12 found the odd one: p = 0.0039.",
        "Trial 2 against trial 1, triangle test: 5 of 12 found the odd one: p = 0.37; guessing alone finds 4 on "
        "average, so no difference is shown, which does not mean that there is none.",
        "Trial 2 against trial 1, paired test: 8 of 12 chose trial 2 (Which is sweeter?): p = 0.39, both ways counted; "
        "no preference is shown, which does not mean that there is none.",
        "Trial 1: liking 7.0 of 9 (standard deviation 0.8, n = 4, from 6 to 8)\n"
        "Trial 1: sweet 3.0 of 5 (one person, no spread, n = 1, from 3 to 3)\n",
    ]


def test_without_the_library_a_sentence_says_how_to_get_it_and_the_marks_stay(monkeypatch: pytest.MonkeyPatch) -> None:
    write(1, "plan: 1\ntasted: [{attribute: liking, marks: [7, 8]}]\n")
    monkeypatch.setattr(trial_results, "is_installed", lambda: False)
    text = run("trial-results", RECIPE).output
    assert "not installed.\n    Fix: install it beside Crumbcoat: `pip install 'crumbcoat[statistics]'`" in text
    assert "Trial 1: liking 7.5 of 9" in text


def test_nothing_to_show_says_what_to_write() -> None:
    assert "No trial is a point of a plan" in run("trial-results", RECIPE).output
    assert not Path(FOLDER).exists()
    assert run("trial-results", "docs/recipes/oats.yaml").exit_code == 1


def test_the_groups_of_a_class_come_together_without_the_library(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(trial_results, "is_installed", lambda: False)
    for number, height in ((1, 4), (2, 6), (3, 5)):
        write(
            number,
            f"who: group {number}\ntests: [{{test: holding, height_lost: {height} mm, did: held}}]\n",
        )
    assert run("trial-results", RECIPE).output.splitlines() == [
        "The same batch, made 3 times (trials 1, 2 and 3):",
        "                              group 1  group 2  group 3         mean  standard deviation  n",
        "    holding: height lost, mm        4        6        5          5.0                 1.0  3",
        "    what it did                  held     held     held  3 of 3 held                      3",
    ]
