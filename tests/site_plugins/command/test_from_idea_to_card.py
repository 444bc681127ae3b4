"""The whole way of a recipe: worked out, made five times, half-way between, a plan of five, published, on its card."""

import re
from pathlib import Path

import pytest
import yaml
from click.testing import Result
from crumbcoat_calc.calculators import run as calculate
from crumbcoat_calc.forms.context import context_from
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.site_plugins.command.conftest import new_site
from tests.site_plugins.command.conftest import run as run_command
from tests.site_plugins.recipe_cards.conftest import read_html

RECIPE = Path("docs/recipes/loft-cream.yaml")
FOLDER = Path("docs/recipes/loft-cream.trials")


def run(*arguments: str) -> Result:
    """Run a command that has to go well."""
    done = run_command(*arguments)
    assert done.exit_code == 0, done.output
    return done


@pytest.fixture(autouse=True)
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = new_site(tmp_path, monkeypatch, "UK")
    run("new-recipe", "Loft cream", "--family", "emulsified milk frosting")
    return folder


def fill_in(path: str, **fields: object) -> None:
    """Write what happened at the bench into a trial file that a command began."""
    text = Path(path).read_text(encoding="utf-8")
    Path(path).write_text(text + yaml.safe_dump(fields, allow_unicode=True), encoding="utf-8")


def begin(*arguments: str) -> str:
    return run("new-trial", *arguments).output.splitlines()[0]


def test_from_an_idea_to_the_card(site: Path) -> None:
    # 1. Worked out: the fat that is wanted, by the calculator, becomes the file.
    _, fields = load_recipe(RECIPE, str(RECIPE))
    _, texts = calculate("formulate", context_from({"recipe": fields}), {}, {"fat": "30"})
    RECIPE.write_text(str(texts["file.recipe"]), encoding="utf-8")
    recipe, _ = load_recipe(RECIPE, str(RECIPE))
    butter_g = next(one.mass_g for one in recipe.ingredients if one.key == "butter")

    # 2. Five trials: the fat goes down until the batch splits; what was weighed, read and tested is typed in.
    amounts = [butter_g, butter_g - 20, butter_g - 40, butter_g - 60, butter_g - 60]
    for number, amount in enumerate(amounts, 1):
        path = begin(str(RECIPE), "--who", "bench two")
        did = "held" if number <= 3 else "split"
        fill_in(
            path,
            changed={"ingredients": {"butter": f"{amount:g} g"}},
            readings=[{"temperature": "20 °C", "cup": "metric cup", "cup_weighs": f"{230 - number} g"}],
            tests=[{"test": "keeping", "where": "fridge", "temperature": "4 °C", "time": "3 days", "did": did}],
            did=did,
            because=f"It {did}.",
        )
    assert "5 files, no problems" in run("check", *[f"{FOLDER}/{number}.yaml" for number in range(1, 6)]).output

    # 3. What next: half-way between what held and what split, as a trial ready to weigh.
    done = run("next-trial", str(RECIPE), "--write")
    half_way = butter_g - 50
    assert re.search(rf"butter {half_way:.0f} g|butter {half_way:g} g", done.output), done.output
    suggested = FOLDER / "6.yaml"
    assert yaml.safe_load(suggested.read_text(encoding="utf-8"))["from"] == 3

    # 4. A plan of five batches for two ingredients, with blind sheets; their readings are typed in.
    run("plan-trials", str(RECIPE), "--vary", "butter", f"{butter_g - 40:.0f}..{butter_g:.0f}", "g",
        "--vary", "icing_sugar", "140..180", "g", "--centres", "1", "--seed", "5")  # fmt: skip
    plan = [f"{FOLDER}/{number}.yaml" for number in range(7, 12)]
    assert len({yaml.safe_load(Path(path).read_text(encoding="utf-8"))["code"] for path in plan}) == 5
    for path in plan:
        fill_in(path, did="held", readings=[{"density": "0.85 g/mL"}])
    assert "5 files, no problems" in run("check", *plan).output
    assert "three" in run("trial-results", str(RECIPE)).output  # Of the middle; one says nothing of the scatter.

    # 5. Made as suggested, and published.
    fill_in(
        str(suggested),
        tests=[{"test": "keeping", "where": "fridge", "temperature": "4 °C", "time": "4 days", "did": "held"}],
        readings=[{"cup": "metric cup", "cup_weighs": "210 g"}],
        did="held",
        verdict="publish",
        because="It keeps four days with less butter.",
    )
    done = run("publish-trial", str(suggested))
    assert "+" in done.output
    text = RECIPE.read_text(encoding="utf-8")
    RECIPE.write_text(re.sub("(?m)^draft:.*\n", "", text), encoding="utf-8")
    assert "no problems" in run("check").output

    # 6. The card says what its own batches have shown.
    recipe, _ = load_recipe(RECIPE, str(RECIPE))
    assert next(one.mass_g for one in recipe.ingredients if one.key == "butter") == pytest.approx(half_way, abs=1)
    assert recipe.measured.density_g_per_ml == pytest.approx(0.84)
    config = load_config("mkdocs.yml", plugins=["recipe_cards"])
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    page = (site / "site" / "recipes" / "loft-cream" / "index.html").read_text(encoding="utf-8")
    words = " ".join(read_html(page).text.split())
    assert "Made once, on" in words
    assert "In our test it kept 4 days at 4 °C (39 °F) in the refrigerator." in words
    assert "It keeps four days with less butter." in words
