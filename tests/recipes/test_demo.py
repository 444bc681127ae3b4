"""The recipes of the demo site: each can be read, together they use the whole format, a few are checked by hand."""

import math
import re
from functools import cache
from pathlib import Path

import pytest
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.ingredients import INGREDIENT_FIELDS, REPLACEMENT_FIELDS
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.recipe.reading import RECIPE_FIELDS
from crumbcoat_calc.recipe.stages import STAGE_FIELDS, STEP_FIELDS
from crumbcoat_site.recipe_cards.pages.fat_by_hand import fat_by_hand
from crumbcoat_site.recipe_cards.source.photo_names import COVER
from crumbcoat_site.recipe_cards.source.photos import photos_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from PIL import Image

from illustrations.steps import VIEWS

FOLDER = Path(__file__).parents[2] / "recipes"
FILES = sorted(FOLDER.glob("*/*.yaml"))
NAMES = [path.relative_to(FOLDER).with_suffix("").as_posix() for path in FILES]

DAY_S = 24 * 3600


@cache
def loaded(name: str) -> tuple[Recipe, dict]:
    return load_recipe(FOLDER / f"{name}.yaml", f"{name}.yaml")


def recipe(name: str) -> Recipe:
    return loaded(name)[0]


def fields(name: str) -> dict:
    return loaded(name)[1]


def steps(name: str) -> list[Step]:
    return [step for stage in recipe(name).stages for step in stage.steps]


def percent(name: str, component: str = "fat_g") -> float:
    result = batch_of(recipe(name)).total.percent(component)
    assert result is not None
    return result


def test_the_site_has_at_least_ten_recipes_from_at_least_nine_families():
    assert len(FILES) >= 10
    assert len({recipe(name).family for name in NAMES}) >= 9


@pytest.mark.parametrize("name", NAMES)
def test_mass_is_conserved(name):
    weighed = math.fsum(ingredient.mass_g for ingredient in recipe(name).ingredients)
    lost = math.fsum(step.water_lost_g for step in steps(name))
    assert batch_of(recipe(name)).total.mass_g == pytest.approx(weighed - lost)


@pytest.mark.parametrize("name", NAMES)
def test_a_card_helps_when_something_goes_wrong(name):
    checkpoints = [step.checkpoint for step in steps(name) if step.checkpoint]
    assert checkpoints
    assert max(len(checkpoint.troubles) for checkpoint in checkpoints) >= 2
    assert all(step.look_for or step.why or step.checkpoint or step.time for step in steps(name))
    assert any(step.photos for step in steps(name))
    assert any(step.when_scaled for step in steps(name))


@pytest.mark.parametrize("name", NAMES)
def test_keeping_times_stay_within_the_model_code(name):
    """FDA Food Code 3-501.17: ready-to-eat food at 5 °C, 7 days; 3-501.19: time alone as the control, 4 h."""
    limits_s = {
        "in the refrigerator": 7 * DAY_S,
        "in a cool room": 4 * 3600,
        "at room temperature": 4 * 3600,
        "in the freezer": math.inf,
    }
    assert recipe(name).storage
    for storage in recipe(name).storage:
        assert storage.up_to_s <= limits_s[storage.where]


@pytest.mark.parametrize("name", NAMES)
def test_the_demo_says_that_nobody_has_made_it(name):
    """The kitchen is invented: densities and sizes are worked out, and no pH or water activity can be."""
    assert recipe(name).made == 0
    assert recipe(name).measured.ph is None
    assert recipe(name).measured.water_activity is None


def test_the_curd_is_as_much_as_its_layers_take():
    """Two layers of a 20 cm cake, 6 mm deep, are two discs: by geometry 2 x 188 mL; up to a tenth stays in the bowl."""
    curd = recipe("creams-and-ganache/lemon-curd-filling")
    volume_ml = batch_of(curd).total.mass_g / curd.measured.density_g_per_ml
    assert curd.yields.of == "layers of a 20 cm cake, filled 6 mm deep"
    assert 1 <= volume_ml / (curd.yields.portions * math.pi * 10**2 * 0.6) <= 1.1


def test_a_coat_with_sharp_edges_has_two_parts_of_chocolate_to_one_of_cream():
    """Common practice, no source: dark ganache for coats under sugar paste is 2 : 1, for soft fillings 1 : 1."""
    masses_g = {one.key: one.mass_g for one in recipe("creams-and-ganache/coating-ganache").ingredients}
    assert masses_g["chocolate"] / masses_g["cream"] == pytest.approx(2)


def test_starch_goes_in_cold_and_heats_up_with_the_milk():
    """Common practice, no source: in hot milk starch forms lumps at once."""
    for name in NAMES:
        hot = False
        for step in recipe(name).stages[0].steps:
            starch = any(use.what in ("cornflour", "flour") for use in step.uses)
            assert not (starch and hot), (name, step.do)
            hot = hot or (step.heat_to_c or 0) > 50


@pytest.mark.parametrize("name", NAMES)
def test_raw_egg_and_raw_flour_are_cooked(name):
    """71 °C is the 160 °F of US consumer guidance for egg mixtures (from memory); flour: common practice, no source."""
    risky = ("egg_white_raw", "egg_yolk_raw", "egg_whole_raw", "flour_all_purpose_unbleached")
    for ingredient in recipe(name).ingredients:
        if ingredient.food.key in risky:
            first = next(
                number for number, step in enumerate(steps(name)) if ingredient.key in [use.what for use in step.uses]
            )
            assert max(step.heat_to_c or 0 for step in steps(name)[first:]) >= 71


@pytest.mark.parametrize("path", FILES, ids=NAMES)
def test_an_editor_finds_the_schema(path):
    first = path.read_text(encoding="utf-8").splitlines()[0]
    found = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
    assert found
    assert (path.parent / found[1]).resolve() == (FOLDER / "recipe.schema.json").resolve()


def test_the_demo_uses_every_field_of_the_format():
    used = {place: set() for place in ("recipe", "ingredient", "replacement", "stage", "step")}
    for name in NAMES:
        used["recipe"] |= fields(name).keys()
        for ingredient in fields(name)["ingredients"].values():
            used["ingredient"] |= ingredient.keys()
            for replacement in ingredient.get("replacements", {}).values():
                used["replacement"] |= replacement.keys()
        for stage in fields(name)["stages"]:
            used["stage"] |= stage.keys()
            for step in stage["steps"]:
                used["step"] |= step.keys()
    assert used == {
        "recipe": set(RECIPE_FIELDS) - {"video"},  # Nobody made a video of an invented kitchen.
        "ingredient": set(INGREDIENT_FIELDS),
        "replacement": set(REPLACEMENT_FIELDS),
        "stage": set(STAGE_FIELDS),
        "step": set(STEP_FIELDS),
    }


# By hand, from USDA's printed contents per 100 g. Source: usda-sr28, by NDB number.
# (fat, water, sugars)
BUTTER = (81.11, 17.94, 0.06)  # 01145
MILK = (3.25, 88.13, 5.05)  # 01077
YOLK = (26.54, 52.31, 0.56)  # 01125
SUGAR = (0.00, 0.02, 99.80)  # 19335
ICING_SUGAR = (0.00, 0.23, 97.81)  # 19336
CORNFLOUR = (0.05, 8.32, 0.00)  # 20027
VANILLA = (0.06, 52.58, 12.65)  # 02050
SALT = (0.00, 0.20, 0.00)  # 02047
BUTTERMILK_POWDER = (5.78, 2.97, 49.00)  # 01094
MILK_POWDER = (0.77, 3.16, 51.98)  # 01091
GELATINE = (0.10, 13.00, 0.00)  # 19177


@pytest.mark.parametrize(
    ("name", "weighed", "boiled_off"),
    [
        pytest.param(
            "buttercreams/custard-buttercream",
            [(330, MILK), (80, YOLK), (150, SUGAR), (30, CORNFLOUR), (380, BUTTER), (8, VANILLA), (1, SALT)],
            5 + 12,
            id="custard buttercream, 340 g of fat in 962 g",
        ),
        pytest.param(
            "milk-emulsions/silk-milk-frosting",
            [
                (245, MILK), (45, BUTTERMILK_POWDER), (15, MILK_POWDER), (3, GELATINE), (250, BUTTER),
                (260, ICING_SUGAR), (6, VANILLA), (1.5, SALT),
            ],
            4,
            id="silk milk frosting, 213 g of fat in 821.5 g",
        ),
        pytest.param(
            "buttercreams/icing-sugar-buttercream",
            # A stick is 113 g, a cup of unsifted icing sugar 120 g, a tablespoon of milk 15 g, a teaspoon of vanilla
            # 4.2 g, a teaspoon of salt 6 g. Source: usda-sr28, household weights.
            [
                (2.25 * 113, BUTTER), (3.5 * 120, ICING_SUGAR), (2 * 15, MILK), (2 * 4.2, VANILLA), (0.25 * 6, SALT),
            ],
            0,
            id="icing-sugar buttercream in cups and sticks",
        ),
    ],
)  # fmt: skip
def test_composition_by_hand(name, weighed, boiled_off):
    finished_g = sum(mass for mass, _ in weighed) - boiled_off
    fat_g, water_g, sugars_g = (sum(mass * per_100g[column] / 100 for mass, per_100g in weighed) for column in range(3))
    assert percent(name) == pytest.approx(100 * fat_g / finished_g, abs=1e-6)
    assert percent(name, "water_g") == pytest.approx(100 * (water_g - boiled_off) / finished_g, abs=1e-6)
    assert percent(name, "sugars_g") == pytest.approx(100 * sugars_g / finished_g, abs=1e-6)


def test_the_page_about_the_figures_shows_the_custard_buttercream_as_computed():
    page = (FOLDER / "how-the-figures-are-made.md").read_text(encoding="utf-8")
    assert "<!-- crumbcoat: by hand from buttercreams/custard-buttercream -->" in page
    total = batch_of(recipe("buttercreams/custard-buttercream")).total
    fat = f"{total.amount('fat_g'):.2f} g, or {total.percent('fat_g'):.1f} %"
    assert f"| **{total.mass_g:.0f} g** |  | **{fat}** |" in fat_by_hand(fields("buttercreams/custard-buttercream"))


def test_the_families_have_fat_contents_in_the_order_that_the_trade_expects():
    """Common practice, no source. Do not change a recipe to fit; if one does not fit, say so in its notes."""
    condensed, yolk, meringue, flour, whipped, everyday, silk = map(
        percent,
        (
            "buttercreams/condensed-milk-buttercream", "buttercreams/egg-yolk-buttercream",
            "buttercreams/swiss-meringue-buttercream", "buttercreams/cooked-flour-buttercream",
            "creams-and-ganache/stabilised-whipped-cream", "milk-emulsions/everyday-milk-frosting",
            "milk-emulsions/silk-milk-frosting",
        ),
    )  # fmt: skip
    assert condensed == max(map(percent, NAMES))
    assert abs(condensed - yolk) < 5
    assert max(meringue, flour) < min(condensed, yolk)
    assert everyday == pytest.approx(25, abs=1.5)
    assert silk == pytest.approx(25, abs=1.5)
    assert 0 < whipped - max(everyday, silk) < 10


@pytest.mark.parametrize("name", [name for name in NAMES if name.startswith("milk-emulsions/")])
def test_a_milk_emulsion_is_made_in_stages_from_divided_portions(name):
    divided = [ingredient for ingredient in recipe(name).ingredients if ingredient.portions]
    assert len(recipe(name).stages) >= 3
    assert len(divided) >= 3
    assert any(stage.shares for stage in recipe(name).stages)


def test_links_on_the_front_page_work():
    front = (FOLDER / "index.md").read_text(encoding="utf-8")
    lines = front.splitlines()
    assert "<!-- crumbcoat: fat chart -->" in lines
    assert "<!-- crumbcoat: recipe list -->" in lines
    links = re.findall(r"\]\(([^)]+)\.md\)", front)
    assert links
    for link in links:
        assert (FOLDER / f"{link}.md").exists() or link in NAMES


def test_titles_are_unique():
    assert len({recipe(name).title for name in NAMES}) == len(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_every_replacement_and_every_omission_gives_a_batch(name):
    published = batch_of(recipe(name)).total.mass_g
    for ingredient in recipe(name).ingredients:
        for replacement in ingredient.replacements:
            changed = batch_of(recipe(name), BatchOptions(replaced={ingredient.key: replacement.key}))
            assert changed.total.mass_g == pytest.approx(published + ingredient.mass_g * (replacement.ratio - 1))
        if ingredient.optional:
            without = batch_of(recipe(name), BatchOptions(left_out=frozenset({ingredient.key})))
            assert without.total.mass_g == pytest.approx(published - ingredient.mass_g)


def test_richer_butter_supplies_the_same_fat():
    """84 % of 0.966 g is 81.14 %, and USDA prints 81.11 % for butter. Source: usda-sr28, NDB 01145."""
    tried = 0
    for name in NAMES:
        fat_g = batch_of(recipe(name)).total.at_least("fat_g")
        if any(one.key == "rich_butter" for ingredient in recipe(name).ingredients for one in ingredient.replacements):
            richer = batch_of(recipe(name), BatchOptions(replaced={"butter": "rich_butter"})).total
            assert richer.at_least("fat_g") == pytest.approx(fat_g, rel=0.001)
            tried += 1
    assert tried >= 5


@pytest.mark.parametrize("name", NAMES)
def test_the_cover_is_small_and_says_that_it_is_an_illustration(name):
    cover = recipe(name).cover
    assert cover.credit == "Illustration"
    assert cover.alt
    assert_small(FOLDER / f"{name}.webp", (960, 720))


def assert_small(picture: Path, size: tuple[int, int]) -> None:
    with Image.open(picture) as opened:
        assert opened.size == size
        assert set(opened.info) <= {"background", "duration", "loop", "timestamp"}
    assert picture.stat().st_size < 40_000


def test_pictures_of_steps_are_those_that_are_rendered_and_say_that_they_are_illustrations():
    found = set()
    for name in NAMES:
        files = [path.name for path in FOLDER.glob(f"{name}.*.webp")]
        for shown in photos_of(recipe(name), Path(name).name, files):
            if shown.file is not None and shown.slot != COVER:
                assert shown.photo.credit == "Illustration"
                assert shown.photo.alt
                assert_small((FOLDER / name).with_name(shown.file), (800, 600))
                found.add(Path(shown.file).stem)
    assert found == {f"{name}.{place}" for name, places in VIEWS.items() for place in places}
    assert len({name.partition(".")[0] for name in found}) >= 2


def test_the_cards_that_have_moved_are_still_at_their_old_addresses():
    """They were in the section "Low fat" until 27 November 2026; tests of moved pages show where those lead."""
    moved = {name: list(recipe(name).moved_from) for name in NAMES if recipe(name).moved_from}
    assert moved == {
        "milk-emulsions/everyday-milk-frosting": ["low-fat/everyday-milk-frosting/"],
        "milk-emulsions/silk-milk-frosting": ["low-fat/silk-milk-frosting/"],
    }
