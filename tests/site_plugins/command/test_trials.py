"""`crumbcoat new-trial`, and `check` of trials: what is written, what is wrong, what can hardly be."""

import re
from pathlib import Path

import pytest
import yaml

from tests.site_plugins.command.conftest import new_site, run

FOLDER = Path("docs/recipes/oat-cream.trials")
RECIPE = "docs/recipes/oat-cream.yaml"


@pytest.fixture(autouse=True)
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = new_site(tmp_path, monkeypatch, "US")
    run("new-recipe", "Oat cream", "--family", "emulsified milk frosting")
    return folder


def write(number: int, text: str) -> str:
    FOLDER.mkdir(exist_ok=True)
    path = FOLDER / f"{number}.yaml"
    path.write_text(f"number: {number}\ndate: 2026-11-24\n{text}", encoding="utf-8")
    return str(path)


def test_a_new_trial_is_right_as_it_is_and_with_every_line_filled_in() -> None:
    done = run("new-trial", RECIPE, "--who", "bench two")
    assert done.output.startswith(f"{FOLDER}/1.yaml\n")
    text = (FOLDER / "1.yaml").read_text(encoding="utf-8")
    assert yaml.safe_load(text)["who"] == "bench two"
    assert run("check", str(FOLDER / "1.yaml")).output == "1 file, no problems, no warnings.\n"
    assert "Checkpoint 3.1" in text
    assert "milk 1¼ cups (305 g), cornstarch 2½ tbsp (20 g)" in " ".join(text.replace("#", "").split())
    assert "- {at: 1.1, temperature: 140 °F}" in text
    assert "°C" not in text
    (FOLDER / "1.yaml").write_text(re.sub("(?m)^#(?! [^ ]|$)", "", text), encoding="utf-8")
    filled = yaml.safe_load((FOLDER / "1.yaml").read_text(encoding="utf-8"))
    assert {"changed", "weighed", "readings", "mixing", "chilling", "seen", "tests", "tasted", "verdict"} <= set(filled)
    assert run("check", str(FOLDER / "1.yaml")).output == "1 file, no problems, no warnings.\n"


def test_each_new_trial_gets_the_next_number_and_says_what_it_came_from() -> None:
    run("new-trial", RECIPE)
    run("new-trial", RECIPE, "--from", "1")
    done = run("new-trial", str(FOLDER / "2.yaml"))
    assert done.output.startswith(f"{FOLDER}/3.yaml\n")
    fields = [yaml.safe_load((FOLDER / f"{number}.yaml").read_text(encoding="utf-8")) for number in (1, 2, 3)]
    assert [one.get("from") for one in fields] == [None, 1, 2]
    assert re.fullmatch("[0-9a-f]{8}", str(fields[0]["recipe"]))
    (FOLDER / "3.yaml").write_text("number: [", encoding="utf-8")
    assert run("new-trial", RECIPE).output.startswith(f"{FOLDER}/4.yaml\n")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("docs/recipes/oats.yaml",), "there is no such recipe.\n    Fix: name a recipe file"),
        ((RECIPE, "--from", "1"), "--from 1: docs/recipes/oat-cream.yaml has no such trial"),
        ((str(FOLDER / "1.yaml"),), "this trial cannot be used.\n    Fix: see `crumbcoat check"),
    ],
)
def test_what_cannot_be_begun_says_why(arguments: tuple[str, ...], words: str) -> None:
    done = run("new-trial", *arguments)
    assert done.exit_code == 1
    assert words in done.output


def test_every_problem_of_every_trial_has_its_line() -> None:
    write(1, "changed:\n  ingredients:\n    mlk: 120 g\n    butter: {kind: buter, amount: 3 g}\nverdict: maybe\n")
    write(2, "from: 1\n")
    write(3, "readings:\n  - {ph: 6}\n  - {temperature: warm}\n  - {cup_weighs: 1 kg}\nfat: 30 %\n")
    write(4, "")
    (FOLDER / "five.yaml").write_text("number: 4\ndate: 24 November\n", encoding="utf-8")
    (FOLDER / "6.yaml").write_text("\n", encoding="utf-8")
    done = run("check")
    assert done.exit_code == 1
    found = dict.fromkeys(re.findall(rf"^{FOLDER}/(\S+?):(\d+): (.*)\.$", done.output, re.MULTILINE))
    assert [place for place in found if place[0] == "1.yaml"] == [
        ("1.yaml", "6", "the ingredient table has no kind 'buter'"),
        ("1.yaml", "7", "'maybe' is not an option here"),
    ]
    assert ("3.yaml", "5") in {place[:2] for place in found}
    assert ("3.yaml", "6") in {place[:2] for place in found}
    assert ("3.yaml", "7", "unknown field 'fat'") in found
    assert ("five.yaml", "2", "'24 November' is not a date") in found
    assert ("6.yaml", "1", "the file is empty") in found
    assert "Fix: write a trial, starting with `number: 1`." in done.output
    assert ("2.yaml", "3", "there is no trial 1") in found
    write(1, "changed:\n  ingredients:\n    mlk: 120 g\n")
    done = run("check", str(FOLDER / "1.yaml"))
    assert f"{FOLDER}/1.yaml:5: the recipe has no ingredient 'mlk'.\n    Fix: did you mean 'milk'?" in done.output
    assert done.output.count("Fix:") == 1


def test_a_picture_that_is_not_beside_the_trial_is_a_problem_of_it() -> None:
    path = write(1, "pictures:\n  - {file: cut.jpg}\n  - {file: cut.tiff}\n  - {file: top.png}\n")
    (FOLDER / "top.png").write_bytes(b"")
    output = run("check", path).output
    assert f"{path}:4: there is no picture 'cut.jpg' beside this file.\n    Fix: save it there" in output
    assert f"{path}:5: 'cut.tiff' is not a picture that a page can show." in output
    assert "top.png" not in output


def test_what_can_hardly_be_is_a_warning_and_the_trial_stays() -> None:
    write(1, "recipe: 00000000\nreadings:\n  - {density: 1.9 g/mL}\n  - {brix: 90}\n  - {at: 1, mass: 9 kg}\n")
    write(2, "from: 1\n")
    (FOLDER / "2.yaml").write_text("number: 2\ndate: 2026-01-01\nfrom: 1\n", encoding="utf-8")
    done = run("check", str(FOLDER / "1.yaml"), str(FOLDER / "2.yaml"))
    assert done.exit_code == 0
    found = re.findall(rf"^{FOLDER}/(\S+?):(\d+): (.*)\.$", done.output, re.MULTILINE)
    assert [(file, line) for file, line, _ in found] == [
        ("1.yaml", "3"), ("1.yaml", "5"), ("1.yaml", "6"), ("1.yaml", "7"), ("2.yaml", "2"),
    ]  # fmt: skip
    words = ["has changed since", "without any air", "°Brix", "more than went in", "which is later"]
    assert [word for word, (_, _, text) in zip(words, found, strict=True) if word not in text] == []


def test_a_folder_of_trials_is_checked_and_a_trial_has_figures() -> None:
    write(1, "seen: [{at: 1.1, sign: Lumps.}]\nverdict: go on\n")
    second = write(2, "changed: {ingredients: {butter: 150 g}}\ndid: melted\n")
    done = run("check", str(FOLDER)).output
    assert "step 1.1 has no checkpoint that says what to look for" in done
    assert "use one of: held, too soft" in done
    assert "did you mean" not in done
    assert "this trial cannot be used" in run("figures", second).output
    write(2, "changed: {ingredients: {butter: 150 g}}\n")
    figures = run("figures", second).output
    assert figures.startswith("Oat cream, trial 2 (emulsified milk frosting), ")
    assert "150 g" in figures


def test_a_plain_spoon_and_a_name_are_read_as_in_a_recipe() -> None:
    text = "    powdered_sugar: 2 tbsp\n    Vanilla Sugar: {kind: caster sugar, amount: 1 cup, add_at: 1.1}\n"
    text = f"changed:\n  ingredients:\n{text}"
    assert "no problems" in run("check", write(1, text)).output


def test_an_ingredient_that_the_recipe_has_no_longer_is_a_problem_with_place_and_remedy() -> None:
    path = write(1, "changed: {ingredients: {powdered_sugar: 100 g}}\nweighed:\n  powdered_sugar: 101 g\n")
    assert "no problems" in run("check", path).output
    text = Path(RECIPE).read_text(encoding="utf-8")
    Path(RECIPE).write_text(text.replace("powdered_sugar", "glaze"), encoding="utf-8")
    assert (
        f"{path}:3: the recipe has no ingredient 'powdered_sugar'.\n    Fix: use the short name"
        in run("check", path).output
    )
    write(1, "weighed:\n  powdered_sugar: 101 g\n")
    assert f"{path}:4: the recipe has no ingredient 'powdered_sugar'" in run("check", path).output


def test_a_recipe_beside_the_trials_that_is_not_there_is_a_problem() -> None:
    with Path(RECIPE).open("a", encoding="utf-8") as file:
        file.write("notebook: {beside: [recipes/oat-cream, recipes/oats]}\n")
    output = run("check", RECIPE).output
    assert "there is no recipe 'recipes/oats' in this site to put beside the trials.\n    Fix: name one by" in output
    assert "'recipes/oat-cream'" not in output


def test_a_recipe_with_mistakes_is_to_be_put_right_first() -> None:
    path = write(1, "")
    Path(RECIPE).write_text("title: x\n", encoding="utf-8")
    done = run("check", path)
    assert f"{path}:1: the recipe of this trial cannot be read" in done.output
    assert "put that right first: docs/recipes/oat-cream.yaml" in done.output
    Path(RECIPE).unlink()
    assert "there is no recipe for these trials" in run("check", path).output
    assert f"{FOLDER}:1: there is no recipe for these trials" in run("check").output


def test_trials_are_not_recipes_and_not_published(site: Path) -> None:
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    write(1, "")
    (FOLDER / "1.jpg").write_bytes(b"not a picture")
    text = Path(RECIPE).read_text(encoding="utf-8")
    Path(RECIPE).write_text(text.replace("draft: yes", ""), encoding="utf-8")
    config = load_config("mkdocs.yml", plugins=[{"recipe_cards": {"region": "US"}}])
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    names = {path.relative_to(site / "site").as_posix() for path in (site / "site").rglob("*")}
    assert "recipes/oat-cream/index.html" in names
    assert [name for name in names if "trials" in name] == []
