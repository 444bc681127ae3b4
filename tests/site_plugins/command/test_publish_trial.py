"""`crumbcoat publish-trial`: the recipe file becomes the trial, and nothing else in it moves."""

from datetime import date
from pathlib import Path

import pytest
import yaml
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.site_plugins.command.conftest import new_site, run
from tests.site_plugins.recipe_cards.conftest import read_html

RECIPE = Path("docs/recipes/hearth-cream.yaml")
FOLDER = Path("docs/recipes/hearth-cream.trials")

TEXT = """\
# The cream of the hearth.
title: "Hearth cream"   # as on the board
summary: |
  A cream for tests: it has
  two lines.
author: Test kitchen
family: emulsified milk frosting
yield: 12 cupcakes
made: 0
tried: {from: 1/2, to: 2}
ingredients:
  Butter: {kind: butter_unsalted, amount: 200 g, portions: {base: 150 g, whip: 50 g}} # cold
  milk:   # whole
    kind: milk_whole
    amount: '120 g'
  sugar: {kind: icing sugar, amount: 150 g}
  salt: {kind: salt_table, amount: 1 g}

stages:
  - title: Base
    makes: base
    steps:
      - do: Heat.
        add: [milk, salt]
        time: 3 min # at least
      - do: Stir.
        add: sugar
  - title: Whip
    steps:
      - {do: Beat., add: [base, Butter/base]}
      - {do: Finish., add: Butter/whip}
notes: [One., Two.]
"""


@pytest.fixture(autouse=True)
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = new_site(tmp_path, monkeypatch, "UK")
    RECIPE.write_text(TEXT, encoding="utf-8")
    FOLDER.mkdir()
    return folder


def write(number: int, text: str) -> str:
    path = FOLDER / f"{number}.yaml"
    path.write_text(f"number: {number}\ndate: 2026-11-24\n{text}", encoding="utf-8")
    return str(path)


def test_only_the_lines_of_what_the_trial_changed_are_different() -> None:
    changed = "changed:\n  ingredients: {sugar: 130 g, milk: 140 g}\n  steps:\n    1.1: {time: 5 min}\n"
    path = write(1, f"{changed}readings: [{{density: 0.84 g/mL, ph: 6.3}}]\nweighed: {{sugar: 131 g}}\n")
    done = run("publish-trial", path)
    assert done.exit_code == 0, done.output
    before, after = TEXT.splitlines(), RECIPE.read_text(encoding="utf-8").splitlines()
    assert [line for line in before if line not in after] == [
        "made: 0", "tried: {from: 1/2, to: 2}", "    amount: '120 g'",
        "  sugar: {kind: icing sugar, amount: 150 g}", "        time: 3 min # at least",
    ]  # fmt: skip
    assert [line for line in after if line not in before] == [
        "made: 1", "    amount: '140 g'", "  sugar: {kind: icing sugar, amount: 130 g}",
        "        time: 5 min # at least", "measured: {density: 0.84 g/mL, ph: 6.3}",
    ]  # fmt: skip
    assert {"-  sugar: {kind: icing sugar, amount: 150 g}", "+  sugar: {kind: icing sugar, amount: 130 g}"} <= {
        *done.output.splitlines()
    }
    assert (FOLDER / "v1.yaml").read_text(encoding="utf-8") == TEXT
    assert "no problems" in run("check").output


@pytest.mark.parametrize("before", ["", "updated: 2026-02-02 # by hand\n"])
def test_a_published_recipe_says_that_it_changed(before: str) -> None:
    RECIPE.write_text(TEXT.replace("family:", f"published: 2026-01-31 # a Saturday\n{before}family:"), encoding="utf-8")
    run("publish-trial", write(1, "changed:\n  ingredients:\n    milk: {amount: 130 g}\n"))
    lines = RECIPE.read_text(encoding="utf-8").splitlines()
    at = lines.index("published: 2026-01-31 # a Saturday")
    comment = " # by hand" if before else ""
    assert lines[at + 1 : at + 3] == [f"updated: {date.today()}{comment}", "family: emulsified milk frosting"]


def test_the_trials_keep_what_they_were() -> None:
    first = write(1, "recipe: 00000000\nchanged:\n  ingredients: {sugar: 130 g} # less\n")
    write(2, "from: 1\nchanged:\n  ingredients: {milk: 100 g}\n")
    write(3, "changed:\n  ingredients: {milk: 150 g}\n")
    run("publish-trial", first)
    text = Path(first).read_text(encoding="utf-8")
    assert yaml.safe_load(text)["from"] == "v1"
    assert "recipe" not in yaml.safe_load(text)
    assert "{sugar: 130 g} # less" in text
    assert yaml.safe_load((FOLDER / "3.yaml").read_text(encoding="utf-8"))["from"] == "v1"
    assert "2 files" in run("check", first, str(FOLDER / "3.yaml")).output
    assert "no warnings" in run("check", first).output
    done = run("publish-trial", str(FOLDER / "2.yaml"))
    assert done.exit_code == 0
    assert sorted(path.name for path in FOLDER.iterdir()) == ["1.yaml", "2.yaml", "3.yaml", "v1.yaml", "v2.yaml"]
    recipe, _ = load_recipe(RECIPE, str(RECIPE))
    assert {one.key: one.mass_g for one in recipe.ingredients}["milk"] == 100


def test_what_is_left_out_and_what_is_new_leaves_and_enters_the_file() -> None:
    path = write(
        1,
        "changed:\n  ingredients:\n    salt: left out\n    thick: {kind: cornstarch, amount: 5 g, add_at: 1.1}\n"
        "    Butter: 180 g\n  steps: {2.2: left out}\n",
    )
    done = run("publish-trial", path)
    assert done.exit_code == 0, done.output
    recipe, _ = load_recipe(RECIPE, str(RECIPE))
    assert [one.key for one in recipe.ingredients] == ["butter", "milk", "sugar", "thick"]
    assert [len(stage.steps) for stage in recipe.stages] == [2, 1]
    assert recipe.ingredients[0].mass_g == 180
    text = RECIPE.read_text(encoding="utf-8")
    assert "thick: {kind: cornstarch, amount: 5 g}" in text
    assert "# cold" in text
    assert "Left out" not in text


def test_a_dry_run_shows_the_difference_and_writes_nothing() -> None:
    path = write(1, "changed:\n  ingredients: {sugar: 130 g}\n")
    done = run("publish-trial", path, "--dry-run")
    assert "+  sugar: {kind: icing sugar, amount: 130 g}" in done.output
    assert RECIPE.read_text(encoding="utf-8") == TEXT
    assert [path.name for path in FOLDER.iterdir()] == ["1.yaml"]


def test_what_the_difference_alone_does_not_say_is_a_note() -> None:
    RECIPE.write_text(TEXT.replace("made: 0", "made: 3\nmeasured: {density: 0.8 g/mL}"), encoding="utf-8")
    sugar = "changed:\n  ingredients: {sugar: 130 g}\n"
    done = run("publish-trial", write(1, f"{sugar}did: slumped\nverdict: go on from here\n"), "--dry-run")
    assert [line for line in done.output.splitlines() if line.startswith("Note: ")] == [
        "Note: `measured` is gone: it was of the recipe before. Weigh a level cup of this one.",
        "Note: The trial says of this batch: slumped.",
        "Note: The verdict of the trial is `go on from here`, not `publish`.",
    ]
    weighed = "readings: [{cup: US cup, cup_weighs: 229.63 g}]\n"
    done = run("publish-trial", write(2, f"{sugar}{weighed}did: held\nverdict: publish\n"))
    assert done.exit_code == 0, done.output
    assert "Note: " not in done.output
    assert "measured: {density: 0.97 g/mL}" in RECIPE.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        (str(RECIPE), "", "this is not a trial file.\n    Fix: name one"),
        (str(FOLDER / "9.yaml"), "", "this is not a trial file"),
        (str(FOLDER / "1.yaml"), "", "this trial is the recipe as it is"),
        (str(FOLDER / "1.yaml"), "changed: {ingredients: {sugr: 1 g}}\n", "this trial cannot be used.\n    Fix: see"),
    ],
)
def test_what_cannot_be_published_says_why_and_leaves_everything(name: str, text: str, words: str) -> None:
    write(1, text)
    done = run("publish-trial", name)
    assert done.exit_code == 1
    assert words in done.output
    assert RECIPE.read_text(encoding="utf-8") == TEXT


def test_a_kind_may_have_any_of_its_names() -> None:
    path = write(1, "changed:\n  ingredients:\n    milk: {kind: heavy cream, amount: 110 g}\n")
    done = run("publish-trial", path)
    assert done.exit_code == 0, done.output
    assert load_recipe(RECIPE, str(RECIPE))[0].ingredients[1].food.key == "cream_heavy_whipping"
    assert "# whole" in RECIPE.read_text(encoding="utf-8")


def page_of(site: Path) -> str:
    config = load_config("mkdocs.yml", plugins=["recipe_cards"])
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    html = (site / "site" / "recipes" / "hearth-cream" / "index.html").read_text(encoding="utf-8")
    return " ".join(read_html(html).text.split())


def test_the_card_says_what_its_trials_have_seen_and_follows_them(site: Path) -> None:
    kept = "tests: [{test: keeping, where: fridge, temperature: 4 °C, time: 4 days, did: held}]\n"
    assert "Worked out, not yet made" in page_of(site)
    path = write(1, f"changed:\n  ingredients: {{sugar: 130 g}}\n{kept}because: It was too sweet.\nverdict: publish\n")
    assert "In our test" not in page_of(site)
    run("publish-trial", path)
    page = page_of(site)
    assert "Made once, on 24 November 2026" in page
    assert "In our test it kept 4 days at 4 °C (39 °F) in the refrigerator." in page
    assert "Since 24 November 2026: 20 g less icing sugar. It was too sweet." in page
    write(2, "")
    assert "Made once, on 24 November 2026" in page_of(site), "nothing is noted of it, so it may not be made yet"
    write(2, "did: held\n")
    assert "Made 2 times, last on 24 November 2026" in page_of(site)
    write(3, kept.replace("4 days, did: held", "3 days, did: wept"))
    assert "In our test" not in page_of(site)
