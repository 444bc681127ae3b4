"""`crumbcoat check` and `figures`: text for people, JSON for programs, an exit code for scripts."""

import json
import re
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run as run_calculator
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_site.command import kitchen_warnings as module
from crumbcoat_site.command.kitchen_warnings import kitchen_warnings
from crumbcoat_site.recipe_cards.source.read_recipe import read_recipe
from PIL import Image

from tests.site_plugins.command.conftest import GOOD, ROOT, run

SKELETONS = Path(module.__file__).parent / "skeletons"


def test_a_good_site_has_no_problem(folder: Path) -> None:
    done = run("check")
    assert done.exit_code == 0
    assert done.output.endswith("1 file, no problems, 1 warning.\n")
    assert run("check", "--strict").exit_code == 1
    assert run("check", "--no-warnings").output == "1 file, no problems, no warnings.\n"


def test_every_problem_of_every_file_has_its_place_and_a_fix(folder: Path) -> None:
    (folder / "docs" / "milk.yaml").write_text(
        GOOD.replace("amount: 22 g", "amount: 22 gx").replace("speed: medium\n", "speed: warp\n")
    )
    (folder / "docs" / "other.yaml").write_text("title: [\n")
    (folder / "docs" / "prices.csv").write_text(
        "item,pack,price,currency,date,note\nbutter_unsalted,250 g,no,EUR,2026-01-02,\n"
    )
    done = run("check")
    assert done.exit_code == 1
    places = re.findall(r"^(docs/\S+?):(\d+): ", done.output, re.MULTILINE)
    assert [place for place, _ in places] == ["docs/milk.yaml"] * 3 + ["docs/other.yaml", "docs/prices.csv"]
    assert done.output.count("\n    Fix: ") == len(places)
    assert "3 files, 5 problems, no warnings." in done.output


def test_a_directive_that_cannot_be_used_is_a_problem_of_its_page(folder: Path) -> None:
    (folder / "docs" / "index.md").write_text(
        "# Home\n\n<!-- crumbcoat: map from mlk -->\n\n<!-- crumbcoat recipe list -->\n"
    )
    (folder / "docs" / "fine.md").write_text(
        "# Fine\n\n<!-- crumbcoat: by hand from milk -->\n\n<!-- crumbcoat: kinds -->\n"
    )
    done = run("check", "--no-warnings")
    assert done.exit_code == 1
    assert "docs/index.md:3: there is no recipe 'mlk'.\n    Fix: did you mean 'milk'?\n" in done.output
    assert "docs/index.md:5: '<!-- crumbcoat recipe list -->' is not a directive." in done.output
    assert "fine.md" not in done.output


def test_a_whole_card_that_the_page_has_already_is_a_problem_of_the_page(folder: Path) -> None:
    line = "<!-- crumbcoat: whole card milk -->\n"
    (folder / "docs" / "index.md").write_text(f"# Home\n\n{line}")
    assert run("check", "--no-warnings").exit_code == 0
    (folder / "docs" / "index.md").write_text(f"# Home\n\n{line}\n{line}")
    (folder / "docs" / "milk.story.md").write_text(f"Cold.\n\n{line}")
    output = run("check", "--no-warnings").output
    assert "docs/index.md:5: the whole card 'milk' is on this page already.\n    Fix: delete this line, or" in output
    assert "docs/milk.story.md:3: 'milk' is the recipe of this page, whose card is here already." in output


def test_a_story_is_checked_with_its_recipe(folder: Path) -> None:
    (folder / "docs" / "milk.story.md").write_text("Cold.\n\n<!-- crumbcoat: card -->\n\nWarm.\n")
    assert run("check", "--no-warnings").exit_code == 0
    (folder / "docs" / "milk.story.md").write_text("Cold.\n\n<!-- crumbcoat: card mlk -->\n\n# Warm\n")
    (folder / "docs" / "mlk.story.md").write_text("Misspelt.\n")
    done = run("check", "--no-warnings")
    assert done.exit_code == 1
    assert "docs/milk.story.md:3: there is no recipe 'mlk'.\n    Fix: did you mean 'milk'?\n" in done.output
    assert "docs/milk.story.md:5: the title of the recipe is the one main heading of the page." in done.output
    assert "docs/mlk.story.md:1: there is no recipe 'mlk' for this story." in done.output


OWN = "our_butter:\n  name: butter\n  kind: butter_unsalted\n  source: the farm\n"


def test_a_recipe_may_use_the_ingredients_of_its_site(folder: Path) -> None:
    (folder / "docs" / "ingredients.yaml").write_text(OWN, encoding="utf-8")
    own = GOOD.replace("kind: butter_unsalted", "kind: our_butter", 1)
    assert own != GOOD
    (folder / "docs" / "milk.yaml").write_text(own, encoding="utf-8")
    assert run("check").output.endswith("2 files, no problems, 1 warning.\n")
    assert "the farm" not in run("figures", "docs/milk.yaml").output
    (folder / "docs" / "ingredients.yaml").write_text(OWN.replace("unsalted", "unsaltd"), encoding="utf-8")
    done = run("check")
    assert done.exit_code == 1
    assert re.search(r"docs/ingredients\.yaml:3: .*\n    Fix: ", done.output)
    assert "put it right in their list" in done.output


def test_foods_are_found_by_their_names() -> None:
    assert "kind: ciqual 19584" in run("foods", "mascarpone").output
    built_in, _, tables = run("foods", "honey").output.partition("\n\nFoods of the public tables (per 100 g):\n")
    assert built_in == ("Built-in kinds (per 100 g):\nkind: honey            honey  [fat 0.0, water 17.1, sugars 82.1]")
    assert tables.startswith("kind: usda 19296       Honey  [fat 0.0, water 17.1, sugars 82.1]\n")
    assert "kind: sugar_powdered   sugar, powdered (icing sugar); also " in run("foods", "icing", "sugar").output
    every = run("foods").output.splitlines()
    assert [line.split()[1] for line in every[1:]] == sorted(foods(), key=lambda key: foods()[key].name.casefold())
    assert run("foods", "hony").output.endswith("Fix: did you mean `honey` (honey)?\n")
    nothing = run("foods", "qqq")
    assert nothing.exit_code == 1
    assert "Fix: try one word" in nothing.output


def test_programs_get_json(folder: Path) -> None:
    (folder / "docs" / "milk.yaml").write_text(GOOD.replace("amount: 22 g", "amount: 22 gx"))
    report = json.loads(run("check", "--json").output)
    assert [list(problem) for problem in report["files"][0]["problems"]] == [["line", "problem", "fix"]]
    line = GOOD.splitlines().index("    amount: 22 g") + 1
    assert report["files"][0]["problems"][0]["line"] == line


def warnings_of(folder: Path, text: str) -> dict[str, str]:
    (folder / "docs" / "milk.yaml").write_text(text, encoding="utf-8")
    report = json.loads(run("check", "--json").output)
    assert report["files"][0]["problems"] == []
    return {warning["kind"]: warning["warning"] for warning in report["files"][0]["warnings"]}


@pytest.mark.parametrize(
    ("before", "after", "kind", "words"),
    [
        ("    role: sweetness\n", "", "role", "no role is given for icing sugar"),
        ("measured:\n  density: 0.76 g/mL\n", "", "density", "no density was measured"),
        ("amount: 240 g", "amount: 1240 g", "unusual", "has 10 to 35 %"),
        ("time: 2 min\n        may_wait: 15 min", "time: 20 s\n        may_wait: 15 min", "", ""),
        ("do: Beat the soft butter with", "do: For 9 minutes, beat the soft butter with", "time", "9 minutes"),
        ("title: Everyday", "title: Low-fat everyday", "claim", "at most 3 g of fat in 50 g, and this has 12"),
        ("do: Beat the soft butter with", "do: Beat the butter, taken out 20 minutes before, with", "", ""),
    ],
    ids=["role", "density", "fat", "nothing", "time", "claim", "time before"],
)  # fmt: skip
def test_a_warning(folder: Path, before: str, after: str, kind: str, words: str) -> None:
    assert before in GOOD
    text = GOOD.replace(before, after, 1)
    if kind == "unusual":
        text = text.replace("creaming: 180 g", "creaming: 1180 g")
    warnings = warnings_of(folder, text)
    assert set(warnings) == {"picture", *([kind] if kind else [])}
    assert words in warnings.get(kind, "")


@pytest.mark.parametrize(
    ("name", "before", "after", "kind", "words"),
    [
        # Overrun is never below zero: a foam cannot be denser than its mix. Source: guelph-dairy.
        ("creams-and-ganache/coating-ganache", "density: 1.15", "density: 1.25", "density", "above that of the mix"),
        # 120 g of butter in the base instead of 180 g leave it 25 % fat. 21 CFR 131.157: light whipping cream has 30 %.
        (
            "milk-emulsions/silk-milk-frosting",
            "melting: 180 g\n      creaming: 70 g",
            "melting: 120 g\n      creaming: 130 g",
            "whipping",
            "25 % fat is whipped here: cream whips from 30 % on",
        ),
        # Deep burns within seconds from 60 °C on. Source: moritz-henriques-1947, as restated.
        (
            "buttercreams/swiss-meringue-buttercream",
            "A drop cooled on a cold saucer feels smooth.",
            "Rubbed between the fingers, nothing is felt.",
            "scald",
            "what is at 71 °C (160 °F)",
        ),
        (
            "milk-emulsions/everyday-milk-frosting",
            "Heavy bubbles that plop",
            "It tastes of milk",
            "scald",
            "what is at 100 °C (212 °F)",
        ),
        # Common practice: without 3 to 4 g of starch to 100 g of water, egg curdles when it is boiled.
        (
            "buttercreams/custard-buttercream",
            "amount: 30 g",
            "amount: 5 g",
            "curdling",
            "only 1.4 g of starch to 100 g of water",
        ),
        # Definition: water boils at 100 °C; 65 g of water dissolve the sugar, and the yolks come later.
        (
            "buttercreams/egg-yolk-buttercream",
            "        water_lost: 38 g\n",
            "",
            "boiling",
            "what is heated to 118 °C (244 °F) has 65 g of water in it",
        ),
        # By hand: 1 g of salt in eight parts is 0.125 g each.
        (
            "buttercreams/custard-buttercream",
            "additions: {custard: 8}",
            "additions: 8",
            "additions",
            "'salt' into 0.13 g each",
        ),
    ],
)  # fmt: skip
def test_a_cook_would_object(folder: Path, name: str, before: str, after: str, kind: str, words: str) -> None:
    text = (ROOT / "recipes" / f"{name}.yaml").read_text(encoding="utf-8")
    text = re.sub("\n  beside: .*", "", text)  # The other recipes of the demo are not here.
    assert before in text
    assert kind not in warnings_of(folder, text)
    assert words in warnings_of(folder, text.replace(before, after))[kind]


def test_what_has_no_water_may_be_hot(folder: Path) -> None:
    caramel = """title: T
summary: S.
author: A
family: other
yield: {portions: 4, of: buns}
ingredients:
  sugar: {kind: sugar_granulated, amount: 200 g}
  cream: {kind: cream_double, amount: 100 g}
stages:
  - title: Melt
    steps:
      - {do: Melt the sugar without water., add: sugar, heat_to: 170 °C}
      - {do: Pour in the cream and stir., add: cream}
"""
    assert "boiling" not in warnings_of(folder, caramel)
    again = caramel.replace("stir., add: cream}", "stir until smooth., add: cream, heat_to: 112 °C}")
    # CoFID 12-334: 100 g of double cream have 47 g of water.
    assert "heated to 112 °C (234 °F) has 47 g of water in it" in warnings_of(folder, again)["boiling"]
    assert "boiling" not in warnings_of(folder, again.replace("112 °C}", "112 °C, water_lost: 15 g}"))


@pytest.mark.parametrize(
    "path", [*(ROOT / "recipes").glob("*/*.yaml"), *SKELETONS.glob("*.yaml")], ids=lambda path: path.stem
)
def test_no_cook_would_object_to_what_comes_along(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    if path.parent == SKELETONS:
        text = "title: T\nsummary: S.\nauthor: A\nfamily: other\n" + text
    recipe, _ = read_recipe(text, path.name)
    assert list(kitchen_warnings(batch_of(recipe))) == []


def test_a_picture_beside_the_file_is_found(folder: Path) -> None:
    Image.new("RGB", (4, 3)).save(folder / "docs" / "milk.jpg")
    assert warnings_of(folder, GOOD) == {}


def test_egg_that_no_step_heats_is_named_with_the_temperature_of_the_food_code(folder: Path) -> None:
    # FDA Food Code 3-401.11: raw egg in a mixture, 68 °C for 17 s, or 71 °C; the card's caution has 71 °C.
    text = (ROOT / "recipes" / "buttercreams" / "swiss-meringue-buttercream.yaml").read_text(encoding="utf-8")
    assert "raw egg" not in warnings_of(folder, text)
    colder = re.sub(r"heat_to: \d+ °C", "heat_to: 60 °C", text)
    assert "the steps heat egg whites to 60 °C (140 °F) only, so" in warnings_of(folder, colder)["raw egg"]


def test_no_site_and_no_file_are_problems_with_a_fix(
    folder: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    done = run("check", "docs/none.yaml")
    assert (done.exit_code, done.output) == (
        1, "Error: docs/none.yaml: there is no such file.\n    Fix: name a recipe file, or none to check all.\n",
    )  # fmt: skip
    (folder / "mkdocs.yml").write_text("plugins: [\n")
    assert "mkdocs.yml: while parsing" in run("check").output
    (folder / "mkdocs.yml").unlink()
    assert "there is no mkdocs.yml here" in run("check").output


def test_figures_are_those_of_the_card(folder: Path) -> None:
    done = run("figures", "docs/milk.yaml", "--batches", "2")
    assert done.output.startswith("Everyday milk frosting (emulsified milk frosting), 1666 g\n")
    assert re.search(r"^Fat +412 g +24\.7 % +11\.9 % +45\.5 % +24\.7 %$", done.output, re.MULTILINE)
    assert "--batches:" in run("figures", "docs/milk.yaml", "--batches", "lots").output
    (folder / "docs" / "milk.yaml").write_text("title: x\n")
    assert run("figures", "docs/milk.yaml").output.startswith("Error: docs/milk.yaml:1: ")


def test_prices_and_ingredients_are_checked_as_what_they_are(folder: Path) -> None:
    (folder / "docs" / "prices.csv").write_text(
        "item,pack,price,currency,date,note\nbutter_unsalted,250 g,no,EUR,2026-01-02,\n"
    )
    (folder / "docs" / "ingredients.yaml").write_text("our_paste: {name: paste, pack: {per: 100 g}}\n")
    said = run("check", "docs/prices.csv", "docs/ingredients.yaml").output
    assert "docs/prices.csv:2: price: 'no'" in said
    assert "docs/ingredients.yaml:1: " in said
    assert "title" not in said


def test_a_price_that_no_recipe_uses_is_a_warning_and_every_wrong_line_a_problem(folder: Path) -> None:
    file = folder / "docs" / "prices.csv"
    (folder / "docs" / "ingredients.yaml").write_text(OWN.replace("name: butter", "name: farm butter"))
    head, rest = "item,pack,price,currency,date,note\n", "1 kg,1,EUR,2026-01-02,\n"
    file.write_text(f"{head}icing sugar,{rest}Farm butter,{rest}farm buter,{rest}")
    done = run("check")
    assert done.exit_code == 0
    assert "docs/prices.csv:4: 'farm buter' is not a kind of the ingredient table, nor an ingredient" in done.output
    assert "\n    Fix: did you mean 'farm butter'?" in done.output
    assert done.output.count("docs/prices.csv") == 1
    assert "prices.csv" not in run("check", "--no-warnings").output
    file.write_text(f"{head}farm butter,1 pint,1,EUR,2026-01-02,\nx,1 kg,1,EUR,today,\n")
    assert run("check").output.count("docs/prices.csv:") == 2


def test_a_picture_that_cannot_be_used_is_a_problem_and_one_that_nothing_shows_a_warning(folder: Path) -> None:
    Image.new("RGB", (40, 30)).save(folder / "docs" / "milk.PNG")
    (folder / "docs" / "milk.2-1.jpg").write_text("no picture")
    Image.new("RGB", (40, 30)).save(folder / "docs" / "milk.9-1.jpg")
    done = run("check")
    assert done.exit_code == 1
    assert (
        "docs/milk.2-1.jpg:1: the picture cannot be used: it is not a picture.\n    Fix: save it again" in done.output
    )
    assert "docs/milk.9-1.jpg:1: milk has no step 9-1.\n    Fix: name it after a step" in done.output
    assert "no picture of the finished frosting" not in done.output


def test_a_picture_that_a_recipe_names_and_that_is_not_there_is_a_problem(folder: Path) -> None:
    text = re.sub("^cover:\n(  .*\n)+", "cover: {file: IMG_7.jpg}\n", GOOD, flags=re.MULTILINE)
    (folder / "docs" / "milk.yaml").write_text(text)
    Image.new("RGB", (40, 30)).save(folder / "docs" / "IMG_8.jpg")
    done = run("check", "docs/milk.yaml")
    assert done.exit_code == 1
    line = text.splitlines().index("cover: {file: IMG_7.jpg}") + 1
    assert f"docs/milk.yaml:{line}: there is no picture 'IMG_7.jpg' beside the recipe.\n" in done.output
    assert "Fix: did you mean 'IMG_8.jpg'?" in done.output


def test_pictures_that_nothing_shows_have_each_their_own_remedy(folder: Path) -> None:
    for name in ("poster.jpg", "mlik.2-1.jpg"):
        Image.new("RGB", (40, 30)).save(folder / "docs" / name)
    output = run("check").output
    assert "2 places: no recipe and no page shows this picture.\n" in output
    assert "    - docs/mlik.2-1.jpg:1\n      Fix: did you mean 'milk.2-1.jpg'?\n" in output
    assert "    - docs/poster.jpg:1\n      Fix: name it after a recipe, name it in one" in output


@pytest.mark.parametrize("stated", ["measured:\n  density: 0.76 g/mL\n", ""])
def test_what_is_said_of_sizes_without_a_density_is_what_the_card_offers(folder: Path, stated: str) -> None:
    text = GOOD.replace("measured:\n  density: 0.76 g/mL\n", stated)
    warned = warnings_of(folder, text).get("density", "")
    assert bool(warned) == (not stated)
    _, data = read_recipe(text, "milk.yaml")
    context = context_from({"recipe": data})
    assert bool(run_calculator("cake", context)[1]["cake.mass_needed"]) == (not warned)
    if warned:
        assert "sizes by cake or bowl once a reader weighs a cup" in warned
        _, cake = run_calculator("cake", context, {}, {"cup": "metric_cup", "cup_weighs": "190"})
        _, batch = run_calculator("batch", context, {}, {"cup": "metric_cup", "cup_weighs": "190", "bowl": "4 L"})
        assert cake["cake.mass_needed"]
        assert batch["bowl.largest"]
