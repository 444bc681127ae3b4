"""Which step adds what: by names, by other names of a kind, by a word of a name, by groups, and in portions."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from crumbcoat_site.bring_in.draft import Settings, draft_of
from crumbcoat_site.bring_in.found_recipe import FoundRecipe, FoundSection, FoundStep
from crumbcoat_site.bring_in.json_items import items_of_json
from crumbcoat_site.bring_in.recipe_items import found_recipe, recipes_in
from crumbcoat_site.command.take_out import take_out
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.yaml_text import read_document

ROOT = Path(__file__).parents[3]
SETTINGS = Settings(author="Lantern Street teaching kitchen", own={})


def found_of(lines: tuple[str, ...], *steps: FoundStep) -> FoundRecipe:
    """A recipe with these lines and steps."""
    return FoundRecipe(
        title="Veil", summary="", authors=(), published="", updated="", cuisine="", yields=("12 buns",), lines=lines,
        sections=(FoundSection(title="", steps=steps),), keywords=(),
        category="", pictures=(), addresses=(), language="en-US", syntax="JSON-LD",
    )  # fmt: skip


def draft_text_of(lines: tuple[str, ...], *steps: str) -> str:
    """The draft of these lines and steps."""
    return draft_of(found_of(lines, *[FoundStep(text=step) for step in steps]), SETTINGS).text


def adds_of(lines: tuple[str, ...], *steps: str) -> tuple[list[list[str]], dict[str, dict[str, object]]]:
    """What each step adds, and the ingredients of the draft."""
    data = read_document(draft_text_of(lines, *steps)).data
    assert isinstance(data, dict)
    return [step.get("add", []) for step in data["stages"][0]["steps"]], data["ingredients"]


@pytest.mark.parametrize(
    ("lines", "steps", "adds"),
    [
        pytest.param(
            ("100 g powdered sugar", "50 g granulated sugar"),
            ("Boil the granulated sugar.", "Add the powdered sugar."),
            [["granulated_sugar"], ["powdered_sugar"]], id="by the whole name",
        ),
        pytest.param(
            ("100 g confectioners' sugar", "50 g butter"), ("Beat the butter.", "Sift in the icing sugar."),
            [["butter"], ["confectioners_sugar"]], id="by another name of the kind",
        ),
        pytest.param(
            ("1 tsp vanilla extract", "50 g butter"), ("Beat the butter.", "Beat in the vanilla."),
            [["butter"], ["vanilla_extract"]], id="by a word that only one has",
        ),
        pytest.param(
            ("100 g rhubarb", "3 large eggs, plus 1 yolk", "50 g sugar"),
            ("Simmer the rhubarb.", "Whisk the eggs, yolk and sugar."),
            [["rhubarb"], ["eggs", "yolk", "sugar"]], id="by two names side by side, which are not one",
        ),
        pytest.param(
            ("20 g buttermilk powder", "20 g milk powder", "100 ml milk"), ("Warm the milk.", "Whisk in both powders."),
            [["milk"], ["buttermilk_powder", "milk_powder"]], id="by the last word that several have",
        ),
        pytest.param(
            ("100 g flour", "1 tsp baking powder", "2 eggs"), ("Mix the dry ingredients.", "Add the eggs."),
            [["flour", "baking_powder"], ["eggs"]], id="by a group",
        ),
        pytest.param(
            ("100 g butter", "2 eggs", "50 g sugar"), ("Melt everything but the eggs.", "Add the eggs."),
            [["butter", "sugar"], ["eggs"]], id="not where it is left out",
        ),
        pytest.param(
            ("100 g butter", "30 ml water"), ("Melt the butter over a pan of simmering water.", "Add the water."),
            [["butter"], ["water"]], id="not by the water of a bath",
        ),
        pytest.param(
            ("100 g butter", "50 g sugar"),
            ("Beat the butter.", "Chill the butter mixture.", "Add sugar to the butter."),
            [["butter"], [], ["sugar"]], id="once, at the first step that names it",
        ),
    ],
)  # fmt: skip
def test_a_step_adds_what_it_names_first(lines: tuple[str, ...], steps: tuple[str, ...], adds: list[list[str]]) -> None:
    assert adds_of(lines, *steps)[0] == adds


@pytest.mark.parametrize(
    ("line", "steps", "portions"),
    [
        pytest.param(
            "300 g sugar, divided", ("Boil 100 g of the sugar.", "Beat in the remaining sugar."),
            {"first": "100 g", "second": "200 g"}, id="by an amount and the rest",
        ),
        pytest.param(
            "300 g sugar", ("Boil a third of the sugar.", "Beat in two thirds of the sugar."),
            {"first": "100 g", "second": "200 g"}, id="by shares, without the word",
        ),
        pytest.param(
            "300 g sugar, divided", ("Boil the sugar.", "Beat in the sugar.", "Dust with sugar."),
            {"first": "100 g", "second": "100 g", "third": "100 g"}, id="alike, where nothing says how much",
        ),
        pytest.param(
            "300 g sugar, divided", ("Boil 200 g of the sugar.", "Beat in 200 g of the sugar."), None,
            id="not where the amounts do not add up",
        ),
        pytest.param("300 g sugar", ("Boil the sugar.", "Beat the sugar."), None, id="not where nothing is divided"),
        pytest.param("300 g sugar, divided", ("Boil the sugar.",), None, id="not for one step"),
    ],
)  # fmt: skip
def test_portions_are_proposed(line: str, steps: tuple[str, ...], portions: dict[str, str] | None) -> None:
    adds, ingredients = adds_of((line,), *steps)
    assert ingredients["sugar"].get("portions") == portions
    used = [use for step in adds for use in step]
    assert used == ([f"sugar/{name}" for name in portions] if portions else ["sugar"])


@pytest.mark.parametrize(
    ("step", "additions"),
    [
        pytest.param("Add the honey in 3 additions, then the milk.", {"honey": "3"}, id="of what is named before"),
        pytest.param("Add the milk, then the honey in 3 additions.", {"honey": "3"}, id="after something else"),
        pytest.param("Beat the milk and add the honey in two parts.", {"honey": "2"}, id="of the last verb"),
        pytest.param("In two batches, fold in the honey. Add the milk.", {"honey": "2"}, id="of what is named after"),
        pytest.param("Add the honey to the milk in 3 additions.", {"honey": "3"}, id="not of what it is added to"),
        pytest.param("Add the honey and milk in 3 additions.", None, id="not of two"),
        pytest.param("Add honey and milk. Add the syrup in 3 additions.", None, id="not of what is not listed"),
        pytest.param("Add the butter in 3 additions, then honey and milk.", None, id="not of what is in already"),
        pytest.param("In 3 additions, add the honey and then the milk.", {"honey": "3"}, id="up to the next verb"),
        pytest.param("Add honey and milk, all of it in 3 additions.", None, id="not of all"),
    ],
)
def test_additions_are_of_what_the_words_say(step: str, additions: dict[str, str] | None) -> None:
    text = draft_text_of(("100 g butter", "50 g honey", "50 g milk"), "Beat the butter.", step)
    data = read_document(text).data
    assert isinstance(data, dict)
    assert data["stages"][0]["steps"][1].get("additions") == additions
    marked = [line for line in text.splitlines() if "- do: " in line and "# check: " in line]
    assert [step in line for line in marked] == ([] if additions else [True])


def test_a_picture_of_a_step_is_described_by_the_page_or_left_to_the_author() -> None:
    many = tuple([f"{number}.jpg" for number in range(30)])
    steps = (
        FoundStep(text="Boil the sugar until it is amber.", pictures=many),
        FoundStep(text="Add the cream.", title="Loosen", pictures=("a.jpg",)),
        FoundStep(text="Cool.", pictures=("b.jpg",), shows="A tin of sauce from above"),
    )
    draft = draft_of(found_of(("300 g sugar", "100 g cream"), *steps), SETTINGS)
    photos = [line.strip() for line in draft.text.splitlines() if line.strip().startswith("photo:")]
    assert photos == [
        "photo: The picture of step 1-1 # check: say in a few words what the picture shows",
        "photo: Loosen # check: is this what the picture shows?",
        "photo: A tin of sauce from above",
    ]
    assert list(draft.step_pictures.values()) == [*many, "a.jpg", "b.jpg"]
    assert list(draft.step_pictures)[25:28] == ["1-1z", "1-1za", "1-1zb"]


def test_a_decoration_is_what_it_is_without_its_purpose() -> None:
    text = draft_text_of(("100 g sugar", "Edible flowers, fresh, to decorate (optional)"), "Boil the sugar.")
    assert "  # Edible flowers, fresh, to decorate (optional)\n  - what: Edible flowers, optional, fresh\n" in text


def test_a_handful_for_the_cake_is_a_decoration() -> None:
    text = draft_text_of(("100 g sugar", "a handful of toasted pecans, to decorate"), "Boil the sugar.")
    assert "  # a handful of toasted pecans, to decorate\n  - what: pecans, toasted\n" in text
    assert "pecans:" not in text


def test_keywords_and_category_that_differ_only_in_capitals_are_one_keyword() -> None:
    found = replace(found_of(("100 g sugar",), FoundStep(text="Boil it.")), keywords=("curd", "pink"), category="Curd")
    assert "keywords:\n  - curd\n  - pink\n" in draft_of(found, SETTINGS).text
    assert "- Curd" not in draft_of(found, SETTINGS).text


def test_what_goes_on_the_cake_may_be_no_ingredient() -> None:
    text = draft_text_of(("100 g sugar", "50 g pistachios, to decorate"), "Boil the sugar.")
    assert "- pistachios # check: no step names it: move it to where it goes in, or to `decorations`" in text
    text = draft_text_of(("100 g sugar", "50 g pistachios, to decorate"), "Boil the sugar.", "Add the pistachios.")
    assert "- pistachios # check: the page says it goes on top: here it counts in the figures of the batch" in text


@pytest.mark.parametrize(
    ("step", "is_unattended"),
    [
        ("Chill for 20 minutes.", True), ("Beat for 3 minutes. Chill overnight.", False),
        ("Beat the rest of the sugar for 3 minutes.", False), ("Let it rest for 3 minutes.", True),
        ("Beat it smooth. Leave to cool for an hour.", True),
    ],
)  # fmt: skip
def test_only_waiting_is_unattended(step: str, is_unattended: bool) -> None:
    assert ("unattended: yes" in draft_text_of(("300 g sugar",), step)) is is_unattended


def test_what_is_divided_and_not_said_how_is_marked() -> None:
    text = draft_text_of(("300 g sugar, divided",), "Boil the sugar.")
    assert "amount: 300 g # check: the page says divided: write `portions` if several steps add it" in text


@pytest.mark.parametrize(
    ("step", "is_marked"),
    [
        ("Heat the sugar to 140 °C.", True), ("Heat the sugar to 260°F.", True), ("Heat the sugar to 82 °C.", False),
        ("Boil the sugar for 5 minutes.", True), ("Simmer until reduced by half.", True),
        ("Whisk the sugar over simmering water for 3 minutes.", False), ("Do not boil it for long.", False),
        ("Reduce the speed to low and beat for 2 minutes.", False), ("Add boiling water.", False),
    ],
)  # fmt: skip
def test_water_that_boils_off_is_asked_for(step: str, is_marked: bool) -> None:
    text = draft_text_of(("300 g sugar",), step)
    assert ("# check: without `water_lost` the figures take no water as boiled off" in text) is is_marked


def test_what_goes_in_again_is_marked() -> None:
    lines = ("100 g honey", "50 g milk")
    text = draft_text_of(lines, "Boil the honey.", "Add the honey in 3 additions, then the milk.", "Beat the honey.")
    assert text.count("# check: honey went in at step 1-1: if some goes in here, write `portions`") == 1
    assert "'in 3 additions' is about `honey`, which this step does not add" in text
    assert "additions:" not in text
    assert "went in" not in draft_text_of(lines, "Boil the honey.", "Pour the honey over the milk.")


@pytest.mark.parametrize(
    ("line", "steps", "why"),
    [
        pytest.param("2 egg whites", ("Beat the butter.",), "no step names it: move it to where it goes in", id="none"),
        pytest.param(
            "1 tsp baking powder", ("Beat the butter.", "Sift in the dry ingredients."),
            "no step names it; is it among 'dry ingredients'?", id="a group",
        ),
        pytest.param(
            "50 g birch syrup", ("Beat the butter.", "Add the syrup."),
            "the words say only 'syrup', which may be something made before", id="a word of many things",
        ),
    ],
)  # fmt: skip
def test_a_guessed_step_is_marked_where_it_adds(line: str, steps: tuple[str, ...], why: str) -> None:
    text = draft_text_of(("100 g butter", line), *steps)
    assert re.search(rf"^ +- \w+ # check: {re.escape(why)}$", text, re.MULTILINE)
    assert "- butter #" not in text


def test_most_steps_of_the_demo_come_back_with_what_they_add(tmp_path: Path) -> None:
    """The words of its steps were not written for this; where they leave out a name, nobody could find it."""
    sources = sorted((ROOT / "recipes").glob("*/*.yaml"))
    take_out(tmp_path, Path("out"), sources)
    found = right = kinds = right_kinds = 0
    for source in sources:
        recipe, _ = load_recipe(source, source.name)
        name = source.relative_to(ROOT / "recipes").with_suffix(".json")
        text = (tmp_path / "out" / name).read_text(encoding="utf-8")
        [item] = recipes_in(items_of_json(text))
        data = read_document(draft_of(found_recipe(item, "JSON-LD", "", "", ""), SETTINGS).text).data
        assert isinstance(data, dict)
        whole = [one for one in recipe.ingredients if not one.is_all_kept_back]
        listed = [
            (key, fields)
            for key, fields in data["ingredients"].items()
            if "kept back" not in fields.get("preparation", "")
        ]
        assert len(listed) == len(whole)
        keys = {key: one.key for (key, _), one in zip(listed, whole, strict=True)}
        kinds += len(whole)
        right_kinds += sum(fields.get("kind") == one.food.key for (_, fields), one in zip(listed, whole, strict=True))
        theirs = [step for stage in data["stages"] for step in stage["steps"]]
        for step, back in zip([step for stage in recipe.stages for step in stage.steps], theirs, strict=True):
            added = {use.what for use in step.uses if use.what in keys.values()}
            found += 1
            right += added == {
                keys[use.partition("/")[0]] for use in back.get("add", []) if use.partition("/")[0] in keys
            }
    assert right_kinds / kinds > 0.9
    assert right / found > 0.8
